"""Each section as it hangs, seen from the room, to scale: its finished length and its drops."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from typing import Final

from wizard.render.drawings.scene import Anchor, Box, Label, Scene, Shape, Stroke
from wizard.trade.formatting import Ruler, shown
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan_records import Part

FOLDS: Final = 40
"""Folds that are drawn along a section."""
BAND: Final = Fraction(1, 24)
"""Height of the tape, and of the line of lettering over it, in parts of the length."""


def finished(part: Part, ruler: Ruler, longest: Length) -> Scene | None:
    """The drawing, as wide as the `longest` of the skirt takes; None while its length or its drop is not known."""
    long, drop = part.gathered.value, part.drop.value
    if not long or not drop:
        return None
    drops = _drops(part, drop)
    wide = max(long, longest)
    high = 2 * wide * BAND + max(each for _, each in drops)
    shapes = tuple(_shapes(long, wide, drops, ruler))
    return Scene(f"{part.name}, from the {part.left_is} to the {part.right_is}", wide, high, shapes, to_scale=True)


def _drops(part: Part, drop: Length) -> list[tuple[Length, Length]]:
    """Where each drop is, from the left end, and how long; of a level hem the same at both ends."""
    length = part.gathered.value or ZERO
    if part.follows_floor and len(part.readings) > 1:
        run = part.readings[-1].at
        return [(length * (each.at / run if run else Fraction(0)), each.finished) for each in part.readings]
    return [(ZERO, drop), (length, drop)]


def _shapes(long: Length, wide: Length, drops: list[tuple[Length, Length]], ruler: Ruler) -> Iterator[Shape]:
    top = 2 * wide * BAND
    yield Stroke(ZERO, top / 4, long, top / 4, tips=True)
    yield Label(long / 2, top / 4, f" {shown(long, ruler)} ")
    yield Box(ZERO, top * Fraction(2, 3), long, top / 3, "heavy")
    for (x1, first), (x2, last) in pairwise(drops):
        yield Stroke(x1, top + first, x2, top + last)
        for fold in range(round(FOLDS * ((x2 - x1) / long)) + 1):
            x = min(x1 + long * Fraction(fold, FOLDS), x2)
            down = first + (last - first) * ((x - x1) / (x2 - x1)) if x2 > x1 else first
            yield Stroke(x, top, x, top + down, "fine")
    for at, each in drops if len({each for _, each in drops}) > 1 else drops[:1]:
        anchor: Anchor = "end" if at > long / 2 else "start"
        beside = -1 if at > long / 2 else 1
        yield Stroke(at, top, at, top + each, tips=True)
        yield Label(at + beside * wide / 100, top + each / 2, f" {shown(each, ruler)} ", anchor)
