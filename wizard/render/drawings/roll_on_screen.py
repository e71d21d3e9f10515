"""A length of cloth to scale, with its cuts: numbered pieces, hatched offcuts, the squared end first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

from msgspec import Struct

from wizard.render.drawings.scene import Box, Label, Scene, Shape, Stroke, transposed
from wizard.render.figure_text import unitless_row
from wizard.render.plain_text import cell_len, clipped, literal
from wizard.trade.cutting import Layout, Offcut
from wizard.trade.formatting import Ruler
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan_records import Layer
from wizard.trade.steps.cut_order import OFFCUT_KINDS, CutPiece, CutStretch, cut_stretches


class LabelStyle(Struct, frozen=True):
    """What is written on the pieces."""

    names: Mapping[str, str] = {}
    """Part id -> what it is called, else the id is written."""
    up: str = ""
    """An arrow for the way up, as the roll is drawn upright: beside the name, which is then shortened to its piece."""
    ruler: Ruler | None = None
    """Where it is given, also each piece's size, with the way up beside that, and what the offcuts are: for whoever
    comes near enough to read."""


PLAIN: Final = LabelStyle()


def rolls(layer: Layer, layout: Layout, style: LabelStyle = PLAIN, *, lying: bool = False) -> tuple[Scene, ...]:
    """Each length that is cut, in the order of the stock. `lying`: the length runs to the right instead of down."""
    scenes = (_roll(roll_title(layer, each), each, style) for each in cut_stretches(layer, layout))
    return tuple(_lying(scene) if lying else scene for scene in scenes)


def way_up(layout: Layout, level: str, *, lying: bool = False) -> str:
    """The arrow for the way up: away from the squared end, unless the pattern is level along the `top`.

    Pieces along the roll have their tops to the right. `lying`: as the roll is drawn with its length to the right.
    """
    upright = "→" if layout.way == "along" else "↑" if level == "top" else "↓"
    return {"→": "↓", "↑": "←", "↓": "→"}[upright] if lying else upright


NAME_SIZES: Final = (24, 16, 10, 6)
"""Columns that a long name is shortened to, the first of them that fits."""
KINDS: Final = OFFCUT_KINDS | dict.fromkeys(("side", "below"), "left over")
"""What is left of the cloth, in few words."""


def squared_end(scene: Scene) -> Length:
    """Where the squared end is in a roll drawn upright: at the heavy line. What is squared off is drawn before it,
    and what finding the level of a pattern takes between it and the first piece."""
    return next((each.y1 for each in scene.shapes if isinstance(each, Stroke) and each.pen == "heavy"), ZERO)


def roll_title(layer: Layer, cloth: CutStretch) -> str:
    """The name of a length's drawing: `slate ticking: the roll to buy`."""
    return f"{layer.name}: {cloth.name}"


def _roll(title: str, cloth: CutStretch, style: LabelStyle) -> Scene:
    before = -cloth.start
    shapes = (
        *(Box(each.across, each.start + before, each.width, each.along, "fine", "hatched") for each in cloth.offcuts),
        *(shape for each in cloth.pieces for shape in _piece(each, before, style)),
        *(_kind(each, before) for each in cloth.offcuts if style.ruler is not None),
        Stroke(ZERO, before, cloth.stretch.usable, before, "heavy"),
    )
    return Scene(title, cloth.stretch.usable, before + cloth.end, shapes, to_scale=True)


def _kind(offcut: Offcut, before: Length) -> Shape:
    x, y = offcut.across + offcut.width / 2, offcut.start + before + offcut.along / 2
    return Label(x, y, f" {KINDS[offcut.kind]} ")


def _piece(each: CutPiece, before: Length, style: LabelStyle) -> Iterator[Shape]:
    """A piece with its label; with its size under that where there is a ruler."""
    across, y = each.piece.across, each.piece.start + before
    text, *shorter = _labels(each, style)
    x = across + each.wide / 2
    yield Box(across, y, each.wide, each.along)
    yield Label(x, y + each.along / 2, text, "middle", "line", str(each.number), tuple(shorter))
    if style.ruler is not None:
        size = " × ".join(unitless_row(style.ruler, each.piece.width, each.piece.cut))
        yield Label(x, y + each.along * Fraction(7, 10), f"{size} up {style.up}", "middle", "line", size)


def _labels(each: CutPiece, style: LabelStyle) -> Iterator[str]:
    """Number, name and the way up; where that is beside them, also shorter, down to the number and the arrow."""
    piece, up = each.piece, style.up if style.ruler is None else ""
    name, end = style.names.get(piece.strip, piece.strip), f"{piece.order}/{each.of} {up}".rstrip()
    yield f"{each.number} {name} {end}"
    if up:
        shown = literal(name)
        yield from (f"{each.number} {clipped(shown, size)} {end}" for size in NAME_SIZES if size < cell_len(shown))
        yield f"{each.number} {up}"


def _lying(scene: Scene) -> Scene:
    """The scene with right and down changed over; the squared end comes to the left."""
    return Scene(scene.title, scene.height, scene.width, tuple(map(transposed, scene.shapes)), scene.to_scale)
