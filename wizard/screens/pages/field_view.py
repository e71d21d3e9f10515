"""One field of a page as it is shown: label, text, what is said of it, its choices. Taken from the session."""

from __future__ import annotations

from typing import Final

from msgspec import Struct

from wizard.interview.answer_text import NONE, options, picked
from wizard.interview.job_state import STATE_WORDS, State
from wizard.interview.outcome import Refused, rests_on
from wizard.interview.question import Choice, Question
from wizard.interview.session import Session
from wizard.trade.field_names import first_up, obstacle_name
from wizard.trade.figures import value_at
from wizard.trade.plan_records import Finding, Offer, Offers

LEFT_OPEN: Final = Choice("", "leave it open")
LATER: Final = {False: "or find it out later", True: "or type “later”"}
"""What to do about what may be found out later: whether it may be left out -> words."""
WRONG, UNREAD, NOT_TAKEN = "?", "!", "…"
"""Looks wrong; cannot be read; typed and not taken yet."""
WIDTHS: Final = {"text": 30, "add": 20}
"""Columns of a field by its kind; LENGTH for the others."""
LENGTH: Final = 14


class FieldView(Struct, frozen=True):
    """One field."""

    key: str
    label: str
    text: str
    """What is in it: typed, or answered."""
    usual: str = ""
    note: str = ""
    """`usual`, `yours`, or what an empty one may be."""
    mark: str = ""
    choices: tuple[Choice, ...] = ()
    picked: int | None = None
    """Number of the choice that is chosen, from 0; None where what is typed is none of them."""
    several: bool = False
    extra: bool = False
    width: int = LENGTH
    table: Offers | None = None
    """The rows to choose from, where they are worked out for this job."""
    row: Offer | None = None
    """The one in hand."""

    @property
    def rows(self) -> tuple[Offer, ...]:
        """Those that are worked out."""
        return self.table.rows if self.table else ()

    @property
    def text_typed(self) -> bool:
        """True while something is typed that is not taken yet."""
        return bool(self.mark in (UNREAD, NOT_TAKEN) and self.text)

    @property
    def ticked(self) -> frozenset[str]:
        """The values ticked, where there may be several."""
        return frozenset(each.strip() for each in (self.text or self.usual).split(","))

    @property
    def shown(self) -> str:
        """What it holds, in words; the usual answer where nothing else is given."""
        if self.several:
            return ", ".join(each.short for each in self.choices if each.value in self.ticked) or NONE
        at = self.picked if self.choices else None
        return self.text or self.usual if at is None else self.choices[at].short


def view_of(question: Question, session: Session) -> FieldView:
    """A question as its page shows it."""
    several = question.kind == "choices"
    choices = ((LEFT_OPEN,) if question.optional and question.kind == "choice" else ()) + options(question)
    text, state = session.text(question.key), session.state(question.key)
    usual = question.usual or ""
    chosen = picked(question, text or usual) if choices and not several else None
    return FieldView(
        question.key,
        first_up(question.called),
        text,
        usual,
        _note(question, text, state) or _added(question, session),
        _mark(question, session),
        choices,
        next((at for at, each in enumerate(choices) if each.value == chosen), None),
        several,
        question.extra or question.kind == "add",
        WIDTHS.get(question.kind, LENGTH),
    )


def _note(question: Question, text: str, state: State) -> str:
    if question.usual is not None and text in ("", question.usual):
        return "usual"
    if question.usual is not None and not options(question):
        return f"yours (usual {question.usual})"
    if text or state == "answered":
        return ""
    empty = LATER[question.optional] if question.later else "optional" if question.optional else ""
    return STATE_WORDS[state] if state == "later" else empty


def _added(question: Question, session: Session) -> str:
    """How many things in the way a section has already, and which."""
    there = value_at(session.plan.job, question.key) if question.key.endswith(".in_the_way") else None
    names = [obstacle_name(*each) for each in (there or {}).items()]
    return f"{len(names)} there ({', '.join(names)})" if names else ""


def _mark(question: Question, session: Session) -> str:
    pending = session.pending.get(question.key)
    if pending is not None:
        return UNREAD if isinstance(session.echo(question.key, pending, typing=True), Refused) else NOT_TAKEN
    return WRONG if finding_at(question, session) else ""


def finding_at(question: Question | None, session: Session) -> Finding | None:
    """The worst open finding that rests on an answer; notes do not count."""
    asked = (each for each in session.plan.findings if not each.kept and each.level != "note")
    return next((each for each in asked if rests_on(each, question)), None)
