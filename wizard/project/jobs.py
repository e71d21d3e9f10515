"""From the project file to the job, and from there to the plan: the only place that asks for one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, Final, cast

from msgspec.structs import replace

from wizard.project.draft import FILE_ONLY, Draft
from wizard.project.keys import joined
from wizard.project.tables import Table
from wizard.project.typed import TypedLength, TypedMoney, TypedNumber, TypedPercent, Unusable
from wizard.project.typed.lengths import in_unit
from wizard.project.typed.unit_words import is_metric
from wizard.project.unusable import lengths_in, why_unusable
from wizard.trade.cut_plans import KEPT, NONE_BETTER, Asked, Better, better_plan, improvable
from wizard.trade.cutting import Cutting
from wizard.trade.job import Foreign, Job
from wizard.trade.job import Unusable as Unused
from wizard.trade.make_plan import make_plan
from wizard.trade.plan import Plan

_TOLD: Final = tuple(name for name in Draft.__struct_fields__ if name not in FILE_ONLY)
"""What of the file the arithmetic is told of."""
_TYPED: Final = (TypedLength, TypedMoney, TypedNumber, TypedPercent)


def job_of(draft: Draft) -> Job:
    """The job the arithmetic is told of: the same values under the same keys, exact, without the text."""
    unusable, foreign = _set_apart(draft)
    return replace(answers_of(draft), unusable=unusable, foreign=foreign)


def answers_of(draft: Draft) -> Job:
    """The same without what is to be said of its texts: for a list of thousands."""
    return cast("Job", _built(draft))


def _set_apart(draft: Draft) -> tuple[dict[str, Unused], dict[str, Foreign]]:
    """What stands in the file and cannot be used, and the lengths in a unit that is not of the job's system (none while
    the job's is not said), by key."""
    unit, metric = draft.show or ("cm" if draft.standard == "metric" else "in"), draft.is_metric
    unusable: dict[str, Unused] = {}
    foreign: dict[str, Foreign] = {}
    said = draft.show or draft.standard
    for path, each in lengths_in({name: getattr(draft, name) for name in _TOLD}):
        if isinstance(each, Unusable):
            why = why_unusable(Draft, path, each.text, metric=metric)
            unusable[joined(path)] = Unused(each.text, why.sentence, f"Type it again. For example: {why.example}")
        elif said and is_metric(each.text) != metric and (would := in_unit(each.text, unit)) is not None:
            foreign[joined(path)] = Foreign(each.text, would)
    return unusable, foreign


def plan_of(draft: Draft, before: Plan | None = None, better: Better = NONE_BETTER) -> Plan:
    """Everything that follows from a draft, however little is filled in.

    `before` is a plan worked already: it is given back when the draft makes the same job, as when a step is ticked.
    `better`: cutting plans found since the first ones.
    """
    job = job_of(draft)
    return before if before is not None and before.job == job else make_plan(job, better)


def improvements(plan: Plan) -> Iterator[Plan]:
    """Better plans of the same job, each taking the place of the one before, while a layer is not proven and more can
    be looked at. The work is done as they are asked for, some tenths of a second in all; drop it at any point."""
    better = dict(better_in(plan))
    while can_improve(plan):
        better |= {asked: better_plan(asked, found) for asked, found in _found(plan) if improvable(found)}
        plan = make_plan(plan.job, better)
        yield plan


def better_in(plan: Plan, known: Better = NONE_BETTER) -> Better:
    """The better cutting plans known, with those that a plan holds; of very many the last."""
    here = {asked: found for asked, found in _found(plan) if found.tries}
    return dict(list({**known, **here}.items())[-KEPT:]) if here else known


def _found(plan: Plan) -> Iterator[tuple[Asked, Cutting]]:
    """The cutting plans of the layers, as they were found."""
    for each in plan.layers:
        if each.found is not None and each.rules is not None:
            yield (each.strips, each.stock, each.rules), each.found


def can_improve(plan: Plan) -> bool:
    """True when a layer is not proven and more can be looked at."""
    return any(improvable(found) for _, found in _found(plan))


def best_plan_of(draft: Draft) -> Plan:
    """The plan of a draft once nothing more is to be had: for what is printed, not for what follows a keystroke."""
    return at_best(plan_of(draft))


def at_best(plan: Plan) -> Plan:
    """What a plan comes to once nothing more is to be had; the very same where it is."""
    for better in improvements(plan):
        plan = better
    return plan


def _built(table: Table) -> Any:
    names = [name for name in type(table).__struct_fields__ if name not in FILE_ONLY]
    builds = type(table).builds
    if builds is None:
        raise TypeError(f"the job has nothing for {type(table).__name__}")
    return builds(**{name: _value(getattr(table, name)) for name in names})


def _value(value: Any) -> Any:
    if value is None or isinstance(value, str):
        # Most there is: a table's own look for what it is takes far longer.
        return value
    if isinstance(value, Table):
        return _built(value)
    if isinstance(value, _TYPED):
        return value.value
    if isinstance(value, Unusable):
        return None
    if isinstance(value, Mapping):
        return {name: _value(each) for name, each in value.items()}
    if isinstance(value, tuple):
        return tuple(_value(each) for each in value)
    return value
