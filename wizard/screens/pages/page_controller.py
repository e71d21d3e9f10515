"""What the keys do on a page: answers, moves, the page as a whole. An answer that cannot be read never holds one back.

The session has the answers; here is only which place of the page is in hand, and what is said of it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from time import monotonic
from typing import Final

from msgspec.structs import replace

from wizard.interview.outcome import Accepted, Conflict, Refused
from wizard.interview.page import Page
from wizard.interview.pending_review import changed_figures, other_of
from wizard.interview.question import Question
from wizard.project.value_faults import with_example
from wizard.render.drawings.page_drawing import draw_page
from wizard.screens.job_context import Actions, JobContext
from wizard.screens.pages.field_view import FieldView, finding_at, view_of
from wizard.screens.pages.form_layout import COPY, MORE, OFFER, Form, Place, Said
from wizard.screens.pages.live_tables import LiveTables
from wizard.screens.pages.page_pane import PagePane
from wizard.trade.plan_records import Finding, Offer, Offers

HEED: Final = 0.3
"""Seconds without a key after which a finding counts as seen."""
UNSEEN: Final = "What was typed before this could be seen is left out."
TICKING: Final = "Space ticks the line in hand; a number goes to its line."
NEEDED: Final = "This is needed for the plan. Type it, or press Enter again to leave it open for now."

Button = tuple[str, Callable[[], object]]


class PageController:
    """Listens to the pane of the page in hand."""

    def __init__(self, job: JobContext, pane: Callable[[], PagePane]) -> None:
        self.job, self.session = job, job.session
        job.arrived = self._forget
        self._pane = pane
        self._opened = set[str]()
        """Pages whose *More* is open."""
        self._aside = ("", "")
        """(place of the session, place on the page that is in hand in place of it)."""
        self._said = ("", Said())
        """(key, what is said of it)."""
        self._offers: tuple[Button, ...] = ()
        self.held = ""
        """Key that was asked about once: the next Enter goes on."""
        self._cursor = ("", 0)
        """(key, line in hand of its list of several)."""
        self._written = ("", "")
        """(key, what is typed at its choice)."""
        self._shown = ""
        """Key whose text is in the editor."""
        self.unseen_until = 0.0
        """Until then what is typed was meant for the next field."""
        self._tables = LiveTables(job, self.redraw)
        self._lit: tuple[str, Mapping[str, str]] = ("", {})
        """(key, entries of the row in hand of its table)."""

    @property
    def actions(self) -> Actions:
        """What this does for the screen."""
        return {"take_out": self.take_out}

    # What is in hand.

    @property
    def in_hand(self) -> str:
        """Key of the field in hand, or another place of the page."""
        return self._aside[1] if self._aside[0] == self.session.at and self._aside[1] else self.session.at

    @property
    def question(self) -> Question | None:
        """The question in hand; None where something else is."""
        return self.session.question(self.in_hand)

    @property
    def text(self) -> str:
        """The text of the field in hand."""
        return self.session.text(self.in_hand)

    def _places(self, page: Page) -> list[str]:
        """Everything one can go to on a page, in order."""
        order = [COPY] if page.copy else []
        for each in page.fields:
            order.append(each.key)
            if each.key == self.session.at and (self.held or self._said[1].level == "refused"):
                order += [f"{OFFER}{number}" for number in range(len(self._offers))]
        if page.more:
            order += [MORE, *(each.key for each in page.more if page.id in self._opened)]
        return order

    # Showing.

    def remind(self, lines: Sequence[str]) -> None:
        """Say where the work stopped, until the first key."""
        self._said = (self.session.at, Said("\n".join(lines), "note")) if lines else self._said

    def show(self) -> None:
        """Show the page in hand."""
        page = self.session.page()
        question = self.session.current()
        if page is None or question is None:
            return
        if question in page.more:
            self._opened.add(page.id)
        if self._aside[0] != question.key:
            self._aside = ("", "")
        key, other = question.key, question.key != self._shown
        if self._said[0] != key:
            self._said, self._offers = (key, Said()), ()
            finding = finding_at(key, self.session)
            if finding is not None:
                self._speak(key, finding)
        self._write(page, question)
        if other:
            text = self.session.text(key)
            self._shown = key
            whole = (key not in self.session.pending or key in self.session.pending.offered) and question.kind != "text"
            self._pane().edit(text, _placeholder(question), whole=bool(text) and whole)
            self._write(page, question)

    def _write(self, page: Page, question: Question) -> None:
        plan = self.session.plan
        keys = (question.key,) if self.job.large else self._lengths(page)
        draw = partial(draw_page, page.picture, page.subject, keys, plan, question.key)
        self._pane().tell(self._form(page, question), draw)

    def _lengths(self, page: Page) -> tuple[str, ...]:
        """The keys of what is measured on a page; of what only adds, once there is one."""
        lengths = (each for each in page.fields if each.kind.startswith("length"))
        return tuple(each.key for each in lengths if not each.extra or self.session.state(each.key) == "answered")

    def _form(self, page: Page, question: Question) -> Form:
        key = question.key
        opened = page.id in self._opened
        own = sum(self.session.state(each.key) == "answered" for each in page.more)
        names = ", ".join(_name(each) for each in page.more[:6]) + (" …" if len(page.more) > 6 else "")
        echo = self.session.echo(key, self.session.text(key), typing=True) if self.session.text(key).strip() else None
        if isinstance(echo, Refused) or _picked(question):
            echo = None
        number = next((at for at, each in enumerate(page.questions, 1) if each.key == key), 1)
        return Form(
            page.title,
            page.words,
            question.words,
            tuple(self._view(each) for each in page.fields),
            tuple(self._view(each) for each in page.more) if opened else (),
            f"{names}{f' ({own} of your own)' if own else ''}" if page.more else "",
            page.copy.words if page.copy else "",
            self.in_hand,
            key,
            replace(self._said[1], echo="" if echo is None else echo.text),
            self._cursor[1] if self._cursor[0] == key else 0,
            f"field {number} of {len(page.questions)}",
            f"For example {question.example}." if question.example and question.usual is None else "",
        )

    def _view(self, question: Question) -> FieldView:
        view, page = view_of(question, self.session), self.session.page()
        if page is None or not page.live or question != page.fields[0]:
            return view
        table = self._tables.table(page)
        lit = (each for each in table.rows if self._lit == (question.key, each.entries))
        return replace(view, table=table, row=next(lit, table.usual))

    def redraw(self) -> None:
        """The page with what is known now; what is in the editor stays."""
        page, question = self.session.page(), self.session.current()
        if page is not None and question is not None:
            self._write(page, question)

    # Typing.

    def typed(self, text: str) -> None:
        """Say how the text would be understood; an unfinished one is kept for coming back to."""
        question = self.question
        if question is None:
            return
        if self._typed_ahead():
            self._pane().editor.put(self.session.text(question.key))
            return
        self.held = ""
        self.session.type(question.key, text)
        self._said, self._offers = (question.key, Said()), ()
        self.job.keep_soon()
        self.redraw()

    def turn(self, by: int) -> None:
        """Another choice; on *More*, open and close."""
        question = self.question
        if self.in_hand == MORE:
            self._open_more(opened=by > 0)
        elif self.in_hand.startswith(OFFER):
            self.walk(by)
        elif question is not None and _picked(question):
            self._choose(question, by)

    def letter(self, character: str) -> None:
        """The number of a choice, or the beginning of one."""
        question = self.question
        view = self._view(question) if question is not None else None
        if question is None or view is None or not (view.choices or view.table):
            return
        if not view.several:
            written = self.session.pending.get(question.key, "") if view.table else self._written_at(question.key)
            self._pick(question, f"{written}{character}".lstrip())
            self._written = (question.key, self.text)
        elif character.isdecimal() and 1 <= int(character) <= len(view.choices):
            self._cursor = (question.key, int(character) - 1)
            self.redraw()
        else:
            self._speak_out(TICKING, "refused")

    def rub_out(self) -> None:
        """Back by a letter of what is typed at a choice; without any, to the answer as it is."""
        question = self.question
        if question is not None and _picked(question):
            written = self._written_at(question.key)[:-1]
            self._reset(question)
            if written:
                self._pick(question, written)
                self._written = (question.key, written)
            self.redraw()

    def _written_at(self, key: str) -> str:
        """What is typed at a choice, letter by letter."""
        return self._written[1] if self._written[0] == key and self._written[1] == self.session.pending.get(key) else ""

    def space(self) -> None:
        """Tick the line in hand; press what is no field."""
        question = self.question
        if question is not None and self._written_at(question.key):
            self.letter(" ")
        elif question is None:
            self.enter()
        elif question.kind == "choices":
            view = self._view(question)
            at = self._cursor[1] if self._cursor[0] == question.key else 0
            ticked = view.ticked ^ {view.choices[at].value}
            self._pick(question, ", ".join(each.value for each in view.choices if each.value in ticked) or "none")

    def _choose(self, question: Question, by: int) -> None:
        view = self._view(question)
        if view.several:
            return
        at = -1 if view.picked is None else view.picked
        at = max(at + by, 0)
        if at < len(view.choices):
            self._pick(question, view.choices[at].value)

    def _pick(self, question: Question, value: str) -> None:
        self.held = ""
        self.session.type(question.key, value)
        self._said, self._offers = (question.key, Said()), ()
        self.redraw()

    def _reset(self, question: Question) -> None:
        if _picked(question):
            self.session.pending.pop(question.key, None)

    def _typed_ahead(self) -> bool:
        """True for a key that was pressed before the finding could be seen. It was meant for the next question: behind
        the answer in the field, `79 1/2` and `76` would be 79 1/276."""
        if not self.held or monotonic() >= self.unseen_until:
            return False
        self.unseen_until = monotonic() + HEED
        self.job.tell(UNSEEN)
        return True

    # Taking.

    def enter(self) -> None:
        """Take the field in hand and go on; open *More*; do what is offered."""
        page, question = self.session.page(), self.question
        if page is None:
            return
        if self.in_hand == MORE:
            self._open_more(opened=page.id not in self._opened)
        elif self.in_hand == COPY:
            self._copy()
        elif self.in_hand.startswith(OFFER):
            self._offers[int(self.in_hand.removeprefix(OFFER))][1]()
        elif question is not None and not self._typed_ahead():
            self._take(question)

    def _take(self, question: Question) -> None:
        key, text = question.key, self.session.text(question.key)
        row = self._view(question).row
        if row is not None and key not in self.session.pending:
            if self._take_row(key, row):
                self._go_on()
            return
        if self._pane().laid.editor is not None:
            # It may have been emptied.
            text = self._pane().editor.value
        answered = self.session.state(key) == "answered"
        if self.held == key and text == self.session.text(key):
            self._go_on()
        elif not text.strip() and self._may_ask(question):
            self.held = key
            self._speak_out(NEEDED, "ask")
        elif text == self.session.text(key) and key not in self.session.pending and answered and question.kind != "add":
            self._go_on()
        else:
            self._answer(key, text)

    def _take_row(self, key: str, row: Offer) -> bool:
        """Take what a row answers. False where that could not be saved."""
        before = self.session.plan
        if row.in_use and self.session.state(key) == "answered":
            return True
        if self.job.met(self.session.choose(row.entries)):
            return False
        self.job.note_changes(before, changed_figures(before, self.session.plan))
        return True

    def _may_ask(self, question: Question) -> bool:
        return not (question.optional or question.usual is not None or question.later or question.extra) and (
            question.kind != "add" and self.held != question.key
        )

    def _answer(self, key: str, text: str) -> None:
        before = self.session.plan
        outcome = self.session.answer(key, text)
        if isinstance(outcome, Refused):
            self._refuse(key, outcome)
        elif isinstance(outcome, Conflict):
            self.job.met(outcome)
        else:
            self.job.note_changes(before, outcome.changed)
            self._accept(key, outcome)

    def _refuse(self, key: str, refused: Refused) -> None:
        self._aside = ("", "")
        self._offers = tuple((each, partial(self._offered, key, each)) for each in refused.offers[:3])
        said = Said(with_example(refused.sentence, refused.example), "refused", tuple(each for each, _ in self._offers))
        self._said = (key, said)
        self.job.show()

    def _offered(self, key: str, text: str) -> None:
        self._aside = ("", "")
        self.session.type(key, text)
        self._said, self._offers = (key, Said()), ()
        self._shown = ""
        self.job.show()

    def _accept(self, key: str, accepted: Accepted) -> None:
        asks = [each for each in accepted.findings if each.level != "note"]
        if not asks or self.session.question(key) is None:
            self._go_on()
            return
        # What rests on this very answer is told first: read again, it may settle the others.
        first = next((each for each in asks if key in (each.key, each.other)), asks[0])
        self._hold(key, first)

    def _hold(self, key: str, finding: Finding) -> None:
        """Stay for once: the answer is saved, and what looks wrong is said under it."""
        self.held, self._shown = key, ""
        self._speak(key, finding)
        self.unseen_until = monotonic() + HEED
        self.job.show()

    def _speak(self, key: str, finding: Finding) -> None:
        offers: list[Button] = [(each.label, partial(self._mend, each.entries)) for each in finding.offers]
        if finding.level != "stop":
            offers.append(("Keep as it is", partial(self._keep, finding.id)))
        other = other_of(finding, key)
        if self.session.question(other) is not None:
            offers.append(("Go to the other", partial(self.job.go, other)))
        self._offers = tuple(offers)
        text = f"{finding.sentence} {finding.way_out}"
        self._said = (key, Said(text, finding.level, tuple(each for each, _ in offers)))

    def _speak_out(self, text: str, level: str) -> None:
        self._said, self._offers = (self.session.at, Said(text, level)), ()
        self.redraw()

    def _keep(self, finding: str) -> None:
        if not self.job.met(self.session.keep(finding)):
            self._said = ("", Said())
            self._go_on()

    def _mend(self, entries: Mapping[str, str]) -> None:
        """Take a way out of a finding that was offered."""
        before = self.session.plan
        if not self.job.met(self.session.choose(entries)):
            self.job.note_changes(before, changed_figures(before, self.session.plan))
            self.job.tell(f"{self.job.key('undo')} takes it back.")
            self.job.go(None)

    def _copy(self) -> None:
        before = self.session.plan
        if not self.job.met(self.session.copy()):
            self.job.note_changes(before, changed_figures(before, self.session.plan))
            self._shown, self._aside = "", ("", "")
            self.job.tell(f"Taken over. {self.job.key('undo')} takes it back.")
            self.job.show()

    def _open_more(self, *, opened: bool) -> None:
        page = self.session.page()
        if page is None:
            return
        (self._opened.add if opened else self._opened.discard)(page.id)
        if opened and page.more:
            self._to(page.more[0].key)
        else:
            self._aside = (self.session.at, MORE)
            self.job.show()

    def take_out(self) -> None:
        """Take out what was added here."""
        if self.job.view != "page" or self.session.removable(self.session.at) is None:
            self.job.tell("Nothing here was added: only added things, lengths and readings can be removed.")
        elif not self.job.met(self.session.remove(self.session.at)):
            self._shown = ""
            self.job.tell(f"Removed. {self.job.key('undo')} brings it back.")
            self.job.show()

    # Moving.

    def next_page(self) -> None:
        """F8: take the page with what is filled in, and go to the next."""
        page = self.session.page()
        first = page.fields[0] if page and page.live else None
        row = self._view(first).row if first else None
        if first and row and first.key not in self.session.pending and not self._take_row(first.key, row):
            return
        before, held = self.session.plan, self.held
        outcome = self.session.accept()
        self._aside = ("", "")
        if isinstance(outcome, Refused):
            self._refuse(self.session.at, outcome)
        elif isinstance(outcome, Conflict):
            self.job.met(outcome)
        else:
            if outcome.changed:
                self.job.note_changes(before, outcome.changed)
            asks = [each for each in outcome.findings if each.level != "note"]
            page = self.session.page()
            here = {each.key for each in page.questions} if page else set()
            asked = next((each for each in asks if {each.key, each.other} & here), None)
            if asked is not None and page is not None and not held:
                key = asked.key if asked.key in here else asked.other
                self.session.go(key)
                self._hold(key, asked)
            else:
                self._go_on(self.session.next)

    def previous_page(self) -> None:
        """Esc: close what is open, else the page before."""
        page = self.session.page()
        self._leave()
        if page is not None and page.id in self._opened:
            self._opened.discard(page.id)
            if self.session.current() in page.more:
                self.session.go(page.fields[-1].key)
            self._aside = (self.session.at, MORE)
            self.job.show()
            return
        if not self.session.previous_page():
            self.job.tell("This is the beginning.")
        self._forget()
        self.job.show()

    def walk(self, by: int) -> None:
        """Tab: to the next place, round and round."""
        page = self.session.page()
        if page is not None:
            order = self._places(page)
            self._to(order[(order.index(self.in_hand) + by) % len(order)])

    def step(self, by: int) -> None:
        """Up and down: within a list, else to the nearest place."""
        question = self.question
        view = self._view(question) if question is not None else None
        if question is not None and view is not None and view.row and view.table:
            self._light(question, view.table.rows.index(view.row) + by, view.table)
            return
        laid = self._pane().laid
        lines = [each for each in laid.places if each.id == self.in_hand and each.value is not None]
        if question is not None and view is not None and len({each.row for each in lines}) > 1:
            at = (self._cursor[1] if self._cursor[0] == question.key else 0) if view.several else view.picked
            to = (-1 if at is None else at) + by
            if 0 <= to < len(view.choices):
                if view.several:
                    self._cursor = (question.key, to)
                    self.redraw()
                else:
                    self._pick(question, view.choices[to].value)
                return
            if not view.several:
                self._reset(question)
        self._nearest(by)

    def _light(self, question: Question, at: int, table: Offers) -> None:
        """Have another row of a table in hand; beyond its ends, the nearest place."""
        if 0 <= at < len(table.rows):
            self._reset(question)
            self._lit = (question.key, table.rows[at].entries)
            self._tables.look_at(table.rows[at].entries)
            self.redraw()
        else:
            self._nearest(-1 if at < 0 else 1)

    def _nearest(self, by: int) -> None:
        places = self._pane().laid.places
        here = next((each for each in places if each.id == self.in_hand), None)
        if here is None:
            return
        beyond = [each for each in places if each.id != here.id and (each.row - here.row) * by > 0]
        middle = here.column + here.width // 2
        if beyond:
            nearest = min(beyond, key=lambda each: ((each.row - here.row) * by, abs(each.column - middle)))
            self._to(nearest.id)

    def point(self, place: Place) -> None:
        """A click: goes there; on a choice, picks it."""
        if place.id in (MORE, COPY) or place.id.startswith(OFFER):
            self._aside = (self.session.at, place.id)
            self.enter()
            return
        if place.id != self.in_hand:
            self._to(place.id)
        question = self.question
        if place.value is None or question is None:
            return
        table = self._view(question).table
        if table is not None and table.rows:
            self._light(question, int(place.value), table)
        elif question.kind == "choices":
            values = [each.value for each in self._view(question).choices]
            self._cursor = (question.key, values.index(place.value))
            self.space()
        else:
            self._pick(question, place.value)

    def _to(self, place: str) -> None:
        if place.startswith(OFFER):
            self._aside = (self.session.at, place)
        else:
            self._leave()
            if place.startswith("@"):
                self._aside = (self.session.at, place)
            else:
                self._aside, self.held = ("", ""), ""
                self.session.go(place)
        self.job.show()

    def _leave(self) -> None:
        """Take what is typed where it can be read; what cannot stays in its field."""
        key = self.session.at
        text = self.session.pending.get(key)
        if text is None or self.session.question(key) is None or isinstance(self.session.echo(key, text), Refused):
            return
        before = self.session.plan
        outcome = self.session.answer(key, text)
        if isinstance(outcome, Conflict):
            self.job.met(outcome)
        elif isinstance(outcome, Accepted):
            self.job.note_changes(before, outcome.changed)

    def _go_on(self, move: Callable[[], bool] | None = None) -> None:
        page, at = self.session.page(), self.session.at
        self._forget()
        if move is None and page is not None and self.session.current() in page.more:
            order = self._places(page)
            following = order[order.index(at) + 1 :]
            if following:
                self._to(following[0])
                return
        if not (move or self.session.next)():
            self.job.tell(self.session.next_action())
        if self.session.current() is None:
            # The cutting plan comes between the last page and the work.
            self.session.go(at)
            self.job.look_at("cutting")
        else:
            self.job.show()

    def _forget(self) -> None:
        self._tables.look_at(None)
        self.held, self._aside, self._shown, self._said, self._offers = "", ("", ""), "", ("", Said()), ()


def _name(question: Question) -> str:
    return question.label or question.title.rpartition(": ")[2]


def _picked(question: Question) -> bool:
    return question.kind in ("choice", "choices", "yes-no")


def _placeholder(question: Question) -> str:
    return question.usual or ""
