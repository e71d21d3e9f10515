"""The workings: every figure with its why."""

from __future__ import annotations

from wizard.sheets.blocks.ways import ways_of_cutting
from wizard.sheets.matter import Matter, Reasons
from wizard.trade.plan import Plan
from wizard.trade.rulers import ruler_of
from wizard.trade.whys import why


def workings(plan: Plan) -> list[Matter]:
    """The ways of cutting, then every figure in the order in which they were worked."""
    if not plan.figures:
        return []
    ruler = ruler_of(plan.job)
    return [*ways_of_cutting(plan), Reasons(tuple(why(each, ruler) for each in plan.figures.values()))]
