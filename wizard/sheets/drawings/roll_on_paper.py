"""A length of cloth as it is drawn on paper: in pieces that fit a page, with the running measure and each piece's size.

Down the page as in the cut list; lanes, which are long, lie along it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

from wizard.sheets.cut_order import Numbered, in_cutting_order, on_stretch
from wizard.sheets.drawings.lanes_on_paper import lanes_on_paper
from wizard.sheets.drawings.piece_label import Labels
from wizard.sheets.drawings.roll import rolls, way_up
from wizard.sheets.drawings.running import Running, room_for
from wizard.sheets.scene import Box, Scene, Shape
from wizard.sheets.svg import INNER
from wizard.trade.cutting import Layout, Stretch
from wizard.trade.formatting import Ruler
from wizard.trade.lengths import ZERO, Length, ceiling
from wizard.trade.plan import Layer

TALLEST: Final = Fraction(5, 8)
"""A part of the drawing is at most about so many times as tall as the cloth is wide: two of them fit on a page."""


def rolls_on_paper(
    layer: Layer, layout: Layout, names: Mapping[str, str], ruler: Ruler, level: str = "hem"
) -> tuple[tuple[Scene, ...], ...]:
    """For each length that is cut, in the order of the stock, the pieces of its drawing.

    `level`: the edge that begins at the nearer mark, `hem` or `top`; it says which way is up.
    """
    numbered = in_cutting_order(layer, layout)
    used = {each.stretch for each in layout.uses}
    titled = zip((each for each in layer.stock if each.id in used), rolls(layer, layout, names), strict=True)
    drawn = ((whole.title, stretch, on_stretch(numbered, stretch.id)) for stretch, whole in titled)
    lanes = layout.way == "along"
    labels = Labels(names, ruler, way_up(layout, level, lying=lanes))
    if lanes:
        return tuple(_lanes(*each, layout, labels) for each in drawn)
    return tuple(_Drawn(layout, stretch, pieces, labels).scenes(title) for title, stretch, pieces in drawn)


def _lanes(
    title: str, stretch: Stretch, pieces: tuple[Numbered, ...], layout: Layout, labels: Labels
) -> tuple[Scene, ...]:
    offcuts = [each for each in layout.offcuts if each.stretch == stretch.id]
    return lanes_on_paper(title, stretch, pieces, offcuts, labels)


class _Drawn:
    """One length of cloth."""

    def __init__(self, layout: Layout, stretch: Stretch, pieces: tuple[Numbered, ...], labels: Labels) -> None:
        self.pieces, self.labels = pieces, labels
        self.offcuts = [each for each in layout.offcuts if each.stretch == stretch.id]
        self.usable = stretch.usable
        self.first, self.others = self._ends()
        self.left = stretch.usable * room_for(self.first | self.others, labels.ruler)
        self.pixel = (self.usable + self.left) / INNER

    def _ends(self) -> tuple[set[Length], set[Length]]:
        """What is measured: the squared end, cuts right across and the end of the cloth; then cuts of a part of it."""
        ends = {at for each in self.pieces for at in (each.piece.start, each.end)}
        through = {at for at in ends if self._through(at)}
        last = max([*ends, *(each.start + each.along for each in self.offcuts)])
        return (ends | {ZERO, last}) - through, through

    def scenes(self, title: str) -> tuple[Scene, ...]:
        spans = list(self._spans())
        which = [f", part {number} of {len(spans)}" if len(spans) > 1 else "" for number in range(1, len(spans) + 1)]
        return tuple(self._scene(f"{title}{words}", *span) for words, span in zip(which, spans, strict=True))

    def _spans(self) -> Iterator[tuple[Length, Length]]:
        """From and to of each piece of the drawing: broken only where no piece of cloth is cut through."""
        ends = [each.start + each.along for each in self.offcuts] + [each.end for each in self.pieces]
        start, end = min([ZERO, *(each.start for each in self.offcuts)]), max(ends)
        breaks = sorted({each.end for each in self.pieces if not self._through(each.end)} | {end})
        # Parts of about one height, so that none is left with a last short piece alone; never more than can be broken.
        count = min(ceiling((end - start) / (self.usable * TALLEST)), len(breaks))
        for number in range(1, count + 1):
            wanted = start + (end - start) / (count - number + 1)
            to = end if number == count else min(breaks, key=lambda at: (abs(at - wanted), at))
            if start < to:
                yield start, to
                start = to

    def _through(self, at: Length) -> bool:
        return any(each.piece.start < at < each.end for each in self.pieces)

    def _scene(self, title: str, start: Length, end: Length) -> Scene:
        pieces = [each for each in self.pieces if start <= each.piece.start < end]
        shapes = [
            *self._offcuts(start, end),
            *(shape for each in pieces for shape in self._piece(each, start)),
            *self._measures(start, end),
        ]
        return Scene(title, self.left + self.usable, end - start, tuple(shapes), to_scale=True)

    def _offcuts(self, start: Length, end: Length) -> Iterator[Shape]:
        for each in self.offcuts:
            top, bottom = max(each.start, start), min(each.start + each.along, end)
            if top < bottom:
                yield Box(self.left + each.across, top - start, each.width, bottom - top, "fine", "hatched")

    def _measures(self, start: Length, end: Length) -> Iterator[Shape]:
        running = Running(self.labels.ruler, self.pixel, self.left, start, end - start)
        shown = ({at for at in ends if start <= at <= end} for ends in (self.first, self.others))
        yield from running.drawn(*shown)

    def _piece(self, each: Numbered, start: Length) -> Iterator[Shape]:
        box = Box(self.left + each.piece.across, each.piece.start - start, each.wide, each.along)
        yield box
        yield from self.labels.on(each, box, self.pixel)
