"""A section's tape along its length: with the marks of the flat skirt, and on its rail with every fixing.

Sketches to scale along the tape only; down the page they count rows.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from operator import attrgetter
from typing import Final

from wizard.render.drawings.scene import Box, Label, Scene, Shape, Stroke
from wizard.render.figure_text import unitless
from wizard.trade.formatting import Ruler
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan_records import FixingPlan, Mark, Part
from wizard.trade.steps.step_writer import from_right

HEIGHT: Final = Length(14)


def _spread(marks: Iterable[Mark], place: Callable[[Mark], Length], least: Length) -> Iterator[Mark]:
    """The marks in order, without those nearer than `least` to the one before."""
    last: Length | None = None
    for each in marks:
        if last is None or place(each) - last >= least:
            last = place(each)
            yield each


NUMBERS, UPPER, LOWER, BELOW, HEM = map(Length, (1, 3, 5, 6, 11))
"""Of the tape on its rail: rows of the numbers, of its edges, of what is left out below it, and of the hem."""
FIGURES: Final = (Length(7), Length(9))
"""Rows of the drops' figures, alternating, so that each has space beside it."""
NUMBERED: Final = 3
"""How many fixings carry their number: both ends and the middle; the others go outwards from there."""
LEAST_APART: Final = Fraction(1, 9)
"""Drops nearer than this to the one before, in parts of the tape, are drawn without their figure."""
LAST_LABEL: Final = Fraction(5, 6)
"""From here on, in parts of the tape, a figure is written to the left of its line."""


def rail_inside(part: Part, fixing: FixingPlan, ruler: Ruler) -> Scene | None:
    """The drawing as the section is seen from inside the bed, where its right end is at the left. None without a
    length."""
    length = part.gathered.value
    if length is None or length <= ZERO:
        return None
    shapes = (*_tape(part, length, fixing), *_fixings(part, length, fixing), *_drops(part, length, ruler))
    return Scene(f"{part.name}, seen from inside the bed", length, HEIGHT, shapes, to_scale=False)


def _tape(part: Part, length: Length, fixing: FixingPlan) -> Iterator[Shape]:
    yield Box(ZERO, UPPER, length, LOWER - UPPER, "heavy")
    words, at = f"measured from {fixing.measured_from}", _inside(part, length, ZERO)
    yield Label(at, HEIGHT, words, "start" if from_right(part) else "end")


def _inside(part: Part, length: Length, at: Length) -> Length:
    """A place from where the section is measured, as a place from its end at the left, seen from inside the bed."""
    return at if from_right(part) else length - at


def _fixings(part: Part, length: Length, fixing: FixingPlan) -> Iterator[Shape]:
    for each in fixing.positions:
        at = _inside(part, length, each.at)
        yield Stroke(at, UPPER, at, LOWER)
        if each.order <= NUMBERED:
            yield Label(at, NUMBERS, str(each.order), "middle", "picked")
    for skipped in fixing.skipped:
        yield Label(_inside(part, length, skipped), BELOW, "×", "middle", "picked")


def _drops(part: Part, length: Length, ruler: Ruler) -> Iterator[Shape]:
    """The skirt below the tape: the finished drop at each mark, or once where it is the same all along."""
    yield Stroke(ZERO, HEM, length, HEM, "fine")
    if not part.follows_floor:
        yield from _drop(length / 2, part.drop.value, length, ruler, 0)
        return
    for turn, mark in enumerate(_spread(in_reverse(part.marks), attrgetter("tape"), length * LEAST_APART), 1):
        yield from _drop(mark.tape, mark.drop, length, ruler, turn)


def in_reverse(marks: tuple[Mark, ...]) -> tuple[Mark, ...]:
    """Marks numbered and measured from the other end."""
    return tuple(
        Mark(last.number - each.number, last.tape - each.tape, last.flat - each.flat, each.drop)
        for last in marks[-1:]
        for each in reversed(marks)
    )


def _drop(at: Length, drop: Length | None, length: Length, ruler: Ruler, turn: int) -> Iterator[Shape]:
    if drop is None:
        return
    # At an end it is drawn a little inside, so that figure and line stay on the paper.
    x = min(max(at, length / 100), length * Fraction(99, 100))
    yield Stroke(x, LOWER, x, HEM, "line", tips=True)
    left = x > length * LAST_LABEL
    text, row = unitless(drop, ruler), FIGURES[turn % len(FIGURES)]
    yield Label(x + length / (-100 if left else 100), row, text, "end" if left else "start")
