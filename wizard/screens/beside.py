"""What goes with a question besides its drawing: the fullness steps, or what was added already."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from textual.content import Content

from wizard.questions.adding import there_already
from wizard.questions.question import Question
from wizard.questions.session import Session
from wizard.screens.figure_words import value_words
from wizard.screens.fullness_words import roll_words
from wizard.screens.literal import plain
from wizard.screens.so_far import joins_words
from wizard.trade.formatting import number
from wizard.trade.plan import FullnessStep, Plan


def beside(question: Question, session: Session, steps: Sequence[FullnessStep] = ()) -> Content | None:
    """The lines, or None where there are none. `steps`: the fullness steps found so far, for what asks about them."""
    lines = list(_added(question, session) if question.kind == "add" else _steps(steps, session.plan))
    return Content("\n").join(lines) if lines else None


def _added(question: Question, session: Session) -> Iterator[Content]:
    there = there_already(question, session.plan.job)
    if there:
        yield Content.styled("There already", "bold")
        for id, each in there.items():
            yield Content(f"  {plain(_name(id, each, session.plan))}")


def _name(id: str, thing: object, plan: Plan) -> str:
    length = getattr(thing, "length", None)
    return str(getattr(thing, "name", None) or (value_words(length, plan) if length is not None else id))


def _steps(steps: Sequence[FullnessStep], plan: Plan) -> Iterator[Content]:
    if not steps:
        return
    yield Content.styled("How full, for each length of roll", "bold")
    for step in steps:
        yield _step(step, plan)


def _step(step: FullnessStep, plan: Plan) -> Content:
    cost = "" if step.cost is None else f"   {value_words(step.cost, plan)}"
    return Content.assemble(
        f"  {roll_words(step, plan):<10}",
        (f"{number(step.handy):<8}", "bold"),
        (f"{joins_words(step.joins)}{cost}", "$quiet"),
    )
