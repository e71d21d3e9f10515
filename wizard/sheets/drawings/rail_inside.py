"""A section's tape on its rail, seen from inside the bed, where it is fixed: every fixing, the first ones numbered."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from wizard.sheets.drawings.measures import u
from wizard.sheets.figure_text import bare
from wizard.sheets.scene import Box, Scene, Shape, Stroke, Words
from wizard.trade.formatting import Ruler
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan import FixingPlan, Mark, Part

HEIGHT, UPPER, LOWER, HEM = 14, 3, 5, 11
"""The tape lies from UPPER to LOWER, the hem at HEM: rows of a sketch that is to scale along the tape only."""
FIGURES: Final = (7, 9)
"""Rows of the drops' figures, turn and turn about, so that each has room to its side."""
NUMBERED: Final = 3
"""So many fixings carry their turn: both ends and the middle; the others go outwards from there."""
LEAST_APART: Final = Fraction(1, 9)
"""Drops nearer than this to the one before, in parts of the tape, are drawn without their figure."""


LAST_LABEL: Final = Fraction(8, 9)
"""From here on, in parts of the tape, a figure stands to the left of its line."""


def rail_inside(part: Part, fixing: FixingPlan, marks: tuple[Mark, ...], ruler: Ruler) -> Scene | None:
    """The drawing, from where the section is measured; `marks` as they are met from there. None without a length."""
    length = part.gathered.value
    if length is None or length <= ZERO:
        return None
    shapes = (*_tape(length, fixing), *_fixings(fixing), *_drops(part, marks, length, ruler))
    return Scene(f"{part.name}, seen from inside the bed", length, u(HEIGHT), shapes, to_scale=False)


def _tape(length: Length, fixing: FixingPlan) -> Iterator[Shape]:
    yield Box(ZERO, u(UPPER), length, u(LOWER - UPPER), "heavy")
    yield Words(ZERO, u(HEIGHT), f"measured from {fixing.measured_from}", "start")


def _fixings(fixing: FixingPlan) -> Iterator[Shape]:
    for each in fixing.positions:
        yield Stroke(each.at, u(UPPER), each.at, u(LOWER))
        if each.order <= NUMBERED:
            yield Words(each.at, u(1), str(each.order), "middle", "picked")
    for at in fixing.skipped:
        yield Words(at, u(LOWER + 1), "×", "middle", "picked")


def _drops(part: Part, marks: tuple[Mark, ...], length: Length, ruler: Ruler) -> Iterator[Shape]:
    """The skirt below the tape: the finished drop at each mark, or once where it is the same all along."""
    yield Stroke(ZERO, u(HEM), length, u(HEM), "fine")
    if not part.follows_floor:
        yield from _drop(length / 2, part.drop.value, length, ruler, 0)
        return
    last, count = None, 0
    for mark in marks:
        if last is None or mark.tape - last >= length * LEAST_APART:
            last, count = mark.tape, count + 1
            yield from _drop(mark.tape, mark.drop, length, ruler, count)


def _drop(at: Length, drop: Length | None, length: Length, ruler: Ruler, turn: int) -> Iterator[Shape]:
    if drop is None:
        return
    # At an end it is drawn a little inside, so that figure and line stay on the paper.
    x = min(max(at, length / 100), length * Fraction(99, 100))
    yield Stroke(x, u(LOWER), x, u(HEM), "line", "both")
    row = u(FIGURES[turn % len(FIGURES)])
    if x > length * LAST_LABEL:
        yield Words(x - length / 100, row, bare(drop, ruler), "end")
    else:
        yield Words(x + length / 100, row, bare(drop, ruler), "start")
