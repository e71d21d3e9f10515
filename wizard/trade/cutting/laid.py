"""From widths in ticks to a layout: pieces in order, placed on their stretches, and every offcut."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from operator import itemgetter
from typing import Literal

from wizard.trade.cutting.laying import Laying
from wizard.trade.cutting.packing import squared_off
from wizard.trade.cutting.piece_orders import clear_order
from wizard.trade.cutting.rows import Row
from wizard.trade.cutting.strips import Layout, Offcut, Piece, Proof, Rules, Stretch, Strip, Use
from wizard.trade.cutting.ticks import Job, spans_of
from wizard.trade.lengths import ZERO, Length, round_up, total


def layout(job: Job, rows: Sequence[Row], proof: Proof, as_given: bool = False) -> Layout:
    """Lay the rows one after the other on their stretches: as given, or in the order the strips are made up."""
    held = made_up(job, rows)
    places = range(len(rows)) if as_given else in_making_order(held)
    orders = orders_of(rows, held)
    ordered = [(rows[place], orders[place]) for place in places]
    pieces: list[Piece] = []
    offcuts: list[Offcut] = []
    uses: list[Use] = []
    for number, stretch in enumerate(job.stock):
        here = [each for each in ordered if each[0].stretch == number]
        if here:
            laying = Laying(job, number)
            uses.append(Use(stretch.id, job.scale.length(laying.lay(here)), len(here)))
            pieces += laying.pieces
            offcuts += laying.offcuts
    if len(uses) > 1:
        # On one stretch they lie in order as they were laid.
        pieces = in_order(pieces)
    return assemble(job, "cross-cut", pieces, offcuts, uses, rows, proof)


def in_order(pieces: Iterable[Piece]) -> list[Piece]:
    """Pieces by their stretch, along it, then across it."""
    return sorted(pieces, key=lambda each: (each.stretch, each.start, each.across))


def assemble(
    job: Job,
    way: Literal["cross-cut", "slit", "stacked", "along"],
    pieces: Sequence[Piece],
    offcuts: Sequence[Offcut],
    uses: Sequence[Use],
    rows: Iterable[Row],
    proof: Proof,
) -> Layout:
    """Count up what the pieces of some rows take, once they are placed and in order."""
    roll = rolled(job, uses)
    return Layout(
        way=way,
        pieces=tuple(pieces),
        offcuts=tuple(offcuts),
        uses=tuple(uses),
        used=total([use.length for use in uses]),
        roll=roll,
        buy=bought(job.rules, roll),
        joins=len(pieces) - len(job.strips),
        flats=made(job, rows),
        proof=proof,
        area_bound=area_bound(job),
    )


def made(job: Job, rows: Iterable[Row]) -> tuple[tuple[str, Length], ...]:
    """Each strip's flat cut width as made from its pieces."""
    join = job.join
    flats = [join] * len(job.strips)
    for row in rows:
        for strip, width in row.parts:
            flats[strip] += width - join
    return tuple([(strip.id, job.scale.length(flat)) for strip, flat in zip(job.strips, flats, strict=True)])


def rolled(job: Job, uses: Sequence[Use]) -> Length:
    """What the roll must give as cut from it; ZERO when nothing is bought."""
    lengths = {use.stretch: use.length for use in uses}
    for stretch in job.stock:
        if stretch.length is None and stretch.id in lengths:
            return as_cut(job.rules, stretch, lengths[stretch.id])
    return ZERO


def as_cut(rules: Rules, stretch: Stretch, used: Length) -> Length:
    """Squaring + used / keeps: the length before it is washed (divide; never multiply by what it loses)."""
    unwashed = used if rules.keeps == 1 or rules.keeps <= 0 else used / rules.keeps
    return unwashed + squared_off(rules, stretch)


def bought(rules: Rules, roll: Length) -> Length:
    """Up to the shop's step."""
    return round_up(roll, rules.step) if rules.step and rules.step > ZERO else roll


def most_that_buys(job: Job, stretch: Stretch, plan: Layout) -> int:
    """The most roll, in ticks, that buys the same length in shop steps as a plan; 0 where that buys none."""
    used = job.scale.down(total([use.length for use in plan.uses if use.stretch == stretch.id]))
    if not used or not job.rules.step or job.rules.step <= ZERO:
        return used
    washed = plan.buy - squared_off(job.rules, stretch)
    if job.rules.keeps != 1 and job.rules.keeps > 0:
        washed *= job.rules.keeps
    return max(job.scale.down(washed), used)


def area_bound(job: Job) -> Length:
    """`sum(A x C) / U`, U the widest cloth there is."""
    widest = max([stretch.usable for stretch in job.stock], default=ZERO)
    area = job.scale.tick * sum([need.flat * need.cut for need in job.needs])
    return area * (job.scale.tick / widest) if widest > ZERO else ZERO


Held = tuple[int, int, int, int]
"""A piece of a strip: its cut width, its row, its spot in it, and the usable width there."""


def piece_orders(job: Job, rows: Sequence[Row]) -> list[Sequence[int]]:
    """For every row, each of its pieces' places in its strip, from 1 at the left end as hung."""
    return orders_of(rows, made_up(job, rows))


def made_up(job: Job, rows: Sequence[Row]) -> list[list[Held]]:
    """The pieces of every strip, from its left end as hung."""
    held: list[list[Held]] = [[] for _ in job.strips]
    for place, row in enumerate(rows):
        for spot, (strip, width) in enumerate(row.parts):
            held[strip].append((width, place, spot, row.usable))
    for number, pieces in enumerate(held):
        if len(pieces) > 1:
            settled = rows[pieces[0][1]].orders
            held[number] = as_settled(rows, pieces) if settled else in_best_order(job, job.strips[number], pieces)
    return held


def in_best_order(job: Job, strip: Strip, held: list[Held]) -> list[Held]:
    """Pieces as they look best, or in another order that keeps their joins out of what the strip avoids."""
    order = arranged(held, strip.larger_end == "right")
    spans = spans_of(strip.avoid, job.join, job.scale)
    return clear_order(order, lambda each: each[0] - job.join, spans) if spans else order


def as_settled(rows: Sequence[Row], held: list[Held]) -> list[Held]:
    """Pieces whose places in their strip their rows say."""
    return sorted(held, key=lambda each: rows[each[1]].orders[each[2]])


def arranged(held: list[Held], larger_right: bool) -> list[Held]:
    """Full widths in the middle, a part at each end, the larger at the chosen one; other parts beside the smaller.

    `held` stands in the order of its rows, and of pieces alike the first made comes first.
    """
    held = sorted(held, key=itemgetter(0), reverse=True)
    full = [each for each in held if each[0] == each[3]]
    parts = [each for each in held if each[0] < each[3]]
    order = full + parts[:1] if len(parts) < 2 else [parts[0], *full, *parts[2:], parts[1]]
    return order[::-1] if larger_right else order


def orders_of(rows: Sequence[Row], held: Sequence[Sequence[Held]]) -> list[Sequence[int]]:
    """For every row, each of its pieces' places in its strip."""
    orders: list[list[int]] = [[1] * len(row.parts) for row in rows]
    for pieces in held:
        for order, (_, place, spot, _) in enumerate(pieces, 1):
            orders[place][spot] = order
    return [row.orders or order for row, order in zip(rows, orders, strict=True)]


def in_making_order(held: Sequence[Sequence[Held]]) -> list[int]:
    """The rows in the order in which each strip's pieces are cut one after the other, from its left end."""
    return list(dict.fromkeys([place for pieces in held for _, place, _, _ in pieces]))
