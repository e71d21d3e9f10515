"""What is in hand on a page, what is said of it, and choosing with the keys: one of several, ticks, rows of a table.

The session has the answers; this is gone with the screen. What is lit is taken by Enter, not before.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from time import monotonic
from typing import Final

from msgspec.structs import replace

from wizard.interview.page import Page
from wizard.interview.question import Question
from wizard.interview.session import Session
from wizard.screens.pages.field_view import NOT_TAKEN, FieldView, view_of
from wizard.screens.pages.form_layout import COPY, MORE, OFFER, Said
from wizard.screens.pages.live_tables import LiveTables

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


TICKING: Final = "Space ticks the current line; a number goes to its line."


class Choosing:
    """The choices of the field in hand."""

    def __init__(self, hand: PageHand, tables: LiveTables, redraw: Callable[[], object]) -> None:
        self.hand, self.session = hand, hand.session
        self._tables, self._redraw = tables, redraw

    def view(self, question: Question, page: Page | None) -> FieldView:
        """A field as it is shown, with its table where it has one."""
        view = view_of(question, self.session)
        if page is None or not question.live or question != self.listed(page):
            return view
        table = self._tables.table(question)
        view = replace(view, table=table)
        if question == self.hand.question and (written := self._written(view)):
            return replace(view, text=written, mark=view.mark or NOT_TAKEN)
        return replace(view, row=next((each for each in table.rows if each.entries == self.hand.lit), table.usual))

    def listed(self, page: Page) -> Question:
        """The field whose table is shown, if it has one: the list in hand, else the first of the page."""
        return next((each for each in page.fields if each.live and each.key == self.session.at), page.fields[0])

    def _view(self) -> FieldView:
        """The field in hand; one without anything where something else is."""
        question = self.hand.question
        return FieldView("", "", "") if question is None else self.view(question, self.session.page())

    def letter(self, character: str) -> None:
        """The number of a choice, the beginning of one, or what is not listed, letter by letter."""
        view = self._view()
        if not (view.choices or view.table):
            return
        if not view.several:
            self._write(f"{self._written(view)}{character}".lstrip())
        elif character.isdecimal() and 1 <= int(character) <= len(view.choices):
            self.hand.cursor = int(character) - 1
        else:
            self.hand.say(TICKING, "refused")
        self._redraw()

    def rub_out(self, whole: bool) -> None:
        """Backspace at what is not typed: back by a letter, or by all of them; without any, to the answer as it is."""
        self._write("" if whole else self._written(self._view())[:-1])
        self._redraw()

    def _written(self, view: FieldView) -> str:
        """What the next letter goes behind: nothing at a choice where it was refused."""
        if view.table is not None:
            return self.hand.written or self.session.pending.get(view.key, "")
        return "" if self.hand.said.level == "refused" else self.hand.written

    def _write(self, text: str) -> None:
        self.reset()
        if text:
            self.hand.pend(text)
        self.hand.written = text

    def space(self) -> None:
        """Tick the line in hand; within what is typed, a blank."""
        view = self._view()
        if view.several:
            ticked = view.ticked ^ {view.choices[self.hand.cursor].value}
            self.hand.pend(", ".join(each.value for each in view.choices if each.value in ticked) or "none")
            self._redraw()
        elif self._written(view):
            self.letter(" ")

    def turn(self, by: int) -> None:
        """The choice after this one, or before it."""
        view = self._view()
        if view.choices and not view.several:
            self._light(view, max((-1 if view.picked is None else view.picked) + by, 0))

    def step(self, by: int) -> bool:
        """Move within the list in hand. False beyond its ends, where it is left as it was."""
        view = self._view()
        at = self.hand.cursor if view.several else -1 if view.picked is None else view.picked
        if view.rows:
            at = view.rows.index(view.row) if view.row in view.rows else len(view.rows) if view.text_typed else -1
        found = self._light(view, at + by)
        if not found and view.choices and not view.several and not view.table:
            self.reset()
        return found

    def point(self, value: str) -> None:
        """A click on a line: picks it, or ticks it."""
        view = self._view()
        self._light(view, int(value) if view.rows else [each.value for each in view.choices].index(value))
        if view.several:
            self.space()

    def _light(self, view: FieldView, at: int) -> bool:
        """Have the line of that number in hand. False where there is none."""
        if not 0 <= at < len(view.rows or view.choices):
            return False
        if view.rows:
            self.reset()
            self.hand.lit = view.rows[at].entries
            self._tables.look_at(self.hand.lit)
        elif view.several:
            self.hand.cursor = at
        else:
            self.hand.pend(view.choices[at].value)
            self.hand.written = ""
        self._redraw()
        return True

    def reset(self) -> None:
        """Back to the answer as it is."""
        self.hand.written = ""
        self.session.pending.pop(self.session.at, None)
