"""Finished steps of the work: what goes into the file when one is ticked, and what has changed in it since then.

A ticked step keeps the lengths it named, by figure, and a short mark of all its numbers. Where the plan differs now,
the interview, every sheet it concerns, `check` and the JSON say so in the same sentences. Marks of earlier versions
come from other wordings: they are ignored, and only the lengths count.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import datetime
from functools import cache
from typing import Final, get_args

from msgspec.structs import replace

from wizard.project.plan_of_project import at_best, better_in, plan_of
from wizard.project.project import FinishedStep, Project, put
from wizard.trade.field_names import first_up
from wizard.trade.formatting import Ruler, exact, how_shown, listed, rounded, ruler_of
from wizard.trade.job_fields import Unit
from wizard.trade.lengths import Length
from wizard.trade.plan_records import STAGES, ChangedStep, Plan, Step
from wizard.trade.sections import section_name
from wizard.trade.steps.step_writer import KINDS

Marks = Mapping[str, str]
"""Step id -> the mark of all its numbers."""

_NUMBER: Final = re.compile(r"[0-9]+(?:[./][0-9]+)?")
CUT: Final = "cut:"
LABEL: Final = "label:"
RELABEL: Final = "Piece numbers and sizes may have changed: compare every label with the cut list before you join."
"""Said of labels, whatever changed: a piece under its old number would be sewn into another section."""
OF_NUMBERS: Final = "m"
"""A mark that begins so is of the numbers in a step's lines as they stand now. Others were of earlier wordings."""


def ticked(step: Step, plan: Plan, now: datetime, minutes: int | None = None) -> dict[str, object]:
    """The entries of the file when a step is ticked: key -> value."""
    ruler = ruler_of(plan.job)
    lengths = {id: exact(length, ruler.unit) for id, length in _lengths(step, plan, ruler)}
    entries = {"done": now, "told": mark_of(step), "lengths": lengths or None}
    return {f"work.{step.id}.{leaf}": value for leaf, value in entries.items()} | (
        {f"work.{step.id}.minutes": minutes} if minutes else {}
    )


def unticked(step_id: str) -> dict[str, object]:
    """The entries to remove when a step is unticked. Its note stays."""
    return {f"work.{step_id}.{leaf}": None for leaf in ("done", "told", "lengths")}


def mark_of(step: Step) -> str:
    """A short mark of all numbers of a step, line by line, with its list and the sizes written down."""
    lines = (*step.lines, *step.listed, *step.settings, *step.written)
    numbers = "\n".join(" ".join(_NUMBER.findall(each)) for each in lines)
    return OF_NUMBERS + hashlib.sha256(numbers.encode()).hexdigest()[:12]


def as_done(plan: Plan, project: Project) -> Plan:
    """The plan with the record of its steps, for the sheets: ticks, minutes, notes, and what changed since."""
    changed = changed_steps(project, plan)
    said = {each.id: each.sentences for each in changed}
    work = tuple(_as_done(each, project.work.get(each.id), said.get(each.id, ())) for each in plan.work)
    return replace(plan, work=work, changed=changed)


def as_ticked(plan: Plan, project: Project) -> Plan:
    """The best plan that can be found, where finished steps differ from `plan`; `plan` itself where none does.

    They may have been ticked on a better plan, not searched for yet in this run. The search is bounded, some tenths of
    a second for each layer, and is made only for such steps.
    """
    return at_best(plan) if changed_steps(project, plan) else plan


def changed_steps(project: Project, plan: Plan) -> tuple[ChangedStep, ...]:
    """The ticked steps that told something else when they were ticked, in the order of the work; last those that the
    plan no longer has. None while the plan has no steps at all."""
    done = {id: kept for id, kept in project.work.items() if kept.done is not None}
    if not plan.work or not done:
        return ()
    marks = cache(
        lambda unit: {
            each.id: mark_of(each) for each in plan_of(put(project, "show", unit), better=better_in(plan)).work
        }
    )
    found = {each.id: _differences(each, done[each.id], plan, marks) for each in plan.work if each.id in done}
    for id, kept in done.items():
        # In files from before sizes were kept, labels depend on the cut list alone.
        if id.startswith(LABEL) and id in found and not kept.lengths and found.get(CUT + id.removeprefix(LABEL)):
            found[id] = found[id] or (RELABEL,)
    there = [ChangedStep(each.id, each.title, each.stage, found[each.id]) for each in plan.work if found.get(each.id)]
    # While answers are missing, steps only wait for them.
    gone = [id for id in done if id not in found] if plan.complete else []
    return (*there, *(ChangedStep(id, _title(id, plan), None, ("The plan no longer has this step.",)) for id in gone))


def steps_of(project: Project, plan: Plan) -> tuple[Step, ...]:
    """The work in the order of doing: the steps of the plan, and while it is not complete, those that were ticked and
    wait for figures."""
    there = {each.id for each in plan.work}
    waits = () if plan.complete else (id for id, kept in project.work.items() if kept.done and id not in there)
    waiting = (_waiting(id, plan) for id in waits if id.partition(":")[0] in KINDS)
    return tuple(sorted((*waiting, *plan.work), key=lambda each: STAGES.index(each.stage)))


def _waiting(id: str, plan: Plan) -> Step:
    says = ("What this step says waits until the plan is complete.",)
    return Step(id, KINDS[id.partition(":")[0]].stage, _title(id, plan), None, says, (), (), (), 0, ())


def changed_in_words(changed: Iterable[ChangedStep]) -> Iterator[str]:
    """A sentence or more for each: `Changed since you ticked “Cut out: linen”. Left section: …`."""
    return (f"Changed since you ticked “{each.title}”. {' '.join(each.sentences)}" for each in changed)


