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
from wizard.trade.cutting import Offcut, Stretch
from wizard.trade.lengths import ZERO, Length, ceiling

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
    title: str, stretch: Stretch, pieces: tuple[Numbered, ...], offcuts: list[Offcut], labels: Labels
) -> tuple[Scene, ...]:
    """One length of cloth with its lanes, the squared end at the left; in parts where it is long."""
    spans = _spans(pieces, offcuts)
    which = [f", part {number} of {len(spans)}" if len(spans) > 1 else "" for number in range(1, len(spans) + 1)]
    lanes = _Lanes(stretch, pieces, offcuts, labels, max(to - start for start, to in spans))
    return tuple(lanes.scene(f"{title}{words}", *span) for words, span in zip(which, spans, strict=True))


def _spans(pieces: tuple[Numbered, ...], offcuts: list[Offcut]) -> list[Ends]:
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
        self, stretch: Stretch, pieces: tuple[Numbered, ...], offcuts: list[Offcut], labels: Labels, longest: Length
    ) -> None:
        self.pieces, self.offcuts, self.labels = pieces, offcuts, labels
        self.usable = stretch.usable
        self.lanes, self.others = _edges(pieces)
        self.left = longest * room_for(self.lanes | self.others, labels.ruler)
        self.wide = self.left + longest
        self.pixel = self.wide / INNER

    def scene(self, title: str, start: Length, to: Length) -> Scene:
        here = [each for each in self.pieces if each.piece.start < to and start < each.end]
        squared = self.left - start
        running = Running(self.labels.ruler, self.pixel, self.left, ZERO, self.usable)
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

    def _piece(self, each: Numbered, start: Length, to: Length) -> Iterator[Shape]:
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
            text = bare(end, self.labels.ruler)
            half = self.pixel * (room_of(text, LETTERS) / 2)
            # One near the end of the drawing ends with it, so that it stays on the paper.
            middle = min(x, self.wide - half)
            place = (middle - half, middle + half)
            if all(place[1] <= other or stop <= place[0] for other, stop in taken):
                taken.append(place)
                yield Words(middle, down + self.pixel * UNDER * Fraction(3, 4), text, "middle")


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
