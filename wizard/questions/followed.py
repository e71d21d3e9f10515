"""What came of following a way of cutting, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.trade.plan import Layer, Plan

if TYPE_CHECKING:
    # The ways are laid out only when they are looked at.
    from wizard.trade.compare_ways import Way


def followed_words(way: Way, before: Plan, after: Plan) -> str:
    """That a way is followed, and which other layers it changed: how widths are joined is one answer for all."""
    others = [layer.name for layer in after.layers if layer.id != way.layer and _changed(layer, before)]
    also = f" How widths are joined goes for every layer: {' and '.join(others)} changed too." if others else ""
    return f"Followed: {way.title}.{also}"


def _changed(layer: Layer, before: Plan) -> bool:
    was = next((each for each in before.layers if each.id == layer.id), None)
    if was is None or was.cutting is None or layer.cutting is None:
        return False
    return (was.buy.value, was.cutting.best.joins) != (layer.buy.value, layer.cutting.best.joins)
