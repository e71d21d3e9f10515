"""Lanes as they are drawn on paper: along the page, with what is chalked under them and what is ripped beside them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import Final

from wizard.sheets.cut_order import Numbered
from wizard.sheets.drawings.piece_label import Labels
from wizard.sheets.drawings.running import Running, room_for
from wizard.sheets.figure_text import bare
from wizard.sheets.lettering import room_of
from wizard.sheets.scene import Box, Scene, Shape, Stroke, Words
from wizard.sheets.svg import INNER, LETTERS
from wizard.trade.cutting.strips import Offcut, Stretch
from wizard.trade.lengths import ZERO, Length
from wizard.trade.printing import Ruler

UNDER: Final = 2 * LETTERS
"""Room for the measures along it, in units of the picture."""


def lanes_on_paper(
    title: str, stretch: Stretch, pieces: tuple[Numbered, ...], offcuts: list[Offcut], labels: Labels
) -> Scene:
    """One length of cloth with its lanes, the squared end at the left."""
    lanes, others = _edges(pieces)
    before, long = before_of(offcuts), length_of(pieces, offcuts)
    left = (before + long) * room_for(lanes | others, labels.ruler)
    x, wide = left + before, left + before + long
    pixel = wide / INNER
    boxes = [Box(x + each.piece.start, each.piece.across, each.along, each.wide) for each in pieces]
    shapes: tuple[Shape, ...] = (
        *(Box(x + each.start, each.across, each.along, each.width, "fine", "hatched") for each in offcuts),
        *boxes,
        *(shape for each, box in zip(pieces, boxes, strict=True) for shape in labels.on(each, box, pixel)),
        Stroke(x, ZERO, x, stretch.usable, "heavy"),
        *Running(labels.ruler, pixel, left, ZERO, stretch.usable).drawn(lanes, others),
        *_along(sorted({ZERO, *(each.end for each in pieces)}), x, stretch.usable, labels.ruler, pixel),
    )
    return Scene(title, wide, stretch.usable + pixel * UNDER, shapes, to_scale=True)


def before_of(offcuts: Iterable[Offcut]) -> Length:
    """What is squared off lies before the squared end."""
    return -min([ZERO, *(each.start for each in offcuts)])


def length_of(pieces: Iterable[Numbered], offcuts: Iterable[Offcut]) -> Length:
    """From the squared end to the end of all that is drawn."""
    return max([*(each.end for each in pieces), *(each.start + each.along for each in offcuts)])


def _edges(pieces: tuple[Numbered, ...]) -> tuple[set[Length], set[Length]]:
    """Where to rip, from the left edge of the roll: between lanes; then where a piece is less deep than its lane."""
    spans = [(each.piece.across, each.piece.across + each.wide) for each in pieces]
    edges = {edge for span in spans for edge in span}
    inside = {edge for edge in edges if any(start < edge < end for start, end in spans)}
    return edges - inside, inside


def _along(ends: list[Length], x: Length, down: Length, ruler: Ruler, pixel: Length) -> Iterator[Shape]:
    """What to chalk, from the squared end. Both ends have their figures, others where there is room."""
    taken: list[tuple[Length, Length]] = []
    for end in (ends[-1], *ends[:-1]):
        yield Stroke(x + end, down, x + end, down + pixel * (LETTERS // 2))
        text = bare(end, ruler)
        half = pixel * (room_of(text, LETTERS) / 2)
        # The last figure ends with the cloth, so that it stays on the paper.
        middle = x + end if taken else x + end - half
        place = (middle - half, middle + half)
        if all(place[1] <= start or stop <= place[0] for start, stop in taken):
            taken.append(place)
            yield Words(middle, down + pixel * UNDER * Fraction(3, 4), text, "middle")
