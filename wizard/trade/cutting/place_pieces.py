"""From rows in grid units to a layout: pieces in order, placed on their stretches, and every offcut."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from operator import itemgetter
from typing import Final, Literal

from wizard.trade.cutting.cut_records import (
    Layout,
    LayoutWay,
    Offcut,
    OffcutKind,
    Piece,
    Proof,
    Rules,
    Stretch,
    Use,
)
from wizard.trade.cutting.grid_units import CutJob, spans_of
from wizard.trade.cutting.no_join_spans import clear_order
from wizard.trade.cutting.piece_widths import Row
from wizard.trade.cutting.stock_groups import runs_of, squared_off
from wizard.trade.lengths import ZERO, Length, round_up, total


def layout(job: CutJob, rows: Sequence[Row], proof: Proof, as_given: bool = False) -> Layout:
    """Rows laid one after the other on their stretches: in the given order, or in the order in which the strips are
    made up."""
    held = made_up(job, rows)
    # Else each strip's pieces are cut one after the other, from its left end.
    made_in = dict.fromkeys([place for pieces in held for _, place, _, _ in pieces])
    places, orders = range(len(rows)) if as_given else made_in, orders_of(rows, held)
    return placed(job, "cross-cut", [(rows[place], orders[place]) for place in places], proof, Laying)


def placed(job: CutJob, way: LayoutWay, rows: Sequence[Ordered], proof: Proof, kind: type[Laying]) -> Layout:
    """Rows laid on their stretches, one stretch after the other."""
    layings = [kind(job, number) for number in sorted({row.stretch for row, _ in rows})]
    uses = []
    for each in layings:
        here = [pair for pair in rows if pair[0].stretch == each.number]
        uses.append(Use(each.stretch.id, each.length(each.lay(here)), len(here)))
    pieces = [piece for each in layings for piece in each.pieces]
    if len(layings) > 1 or way == "along":
        # Rows of one stretch are laid in order along it already.
        pieces = in_order(pieces)
    offcuts = [offcut for each in layings for offcut in each.offcuts]
    return assemble(job, way, pieces, offcuts, uses, made(job, [row for row, _ in rows]), proof)


def in_order(pieces: Iterable[Piece]) -> list[Piece]:
    """Pieces by their stretch, along it, then across it."""
    return sorted(pieces, key=lambda each: (each.stretch, each.start, each.across))


def assemble(
    job: CutJob,
    way: LayoutWay,
    pieces: Sequence[Piece],
    offcuts: Sequence[Offcut],
    uses: Sequence[Use],
    flats: tuple[tuple[str, Length], ...],
    proof: Proof,
) -> Layout:
    """The layout of placed pieces: adds up what they take."""
    used = from_roll(job, uses)
    roll = as_cut(job.rules, job.roll, used) if job.roll and used else ZERO
    return Layout(
        way=way,
        pieces=tuple(pieces),
        offcuts=tuple(offcuts),
        uses=tuple(uses),
        used=total([use.length for use in uses]),
        roll=roll,
        buy=bought(job.rules, roll),
        joins=len(pieces) - len(job.strips),
        flats=flats,
        proof=proof,
        area_bound=area_bound(job),
    )


def made(job: CutJob, rows: Iterable[Row]) -> tuple[tuple[str, Length], ...]:
    """The flat cut width of each strip as made from its pieces."""
    join = job.join
    flats = [join] * len(job.strips)
    for row in rows:
        for strip, width in row.parts:
            flats[strip] += width - join
    return tuple([(strip.id, job.scale.length(flat)) for strip, flat in zip(job.strips, flats, strict=True)])


def from_roll(job: CutJob, uses: Sequence[Use]) -> Length:
    """What is used of the roll, in washed cloth; ZERO where nothing is bought."""
    roll = job.roll
    return total([use.length for use in uses if roll and use.stretch == roll.id])


def as_cut(rules: Rules, stretch: Stretch, used: Length) -> Length:
    """`squaring + used / keeps`: the length before washing (divide; never multiply by what it loses)."""
    unwashed = used if rules.keeps == 1 or rules.keeps <= 0 else used / rules.keeps
    return unwashed + squared_off(rules, stretch)


def bought(rules: Rules, roll: Length) -> Length:
    """A length rounded up to the shop's step."""
    return round_up(roll, rules.step) if rules.step and rules.step > ZERO else roll


