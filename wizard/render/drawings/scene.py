"""One drawing, for two pens: shapes in real lengths, drawn in characters by `scene_text` and in SVG by `scene_svg`.

The origin is the top left corner; x runs to the right, y downwards. A scene holds the user's text as typed: the pens
make it literal.
"""

from __future__ import annotations

from typing import Final, Literal

from msgspec import Struct

from wizard.trade.lengths import Length

Pen = Literal["line", "heavy", "fine", "picked"]
"""`heavy` for what stands there (rail, floor), `fine` for what lies behind or is only a help, `picked` for the length
asked for. Each has characters and a stroke of its own, so nothing hangs on colour."""


Fill = Literal["none", "hatched"]


Anchor = Literal["start", "middle", "end"]


Tips = Literal["none", "both", "end"]
"""`both` for what is measured, `end` for an arrow that points somewhere."""


Size = Literal["usual", "large", "largest"]
"""The larger ones for what is read from afar."""


class Box(Struct, frozen=True):
    """A rectangle; width and height at least zero."""

    x: Length
    y: Length
    width: Length
    height: Length
    pen: Pen = "line"
    fill: Fill = "none"


class Stroke(Struct, frozen=True):
    """A straight line, with arrow tips where it is level or upright and measures something or points somewhere."""

    x1: Length
    y1: Length
    x2: Length
    y2: Length
    pen: Pen = "line"
    tips: Tips = "none"


class Label(Struct, frozen=True):
    """A label. In characters it keeps clear of others: one that finds no room is put shorter, or left out."""

    x: Length
    y: Length
    text: str
    anchor: Anchor = "middle"
    pen: Pen = "line"
    short: str = ""
    """What stands instead where the whole text has no room."""
    shorter: tuple[str, ...] = ()
    """What is tried before that, in characters, from the longest on."""
    stays: bool = False
    """True when it names the very height it stands at: it may move sideways only."""
    size: Size = "usual"
    """How large the lettering is, on paper; characters have one size."""


Shape = Box | Stroke | Label


class Scene(Struct, frozen=True):
    """A drawing. Nothing in it lies outside 0..width, 0..height."""

    title: str
    """What it shows, in words: for whoever cannot see it."""
    width: Length
    """More than zero."""
    height: Length
    """More than zero."""
    shapes: tuple[Shape, ...]
    to_scale: bool
    """True when both directions have one scale (a roll); False for a sketch that may be stretched (a bed)."""


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
    return Label(
        _over(shape.x, shape.x, width), _over(shape.y, shape.y, height), shape.text, anchor, shape.pen, shape.short
    )


def _over(far: Length, near: Length, size: Length | None) -> Length:
    """Where something that reaches from `near` to `far` begins, seen the other way round."""
    return near if size is None else size - far
