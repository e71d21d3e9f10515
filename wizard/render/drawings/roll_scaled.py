"""A length of cloth to scale, with its cuts: numbered pieces, hatched offcuts, the squared end first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Final

from msgspec import Struct

from wizard.render.cut_order import OFFCUT_KINDS, CutPiece, in_cutting_order, on_stretch, stretch_name
from wizard.render.drawings.scene import Box, Label, Scene, Shape, Stroke, transposed
from wizard.render.figure_text import unitless
from wizard.render.plain_text import cell_len, clipped, literal
from wizard.trade.cutting import Layout, Offcut, Stretch
from wizard.trade.formatting import Ruler
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan import Layer


def rolls(
    layer: Layer,
    layout: Layout,
    names: Mapping[str, str] | None = None,
    *,
    lying: bool = False,
    detail: Detail | None = None,
    up: str = "",
) -> tuple[Scene, ...]:
    """Each length that is cut, in the order of the stock.

    `names`: part id -> what it is called, for the labels, else the id. `lying`: the length runs to the right instead of
    down. `detail`: also each piece's size and way up, and what the offcuts are, for whoever comes near enough to read.
    `up`: the arrow for the way up, beside the names; a name too long for its piece is then shortened.
    """
    numbered = in_cutting_order(layer, layout)
    style = LabelStyle(names or {}, detail, up)
    scenes = (_roll(layer, layout, each, numbered, style) for each in cut_stretches(layer, layout))
    return tuple(_lying(scene) if lying else scene for scene in scenes)


class Detail(Struct, frozen=True):
    """What is written on the pieces besides their numbers and names."""

    ruler: Ruler
    up: str
    """An arrow for the way up, as the roll is drawn."""


class LabelStyle(Struct, frozen=True):
    """What is written on the pieces, and how."""

    names: Mapping[str, str]
    detail: Detail | None
    up: str


def way_up(layout: Layout, level: str, *, lying: bool = False) -> str:
    """The arrow for the way up: away from the squared end, unless the pattern is level along the `top`.

    Pieces along the roll have their tops to the right. `lying`: as the roll is drawn with its length to the right.
    """
    upright = "→" if layout.way == "along" else "↑" if level == "top" else "↓"
    return {"→": "↓", "↑": "←", "↓": "→"}[upright] if lying else upright


NAME_SIZES: Final = (24, 16, 10, 6)
"""Columns that a long name is shortened to, the first of them that has room."""
KINDS: Final = OFFCUT_KINDS | dict.fromkeys(("side", "below"), "left over")
"""What is left of the cloth, in few words."""


def squared_end(scene: Scene) -> Length:
    """Where the squared end lies in a roll drawn upright: at the heavy line. What is squared off is drawn before it,
    and what finding the level of a pattern takes between it and the first piece."""
    return next((each.y1 for each in scene.shapes if isinstance(each, Stroke) and each.pen == "heavy"), ZERO)


def cut_stretches(layer: Layer, layout: Layout) -> list[Stretch]:
    """The lengths of cloth that are cut, in the order of the stock."""
    used = {each.stretch for each in layout.uses}
    return [each for each in layer.stock if each.id in used]


def roll_title(layer: Layer, stretch: Stretch) -> str:
    """The name of a length's drawing: `slate ticking: the roll to buy`."""
    return f"{layer.name}: {stretch_name(stretch.id)}"


def extent(pieces: Sequence[CutPiece], offcuts: Sequence[Offcut]) -> tuple[Length, Length]:
    """From where to where a length is drawn, from its squared end: what is squared off lies before it."""
    ends = (*(each.end for each in pieces), *(each.start + each.along for each in offcuts))
    return min([ZERO, *(each.start for each in offcuts)]), max(ends)


def _roll(layer: Layer, layout: Layout, stretch: Stretch, numbered: tuple[CutPiece, ...], written: LabelStyle) -> Scene:
    offcuts = [each for each in layout.offcuts if each.stretch == stretch.id]
    pieces = on_stretch(numbered, stretch.id)
    start, end = extent(pieces, offcuts)
    before = -start
    shapes = [
        *(_offcut(each, before) for each in offcuts),
        *(shape for each in pieces for shape in _piece(each, before, written)),
        *(_kind(each, before) for each in offcuts if written.detail is not None),
        Stroke(ZERO, before, stretch.usable, before, "heavy"),
    ]
    return Scene(roll_title(layer, stretch), stretch.usable, before + end, tuple(shapes), to_scale=True)


def _offcut(offcut: Offcut, before: Length) -> Shape:
    return Box(offcut.across, offcut.start + before, offcut.width, offcut.along, "fine", "hatched")


def _kind(offcut: Offcut, before: Length) -> Shape:
    x, y = offcut.across + offcut.width / 2, offcut.start + before + offcut.along / 2
    return Label(x, y, f" {KINDS[offcut.kind]} ", short="")


def _piece(each: CutPiece, before: Length, written: LabelStyle) -> list[Shape]:
    piece, detail = each.piece, written.detail
    y = piece.start + before
    text, *shorter = _labels(each, written)
    middle = (piece.across + each.wide / 2, y + each.along / 2)
    return [
        Box(piece.across, y, each.wide, each.along),
        Label(*middle, text, "middle", "line", str(each.number), tuple(shorter)),
        *([] if detail is None else [_size(each, y, detail)]),
    ]


def _labels(each: CutPiece, written: LabelStyle) -> Iterator[str]:
    """Number, name and the way up; where the way up is wanted, also shorter, down to the number and the arrow."""
    piece = each.piece
    name, end = written.names.get(piece.strip, piece.strip), f"{piece.order}/{each.of} {written.up}".rstrip()
    yield f"{each.number} {name} {end}"
    if written.up:
        shown = literal(name)
        yield from (f"{each.number} {clipped(shown, size)} {end}" for size in NAME_SIZES if size < cell_len(shown))
        yield f"{each.number} {written.up}"


def _size(each: CutPiece, y: Length, detail: Detail) -> Shape:
    """Width by cut length, and the way up, under the piece's name."""
    size = f"{unitless(each.piece.width, detail.ruler)} × {unitless(each.piece.cut, detail.ruler)}"
    x, y = each.piece.across + each.wide / 2, y + each.along * Fraction(7, 10)
    return Label(x, y, f"{size} up {detail.up}", "middle", "line", size)


def _lying(scene: Scene) -> Scene:
    """The scene with right and down changed over; the squared end comes to the left."""
    return Scene(scene.title, scene.height, scene.width, tuple(map(transposed, scene.shapes)), scene.to_scale)
