"""Every sheet there is, in the order in which a job needs them."""

from __future__ import annotations

from collections.abc import Callable, Collection
from typing import Final

from msgspec import Struct

from wizard.project.finished_steps import changed_in_words
from wizard.sheets.kinds.care import care
from wizard.sheets.kinds.hanging import hanging
from wizard.sheets.kinds.labels import labels
from wizard.sheets.kinds.names import TITLES, USUAL, SheetId
from wizard.sheets.kinds.simple import buying, choosing, cutting, making_up, overview
from wizard.sheets.kinds.strips import strips
from wizard.sheets.kinds.workings import workings
from wizard.sheets.matter import Matter, Para, Points
from wizard.trade.plan import STAGES, Plan, Stage

NOTHING: Final = "Nothing to show yet: the plan wants more answers first."

_BUILT: Final[dict[SheetId, Callable[[Plan], list[Matter]]]] = {
    "overview": overview,
    "buying": buying,
    "cutting": cutting,
    "making-up": making_up,
    "hanging": hanging,
    "marks": strips,
    "labels": labels,
    "care": care,
    "choosing": choosing,
    "workings": workings,
}


ALL: Final[tuple[Stage, ...]] = STAGES
CONCERNED: Final[dict[SheetId, tuple[Stage, ...]]] = {
    "buying": ("Cloth",),
    "cutting": ("Cloth", "Cutting"),
    "making-up": ("Cutting", "Making up"),
    "hanging": ("Making up", "Hanging"),
    "marks": ("Cutting", "Making up"),
    "labels": ("Cutting",),
    "care": (),
    "choosing": (),
}
"""Sheet -> the stages whose finished steps it rests on; all of them for the others."""


class Sheet(Struct, frozen=True):
    """One sheet of a plan."""

    id: SheetId
    title: str
    matter: tuple[Matter, ...]


def sheets_of(plan: Plan, only: Collection[SheetId] | None = None) -> tuple[Sheet, ...]:
    """The sheets named in `only`, or the usual ones that have something to show; in the order of the job."""
    chosen = [id for id in _BUILT if id in (USUAL if only is None else only)]
    made = [(id, tuple(_BUILT[id](plan))) for id in chosen]
    return tuple(
        Sheet(id, TITLES[id], (*_changed(plan, id), *(matter or (Para(NOTHING),))))
        for id, matter in made
        if matter or only is not None
    )


def _changed(plan: Plan, sheet: SheetId) -> tuple[Matter, ...]:
    """The finished steps that have changed and that the sheet rests on."""
    stages = CONCERNED.get(sheet, ALL)
    said = tuple(changed_in_words(each for each in plan.changed if (each.stage or "Cutting") in stages))
    return (Points("changed", said),) if said else ()
