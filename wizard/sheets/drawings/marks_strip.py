"""Tape and flat skirt side by side with the marks that meet, and a ruler line, all to one scale along them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from wizard.sheets.drawings.measures import u
from wizard.sheets.scene import Box, Scene, Shape, Stroke, Words
from wizard.trade.formatting import METRIC, Ruler
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan import Mark, Part

HEIGHT, TAPE, SKIRT, RULER = 14, 2, 7, 12
"""Rows of the sketch: where tape, flat skirt and ruler line begin."""
DEEP: Final = 2
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
        Box(ZERO, u(TAPE), tape, u(DEEP), "heavy"),
        Box(ZERO, u(SKIRT), flat, u(DEEP)),
        _named(tape, wide),
        *_marks(marks, wide),
        *_ruler_line(wide, ruler),
    )
    return Scene(f"{part.name}: marks on tape and flat skirt", wide, u(HEIGHT), shapes, to_scale=False)


def _named(tape: Length, wide: Length) -> Words:
    """What the upper one is, beside its end, or inside where there is no room beside it."""
    inside = wide - tape < wide * BESIDE
    at = tape - wide * GAP if inside else tape + wide * GAP
    return Words(at, u(TAPE + 1), "tape", "end" if inside else "start")


def _marks(marks: tuple[Mark, ...], wide: Length) -> Iterator[Shape]:
    for each in marks:
        yield Stroke(each.tape, u(TAPE), each.tape, u(TAPE + DEEP))
        yield Stroke(each.tape, u(TAPE + DEEP), each.flat, u(SKIRT), "fine")
        yield Stroke(each.flat, u(SKIRT), each.flat, u(SKIRT + DEEP))
    yield from _numbers([(each.tape, each.number) for each in marks], 1, wide)
    yield from _numbers([(each.flat, each.number) for each in marks], SKIRT + DEEP + 1, wide)


def _numbers(places: list[tuple[Length, int]], row: int, wide: Length) -> Iterator[Shape]:
    """The marks' numbers in a row; one too close to that before it is left out."""
    last: Length | None = None
    for at, number in places:
        if last is None or at - last >= wide / CLOSEST:
            last = at
            yield Words(at, u(row), str(number), "middle", "picked")


def _ruler_line(wide: Length, ruler: Ruler) -> Iterator[Shape]:
    unit = "cm" if ruler.unit in METRIC else "in"
    step = next((each for each in STEPS if wide <= Length.of(each, unit) * MOST_STEPS), STEPS[-1])
    yield Stroke(ZERO, u(RULER), wide, u(RULER))
    for number in range(wide.in_unit(unit).__floor__() // step + 1):
        at = Length.of(number * step, unit)
        yield Stroke(at, u(RULER), at, u(RULER + 1))
        if number % 2 == 0:
            text = f"{number * step} {unit}" if number == 0 else str(number * step)
            yield Words(at, u(HEIGHT), text, "start" if number == 0 else "middle")
