"""What sketches are made with: values to go by while answers are missing, and measuring lines with their labels."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from wizard.render.drawings.scene import Label, Pen, Shape, Stroke
from wizard.trade.figures import value_at
from wizard.trade.formatting import Ruler, shown
from wizard.trade.lengths import ZERO, Length
from wizard.trade.model import Job, Section, usual_of
from wizard.trade.sections import End, short_of, side_of, stops_short

Number = int | Fraction


def u(number: Number) -> Length:
    """So many units of a sketch."""
    return Length(number)


def across(start: Number, end: Number, y: Number, text: str, *, asked: bool = True) -> list[Shape]:
    """A level measure with its label on it."""
    pen: Pen = "picked" if asked else "line"
    middle = Fraction(start + end) / 2
    return [Stroke(u(start), u(y), u(end), u(y), pen, "both"), Label(u(middle), u(y), f" {text} ", "middle", pen)]


def beside(start: Number, end: Number, y: Number, text: str, *, asked: bool = True) -> list[Shape]:
    """A level measure too short for its label, which stands to its right."""
    pen: Pen = "picked" if asked else "line"
    label = Label(u(end + Fraction(1, 2)), u(y), f" {text}", "start", pen)
    return [Stroke(u(start), u(y), u(end), u(y), pen, "both"), label]


def down(x: Number, start: Number, end: Number, text: str, *, asked: bool = True) -> list[Shape]:
    """An upright measure with its label to its right."""
    pen: Pen = "picked" if asked else "line"
    label = Label(u(x + Fraction(1, 2)), u(Fraction(start + end) / 2), f" {text}", "start", pen)
    return [Stroke(u(x), u(start), u(x), u(end), pen, "both"), label]


SIDE_RUN: Final = Length(76)
"""Stands in for the run of a side section until it is read."""


END_RUN: Final = Length(58)
"""Stands in for the run of a foot or head section."""


DROP: Final = Length(12)
"""Stands in for a drop."""


SEEN: Final = 6
"""A rail that is left bare is drawn at least as long as this part of the run."""


NOT_YET: Final = "?"
"""Shown for a length that has not been read."""


def length_at(job: Job, *keys: str) -> Length | None:
    """The length at the first of `keys` that holds one, else the usual one, else None."""
    given = (value_at(job, key) for key in keys)
    usual = (usual_of(key, job.standard or "inches") for key in keys)
    return next((each for each in (*given, *usual) if isinstance(each, Length)), None)


def or_stand_in(length: Length | None, stand_in: Length) -> Length:
    """`length` where it can be drawn, which takes more than nothing; else the stand-in."""
    return length if length is not None and length > ZERO else stand_in


def value_label(length: Length | None, ruler: Ruler) -> str:
    """A length for a label, without its unit where it is the job's; a question mark for one not read yet."""
    return NOT_YET if length is None else shown(length, ruler).removesuffix(f" {ruler.unit}")


def run_of(section_id: str, section: Section) -> Length:
    """The run to draw: the reading at the rail, else the one near the floor, else a stand-in."""
    stand_in = END_RUN if side_of(section_id, section) in ("foot", "head") else SIDE_RUN
    return or_stand_in(next((each for each in section.run if each is not None), None), stand_in)


def short_to_draw(section: Section, end: End, run: Length) -> Length:
    """How far short of its post to draw the run: enough to be seen, also while it is not known; ZERO for one that goes
    up to it."""
    return max(short_of(section, end), run / SEEN) if stops_short(section, end) else ZERO


def reading(readings: tuple[Length | None, ...], number: int) -> Length | None:
    """The reading with that number, from 1, or None when it is not there."""
    return readings[number - 1] if number <= len(readings) else None
