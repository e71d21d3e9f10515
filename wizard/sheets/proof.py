"""What is known of how good a cutting plan is, and the other ways worth knowing, in words."""

from __future__ import annotations

from wizard.sheets.figure_text import counted, shop_text
from wizard.sheets.lines import lines_of
from wizard.sheets.matter import Heading, Matter, Pairs
from wizard.sheets.page import Page
from wizard.sheets.saving import saving_text
from wizard.trade.cutting import Layout
from wizard.trade.formatting import Ruler, shown
from wizard.trade.lengths import ZERO
from wizard.trade.plan import Layer, Plan


def proof_text(layout: Layout, ruler: Ruler) -> str:
    """Proven least and among what, or the greatest saving there could be; beside it what no layout beats."""
    proof = layout.proof
    area = f" No way of cutting at all uses less than {shown(layout.area_bound, ruler, 'down')}."
    if not proof.least:
        return f"not proven least: {proof.among}, another plan could {saving_text(layout, ruler)}.{area}"
    how = {
        "bound": "it meets a bound",
        "search": "a finished search left nothing shorter",
        "policy": "the way of joining settles it",
    }
    joins = ", and no plan of this length has fewer joins" if proof.fewest_joins else ""
    return f"proven least {proof.among} ({how.get(proof.by, proof.by)}){joins}.{area}"


def other_ways(plan: Plan, layer: Layer, page: Page) -> list[str]:
    """The other ways in lines."""
    return lines_of(ways(plan, layer, page.ruler), page)


def ways(plan: Plan, layer: Layer, ruler: Ruler) -> list[Matter]:
    """Besides the one that is followed: the least cloth, fewer joins for the same length to buy, and shorter ways of
    another kind."""
    cutting = layer.cutting
    if cutting is None:
        return []
    found = [("least cloth in cross cuts", cutting.least), ("fewest joins", cutting.fewest_joins)]
    found += [(each.way.replace("along", "lanes along the roll"), each) for each in cutting.others]
    rows = tuple(
        (name, _way(plan, layer, way, ruler)) for name, way in found if way is not None and way != cutting.best
    )
    return [Heading("Other ways", 2), Pairs(rows)] if rows else []


def _way(plan: Plan, layer: Layer, way: Layout, ruler: Ruler) -> str:
    buys = f", to buy {shop_text(plan.job, f'cloth.{layer.id}', way.buy)}" if way.buy > ZERO else ", nothing to buy"
    return f"{shown(way.used, ruler, 'up')} used, {counted(way.joins, 'join')}{buys}"
