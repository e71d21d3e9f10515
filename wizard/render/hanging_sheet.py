"""At the bed: the steps once for all sections, each section's rail drawn from inside, and where every fixing goes."""

from __future__ import annotations

from typing import Final

from wizard.render.document import Block, Drawing, Heading, Pairs, headed
from wizard.render.drawings.fixings_view import rail_inside
from wizard.render.figure_text import unitless, unitless_row
from wizard.render.making_up_sheet import in_stage, tools
from wizard.render.merged_steps import work
from wizard.trade.formatting import Ruler, ruler_of, shown
from wizard.trade.lengths import ZERO
from wizard.trade.plan_records import FixingPlan, Plan

RAIL_ROWS: Final = 7
"""Lines of a drawing in characters."""
LEGEND: Final = "Seen from inside the bed. Set fixings 1, 2 and 3 first; leave out ×."


def hanging(plan: Plan) -> list[Block]:
    """For the bed: what to have at hand, the steps, and the rails."""
    steps, ruler = in_stage(plan, "Hanging"), ruler_of(plan.job)
    drawn = [(each, rail_inside(each, each.fixings, ruler)) for each in plan.parts if each.fixings]
    # Where the hem follows the floor the drop at every mark is written in.
    pictures = [
        Drawing(scene, RAIL_ROWS, (LEGEND,) if part is drawn[-1][0] else (), half=not part.follows_floor)
        for part, scene in drawn
        if scene is not None
    ]
    return [*tools(steps), *work(plan, steps), *headed("The rails", 2, pictures)] if steps else []


FIRST: Final = 5
"""How many fixings are named in the order in which they are set; the rest go on outwards."""


def fixing_lists(plan: Plan) -> list[Block]:
    """For each part every fixing, seen from inside the bed."""
    ruler = ruler_of(plan.job)
    parts = [(part.name, part.fixings) for part in plan.parts if part.fixings]
    lists = [each for name, of in parts for each in (Heading(name, 2), Pairs(tuple(_fixings(of, ruler))))]
    return headed("Fixings, seen from inside the bed", 1, lists)


def _fixings(plan: FixingPlan, ruler: Ruler) -> list[tuple[str, str]]:
    if not plan.positions:
        gaps = ", ".join(f"{unitless(first, ruler)} to {unitless(last, ruler)}" for first, last in plan.gaps)
        runs = f"the whole length{f', except {gaps}' if gaps else ''}"
        return [("measured from", plan.measured_from), ("runs", runs)]
    ordered = sorted(plan.positions, key=lambda each: each.order)
    skipped = ", ".join(unitless_row(ruler, *plan.skipped))
    rows = (
        ("measured from", plan.measured_from),
        ("spacing", shown(plan.spacing, ruler) if plan.spacing and plan.spacing > ZERO else ""),
        ("leg", "" if plan.leg is None else shown(plan.leg, ruler)),
        ("set first", ", then ".join(unitless(each.at, ruler) for each in ordered[:FIRST])),
        (f"all {len(ordered)}", ", ".join(unitless(each.at, ruler) for each in plan.positions)),
        ("left out", f"{skipped} (in the way)" if skipped else ""),
    )
    return [(label, value) for label, value in rows if value]
