"""What an answer changed, and what waits to be looked at again: findings, finished steps, new questions."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from wizard.interview.job_state import PLACE, JobState, is_missing
from wizard.interview.outcome import Upset
from wizard.project.project import Unfit
from wizard.project.value_faults import Fault
from wizard.trade.plan_records import Finding, Level, Plan


def changed_figures(old: Plan, new: Plan) -> tuple[str, ...]:
    """Ids of figures whose value is not what it was, those included that are known now and were not."""
    before = {each: figure.value for each, figure in old.figures.items()}
    return tuple(each for each, figure in new.figures.items() if figure.value != before.get(each))


def new_findings(old: Plan, new: Plan) -> tuple[Finding, ...]:
    """Findings that are open now and were not, or rest on other values."""
    before = {(each.id, each.values) for each in old.findings if not each.kept}
    return tuple(each for each in new.findings if not each.kept and (each.id, each.values) not in before)


def upset_by(old: JobState, new: JobState, given: Sequence[str]) -> Upset:
    """What a change did to earlier answers, figures and steps. `given`: the keys answered by it."""
    figures = tuple(
        each
        for each, figure in old.plan.figures.items()
        if figure.value is not None and _value(new.plan, each) != figure.value and not _within(each, given)
    )
    steps = tuple(each for each in new.stale if each not in old.stale)
    asked = {each.key for each in old.questions}
    questions = tuple(each.key for each in new.questions if each.key not in asked and is_missing(each, new.given))
    return Upset(figures, steps, questions)


def met_by_nothing(upset: Upset, here: JobState, reached: int) -> tuple[str, ...]:
    """The places of what was upset that going on does not lead to by itself: ticked steps, and questions of the pages
    before the last one that was `reached`."""
    behind = (each for each in upset.questions if here.number(each) < reached)
    return (*(PLACE + each for each in upset.steps), *behind)


def is_upset(place: str, here: JobState, stale: frozenset[str]) -> bool:
    """True while a place that was upset still waits: a step changed since it was ticked, a question has no answer."""
    question = here.by_key.get(place)
    return place.removeprefix(PLACE) in stale if question is None else is_missing(question, here.given)


def _value(plan: Plan, figure_id: str) -> object:
    figure = plan.figures.get(figure_id)
    return None if figure is None else figure.value


def _within(key: str, given: Sequence[str]) -> bool:
    return any(key == each or key.startswith(each + ".") for each in given)


class PendingReview:
    """Places that were upset."""

    def __init__(self, here: JobState) -> None:
        """What was upset before the wizard was opened counts as not looked at."""
        self._places = {PLACE + each for each in here.stale}
        self._reached = 0

    def note(self, upset: Upset, here: JobState) -> None:
        """A change was made."""
        self._places |= set(met_by_nothing(upset, here, self._reached))

    def look(self, place: str, here: JobState) -> None:
        """The place is looked at now; the work comes after every page."""
        self._reached = max(self._reached, here.number(place) or len(here.pages) + 1)
        self._places.discard(place)

    def places(self, here: JobState) -> tuple[str, ...]:
        """Those that still wait, in order."""
        if not self._places:
            return ()
        stale = frozenset(here.stale)
        return tuple(_waiting(here, self._places, stale))


def _waiting(here: JobState, places: set[str], stale: frozenset[str]) -> Iterable[str]:
    return (each for each in here.places if each in places and is_upset(each, here, stale))


LEVELS: Final[dict[Level, str]] = {
    "stop": "Stops the plan",
    "warn": "Warning",
    "ask": "Please check",
    "note": "Worth knowing",
}
"""How grave a finding is, in words."""


def other_of(finding: Finding, key: str) -> str:
    """The key of the answer that the one at `key` is held against; empty where there is none."""
    if finding.other and key == finding.other:
        return finding.key
    return finding.other if key == finding.key else ""


def why_not_kept(finding: Finding) -> str:
    """Why a finding cannot be kept as it is, with the way out; empty for one that can."""
    return f"This one stops the plan and cannot be kept. Way out: {finding.way_out}" if finding.level == "stop" else ""


def kept(finding_id: str, plan: Plan) -> dict[str, object]:
    """What goes into the file to keep a finding as it is. KeyError for an unknown one, Unfit for one that stops."""
    finding = next((each for each in plan.findings if each.id == finding_id), None)
    if finding is None:
        raise KeyError(finding_id)
    if finding.level == "stop":
        raise Unfit(Fault(("kept", finding_id), why_not_kept(finding)))
    return {f"kept.{finding_id}": finding.values}
