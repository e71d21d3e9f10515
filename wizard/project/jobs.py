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
from wizard.project.unusable import typed_in, why_unusable
from wizard.trade import job
from wizard.trade.cut_plans import improvable, improve
from wizard.trade.job import Job
from wizard.trade.make_plan import make_plan
from wizard.trade.plan import Plan

_TYPED: Final = (TypedLength, TypedMoney, TypedNumber, TypedPercent)


def job_of(draft: Draft) -> Job:
    """The job the arithmetic is told of: the same values under the same keys, exact, without the text."""
    return cast("Job", replace(_built(draft), unusable=_unusable(draft), foreign=_foreign(draft)))


def _unusable(draft: Draft) -> dict[str, job.Unusable]:
    """What stands in the file and cannot be used, by key."""
    metric, found = draft.is_metric, {}
    for path, each in typed_in(draft, Unusable):
        why = why_unusable(Draft, path, each.text, metric=metric)
        found[joined(path)] = job.Unusable(each.text, why.sentence, f"Type it again. For example: {why.example}")
    return found


def _foreign(draft: Draft) -> dict[str, job.Foreign]:
    """The lengths in a unit that is not of the job's system, by key; none while the job's is not said."""
    unit, metric, found = draft.show or ("cm" if draft.standard == "metric" else "in"), draft.is_metric, {}
    for path, each in typed_in(draft, TypedLength) if draft.show or draft.standard else ():
        would = None if is_metric(each.text) == metric else in_unit(each.text, unit)
        if would is not None:
            found[joined(path)] = job.Foreign(each.text, would)
    return found


def plan_of(draft: Draft, before: Plan | None = None) -> Plan:
    """Everything that follows from a draft, however little is filled in.

    `before` is a plan worked already: it is given back when the draft makes the same job, as when a step is ticked.
    """
    told = job_of(draft)
    return before if before is not None and before.job == told else make_plan(told)


def improvements(plan: Plan) -> Iterator[Plan]:
    """Better plans of the same job, each taking the place of the one before, while a layer is not proven and more can
    be looked at. The work is done as they are asked for, some tenths of a second in all; drop it at any point."""
    while can_improve(plan):
        for each in plan.layers:
            if each.rules:
                improve(each.strips, each.stock, each.rules)
        plan = make_plan(plan.job)
        yield plan


def can_improve(plan: Plan) -> bool:
    """True when a layer is not proven and more can be looked at."""
    return any(
        each.cutting is not None and each.rules is not None and improvable(each.strips, each.stock, each.rules)
        for each in plan.layers
    )


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
