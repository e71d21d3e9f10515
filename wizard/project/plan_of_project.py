"""From the project file to the job, and from there to the plan: the only place that asks for one."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from wizard.project.decode import put_at
from wizard.project.keys import joined
from wizard.project.parse.length_text import in_unit, is_metric
from wizard.project.project import Project
from wizard.project.value_faults import lengths_in, why_not_taken
from wizard.trade.cut_plans import KEPT, NONE_BETTER, Asked, Better, better_plan, improvable
from wizard.trade.cutting import Cutting
from wizard.trade.field_names import in_words
from wizard.trade.fields import NotTaken, fields_of
from wizard.trade.figures import Need, value_at
from wizard.trade.job_fields import Foreign, Job, Unusable
from wizard.trade.make_plan import make_plan
from wizard.trade.missing import may_be_later
from wizard.trade.plan_records import Plan

_FIELDS: Final = tuple(fields_of(Job))


def job_of(project: Project) -> Job:
    """The job of a project: the same values under the same keys, without what the arithmetic is not told of."""
    unusable: dict[str, Unusable] = {}
    foreign: dict[str, Foreign] = {}
    unit, metric = project.show or ("cm" if project.standard == "metric" else "in"), project.is_metric
    said = project.show or project.standard
    usable: Project = project
    for path, each in lengths_in({name: getattr(project, name) for name in _FIELDS}):
        if isinstance(each, NotTaken):
            why = why_not_taken(Project, path, each.text, metric=metric)
            unusable[joined(path)] = Unusable(each.text, why.sentence, f"Type it again. For example: {why.example}")
            usable = put_at(usable, path, "" if path[-1].isdecimal() else None)
        # While the job's system is not said, no length is foreign to it.
        elif said and is_metric(each.text) != metric and (would := in_unit(each.text, unit)) is not None:
            foreign[joined(path)] = Foreign(each.text, would)
    told = {name: getattr(usable, name) for name in _FIELDS}
    return Job(**told, unusable=unusable, foreign=foreign)


def plan_of(project: Project, before: Plan | None = None, better: Better = NONE_BETTER) -> Plan:
    """Everything that follows from a project, however little is filled in.

    `before` is a plan worked already: it is given back when the project makes the same job, as when a step is ticked.
    `better`: cutting plans found since the first ones.
    """
    job = job_of(project)
    plan = before if before is not None and before.job == job else make_plan(job, better)
    later = tuple(found_out_later(project, job))
    return plan if plan.later == later else replace(plan, later=later)


def found_out_later(project: Project, job: Job) -> Iterator[Need]:
    """What the maker left to find out later, as far as it may be left and is not known yet."""
    for key in project.progress.later:
        if may_be_later(key) and value_at(job, key) is None and (words := in_words(key, job)) != key:
            yield Need(key, words)


def improvements(plan: Plan) -> Iterator[Plan]:
    """Better plans of the same job, each taking the place of the one before, while a layer is not proven and more can
    be looked at. The work is done as they are asked for, some tenths of a second in all; drop it at any point."""
    better = dict(better_in(plan))
    while can_improve(plan):
        better |= {asked: better_plan(asked, found) for asked, found in _found(plan) if improvable(found)}
        plan = replace(make_plan(plan.job, better), later=plan.later)
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


def at_best(plan: Plan) -> Plan:
    """What a plan comes to once nothing more is to be had; the very same where it is. For what is printed, not for what
    follows a keystroke."""
    for better in improvements(plan):
        plan = better
    return plan