def most_that_buys(job: CutJob, plan: Layout) -> int:
    """The most roll, in grid units, that buys the same length in shop steps as a plan; 0 where it buys none."""
    roll, used = job.roll, job.scale.down(from_roll(job, plan.uses))
    if roll is None or not used or not job.rules.step or job.rules.step <= ZERO:
        return used
    washed = plan.buy - squared_off(job.rules, roll)
    if job.rules.keeps != 1 and job.rules.keeps > 0:
        washed *= job.rules.keeps
    return max(job.scale.down(washed), used)


def area_bound(job: CutJob) -> Length:
    """`sum(A x C) / U`, with U the widest cloth."""
    widest = max([stretch.usable for stretch in job.stock], default=ZERO)
    area = job.scale.tick * sum([demand.flat * demand.cut for demand in job.demands])
    return area * (job.scale.tick / widest) if widest > ZERO else ZERO


Ordered = tuple[Row, Sequence[int]]
"""A row, and the place of each of its pieces in its strip."""

Held = tuple[int, int, int, int]
"""A piece of a strip: its cut width, its row, its spot in it, and the usable width there."""


def piece_orders(job: CutJob, rows: Sequence[Row]) -> list[Sequence[int]]:
    """For every row, the place of each of its pieces in its strip, from 1 at the left end as hung."""
    return orders_of(rows, made_up(job, rows))


def made_up(job: CutJob, rows: Sequence[Row]) -> list[list[Held]]:
    """The pieces of every strip, from its left end as hung."""
    held: list[list[Held]] = [[] for _ in job.strips]
    for place, row in enumerate(rows):
        for spot, (strip, width) in enumerate(row.parts):
            held[strip].append((width, place, spot, row.usable))
    for number, pieces in enumerate(held):
        if len(pieces) > 1:
            if rows[pieces[0][1]].orders:
                held[number] = sorted(pieces, key=lambda each: rows[each[1]].orders[each[2]])
            else:
                # As they look best, or in another order that keeps their joins out of the spans the strip avoids.
                order, avoid = arranged(pieces, job.strips[number].larger_end == "right"), job.strips[number].avoid
                spans = spans_of(avoid, job.join, job.scale)
                held[number] = clear_order(order, lambda each: each[0] - job.join, spans) if spans else order
    return held


def arranged(held: list[Held], larger_right: bool) -> list[Held]:
    """Full widths in the middle and a part at each end, the larger at the chosen one; other parts beside the smaller.

    `held` is in the order of its rows; of pieces that are alike the first made comes first.
    """
    held = sorted(held, key=itemgetter(0), reverse=True)
    full = [each for each in held if each[0] == each[3]]
    parts = [each for each in held if each[0] < each[3]]
    order = full + parts[:1] if len(parts) < 2 else [parts[0], *full, *parts[2:], parts[1]]
    return order[::-1] if larger_right else order


def orders_of(rows: Sequence[Row], held: Sequence[Sequence[Held]]) -> list[Sequence[int]]:
    """For every row, the place of each of its pieces in its strip."""
    orders: list[list[int]] = [[1] * len(row.parts) for row in rows]
    for pieces in held:
        for order, (_, place, spot, _) in enumerate(pieces, 1):
            orders[place][spot] = order
    return [row.orders or order for row, order in zip(rows, orders, strict=True)]


RIPPED: Final[tuple[Literal["none", "left", "right", "both"], ...]] = ("none", "left", "right", "both")
"""Which edges of a piece are cut rather than selvedge: 1 for the left and 2 for the right one, added up."""


