"""What goes with a question besides its drawing: the fullness steps, or what was added already."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from textual.content import Content

from wizard.questions.question import Question
from wizard.questions.session import Session
from wizard.screens.figure_words import sold_by, value_words
from wizard.screens.literal import plain
from wizard.screens.so_far import joins_words
from wizard.trade.figures import value_at
from wizard.trade.plan import FullnessStep, Plan
from wizard.trade.printing import exact


def beside(question: Question, session: Session) -> Content | None:
    """The lines, or None where there are none."""
    lines = list(_added(question, session) if question.kind == "add" else _steps(question, session.plan))
    return Content("\n").join(lines) if lines else None


def _added(question: Question, session: Session) -> Iterator[Content]:
    there = value_at(session.plan.job, question.key)
    if isinstance(there, Mapping) and there:
        yield Content.styled("There already", "bold")
        for id, each in there.items():
            yield Content(f"  {plain(_name(id, each, session.plan))}")


def _name(id: str, thing: object, plan: Plan) -> str:
    length = getattr(thing, "length", None)
    return str(getattr(thing, "name", None) or (value_words(length, plan) if length is not None else id))


def _steps(question: Question, plan: Plan) -> Iterator[Content]:
    if question.stage != "Fullness" or not plan.steps_of_fullness:
        return
    yield Content.styled("How full, for each length of roll", "bold")
    unit = sold_by(plan, "face")
    for step in plan.steps_of_fullness:
        yield _step(step, unit, plan)


def _step(step: FullnessStep, unit: str, plan: Plan) -> Content:
    cost = "" if step.cost is None else f"   {value_words(step.cost, plan)}"
    return Content.assemble(
        f"  {exact(step.roll, unit):<10}",
        (f"{value_words(step.fullness, plan):<8}", "bold"),
        (f"{joins_words(step.joins)}{cost}", "$quiet"),
    )
