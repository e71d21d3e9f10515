"""One drawing, for two pens: shapes in real lengths, drawn in characters by `scene_text` and in SVG by `scene_svg`.

The origin is the top left corner; x runs to the right, y downwards. A scene holds the user's text as typed: the pens
make it literal.
"""

from __future__ import annotations

from typing import Final, Literal

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.lengths import ZERO, Length

Pen = Literal["line", "heavy", "fine", "picked"]
"""`heavy` for what is solid (rail, floor), `fine` for what is behind or only helps, `picked` for the length asked for.
Each has its own characters and stroke, so that nothing depends on colour."""
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
    """A label. In characters it keeps clear of others: one that does not fit is shortened, or left out."""

    x: Length
    y: Length
    text: str
    anchor: Anchor = "middle"
    pen: Pen = "line"
    short: str = ""
    """What is written where the whole text does not fit."""
    shorter: tuple[str, ...] = ()
    """What is tried before that, in characters, from the longest on."""
    stays: bool = False
    """True when it names its own height: it may move sideways only."""
    second_in: Length | None = None
    """Height of the box that has another label too. In characters it is written only where both fit."""
    size: Size = "usual"
    """How large the lettering is, on paper; characters have one size."""
    key: str = ""
    """The file's key of the length that it tells; where lengths are typed it becomes the slot of that length."""
    words: str = ""
    """What is written before the slot, where both fit."""


Shape = Box | Stroke | Label


class Scene(Struct, frozen=True):
    """A drawing. Nothing in it is outside 0..width, 0..height."""

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
    """A shape of a drawing that wide with left and right changed over, of one that high with top and bottom; None
    leaves them as they are."""

    def x(at: Length, size: Length = ZERO) -> Length:
        return at if width is None else width - at - size

    def y(at: Length, size: Length = ZERO) -> Length:
        return at if height is None else height - at - size

    if isinstance(shape, Box):
        return replace(shape, x=x(shape.x, shape.width), y=y(shape.y, shape.height))
    if isinstance(shape, Stroke):
        return replace(shape, x1=x(shape.x1), y1=y(shape.y1), x2=x(shape.x2), y2=y(shape.y2))
    return replace(shape, x=x(shape.x), y=y(shape.y), anchor=shape.anchor if width is None else _TURNED[shape.anchor])