class Laying:
    """The pieces and offcuts of one stretch. Lengths are looked up by their grid units: the same few come up all the
    time."""

    def __init__(self, job: CutJob, number: int) -> None:
        self.job, self.number, self.stretch = job, number, job.stock[number]
        self.length, usable = job.scale.length, self.stretch.usable
        self.usable, self.edge = job.scale.down(usable), job.scale.up(usable)
        pairs = zip(job.strips, job.demands, strict=True)
        self.strips = [(strip.id, demand.cut, self.length(demand.cut)) for strip, demand in pairs]
        self.pieces: list[Piece] = []
        self.offcuts: list[Offcut] = []
        squared = squared_off(job.rules, self.stretch)
        if squared:
            # The strip taken off lies before the squared end.
            self.offcuts.append(Offcut(self.stretch.id, -squared, ZERO, squared, usable, "squaring"))

    def lay(self, rows: Sequence[Ordered]) -> int | Fraction:
        """Lay rows in the sound runs and return where the last cut is. All of a length in hand is covered."""
        endless = self.stretch.length is None
        at: int | Fraction = 0
        last: int | Fraction = 0
        count = 0
        runs = runs_of(self.job, self.number)
        for run in runs:
            if endless and count == len(rows):
                break
            self.spare(at, run.start, 0, self.edge, "damage")
            at = run.start
            here = [each for each in rows if each[0].start == run.start]
            if here:
                last, at = self.lay_run(here, at, count)
                count += len(here)
            if run.room is not None and (not endless or count < len(rows)):
                self.spare(at, run.start + run.room, 0, self.edge, "end" if run is runs[-1] else "before")
                at = run.start + run.room
        if self.stretch.length is not None:
            # After the last sound run: damage, or less than a mark at its end.
            start = self.length(at)
            left = self.stretch.length - squared_off(self.job.rules, self.stretch) - start
            kind: OffcutKind = "damage" if left >= self.job.scale.tick else "end"
            if left > ZERO:
                self.offcuts.append(Offcut(self.stretch.id, start, ZERO, left, self.stretch.usable, kind))
        return last

    def lay_run(self, rows: Sequence[Ordered], at: int | Fraction, count: int) -> tuple[int | Fraction, int | Fraction]:
        """Lay rows one after the other from `at` on, with `count` rows before them on the stretch, each with what the
        pattern loses above and below it. Return where the last one ends, and where cloth is free again."""
        last = at
        for number, (row, orders) in enumerate(rows, count + 1):
            if row.before:
                self.spare(at, at + row.before, 0, self.edge, "repeat")
                at += row.before
            self.lay_row(row, orders, at, number, 0, self.edge)
            last = at = at + row.cut
            if row.after:
                self.spare(at, at + row.after, 0, self.edge, "repeat")
                at += row.after
        return last, at

    def lay_row(
        self, row: Row, orders: Sequence[int], at: int | Fraction, number: int, across: int, right: int
    ) -> None:
        """Lay the pieces of one row side by side between two places across, with what is left below and beside them."""
        length, stretch, start = self.length, self.stretch.id, self.length(at)
        for spot, ((strip, width), order) in enumerate(zip(row.parts, orders, strict=True), 1):
            name, cut, long = self.strips[strip]
            if row.right and spot == len(row.parts):
                self.spare(at, at + row.cut, across, row.usable - width, "side")
                across = row.usable - width
            left, wide = length(across), length(width)
            ripped = RIPPED[(across > 0) + 2 * (across + width < self.usable)]
            self.pieces.append(Piece(name, order, wide, long, stretch, start, left, number, ripped, row.phase))
            if cut < row.cut:
                self.offcuts.append(Offcut(stretch, length(at + cut), left, length(row.cut - cut), wide, "below"))
            across += width
        if across < right:
            self.spare(at, at + row.cut, across, right, "side")

    def spare(self, start: int | Fraction, stop: int | Fraction, left: int, right: int, kind: OffcutKind) -> None:
        """Note a rectangle of waste; one that reaches the right edge takes all there is."""
        if start < stop and left < right:
            across = self.length(left)
            wide = self.length(right - left) if right < self.edge else self.stretch.usable - across
            begins, along = self.length(start), self.length(stop - start)
            self.offcuts.append(Offcut(self.stretch.id, begins, across, along, wide, kind))
