"""A length of cloth lying, squared end at the left, its cuts numbered as in the cut list: all of it in one drawing.

One too long for the page is drawn in parts, broken after a width, never through one.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from wizard.render.drawings.roll_on_screen import roll_title, way_up
from wizard.render.drawings.scene import Box, Label, Scene, Shape, Size, Stroke
from wizard.trade.cutting import Layout
from wizard.trade.lengths import ZERO, Length, ceiling
from wizard.trade.plan_records import Layer
from wizard.trade.steps.cut_order import CutPiece, CutStretch, cut_stretches

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
