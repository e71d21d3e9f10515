"""The class a proof holds for, in words."""

from __future__ import annotations

from functools import lru_cache

from wizard.trade.cutting.strips import Rules
from wizard.trade.formatting import exact
from wizard.trade.lengths import ZERO, Length


def class_of(rules: Rules) -> str:
    """As `of cross-cut plans, part widths, least piece 6 in`."""
    ways = "of lanes along the roll" if rules.along else "of cross-cut plans"
    parts = [ways] if rules.along else [ways, rules.policy]
    if (rules.along or rules.policy == "part widths") and rules.least_piece > ZERO:
        parts.append(_least_piece(rules.least_piece, rules.mark))
    return ", ".join(parts)


@lru_cache(maxsize=16)
def _least_piece(least: Length, mark: Length) -> str:
    return f"least piece {exact(least, unit_of(mark))}"


def unit_of(mark: Length) -> str:
    """The unit a ruler mark belongs to: centimetres when it is a whole number of tenths of a millimetre."""
    return "cm" if (mark.mm * 10).denominator == 1 and mark.inches.denominator & (mark.inches.denominator - 1) else "in"
