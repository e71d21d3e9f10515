"""A length of cloth to scale, upright: the squared end at the top, pieces with number and size, offcuts hatched."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from wizard.render.drawings.scene import Box, Label, Scene, Shape, Stroke
from wizard.render.figure_text import unitless_row
from wizard.trade.compare_ways import cloth_value
from wizard.trade.cutting import Layout, Offcut
from wizard.trade.formatting import ruler_of
from wizard.trade.job_fields import Cloth
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan_records import Layer, Plan
from wizard.trade.steps.cut_order import OFFCUT_KINDS, CutPiece, CutStretch, cut_stretches, first_number, part_names

KINDS: Final = OFFCUT_KINDS | dict.fromkeys(("side", "below"), "left over")
"""What is left of the cloth, in few words."""


def rolls(plan: Plan, layer: Layer, layout: Layout) -> tuple[Scene, ...]:
    """Each length that a layout of the layer cuts, in the order of the stock."""
    up = way_up(layout, cloth_value(plan, layer, Cloth.match_from) or "hem")
    cut = cut_stretches(layer, layout, first_number(plan.layers, layer))
    return tuple(_roll(plan, roll_title(layer, each), each, up) for each in cut)


def way_up(layout: Layout, level: str, *, lying: bool = False) -> str:
    """The arrow for the way up: away from the squared end, unless the pattern is level along the `top`.

    Pieces along the roll have their tops to the right. `lying`: as the roll is drawn with its length to the right.
    """
    upright = "→" if layout.way == "along" else "↑" if level == "top" else "↓"
    return {"→": "↓", "↑": "←", "↓": "→"}[upright] if lying else upright


def squared_end(scene: Scene) -> Length:
    """Where the squared end is in a roll drawn upright: at the heavy line. What is squared off is drawn before it,
    and what finding the level of a pattern takes between it and the first piece."""
    return next((each.y1 for each in scene.shapes if isinstance(each, Stroke) and each.pen == "heavy"), ZERO)


def roll_title(layer: Layer, cloth: CutStretch) -> str:
    """The name of a length's drawing: `slate ticking: the roll to buy`."""
    return f"{layer.name}: {cloth.name}"


def _roll(plan: Plan, title: str, cloth: CutStretch, up: str) -> Scene:
    before = -cloth.start
    shapes = (
        *(Box(each.across, each.start + before, each.width, each.along, "fine", "hatched") for each in cloth.offcuts),
        *(shape for each in cloth.pieces for shape in _piece(plan, each, before, up)),
        *(_kind(each, before) for each in cloth.offcuts),
        Stroke(ZERO, before, cloth.stretch.usable, before, "heavy"),
    )
    return Scene(title, cloth.stretch.usable, before + cloth.end, shapes, to_scale=True)


def _kind(offcut: Offcut, before: Length) -> Shape:
    x, y = offcut.across + offcut.width / 2, offcut.start + before + offcut.along / 2
    return Label(x, y, f" {KINDS[offcut.kind]} ")


def _piece(plan: Plan, each: CutPiece, before: Length, up: str) -> Iterator[Shape]:
    """A piece with its number and name, and under that its size with the way up."""
    x, y = each.piece.across + each.wide / 2, each.piece.start + before
    yield Box(each.piece.across, y, each.wide, each.along)
    yield Label(x, y + each.along / 2, f"{each.number} {each.name(part_names(plan))}", short=str(each.number))
    size = " × ".join(unitless_row(ruler_of(plan.job), each.piece.width, each.piece.cut))
    yield Label(x, y + each.along * Fraction(7, 10), f"{size} up {up}", short=size)
