"""Every sheet there is, in the order in which a job needs them."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from functools import partial
from typing import Final

from msgspec import Struct

from wizard.project.finished_steps import changed_in_words
from wizard.render.bed_sheets import overview, survey
from wizard.render.choosing_sheet import choosing
from wizard.render.document import Block, Para, Work, points
from wizard.render.hanging_sheet import hanging
from wizard.render.labels_sheet import care, labels
from wizard.render.making_up_sheet import making_up, marks
from wizard.render.sheet_header import NO_NAME
from wizard.render.sheet_names import TITLES, USUAL, SheetId
from wizard.render.shop_sheet import order_list, shop
from wizard.render.table_sheet import table
from wizard.render.workings_sheet import workings
from wizard.trade.plan_records import STAGES, ChangedStep, Plan, Stage

NOTHING: Final = "Nothing to show yet: answer more questions first."
SHEETS: Final[dict[SheetId, tuple[Callable[[Plan], list[Block]], tuple[Stage, ...]]]] = {
    "overview": (overview, STAGES),
    "shop": (shop, ("Cloth",)),
    "table": (table, ("Cloth", "Cutting")),
    "making-up": (making_up, ("Cutting", "Making up")),
    "marks": (marks, ("Cutting", "Making up")),
    "hanging": (hanging, ("Making up", "Hanging")),
    "care": (care, ()),
    "labels": (labels, ("Cutting",)),
    "survey": (partial(survey, filled=True), ()),
    "survey-empty": (partial(survey, filled=False), ()),
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
    return tuple(Sheet(id, TITLES[id], (*_changed(plan, id, blocks), *blocks)) for id, blocks in made if blocks)


def order_sheet(plans: Sequence[Plan]) -> Sheet:
    """What to buy for several jobs together; unfinished ones are named."""
    unfinished = [each.job.name or NO_NAME for each in plans if not each.complete]
    waits = [Para(f"Incomplete, because the job is unfinished: {'; '.join(unfinished)}.")] if unfinished else []
    return Sheet("shop", "Order list", (*waits, *(order_list(plans) or [Para(NOTHING)])))


def changed_for(plan: Plan, sheet: SheetId) -> list[ChangedStep]:
    """The finished steps that have changed and that the sheet rests on."""
    _, stages = SHEETS[sheet]
    return [each for each in plan.changed if (each.stage or "Cutting") in stages]


def _changed(plan: Plan, sheet: SheetId, blocks: Sequence[Block]) -> list[Block]:
    """Those of them that the sheet does not print: a step says for itself that it has changed."""
    there = {box.id for each in blocks if isinstance(each, Work) for step in each.items for box in step.boxes}
    return points("changed", changed_in_words(each for each in changed_for(plan, sheet) if each.id not in there))
