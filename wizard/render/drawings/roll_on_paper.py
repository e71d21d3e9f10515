"""A length of cloth as it is drawn on paper: in pieces that fit a page, with the running measure and each piece's size.

Down the page as in the cut list; lanes, which are long, lie along it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from typing import Final

from wizard.render.cut_order import CutPiece, in_cutting_order, on_stretch
from wizard.render.drawings.lettering import lettering_width
from wizard.render.drawings.piece_label import PieceLabels
from wizard.render.drawings.roll_scaled import rolls, way_up
from wizard.render.drawings.running_measure import RunningMeasure, margin_for
from wizard.render.drawings.scene import Box, Label, Scene, Shape, Stroke
from wizard.render.drawings.scene_svg import INNER, LETTERS
from wizard.render.figure_text import unitless
from wizard.trade.cutting import Layout, Offcut, Stretch
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
    labels = PieceLabels(names, ruler, way_up(layout, level, lying=lanes))
    if lanes:
        return tuple(_lanes(*each, layout, labels) for each in drawn)
    return tuple(_Drawn(layout, stretch, pieces, labels).scenes(title) for title, stretch, pieces in drawn)


def _lanes(
    title: str, stretch: Stretch, pieces: tuple[CutPiece, ...], layout: Layout, labels: PieceLabels
) -> tuple[Scene, ...]:
    offcuts = [each for each in layout.offcuts if each.stretch == stretch.id]
    return lanes_on_paper(title, stretch, pieces, offcuts, labels)


class _Drawn:
    """One length of cloth."""

    def __init__(self, layout: Layout, stretch: Stretch, pieces: tuple[CutPiece, ...], labels: PieceLabels) -> None:
        self.pieces, self.labels = pieces, labels
        self.offcuts = [each for each in layout.offcuts if each.stretch == stretch.id]
        self.usable = stretch.usable
        self.first, self.others = self._ends()
        self.left = stretch.usable * margin_for(self.first | self.others, labels.ruler)
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
        running = RunningMeasure(self.labels.ruler, self.pixel, self.left, start, end - start)
        shown = ({at for at in ends if start <= at <= end} for ends in (self.first, self.others))
        yield from running.drawn(*shown)

    def _piece(self, each: CutPiece, start: Length) -> Iterator[Shape]:
        box = Box(self.left + each.piece.across, each.piece.start - start, each.wide, each.along)
        yield box
        yield from self.labels.on(each, box, self.pixel)


UNDER: Final = 2 * LETTERS
"""Room for the measures along it, in units of the picture."""
LONGEST: Final = 16
"""A part of the drawing is about so many times as long, at most, as its least deep piece is wide: then each has room
for its lettering."""
MOST_PARTS: Final = 100
"""No length is drawn in more parts than this, however long it is."""
Ends = tuple[Length, Length]
"""From and to, along the roll from its squared end."""


def lanes_on_paper(
    title: str, stretch: Stretch, pieces: tuple[CutPiece, ...], offcuts: list[Offcut], labels: PieceLabels
) -> tuple[Scene, ...]:
    """One length of cloth with its lanes, the squared end at the left; in parts where it is long."""
    spans = _spans(pieces, offcuts)
    which = [f", part {number} of {len(spans)}" if len(spans) > 1 else "" for number in range(1, len(spans) + 1)]
    lanes = _Lanes(stretch, pieces, offcuts, labels, max(to - start for start, to in spans))
    return tuple(lanes.scene(f"{title}{words}", *span) for words, span in zip(which, spans, strict=True))


def _spans(pieces: tuple[CutPiece, ...], offcuts: list[Offcut]) -> list[Ends]:
    """Parts of about one length, broken where a piece ends: the others that lie there go on in the next part."""
    start, end = -before_of(offcuts), length_of(pieces, offcuts)
    count = min(ceiling((end - start) / (min(each.wide for each in pieces) * LONGEST)), MOST_PARTS)
    ends = {each.end for each in pieces}
    spans: list[Ends] = []
    for left in range(count, 0, -1):
        even = start + (end - start) / left
        near = [at for at in ends if abs(at - even) * 4 <= even - start]
        to = end if left == 1 else min(near, key=lambda at: (abs(at - even), at), default=even)
        spans.append((start, to))
        start = to
    return spans


class _Lanes:
    """One length of cloth."""

    def __init__(
        self,
        stretch: Stretch,
        pieces: tuple[CutPiece, ...],
        offcuts: list[Offcut],
        labels: PieceLabels,
        longest: Length,
    ) -> None:
        self.pieces, self.offcuts, self.labels = pieces, offcuts, labels
        self.usable = stretch.usable
        self.lanes, self.others = _edges(pieces)
        self.left = longest * margin_for(self.lanes | self.others, labels.ruler)
        self.wide = self.left + longest
        self.pixel = self.wide / INNER

    def scene(self, title: str, start: Length, to: Length) -> Scene:
        here = [each for each in self.pieces if each.piece.start < to and start < each.end]
        squared = self.left - start
        running = RunningMeasure(self.labels.ruler, self.pixel, self.left, ZERO, self.usable)
        shapes: tuple[Shape, ...] = (
            *self._offcuts(start, to),
            *(shape for each in here for shape in self._piece(each, start, to)),
            *([Stroke(squared, ZERO, squared, self.usable, "heavy")] if start <= ZERO else []),
            *running.drawn(self.lanes, self.others),
            *self._along(start, to),
        )
        return Scene(title, self.wide, self.usable + self.pixel * UNDER, shapes, to_scale=True)

    def _offcuts(self, start: Length, to: Length) -> Iterator[Shape]:
        for each in self.offcuts:
            first, last = max(each.start, start), min(each.start + each.along, to)
            if first < last:
                yield Box(self.left + first - start, each.across, last - first, each.width, "fine", "hatched")

    def _piece(self, each: CutPiece, start: Length, to: Length) -> Iterator[Shape]:
        """The piece, or what of it lies in this part: where it goes on its edge is broken."""
        first, last = max(each.piece.start, start), min(each.end, to)
        box = Box(self.left + first - start, each.piece.across, last - first, each.wide)
        if (first, last) == (each.piece.start, each.end):
            yield box
        else:
            right, bottom = box.x + box.width, box.y + box.height
            yield from (Stroke(box.x, y, right, y) for y in (box.y, bottom))
            yield Stroke(box.x, box.y, box.x, bottom, "line" if first == each.piece.start else "fine")
            yield Stroke(right, box.y, right, bottom, "line" if last == each.end else "fine")
        yield from self.labels.on(each, box, self.pixel)

    def _along(self, start: Length, to: Length) -> Iterator[Shape]:
        """What to chalk, from the squared end. Both ends have their figures, others where there is room."""
        ends = sorted(at for at in {ZERO, *(each.end for each in self.pieces)} if start <= at <= to)
        taken: list[Ends] = []
        for end in (*ends[-1:], *ends[:-1]):
            x, down = self.left + end - start, self.usable
            yield Stroke(x, down, x, down + self.pixel * (LETTERS // 2))
            text = unitless(end, self.labels.ruler)
            half = self.pixel * (lettering_width(text, LETTERS) / 2)
            # One near the end of the drawing ends with it, so that it stays on the paper.
            middle = min(x, self.wide - half)
            place = (middle - half, middle + half)
            if all(place[1] <= other or stop <= place[0] for other, stop in taken):
                taken.append(place)
                yield Label(middle, down + self.pixel * UNDER * Fraction(3, 4), text, "middle")


def before_of(offcuts: Iterable[Offcut]) -> Length:
    """What is squared off lies before the squared end."""
    return -min([ZERO, *(each.start for each in offcuts)])


def length_of(pieces: Iterable[CutPiece], offcuts: Iterable[Offcut]) -> Length:
    """From the squared end to the end of all that is drawn."""
    return max([*(each.end for each in pieces), *(each.start + each.along for each in offcuts)])


def _edges(pieces: tuple[CutPiece, ...]) -> tuple[set[Length], set[Length]]:
    """Where to rip, from the left edge of the roll: between lanes; then where a piece is less deep than its lane."""
    spans = [(each.piece.across, each.piece.across + each.wide) for each in pieces]
    edges = {edge for span in spans for edge in span}
    inside = {edge for edge in edges if any(start < edge < end for start, end in spans)}
    return edges - inside, inside
