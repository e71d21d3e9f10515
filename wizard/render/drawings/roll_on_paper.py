"""A length of cloth as it is drawn on paper: in pieces that fit a page, with the running measure and each piece's size.

Down the page as in the cut list; lanes, which are long, run across the page.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Final

from wizard.render.cut_order import CutPiece, CutStretch, cut_stretches
from wizard.render.drawings.lettering import lettering_width
from wizard.render.drawings.piece_label import PieceLabels
from wizard.render.drawings.roll_on_screen import roll_title, way_up
from wizard.render.drawings.running_measure import RunningMeasure, margin_for
from wizard.render.drawings.scene import Box, Label, Scene, Shape, Stroke
from wizard.render.drawings.scene_svg import INNER, LETTERS
from wizard.render.figure_text import unitless
from wizard.trade.cutting import Layout, Offcut
from wizard.trade.formatting import Ruler
from wizard.trade.lengths import ZERO, Length, ceiling
from wizard.trade.plan_records import Layer

TALLEST: Final = Fraction(5, 8)
"""How tall a part of the drawing is at most, in widths of the cloth: two of them fit on a page."""
UNDER: Final = 2 * LETTERS
"""What the measures along the lanes take under them, in units of the picture."""
LONGEST: Final = 16
"""How long a part with lanes is at most, in widths of its narrowest piece: then the lettering of each fits."""
MOST_PARTS: Final = 100
"""No length is drawn in more parts than this, however long it is."""
Span = tuple[Length, Length]
"""From and to, along the roll from its squared end."""


def rolls_on_paper(
    layer: Layer, layout: Layout, names: Mapping[str, str], ruler: Ruler, level: str = "hem"
) -> tuple[tuple[Scene, ...], ...]:
    """For each length that is cut, in the order of the stock, the parts of its drawing.

    `level`: the edge that begins at the nearer mark, `hem` or `top`; it says which way is up.
    """
    lanes = layout.way == "along"
    labels, draw = PieceLabels(names, ruler, way_up(layout, level, lying=lanes)), _Lanes if lanes else _Widths
    return tuple(_parts(roll_title(layer, each), draw(each, labels)) for each in cut_stretches(layer, layout))


def _parts(title: str, roll: _Widths | _Lanes) -> tuple[Scene, ...]:
    count = len(roll.spans)
    which = [f", part {number} of {count}" if count > 1 else "" for number in range(1, count + 1)]
    return tuple(roll.scene(f"{title}{words}", *span) for words, span in zip(which, roll.spans, strict=True))


def _within(offcuts: Sequence[Offcut], start: Length, to: Length) -> Iterator[tuple[Offcut, Length, Length]]:
    """The offcuts in a part, and from where to where each runs, measured from the beginning of the part."""
    for each in offcuts:
        first, last = max(each.start, start), min(each.start + each.along, to)
        if first < last:
            yield each, first - start, last - start


class _Widths:
    """One length of cloth cut into widths, the squared end at the top."""

    def __init__(self, cloth: CutStretch, labels: PieceLabels) -> None:
        self.usable, self.pieces, self.offcuts, self.labels = cloth.stretch.usable, cloth.pieces, cloth.offcuts, labels
        ends = {at for each in self.pieces for at in (each.piece.start, each.end)}
        # Cuts right across have their figures always, those of a part of the cloth where there is space.
        self.others = {at for at in ends if self._through(at)}
        self.first = (ends | {ZERO, cloth.end}) - self.others
        self.left = self.usable * margin_for(self.first | self.others, labels.ruler)
        self.pixel = (self.usable + self.left) / INNER
        self.spans = list(self._spans(cloth.start, cloth.end))

    def _spans(self, start: Length, end: Length) -> Iterator[Span]:
        """Of about one height, so that none is left with a last short piece alone; broken only where no piece of cloth
        is cut through."""
        breaks = sorted({each.end for each in self.pieces if not self._through(each.end)} | {end})
        for left in range(min(ceiling((end - start) / (self.usable * TALLEST)), len(breaks)), 0, -1):
            even = start + (end - start) / left
            to = end if left == 1 else min(breaks, key=lambda at: (abs(at - even), at))
            if start < to:
                yield start, to
                start = to

    def _through(self, at: Length) -> bool:
        return any(each.piece.start < at < each.end for each in self.pieces)

    def scene(self, title: str, start: Length, to: Length) -> Scene:
        running = RunningMeasure(self.labels.ruler, self.pixel, self.left, start, to - start)
        measures = ({at for at in ends if start <= at <= to} for ends in (self.first, self.others))
        offcuts = (
            Box(self.left + each.across, top, each.width, bottom - top, "fine", "hatched")
            for each, top, bottom in _within(self.offcuts, start, to)
        )
        here = (each for each in self.pieces if start <= each.piece.start < to)
        pieces = (shape for each in here for shape in self._piece(each, start))
        shapes = (*offcuts, *pieces, *running.drawn(*measures))
        return Scene(title, self.left + self.usable, to - start, shapes, to_scale=True)

    def _piece(self, each: CutPiece, start: Length) -> Iterator[Shape]:
        box = Box(self.left + each.piece.across, each.piece.start - start, each.wide, each.along)
        yield box
        yield from self.labels.on(each, box, self.pixel)


class _Lanes:
    """One length of cloth cut into lanes, the squared end at the left, with what is chalked under them and what is
    ripped beside them."""

    def __init__(self, cloth: CutStretch, labels: PieceLabels) -> None:
        self.usable, self.pieces, self.offcuts, self.labels = cloth.stretch.usable, cloth.pieces, cloth.offcuts, labels
        self.spans = list(self._spans(cloth.start, cloth.end))
        longest = max(to - start for start, to in self.spans)
        self.lanes, self.others = self._edges()
        self.left = longest * margin_for(self.lanes | self.others, labels.ruler)
        self.wide = self.left + longest
        self.pixel = self.wide / INNER

    def _spans(self, start: Length, end: Length) -> Iterator[Span]:
        """Of about one length, broken where a piece ends: the others there go on in the next part."""
        ends = {each.end for each in self.pieces}
        count = min(ceiling((end - start) / (min(each.wide for each in self.pieces) * LONGEST)), MOST_PARTS)
        for left in range(count, 0, -1):
            even = start + (end - start) / left
            near = [at for at in ends if abs(at - even) * 4 <= even - start]
            to = end if left == 1 else min(near, key=lambda at: (abs(at - even), at), default=even)
            yield start, to
            start = to

    def _edges(self) -> tuple[set[Length], set[Length]]:
        """Where to rip, from the roll's left edge: between lanes; then where a piece is less deep than its lane."""
        lanes = [(each.piece.across, each.piece.across + each.wide) for each in self.pieces]
        edges = {edge for lane in lanes for edge in lane}
        inside = {edge for edge in edges if any(start < edge < end for start, end in lanes)}
        return edges - inside, inside

    def scene(self, title: str, start: Length, to: Length) -> Scene:
        running = RunningMeasure(self.labels.ruler, self.pixel, self.left, ZERO, self.usable)
        offcuts = (
            Box(self.left + first, each.across, last - first, each.width, "fine", "hatched")
            for each, first, last in _within(self.offcuts, start, to)
        )
        here = (each for each in self.pieces if each.piece.start < to and start < each.end)
        squared = self.left - start
        shapes = (
            *offcuts,
            *(shape for each in here for shape in self._piece(each, start, to)),
            *([Stroke(squared, ZERO, squared, self.usable, "heavy")] if start <= ZERO else []),
            *running.drawn(self.lanes, self.others),
            *self._along(start, to),
        )
        return Scene(title, self.wide, self.usable + self.pixel * UNDER, shapes, to_scale=True)

    def _piece(self, each: CutPiece, start: Length, to: Length) -> Iterator[Shape]:
        """The piece, or as much of it as is in this part: where it goes on, its edge is broken."""
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
        """What to chalk, from the squared end. Both ends have their figures, others where they fit."""
        ends = sorted(at for at in {ZERO, *(each.end for each in self.pieces)} if start <= at <= to)
        taken: list[Span] = []
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
