"""Layouts whose rows do not run from selvedge to selvedge: columns side by side in blocks along the roll."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from msgspec import Struct

from wizard.trade.cutting.laid import area_bound, assemble, in_order, piece_orders
from wizard.trade.cutting.laying import RIPPED, squaring
from wizard.trade.cutting.rows import Row
from wizard.trade.cutting.strips import Layout, Offcut, Piece, Proof, Use
from wizard.trade.cutting.ticks import Job
from wizard.trade.lengths import ZERO, Length, round_up


class Column(Struct, frozen=True):
    """Rows one below the other between two places across the roll."""

    left: int
    right: int
    rows: tuple[Row, ...]


def columns_layout(job: Job, way: Literal["slit", "stacked"], blocks: Sequence[tuple[int, list[Column]]]) -> Layout:
    """Blocks of (length, columns) laid one after the other on the roll."""
    rows = [row for _, columns in blocks for column in columns for row in column.rows]
    orders = iter(piece_orders(job, rows))
    stretch = job.stock[0]
    pieces: list[Piece] = []
    offcuts: list[Offcut] = squaring(job, stretch)
    at, number = 0, 0
    for length, columns in blocks:
        for column in columns:
            down = at
            for row in column.rows:
                number += 1
                lay_part(job, row, next(orders), (down, column, number), pieces, offcuts)
                down += row.cut
            if down < at + length:
                offcuts.append(spare(job, (down, at + length), column.left, column.right, "below"))
        at += length
    uses = [Use(stretch.id, job.scale.length(at), number)]
    return assemble(job, way, in_order(pieces), offcuts, uses, rows, not_proven(job, way))


def lay_part(
    job: Job,
    row: Row,
    orders: Sequence[int],
    where: tuple[int, Column, int],
    pieces: list[Piece],
    offcuts: list[Offcut],
) -> None:
    """One row within its column, with what is left below and beside its pieces."""
    at, column, number = where
    length, stretch, across = job.scale.length, job.stock[0], column.left
    usable = job.scale.down(stretch.usable)
    for (strip, width), order in zip(row.parts, orders, strict=True):
        cut = job.needs[strip].cut
        side = RIPPED[across > 0, across + width < usable]
        placed = (stretch.id, length(at), length(across), number, side)
        pieces.append(Piece(job.strips[strip].id, order, length(width), length(cut), *placed))
        if cut < row.cut:
            offcuts.append(spare(job, (at + cut, at + row.cut), across, across + width, "below"))
        across += width
    offcuts += [spare(job, (at, at + row.cut), across, column.right, "side")] if across < column.right else []


def spare(job: Job, down: tuple[int, int], left: int, right: int, kind: Literal["below", "side"]) -> Offcut:
    """An offcut from (start, stop) along and from left to right across; at the right edge, all there is."""
    stretch, length = job.stock[0], job.scale.length
    edge = stretch.usable if right == job.scale.down(stretch.usable) else length(right)
    return Offcut(stretch.id, length(down[0]), length(left), length(down[1] - down[0]), edge - length(left), kind)


def not_proven(job: Job, way: str) -> Proof:
    """Nothing is claimed but that no layout at all goes under its own area."""
    bound: Length = round_up(area_bound(job), job.scale.tick) if area_bound(job) > ZERO else ZERO
    return Proof(False, bound, "none", f"of {way} layouts", False)
