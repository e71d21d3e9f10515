"""The workings: every figure with its why."""

from __future__ import annotations

from wizard.sheets.matter import Matter, Reasons
from wizard.trade.plan import Plan
from wizard.trade.rulers import ruler_of
from wizard.trade.whys import why


def workings(plan: Plan) -> list[Matter]:
    """In the order in which they were worked."""
    ruler = ruler_of(plan.job)
    return [Reasons(tuple(why(each, ruler) for each in plan.figures.values()))] if plan.figures else []
