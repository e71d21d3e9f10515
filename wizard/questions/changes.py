"""What one answer changed in the plan."""

from __future__ import annotations

from collections.abc import Sequence

from wizard.questions.outcome import Upset
from wizard.questions.standing import Standing
from wizard.questions.states import is_missing
from wizard.questions.work import PLACE
from wizard.trade.plan import Finding, Plan


def changed_figures(old: Plan, new: Plan) -> tuple[str, ...]:
    """Ids of figures whose value is not what it was, those included that are known now and were not."""
    before = {each: figure.value for each, figure in old.figures.items()}
    return tuple(each for each, figure in new.figures.items() if figure.value != before.get(each))


def new_findings(old: Plan, new: Plan) -> tuple[Finding, ...]:
    """Findings that are open now and were not, or rest on other values."""
    before = {(each.id, each.values) for each in old.findings if not each.kept}
    return tuple(each for each in new.findings if not each.kept and (each.id, each.values) not in before)


def upset_by(old: Standing, new: Standing, given: Sequence[str]) -> Upset:
    """What a change did to what stood already. `given`: the keys that were answered, which are no surprise."""
    figures = tuple(
        each
        for each, figure in old.plan.figures.items()
        if figure.value is not None and _value(new.plan, each) != figure.value and not _within(each, given)
    )
    steps = tuple(each for each in new.stale if each not in old.stale)
    asked = {each.key for each in old.questions}
    questions = tuple(each.key for each in new.questions if each.key not in asked and is_missing(each, new.given))
    return Upset(figures, steps, questions)


def met_by_nothing(upset: Upset, here: Standing) -> tuple[str, ...]:
    """The places of what was upset that going on does not lead to by itself: ticked steps, and questions that lie
    before one answered earlier."""
    asked = [each.key for each in here.questions]
    # What only adds counts as answered as soon as there is one.
    answered = [each.key for each in here.questions if each.kind != "add" and each.key in here.given]
    behind = set(asked[: asked.index(answered[-1])]) if answered else set()
    return (*(PLACE + each for each in upset.steps), *(each for each in upset.questions if each in behind))


def is_upset(place: str, here: Standing, stale: frozenset[str]) -> bool:
    """True while a place that was upset still waits: a step changed since it was ticked, a question has no answer."""
    question = here.by_key.get(place)
    return place.removeprefix(PLACE) in stale if question is None else is_missing(question, here.given)


def _value(plan: Plan, figure_id: str) -> object:
    figure = plan.figures.get(figure_id)
    return None if figure is None else figure.value


def _within(key: str, given: Sequence[str]) -> bool:
    return any(key == each or key.startswith(each + ".") for each in given)
