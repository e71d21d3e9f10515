"""What sketches are made of: shapes in plain units, measuring lines, and values to go by while answers are missing."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import Final

from wizard.render.drawings.scene import Anchor, Box, Fill, Label, Pen, Scene, Shape, Stroke, Tips
from wizard.trade.formatting import Ruler, shown
from wizard.trade.job_fields import Section
from wizard.trade.lengths import ZERO, Length
from wizard.trade.sections import End, short_of, side_of, stops_short

Number = int | Fraction
Place = Number | Length
"""Where something is drawn: in units of the sketch, or a real length."""


def sketch(title: str, width: Place, height: Place, shapes: Iterable[Shape]) -> Scene:
    """A drawing that is not to scale."""
    return Scene(title, _length(width), _length(height), tuple(shapes), to_scale=False)


def box(x: Place, y: Place, width: Place, height: Place, pen: Pen = "line", fill: Fill = "none") -> Box:
    """A rectangle."""
    return Box(_length(x), _length(y), _length(width), _length(height), pen, fill)


def line(x1: Place, y1: Place, x2: Place, y2: Place, pen: Pen = "line", tips: Tips = "none") -> Stroke:
    """A straight line."""
    return Stroke(_length(x1), _length(y1), _length(x2), _length(y2), pen, tips)


def label(x: Place, y: Place, text: str, anchor: Anchor = "middle", pen: Pen = "line") -> Label:
    """A label."""
    return Label(_length(x), _length(y), text, anchor, pen)


def _length(place: Place) -> Length:
    return place if isinstance(place, Length) else Length(place)


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
