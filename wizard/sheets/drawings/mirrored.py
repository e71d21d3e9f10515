"""A sketch the other way round: what is drawn for one hand or end stands for the other too."""

from __future__ import annotations

from typing import Final

from wizard.sheets.scene import Anchor, Box, Shape, Stroke, Words
from wizard.trade.lengths import Length

_TURNED: Final[dict[Anchor, Anchor]] = {"start": "end", "middle": "middle", "end": "start"}


def mirrored(shape: Shape, width: Length | None = None, height: Length | None = None) -> Shape:
    """A shape of a sketch so wide with left and right changed over, of one so high with top and bottom; None leaves
    them as they are."""
    if isinstance(shape, Box):
        x, y = _over(shape.x + shape.width, shape.x, width), _over(shape.y + shape.height, shape.y, height)
        return Box(x, y, shape.width, shape.height, shape.pen, shape.fill)
    if isinstance(shape, Stroke):
        xs, ys = [_over(x, x, width) for x in (shape.x1, shape.x2)], [_over(y, y, height) for y in (shape.y1, shape.y2)]
        return Stroke(xs[0], ys[0], xs[1], ys[1], shape.pen, shape.tips)
    anchor = shape.anchor if width is None else _TURNED[shape.anchor]
    return Words(
        _over(shape.x, shape.x, width), _over(shape.y, shape.y, height), shape.text, anchor, shape.pen, shape.short
    )


def _over(far: Length, near: Length, size: Length | None) -> Length:
    """Where something that reaches from `near` to `far` begins, seen the other way round."""
    return near if size is None else size - far
