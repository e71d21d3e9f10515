"""What is in hand on a page, and what is said of it. The session has the answers; this is gone with the screen."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from time import monotonic
from typing import Final

from wizard.interview.page import Page
from wizard.interview.question import Question
from wizard.interview.session import Session
from wizard.screens.pages.form_layout import COPY, MORE, OFFER, Said

HEED: Final = 0.3
"""Seconds without a key after which a finding counts as seen."""

Button = tuple[str, Callable[[], object]]
"""An offer: its words, and what it does."""


class PageHand:
    """The place in hand. What belongs to a field is forgotten once another one is in hand."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.opened = set[str]()
        """Pages whose *More* is open."""
        self.forget()

    def forget(self) -> None:
        """Nothing is known of the field in hand yet."""
        self.key = self.session.at
        self.aside = ""
        """The place in hand that is no field."""
        self.edited = False
        """True while the editor has the field's text."""
        self.said = Said()
        self.offers: tuple[Button, ...] = ()
        self.held = False
        """True where something was asked about once: the next Enter goes on."""
        self.unseen_until = 0.0
        """Until then what is typed was meant for the next field."""
        self.cursor = 0
        """Line in hand of a list of ticks."""
        self.written = ""
        """What is typed at a choice, letter by letter."""
        self.lit: Mapping[str, str] = {}
        """Entries of the row of a table that was gone to."""

    def follow(self) -> None:
        """Be where the session is."""
        if self.key != self.session.at:
            self.forget()

    @property
    def place(self) -> str:
        """Key of the field in hand, or another place of the page."""
        return self.aside if self.aside and self.key == self.session.at else self.session.at

    @property
    def question(self) -> Question | None:
        """The question in hand; None where something else is."""
        return self.session.question(self.place)

    def places(self, page: Page) -> list[str]:
        """Everything one can go to on a page, in order. Offers are met in passing only when they are new."""
        order = [COPY] if page.copy else []
        for each in page.fields:
            order.append(each.key)
            if each.key == self.session.at and (self.held or self.said.level == "refused"):
                order += [f"{OFFER}{number}" for number in range(len(self.offers))]
        if page.more:
            order += [MORE, *(each.key for each in page.more if page.id in self.opened)]
        return order

    def say(self, text: str, level: str, *offers: Button) -> None:
        """Have something said of the field in hand."""
        self.offers = offers
        self.said = Said(text, level, tuple(words for words, _ in offers))

    def pend(self, text: str) -> None:
        """`text` is in the field in hand, and not taken yet; what was said of it no longer holds."""
        self.session.type(self.session.at, text)
        self.held = False
        self.say("", "")

    def hold(self) -> None:
        """Stay for once."""
        self.held, self.edited, self.unseen_until = True, False, monotonic() + HEED

    def typed_ahead(self) -> bool:
        """True for a key that was pressed before the finding could be seen. It was meant for the next field: behind the
        answer in this one, `79 1/2` and `76` would be 79 1/276."""
        ahead = self.held and monotonic() < self.unseen_until
        if ahead:
            self.unseen_until = monotonic() + HEED
        return ahead
