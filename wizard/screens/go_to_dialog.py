"""Go anywhere: every question, the cutting plan, every step, with its state."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from wizard.questions.question import Question
from wizard.questions.session import Session
from wizard.questions.states import State
from wizard.questions.work import PLACE, is_done, place_of
from wizard.screens.glyphs import CHANGED, DONE, HERE, NOT_YET, TICKED
from wizard.screens.panes import CUTTING_PLAN, FULLNESS_STEPS
from wizard.screens.search_dialog import Entry, SearchDialog
from wizard.trade.plan import STAGES, Stage

MARKS: Final[dict[State, str]] = {"answered": DONE, "usual": "·", "missing": NOT_YET, "skipped": " "}


def go_to_dialog(session: Session, at: str) -> SearchDialog:
    """The dialog that gives the place to go to, standing on `at`."""
    upset = session.upset_places
    entries = tuple(_upset(each) if each.id in upset else each for stage in STAGES for each in _entries(stage, session))
    hint = "type to narrow: again, drop, missing…" if upset else "type to narrow: drop, missing, lining…"
    return SearchDialog("Go to", entries, at, hint, "Go there")


def _entries(stage: Stage, session: Session) -> Iterator[Entry]:
    for question in session.questions:
        if question.stage == stage:
            yield _question(question, session)
    if stage == "Fullness":
        yield Entry(FULLNESS_STEPS, stage, HERE, "The fullness steps", "")
    if stage == "Cutting":
        yield Entry(CUTTING_PLAN, stage, HERE, "The cutting plan", "")
    for step in session.plan.work:
        if step.stage == stage:
            done = is_done(session.draft, step.id)
            yield Entry(place_of(step), stage, TICKED if done else NOT_YET, step.title, "ticked" if done else "")


def _upset(entry: Entry) -> Entry:
    """The same, marked as what an answer given elsewhere upset."""
    why = "changed since you ticked it" if entry.id.startswith(PLACE) else "asked now"
    return replace(entry, mark=CHANGED, said=f"to look at again: {why}, {entry.said}")


def _question(question: Question, session: Session) -> Entry:
    state = session.state(question.key)
    said = {
        "answered": session.text(question.key),
        "usual": f"{question.usual} (usual)",
        "missing": "missing",
        "skipped": "left empty",
    }[state]
    return Entry(question.key, question.stage, MARKS[state], question.title, said)
