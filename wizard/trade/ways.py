"""The ways in which a layer was found to be cut, the one that is followed, and what cannot hold along the roll."""

from __future__ import annotations

from msgspec.structs import replace

from wizard.trade.cutting import Cutting, Layout, Refusal, Rules
from wizard.trade.job import CutWay


def ways_found(found: Cutting) -> dict[CutWay, Layout]:
    """The layouts besides the least cloth, under the names by which they are chosen."""
    ways: dict[CutWay, Layout] = {}
    if found.fewest_joins is not None:
        ways["fewest joins"] = found.fewest_joins
    for each in found.others:
        if each.way in ("slit", "stacked"):
            ways["slit" if each.way == "slit" else "stacked"] = each
    return ways


def followed(found: Cutting, way: CutWay | None) -> Cutting:
    """`found` with the layout of the chosen way as the one to follow; as it is where that is not to be had.

    What is laid out only when it is looked at stays so unless it is chosen.
    """
    chosen = found.fewest_joins if way == "fewest joins" else None
    if way in ("slit", "stacked"):
        chosen = ways_found(found).get(way)
    return found if chosen is None else replace(found, best=chosen, least=found.best)


def not_along(found: Cutting, rules: Rules, way: CutWay | None, *, all_along: bool) -> Refusal | None:
    """Why a choice cannot hold for a layer laid along the roll; None where all can. `all_along`: no layer lies across,
    so that whole or half widths are joined in none."""
    if all_along and rules.policy != "part widths":
        return Refusal("joins along", None, None, None)
    if way in ("slit", "stacked") or (way == "fewest joins" and found.fewest_joins is None):
        return Refusal("way along", None, None, None)
    return None
