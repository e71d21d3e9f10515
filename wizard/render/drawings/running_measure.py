"""The running measure at the left of a drawing on paper: how wide it is, and which figures fit."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import accumulate
from typing import Final

from msgspec import Struct

from wizard.render.drawings.lettering import lettering_width
from wizard.render.drawings.scene import Label, Pen, Shape, Stroke
from wizard.render.drawings.scene_svg import INNER, LETTERS
from wizard.render.figure_text import unitless
from wizard.trade.formatting import Ruler
from wizard.trade.lengths import ZERO, Length, steps_down

TICK: Final = 16
"""How long the lines are that lead to the figures, in units of the picture."""
GAP: Final = 4
"""Between such a line and its figure."""
LEAST: Final = 77
"""The least width of the margin: the measures of most drawings fit in it, so that most have one scale."""


def margin_for(measures: Iterable[Length], ruler: Ruler) -> Fraction:
    """How wide these are beside a drawing, in parts of what is left for the cloth."""
    longest = max((lettering_width(unitless(each, ruler), LETTERS) for each in measures), default=Fraction(0))
    width = max(Fraction(LEAST), longest + TICK + GAP)
    return width / (INNER - width)


class RunningMeasure(Struct, frozen=True):
    """The running measure of one drawing."""

    ruler: Ruler
    pixel: Length
    """What a unit of the picture is in the drawing."""
    x: Length
    """Where the cloth begins."""
    start: Length
    """The measure at the top of the drawing."""
    height: Length
    """How much of the cloth it shows."""

    def drawn(self, first: Iterable[Length], others: Iterable[Length]) -> Iterator[Shape]:
        """A line at each measure; with the figures of all of `first`, and of the `others` where they fit."""
        first = {at - self.start for at in first}
        rest = {at - self.start for at in others} - first
        places = places_for(first, rest, self.pixel * LETTERS, self.height)
        for at in sorted(first | rest):
            y = places.get(at, at)
            pen: Pen = "heavy" if at + self.start == ZERO else "line"
            yield Stroke(self.x - self.pixel * TICK, y, self.x, at, pen)
            if at in places:
                text = unitless(at + self.start, self.ruler)
                yield Label(self.x - self.pixel * (TICK + GAP), y, text, "end")


def places_for(first: set[Length], rest: set[Length], line: Length, height: Length) -> dict[Length, Length]:
    """Place down the drawing -> where its figure is written, each a `line` high, none outside 0..height.

    Those of `first` are moved apart where they are too close; one of the `rest` is then written beside its place, or as
    near as the others let it, or is left out.
    """
    places = _apart(first, line, height)
    for at in sorted(rest):
        near = [at, *(y + aside for y in places.values() for aside in (-line, line) if abs(y + aside - at) < line)]
        free = (y for y in near if ZERO <= y <= height and all(_clear(at, y, *each, line) for each in places.items()))
        y = min(free, key=lambda y: (abs(y - at), y), default=None)
        if y is not None:
            places[at] = y
    return places


def _clear(at: Length, y: Length, other: Length, taken: Length, line: Length) -> bool:
    """The figure at `y` neither touches the one that is `taken` nor changes places with it."""
    return abs(y - taken) >= line and (at < other) == (y < taken)


def _apart(first: set[Length], line: Length, height: Length) -> dict[Length, Length]:
    """Each pushed down by the one above where they are too close, then up again by the one below, from the end on."""
    wanted = _thinned(sorted(first), steps_down(height, line) + 1)
    lowered = [*accumulate(wanted, lambda above, at: max(at, above + line)), height + line]
    _, *raised = accumulate(reversed(lowered), lambda below, at: min(at, below - line))
    return dict(zip(wanted, reversed(raised), strict=True))


def _thinned(measures: list[Length], most: int) -> list[Length]:
    """At most `most` of them, with the first and the last; where only one fits, the last."""
    count = len(measures)
    if count <= most:
        return measures
    return [measures[(number * (count - 1)) // (most - 1)] for number in range(most)] if most > 1 else measures[-1:]
