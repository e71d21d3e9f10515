"""Every sheet there is, in the order in which a job needs them."""

from __future__ import annotations

from collections.abc import Callable, Collection
from typing import Final

from msgspec import Struct

from wizard.sheets.kinds.care import care
from wizard.sheets.kinds.hanging import hanging
from wizard.sheets.kinds.labels import labels
from wizard.sheets.kinds.names import TITLES, USUAL, SheetId
from wizard.sheets.kinds.simple import buying, choosing, cutting, making_up, overview
from wizard.sheets.kinds.strips import strips
from wizard.sheets.kinds.workings import workings
from wizard.sheets.matter import Matter, Para
from wizard.trade.plan import Plan

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


class Sheet(Struct, frozen=True):
    """One sheet of a plan."""

    id: SheetId
    title: str
    matter: tuple[Matter, ...]


def sheets_of(plan: Plan, only: Collection[SheetId] | None = None) -> tuple[Sheet, ...]:
    """The sheets named in `only`, or the usual ones that have something to show; in the order of the job."""
    chosen = [id for id in _BUILT if id in (USUAL if only is None else only)]
    made = [(id, tuple(_BUILT[id](plan))) for id in chosen]
    return tuple(Sheet(id, TITLES[id], matter or (Para(NOTHING),)) for id, matter in made if matter or only is not None)
