"""Lanes as they are drawn on paper: along the page, with what is chalked under them and what is ripped beside them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import Final

from wizard.sheets.cut_order import Numbered
from wizard.sheets.drawings.piece_label import LETTER, Labels
from wizard.sheets.figure_text import bare
from wizard.sheets.plain import cells
from wizard.sheets.scene import Box, Scene, Shape, Stroke, Words
from wizard.sheets.svg import LETTERS, WIDTH
from wizard.trade.cutting.strips import Offcut, Stretch
from wizard.trade.lengths import ZERO, Length

BESIDE: Final = Fraction(1, 8)
"""Room for the measures across the roll, in parts of its length."""
UNDER: Final = 2 * LETTERS
"""Room for the measures along it, in units of the picture."""


def lanes_on_paper(
    title: str, stretch: Stretch, pieces: tuple[Numbered, ...], offcuts: list[Offcut], labels: Labels
) -> Scene:
    """One length of cloth with its lanes, the squared end at the left. `labels` has the drawing's own unit."""
    before = before_of(offcuts)
    left = (before + length_of(pieces, offcuts)) * BESIDE
    x, wide = left + before, left + before + length_of(pieces, offcuts)
    boxes = [Box(x + each.piece.start, each.piece.across, each.along, each.wide) for each in pieces]
    shapes: tuple[Shape, ...] = (
        *(Box(x + each.start, each.across, each.along, each.width, "fine", "hatched") for each in offcuts),
        *boxes,
        *(words for each, box in zip(pieces, boxes, strict=True) for words in labels.on(each, box)),
        Stroke(x, ZERO, x, stretch.usable, "heavy"),
        *_across(boxes, left, labels),
        *_along(sorted({ZERO, *(each.end for each in pieces)}), x, stretch.usable, labels),
    )
    return Scene(title, wide, stretch.usable + labels.pixel * UNDER, shapes, to_scale=True)


def unit_of(pieces: tuple[Numbered, ...], offcuts: list[Offcut]) -> Length:
    """What a unit of the picture is in such a drawing."""
    return (before_of(offcuts) + length_of(pieces, offcuts)) * (1 + BESIDE) / WIDTH


def before_of(offcuts: Iterable[Offcut]) -> Length:
    """What is squared off lies before the squared end."""
    return -min([ZERO, *(each.start for each in offcuts)])


def length_of(pieces: Iterable[Numbered], offcuts: Iterable[Offcut]) -> Length:
    """From the squared end to the end of all that is drawn."""
    return max([*(each.end for each in pieces), *(each.start + each.along for each in offcuts)])


def _across(boxes: list[Box], left: Length, labels: Labels) -> Iterator[Shape]:
    """Where to rip, from the left edge of the roll; a figure too close to that before it is left out."""
    last: Length | None = None
    for at in sorted({edge for each in boxes for edge in (each.y, each.y + each.height)}):
        yield Stroke(left * Fraction(4, 5), at, left, at)
        if last is None or at - last >= labels.pixel * LETTERS:
            last = at
            yield Words(left * Fraction(3, 4), at, bare(at, labels.ruler), "end")


def _along(ends: list[Length], x: Length, down: Length, labels: Labels) -> Iterator[Shape]:
    """What to chalk, from the squared end. Both ends have their figures, others where there is room."""
    taken: list[tuple[Length, Length]] = []
    for end in (ends[-1], *ends[:-1]):
        yield Stroke(x + end, down, x + end, down + labels.pixel * (LETTERS // 2))
        text = bare(end, labels.ruler)
        half = labels.pixel * (cells(text) * LETTERS * LETTER / 2)
        # The last figure ends with the cloth, so that it stays on the paper.
        middle = x + end if taken else x + end - half
        place = (middle - half, middle + half)
        if all(place[1] <= start or stop <= place[0] for start, stop in taken):
            taken.append(place)
            yield Words(middle, down + labels.pixel * UNDER * Fraction(3, 4), text, "middle")
