"""The current place on a page, the message under it, and choosing with the keys: a choice, ticks, rows of a table.

The session keeps the answers; this state goes with the screen. A highlighted line becomes the answer only with Enter.
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
    """The current place. The state of a field is dropped when another becomes the current one."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.opened = set[str]()
        """Pages whose *More* is open."""
        self.forget()

    def forget(self) -> None:
        """Start afresh at the session's current field."""
        self.key = self.session.at
        self.aside = ""
        """The current place where it is not a field."""
        self.edited = False
        """True while the editor has the field's text."""
        self.said = Said()
        self.offers: tuple[Button, ...] = ()
        self.held = False
        """True once a finding was shown here: the next Enter goes on."""
        self.unseen_until = 0.0
        """Keys pressed before this time were meant for the next field."""
        self.cursor = 0
        """Current line of a list of ticks."""
        self.written = ""
        """The letters typed at a choice so far."""
        self.lit: Mapping[str, str] = {}
        """Entries of the highlighted row of a table."""

    def follow(self) -> None:
        """Move to where the session is."""
        if self.key != self.session.at:
            self.forget()

    @property
    def place(self) -> str:
        """Key of the current field, or another place of the page."""
        return self.aside if self.aside and self.key == self.session.at else self.session.at

    @property
    def question(self) -> Question | None:
        """The current question; None at another place."""
        return self.session.question(self.place)

    def places(self, page: Page) -> list[str]:
        """Every place on a page, in order. Offers are among them only while they are new."""
        order = [COPY] if page.copy else []
        for each in page.fields:
            order.append(each.key)
            if each.key == self.session.at and (self.held or self.said.level == "refused"):
                order += [f"{OFFER}{number}" for number in range(len(self.offers))]
        if page.more:
            order += [MORE, *(each.key for each in page.more if page.id in self.opened)]
        return order

    def say(self, text: str, level: str, *offers: Button) -> None:
        """Show a message under the current field."""
        self.offers = offers
        self.said = Said(text, level, tuple(words for words, _ in offers))

    def pend(self, text: str) -> None:
        """Put `text` into the current field, not entered yet, and drop the message under it."""
        self.session.type(self.session.at, text)
        self.held = False
        self.say("", "")

    def hold(self) -> None:
        """Stay on this field once, although the answer is saved."""
        self.held, self.edited, self.unseen_until = True, False, monotonic() + HEED

    def typed_ahead(self) -> bool:
        """True for a key that was pressed before the finding could be seen. It was meant for the next field: added to
        the answer here, `79 1/2` and `76` would make 79 1/276."""
        ahead = self.held and monotonic() < self.unseen_until
        if ahead:
            self.unseen_until = monotonic() + HEED
        return ahead


TICKING: Final = "Space ticks the current line; a number goes to its line."


class Choosing:
    """The choices of the current field."""

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
        """The field whose table is shown, if it has one: the current list, else the first of the page."""
        return next((each for each in page.fields if each.live and each.key == self.session.at), page.fields[0])

    def _view(self) -> FieldView:
        """The current field; an empty one at another place."""
        question = self.hand.question
        return FieldView("", "", "") if question is None else self.view(question, self.session.page())

    def letter(self, character: str) -> None:
        """Take one more letter of a choice's number, of its first letters, or of an answer that is not listed."""
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
        """Backspace at a choice: remove one typed letter, or all of them; without any, go back to the saved answer."""
        self._write("" if whole else self._written(self._view())[:-1])
        self._redraw()

    def _written(self, view: FieldView) -> str:
        """The letters that the next one is added to; empty at a choice after a refusal."""
        if view.table is not None:
            return self.hand.written or self.session.pending.get(view.key, "")
        return "" if self.hand.said.level == "refused" else self.hand.written

    def _write(self, text: str) -> None:
        self.reset()
        if text:
            self.hand.pend(text)
        self.hand.written = text
        # What is typed is in no row: nothing is known of it before it is taken.
        self._tables.look_at(None if text else self.hand.lit or None)

    def space(self) -> None:
        """Tick the current line; within typed letters, add a blank."""
        view = self._view()
        if view.several:
            ticked = view.ticked ^ {view.choices[self.hand.cursor].value}
            self.hand.pend(", ".join(each.value for each in view.choices if each.value in ticked) or "none")
            self._redraw()
        elif self._written(view):
            self.letter(" ")

    def turn(self, by: int) -> None:
        """Go to the next choice, or the one before."""
        view = self._view()
        if view.choices and not view.several:
            self._light(view, max((-1 if view.picked is None else view.picked) + by, 0))

    def step(self, by: int) -> bool:
        """Move within the current list. False beyond its ends, where it is reset."""
        view = self._view()
        at = self.hand.cursor if view.several else -1 if view.picked is None else view.picked
        if view.rows:
            at = view.rows.index(view.row) if view.row in view.rows else len(view.rows) if view.text_typed else -1
        found = self._light(view, at + by)
        if not found and view.choices and not view.several and not view.table:
            self.reset()
        return found

    def point(self, value: str) -> None:
        """Pick or tick the line that was clicked."""
        view = self._view()
        self._light(view, int(value) if view.rows else [each.value for each in view.choices].index(value))
        if view.several:
            self.space()

    def _light(self, view: FieldView, at: int) -> bool:
        """Highlight the line with that number. False where there is none."""
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
        """Go back to the saved answer."""
        self.hand.written = ""
        self.session.pending.pop(self.session.at, None)
