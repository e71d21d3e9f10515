"""One drawing, for two pens: shapes in real lengths, drawn in characters by `scene_text` and in SVG by `scene_svg`.

The origin is the top left corner; x runs to the right, y downwards. A scene holds the user's text as typed: the pens
make it literal.
"""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from wizard.trade.lengths import Length

Pen = Literal["line", "heavy", "fine", "picked"]
"""`heavy` for what is solid (rail, floor), `fine` for what is behind or only helps, `picked` for the length asked for.
Each has its own characters and stroke, so that nothing depends on colour."""
Fill = Literal["none", "hatched"]
Anchor = Literal["start", "middle", "end"]
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
    """A straight line."""

    x1: Length
    y1: Length
    x2: Length
    y2: Length
    pen: Pen = "line"
    tips: bool = False
    """True for what is measured: it has arrow tips at both ends where it is level or upright."""


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
