"""Laying out, remembered: a layer is laid out again only when its strips, its cloth or its rules change."""

from __future__ import annotations

from functools import lru_cache
from typing import Final

from wizard.trade.cutting import lay_out
from wizard.trade.cutting.strips import Cutting, Refusal, Rules, Stretch, Strip
from wizard.trade.lengths import total

MOST_WIDTHS: Final = 1000
"""More widths than this in one layer is no bed skirt but a slip in typing; listing them would take for ever."""


@lru_cache(maxsize=512)
def cut_plan(strips: tuple[Strip, ...], stock: tuple[Stretch, ...], rules: Rules) -> Cutting | Refusal:
    """What `lay_out` answers; the same question is worked once. What is far too much to cut is refused outright."""
    return _too_much(strips, stock) or lay_out(strips, stock, rules)


def _too_much(strips: tuple[Strip, ...], stock: tuple[Stretch, ...]) -> Refusal | None:
    """Refused when even without joins there would be more widths (or lanes, as long as a width is wide) than that."""
    widest = max((stretch.usable for stretch in stock), default=None)
    needed = total(strip.flat for strip in strips)
    if widest is None or needed <= widest * MOST_WIDTHS:
        return None
    longest = max(strips, key=lambda strip: strip.flat)
    return Refusal("too much", longest.id, needed, widest * MOST_WIDTHS)
