"""A section's tape along its length: with the marks of the flat skirt, and on its rail with every fixing."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from wizard.render.drawings.scene import Box, Label, Scene, Shape, Stroke
from wizard.render.drawings.sketch import u
from wizard.render.figure_text import unitless
from wizard.trade.formatting import METRIC, Ruler
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan import FixingPlan, Mark, Part

STRIP_HEIGHT, TAPE, SKIRT, RULER = 14, 2, 7, 12
"""Rows of the sketch: where tape, flat skirt and ruler line begin."""


STRIP_DEEP: Final = 2


CLOSEST: Final = 40
"""So many numbers, at most, find room in a row."""


BESIDE, GAP = Fraction(1, 10), Fraction(1, 40)
"""Room for a word beside the tape, and the space before it, in parts of the drawing's width."""


MOST_STEPS: Final = 20
"""The ruler line has no more steps than this."""


STEPS: Final = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000)
"""What a step of the ruler line may be, in inches or centimetres."""


def marks_strip(part: Part, marks: tuple[Mark, ...], ruler: Ruler) -> Scene | None:
    """The drawing of a part with its `marks` as they are met; None while its lengths are not known."""
    tape, flat = part.gathered.value, part.flat_made.value
    if tape is None or flat is None or tape <= ZERO or not marks:
        return None
    wide = max(tape, flat)
    shapes = (
        Box(ZERO, u(TAPE), tape, u(STRIP_DEEP), "heavy"),
        Box(ZERO, u(SKIRT), flat, u(STRIP_DEEP)),
        _named(tape, wide),
        *_marks(marks, wide),
        *_ruler_line(wide, ruler),
    )
    return Scene(f"{part.name}: marks on tape and flat skirt", wide, u(STRIP_HEIGHT), shapes, to_scale=False)


def _named(tape: Length, wide: Length) -> Label:
    """What the upper one is, beside its end, or inside where there is no room beside it."""
    inside = wide - tape < wide * BESIDE
    at = tape - wide * GAP if inside else tape + wide * GAP
    return Label(at, u(TAPE + 1), "tape", "end" if inside else "start")


def _marks(marks: tuple[Mark, ...], wide: Length) -> Iterator[Shape]:
    for each in marks:
        yield Stroke(each.tape, u(TAPE), each.tape, u(TAPE + STRIP_DEEP))
        yield Stroke(each.tape, u(TAPE + STRIP_DEEP), each.flat, u(SKIRT), "fine")
        yield Stroke(each.flat, u(SKIRT), each.flat, u(SKIRT + STRIP_DEEP))
    yield from _numbers([(each.tape, each.number) for each in marks], 1, wide)
    yield from _numbers([(each.flat, each.number) for each in marks], SKIRT + STRIP_DEEP + 1, wide)


def _numbers(places: list[tuple[Length, int]], row: int, wide: Length) -> Iterator[Shape]:
    """The marks' numbers in a row; one too close to that before it is left out."""
    last: Length | None = None
    for at, number in places:
        if last is None or at - last >= wide / CLOSEST:
            last = at
            yield Label(at, u(row), str(number), "middle", "picked")


def _ruler_line(wide: Length, ruler: Ruler) -> Iterator[Shape]:
    unit = "cm" if ruler.unit in METRIC else "in"
    step = next((each for each in STEPS if wide <= Length.of(each, unit) * MOST_STEPS), STEPS[-1])
    yield Stroke(ZERO, u(RULER), wide, u(RULER))
    for number in range(wide.in_unit(unit).__floor__() // step + 1):
        at = Length.of(number * step, unit)
        yield Stroke(at, u(RULER), at, u(RULER + 1))
        if number % 2 == 0:
            text = f"{number * step} {unit}" if number == 0 else str(number * step)
            yield Label(at, u(STRIP_HEIGHT), text, "start" if number == 0 else "middle")


RAIL_HEIGHT, UPPER, LOWER, HEM = 14, 3, 5, 11
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
    return Scene(f"{part.name}, seen from inside the bed", length, u(RAIL_HEIGHT), shapes, to_scale=False)


def _tape(length: Length, fixing: FixingPlan) -> Iterator[Shape]:
    yield Box(ZERO, u(UPPER), length, u(LOWER - UPPER), "heavy")
    yield Label(ZERO, u(RAIL_HEIGHT), f"measured from {fixing.measured_from}", "start")


def _fixings(fixing: FixingPlan) -> Iterator[Shape]:
    for each in fixing.positions:
        yield Stroke(each.at, u(UPPER), each.at, u(LOWER))
        if each.order <= NUMBERED:
            yield Label(each.at, u(1), str(each.order), "middle", "picked")
    for at in fixing.skipped:
        yield Label(at, u(LOWER + 1), "×", "middle", "picked")


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
        yield Label(x - length / 100, row, unitless(drop, ruler), "end")
    else:
        yield Label(x + length / 100, row, unitless(drop, ruler), "start")
