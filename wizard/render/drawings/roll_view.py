"""A length of cloth to scale with its cuts numbered: upright for the screen, squared end at the top; lying on paper."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from wizard.render.drawings.scene import Box, Label, Scene, Shape, Size, Stroke
from wizard.render.figure_text import unitless_row
from wizard.trade.compare_ways import cloth_value
from wizard.trade.cutting import Layout, Offcut
from wizard.trade.formatting import ruler_of
from wizard.trade.job_fields import Cloth
from wizard.trade.lengths import ZERO, Length, ceiling
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
    return Label(x, y, f" {KINDS[offcut.kind]} ", stays=True)


def _piece(plan: Plan, each: CutPiece, before: Length, up: str) -> Iterator[Shape]:
    """A piece with its number and name, and under that its size with the way up."""
    x, y = each.piece.across + each.wide / 2, each.piece.start + before
    yield Box(each.piece.across, y, each.wide, each.along)
    yield Label(
        x, y + each.along / 2, f"{each.number} {each.name(part_names(plan))}", short=str(each.number), stays=True
    )
    size = " × ".join(unitless_row(ruler_of(plan.job), each.piece.width, each.piece.cut))
    below = y + each.along * Fraction(7, 10)
    yield Label(x, below, f"{size} up {up}", short=size, stays=True, second_in=each.along)


LETTERS: Final = Fraction(1, 32)
"""Height of the usual lettering, in parts of the drawing's width."""
NARROWEST: Final = Fraction(1, 24)
"""The narrowest piece takes at least this much of the drawing's width, so that its number fits."""
LARGE: Final = Fraction(1, 16)
"""A piece that takes as much has its number in large letters."""
TALLEST: Final = Fraction(2, 5)
"""How tall a drawing is at most, in parts of its width."""


def rolls_on_paper(layer: Layer, layout: Layout, level: str, first: int = 1) -> list[Scene]:
    """The drawings of each length that is cut, in the order of the stock. `level`: the edge that begins at the nearer
    mark, `hem` or `top`; it says which way is up. `first`: the number of the first piece."""
    up = way_up(layout, level, lying=True)
    return [scene for cloth in cut_stretches(layer, layout, first) for scene in _parts(layer, cloth, up)]


def _parts(layer: Layer, cloth: CutStretch, up: str) -> Iterator[Scene]:
    spans = list(_spans(cloth))
    longest = max(end - start for start, end in spans)
    wide = max(longest, cloth.stretch.usable / TALLEST)
    for number, (start, end) in enumerate(spans, start=1):
        part = f", part {number} of {len(spans)}" if len(spans) > 1 else ""
        shapes = tuple(_shapes(cloth, start, end, up, wide))
        yield Scene(f"{roll_title(layer, cloth)}{part}", wide, cloth.stretch.usable, shapes, to_scale=True)


def _spans(cloth: CutStretch) -> Iterator[tuple[Length, Length]]:
    """From where to where each part goes, of about one length."""
    ends = {each.end for each in cloth.pieces}
    through = {at for each in cloth.pieces for at in ends if each.piece.start < at < each.end}
    breaks = sorted((ends - through) | {cloth.end})
    start, narrowest = cloth.start, min(each.along for each in cloth.pieces)
    for left in range(min(ceiling((cloth.end - start) * NARROWEST / narrowest), len(breaks)), 0, -1):
        even = start + (cloth.end - start) / left
        end = cloth.end if left == 1 else min(breaks, key=lambda at: (abs(at - even), at))
        if start < end:
            yield start, end
            start = end


def _shapes(cloth: CutStretch, start: Length, end: Length, up: str, width: Length) -> Iterator[Shape]:
    for left in cloth.offcuts:
        first, last = max(left.start, start), min(left.start + left.along, end)
        if first < last:
            yield Box(first - start, left.across, last - first, left.width, "fine", "hatched")
    for each in cloth.pieces:
        if start <= each.piece.start < end:
            x, y = each.piece.start - start, each.piece.across
            yield Box(x, y, each.along, each.wide)
            yield from _numbered(x, each, up, width)
    if start <= ZERO:
        yield Stroke(-start, ZERO, -start, cloth.stretch.usable, "heavy")


def _numbered(x: Length, each: CutPiece, up: str, width: Length) -> Iterator[Shape]:
    """The number over the arrow; in a low piece before it, where both fit."""
    middle, y, letters = x + each.along / 2, each.piece.across, width * LETTERS
    if each.wide >= letters * 4:
        size: Size = "large" if each.along >= width * LARGE else "usual"
        yield Label(middle, y + each.wide / 3, str(each.number), size=size)
        yield Label(middle, y + each.wide * Fraction(3, 4), up)
    else:
        yield Label(middle, y + each.wide / 2, f"{each.number} {up}" if each.along >= letters * 3 else str(each.number))
