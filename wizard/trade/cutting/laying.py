"""Rows laid on a stretch: where each piece lies, and every offcut."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Final, Literal

from wizard.trade.cutting.packing import runs_of, squared_off
from wizard.trade.cutting.rows import Row
from wizard.trade.cutting.strips import Offcut, Piece, Stretch
from wizard.trade.cutting.ticks import Job
from wizard.trade.lengths import ZERO, Length

Plain = Literal["before", "end", "damage", "repeat"]
"""Of an offcut from selvedge to selvedge."""

Side = Literal["none", "left", "right", "both"]

RIPPED: Final[dict[tuple[bool, bool], Side]] = {
    (False, False): "none", (True, False): "left", (False, True): "right", (True, True): "both"
}  # fmt: skip
"""Which edges of a piece are cut rather than selvedge, by whether the left and whether the right one is."""


class Laying:
    """The pieces and offcuts of one stretch. Lengths are named by their ticks, for they come over and over."""

    def __init__(self, job: Job, number: int) -> None:
        self.job, self.number, self.stretch = job, number, job.stock[number]
        self.length, self.edge = job.scale.length, job.scale.up(self.stretch.usable)
        self.strips = [
            (strip.id, need.cut, self.length(need.cut)) for strip, need in zip(job.strips, job.needs, strict=True)
        ]
        self.pieces: list[Piece] = []
        self.offcuts: list[Offcut] = squaring(job, self.stretch)

    def lay(self, rows: list[tuple[Row, Sequence[int]]]) -> int | Fraction:
        """Lay rows in the sound runs; give where the last cut falls. All of an owned length is tiled."""
        endless = self.stretch.length is None
        at: int | Fraction = 0
        last: int | Fraction = 0
        count = 0
        runs = runs_of(self.number, self.stretch, self.job.rules, self.job.scale)
        for run in runs:
            if endless and count == len(rows):
                break
            self.leave(at, run.start, "damage")
            at = run.start
            for row, orders in rows:
                if row.start == run.start:
                    count += 1
                    last, at = self.step(row, orders, at, count)
            if run.room is not None and (not endless or count < len(rows)):
                self.leave(at, run.start + run.room, "end" if run is runs[-1] else "before")
                at = run.start + run.room
        if not endless:
            self.offcuts += remnant(self.job, self.stretch, at)
        return last

    def step(
        self, row: Row, orders: Sequence[int], at: int | Fraction, number: int
    ) -> tuple[int | Fraction, int | Fraction]:
        """Lay a row with what the pattern loses above and below it; give where it ends, and where the next begins."""
        if row.before:
            self.leave(at, at + row.before, "repeat")
            at += row.before
        self.lay_row(row, orders, at, number)
        last = at + row.cut
        if not row.after:
            return last, last
        self.leave(last, last + row.after, "repeat")
        return last, last + row.after

    def lay_row(self, row: Row, orders: Sequence[int], at: int | Fraction, number: int) -> None:
        """Place one row's pieces side by side from the left edge, with what is left below and beside them."""
        length, stretch, usable, across = self.length, self.stretch.id, row.usable, 0
        start = length(at)
        for spot, ((strip, width), order) in enumerate(zip(row.parts, orders, strict=True), 1):
            name, cut, long = self.strips[strip]
            if row.right and spot == len(row.parts):
                self.beside(row, start, across, length(usable - width))
                across = usable - width
            left, wide, ripped = length(across), length(width), RIPPED[across > 0, across + width < usable]
            self.pieces.append(Piece(name, order, wide, long, stretch, start, left, number, ripped, row.phase))
            if cut < row.cut:
                self.offcuts.append(Offcut(stretch, length(at + cut), left, length(row.cut - cut), wide, "below"))
            across += width
        if across < self.edge:
            self.beside(row, start, across, self.stretch.usable)

    def beside(self, row: Row, start: Length, left: int, right: Length) -> None:
        """Note what is left of a row between two places across it."""
        across, along = self.length(left), self.length(row.cut)
        if across < right:
            self.offcuts.append(Offcut(self.stretch.id, start, across, along, right - across, "side"))

    def leave(self, start: int | Fraction, stop: int | Fraction, kind: Plain) -> None:
        """Note cloth from selvedge to selvedge that no piece is cut from."""
        self.offcuts += full_width(self.job, self.stretch, start, stop, kind)


def full_width(job: Job, stretch: Stretch, start: int | Fraction, stop: int | Fraction, kind: Plain) -> list[Offcut]:
    """Cloth from selvedge to selvedge that no piece is cut from."""
    if stop <= start:
        return []
    return [Offcut(stretch.id, job.scale.length(start), ZERO, job.scale.length(stop - start), stretch.usable, kind)]


def squaring(job: Job, stretch: Stretch) -> list[Offcut]:
    """The strip taken off to square the end: it lies before the squared end, so it starts below nothing."""
    taken = squared_off(job.rules, stretch)
    if not taken:
        return []
    return [Offcut(stretch.id, -taken, ZERO, taken, stretch.usable, "squaring")]


def remnant(job: Job, stretch: Stretch, at: int | Fraction) -> list[Offcut]:
    """What lies after the last sound run of an owned length: damage, or less than a mark at its end."""
    assert stretch.length is not None
    left = stretch.length - squared_off(job.rules, stretch) - job.scale.length(at)
    kind: Literal["end", "damage"] = "damage" if left >= job.scale.tick else "end"
    return [Offcut(stretch.id, job.scale.length(at), ZERO, left, stretch.usable, kind)] if left > ZERO else []
