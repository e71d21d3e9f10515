"""Lanes laid on their stretches: where each piece lies, and every offcut."""

from __future__ import annotations

from collections.abc import Sequence

from wizard.trade.cutting.laid import assemble, in_order, piece_orders
from wizard.trade.cutting.laying import full_width, remnant, squaring
from wizard.trade.cutting.packing import Run, runs_of
from wizard.trade.cutting.rows import Row
from wizard.trade.cutting.strips import Layout, Offcut, Piece, Proof, Use
from wizard.trade.cutting.ticks import Job
from wizard.trade.lengths import ZERO


def lanes_layout(job: Job, rows: Sequence[Row], proof: Proof) -> Layout:
    """Every lane laid on its run, those of one run side by side in the order given."""
    pieces: list[Piece] = []
    offcuts: list[Offcut] = []
    uses: list[Use] = []
    orders = piece_orders(job, rows)
    for number, stretch in enumerate(job.stock):
        here = [(row, order) for row, order in zip(rows, orders, strict=True) if row.stretch == number]
        if here:
            offcuts += squaring(job, stretch)
            uses.append(lay_lanes(job, number, here, pieces, offcuts))
    return assemble(job, "along", in_order(pieces), offcuts, uses, rows, proof)


def lay_lanes(
    job: Job,
    number: int,
    rows: list[tuple[Row, Sequence[int]]],
    pieces: list[Piece],
    offcuts: list[Offcut],
) -> Use:
    """Lay the lanes of one stretch; tile what is left of it."""
    stretch, at, last, count = job.stock[number], 0, 0, 0
    runs = runs_of(number, stretch, job.rules, job.scale)
    for run in runs:
        here = [each for each in rows if each[0].start == run.start]
        if stretch.length is None and count == len(rows):
            break
        offcuts += full_width(job, stretch, at, run.start, "damage")
        at = run.start
        if here:
            longest = max(sum(width for _, width in row.parts) for row, _ in here)
            lay_block(job, (run, longest, count), here, pieces, offcuts)
            count += len(here)
            last = at = at + longest
        if run.room is not None and (stretch.length is not None or count < len(rows)):
            offcuts += full_width(job, stretch, at, run.start + run.room, "end" if run is runs[-1] else "before")
            at = run.start + run.room
    if stretch.length is not None:
        offcuts += remnant(job, stretch, at)
    return Use(stretch.id, job.scale.length(last), len(rows))


def lay_block(
    job: Job,
    where: tuple[Run, int, int],
    rows: list[tuple[Row, Sequence[int]]],
    pieces: list[Piece],
    offcuts: list[Offcut],
) -> None:
    """Lay lanes side by side from the left edge, each strip's pieces one after the other along them."""
    (run, longest, before), length = where, job.scale.length
    stretch, across = job.stock[run.stretch], 0
    for number, (row, orders) in enumerate(rows, before + 1):
        at = run.start
        for (strip, width), order in zip(row.parts, orders, strict=True):
            cut, start = job.needs[strip].cut, length(at)
            placed = (stretch.id, start, length(across), number, "both")
            pieces.append(Piece(job.strips[strip].id, order, length(width), length(cut), *placed))  # type: ignore[arg-type]
            if cut < row.cut:
                beside = length(across + cut), length(width), length(row.cut - cut)
                offcuts.append(Offcut(stretch.id, start, *beside, "side"))
            at += width
        if at < run.start + longest:
            left = length(run.start + longest - at)
            offcuts.append(Offcut(stretch.id, length(at), length(across), left, length(row.cut), "below"))
        across += row.cut
    spare = stretch.usable - length(across)
    if spare > ZERO:
        offcuts.append(Offcut(stretch.id, length(run.start), length(across), length(longest), spare, "side"))
