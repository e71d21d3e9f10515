"""Laying out, remembered: a layer is laid out again only when its strips, its cloth or its rules change."""

from __future__ import annotations

from functools import lru_cache

from wizard.trade.cutting import lay_out
from wizard.trade.cutting.strips import Cutting, Refusal, Rules, Stretch, Strip


@lru_cache(maxsize=512)
def cut_plan(strips: tuple[Strip, ...], stock: tuple[Stretch, ...], rules: Rules) -> Cutting | Refusal:
    """What `lay_out` answers; the same question is worked once."""
    return lay_out(strips, stock, rules)