def _as_done(step: Step, kept: FinishedStep | None, changed: tuple[str, ...]) -> Step:
    if kept is None:
        return step
    return replace(step, taken=kept.minutes, done=kept.done is not None, note=kept.note, changed=changed)


def _lengths(step: Step, plan: Plan, ruler: Ruler) -> Iterator[tuple[str, Length]]:
    """The lengths among a step's figures as it names them: on the ruler's mark."""
    for id in dict.fromkeys(step.figures):
        value = plan.figures[id].value
        if isinstance(value, Length):
            yield id, rounded(value, ruler.mark, how_shown(id))


def _differences(step: Step, kept: FinishedStep, plan: Plan, marks: Callable[[Unit], Marks]) -> tuple[str, ...]:
    """What has changed in a ticked step, a sentence each; none where nothing has. `marks` gives the marks of the steps
    as they read in another unit."""
    ruler = ruler_of(plan.job)
    now = dict(_lengths(step, plan, ruler))
    earlier = not (kept.told or OF_NUMBERS).startswith(OF_NUMBERS)
    if not kept.lengths and earlier:
        # In files from before lengths were kept, all that is known is that pieces were cut.
        not_kept = "The file does not record what this step said when you ticked it"
        return (f"{not_kept}; the plan now says: {cuts}.",) if (cuts := _cut_now(step, plan, now, ruler)) else ()
    then = {id: rounded(each, ruler.mark, how_shown(id)) for id, each in kept.lengths.items()}
    said = tuple(_said(plan, then, now, ruler)) if then else ()
    if said and step.id.startswith(CUT):
        said = (*said, *_mended(then, now))
    elif said and step.id.startswith(LABEL):
        said = (RELABEL,)
    if said or earlier or kept.told in (None, mark_of(step)):
        return said
    # In another unit the same plan has other numbers, but it has not changed.
    told_alike = any(kept.told == marks(unit).get(step.id) for unit in _units_of(kept) if unit != ruler.unit)
    again = "Its instructions have changed since you ticked it: read it again."
    return () if told_alike else (RELABEL if step.id.startswith(LABEL) else again,)


def _units_of(kept: FinishedStep) -> Iterator[Unit]:
    """The units a step's lengths may have been shown in: a job in feet or yards writes `11 in` too."""
    units: tuple[Unit, ...] = get_args(Unit)
    return (unit for unit in units if all(exact(each, unit) == each.text for each in kept.lengths.values()))


def _said(plan: Plan, then: Mapping[str, Length], now: Mapping[str, Length], ruler: Ruler) -> Iterator[str]:
    """A sentence for each length that differs; lengths with the same change share one."""
    alike: dict[str, list[str]] = {}
    for id in dict.fromkeys((*then, *now)):
        old, new = then.get(id), now.get(id)
        if old != new:
            alike.setdefault(_difference(_past(plan, id), old, new, ruler), []).append(_whose(plan, id))
    for words, whose in alike.items():
        named = listed([each for each in dict.fromkeys(whose) if each] or [""])
        yield first_up(f"{named}: {words}" if named else words)


def _mended(then: Mapping[str, Length], now: Mapping[str, Length]) -> Iterator[str]:
    """What to do about pieces that were cut at another length."""
    cuts = [(old, now[id]) for id, old in then.items() if ".cut." in id and id in now]
    if any(old > new for old, new in cuts):
        yield "What is too long: trim it at the raw hem edge before you hem."
    if any(old < new for old, new in cuts):
        yield "What is too short: make the hem or the top allowance smaller by as much, or cut it again."


def _difference(past: str, old: Length | None, new: Length | None, ruler: Ruler) -> str:
    if old is None and new is not None:
        return f"new in the plan: {exact(new, ruler.unit)}."
    was = "" if old is None else exact(old, ruler.unit)
    return f"{past} {was}; the plan {'no longer has it' if new is None else f'now says {exact(new, ruler.unit)}'}."


def _cut_now(step: Step, plan: Plan, now: Mapping[str, Length], ruler: Ruler) -> str:
    """The cut lengths now, for a file that does not record the old ones; empty for other steps."""
    cuts = [f"{_whose(plan, id)} {exact(each, ruler.unit)}" for id, each in now.items() if ".cut." in id]
    return f"cut length of {listed(cuts)}" if cuts and step.id.startswith(CUT) else ""


def _past(plan: Plan, id: str) -> str:
    """The words before the old length: `cut at`, `finished drop was`."""
    figure = plan.figures.get(id)
    if ".cut." in id:
        return "cut at"
    return f"{figure.title.removeprefix(f'{_whose(plan, id)}: ')} was" if figure else "it was"


def _whose(plan: Plan, id: str) -> str:
    """The part that a figure is of, in words; empty for one of the whole skirt."""
    names = {part.id: part.name for part in plan.parts}
    layers: Mapping[str, str] = {layer.id: layer.name for layer in plan.layers}
    return next((names[each] for each in id.split(".") if each in names), None) or (
        layers.get(id.split(".")[1], "") if id.startswith("layer.") else ""
    )


def _title(step_id: str, plan: Plan) -> str:
    """The title of a step that the plan no longer has, from its id: `cut:lining`, `hang:left`."""
    kind, *of = step_id.split(":")
    named = {each: section_name(plan.job, each) for each in plan.job.survey.section}
    named |= {each.id: each.name for each in plan.parts} | {each.id: each.name for each in plan.layers}
    title = KINDS[kind].title if kind in KINDS else first_up(kind.replace("-", " "))
    return ": ".join([title, *([", ".join(named.get(each, each) for each in of)] if of else [])])
