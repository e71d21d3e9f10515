"""Every sheet there is, in the order in which a job needs them."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from typing import Final, cast

from msgspec import Struct

from wizard.project.finished_steps import changed_in_words
from wizard.render.buying_sheet import buying
from wizard.render.choosing_sheet import choosing, ways_of_cutting
from wizard.render.cut_order import part_names
from wizard.render.cutting_sheet import cutting
from wizard.render.document import Block, Note, Notes, Para, points, work_blocks
from wizard.render.hanging_sheet import hanging, marks
from wizard.render.labels_sheet import care, labels
from wizard.render.overview_sheet import overview
from wizard.render.sheet_names import TITLES, USUAL, SheetId
from wizard.trade.explain import Explanation, explained
from wizard.trade.formatting import ruler_of
from wizard.trade.job_fields import LayerId
from wizard.trade.plan_records import STAGES, Plan, Stage
from wizard.trade.sections import section_name


def workings(plan: Plan) -> list[Block]:
    """The ways of cutting, then every figure in the order in which they were worked."""
    ruler = ruler_of(plan.job)
    notes = tuple(_note(plan, id, explained(each, ruler)) for id, each in plan.figures.items())
    return [*ways_of_cutting(plan), Notes(notes)] if notes else []


def _note(plan: Plan, id: str, reason: Explanation) -> Note:
    """A figure with its why; before its title whose it is: `lining, foot section: cut length`."""
    whose = ", ".join(_whose(plan, id.split(".")))
    title = f"{whose}: {reason.title}" if whose and whose not in reason.title else reason.title
    # What was given has its own name for a formula: it is not worked from others.
    lines = () if reason.formula == reason.title else (reason.formula, reason.values)
    return Note("reason", title, reason.result, lines, f"{reason.says} ({reason.source})")


def _whose(plan: Plan, names: list[str]) -> Iterator[str]:
    parts = part_names(plan)
    layers = {layer.id: layer.name for layer in plan.layers}
    match names:
        case ["part", part, *_]:
            yield parts.get(part, part)
        case ["section", section, *_]:
            yield section_name(plan.job, section)
        case ["layer", layer, *rest]:
            yield layers.get(cast("LayerId", layer), layer)
            yield from (parts[each] for each in rest if each in parts)


NOTHING: Final = "Nothing to show yet: answer more questions first."
SHEETS: Final[dict[SheetId, tuple[Callable[[Plan], list[Block]], tuple[Stage, ...]]]] = {
    "overview": (overview, STAGES),
    "buying": (buying, ("Cloth",)),
    "cutting": (cutting, ("Cloth", "Cutting")),
    "making-up": (lambda plan: work_blocks(plan, "Making up"), ("Cutting", "Making up")),
    "hanging": (hanging, ("Making up", "Hanging")),
    "marks": (marks, ("Cutting", "Making up")),
    "labels": (labels, ("Cutting",)),
    "care": (care, ()),
    "choosing": (choosing, ()),
    "workings": (workings, STAGES),
}
"""Sheet -> what builds it, and the stages whose finished steps it rests on."""


class Sheet(Struct, frozen=True):
    """One sheet of a plan."""

    id: SheetId
    title: str
    blocks: tuple[Block, ...]


def sheets_of(plan: Plan, only: Collection[SheetId] | None = None) -> tuple[Sheet, ...]:
    """The sheets named in `only`, or the usual ones that have something to show; in the order of the job."""
    chosen = [id for id in SHEETS if id in (USUAL if only is None else only)]
    made = ((id, SHEETS[id][0](plan) or ([] if only is None else [Para(NOTHING)])) for id in chosen)
    return tuple(Sheet(id, TITLES[id], (*_changed(plan, id), *blocks)) for id, blocks in made if blocks)


def _changed(plan: Plan, sheet: SheetId) -> list[Block]:
    """The finished steps that have changed and that the sheet rests on."""
    _, stages = SHEETS[sheet]
    return points("changed", changed_in_words(each for each in plan.changed if (each.stage or "Cutting") in stages))
