"""From widths in ticks to a layout: pieces in order, placed on their stretches, and every offcut."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import Final, Literal

from wizard.trade.cutting.packing import runs_of
from wizard.trade.cutting.rows import Row
from wizard.trade.cutting.strips import Layout, Offcut, Piece, Proof, Rules, Stretch, Use
from wizard.trade.cutting.ticks import Job
from wizard.trade.lengths import ZERO, Length, round_up, total


def layout(job: Job, rows: Sequence[Row], proof: Proof, as_given: bool = False) -> Layout:
    """Lay the rows one after the other on their stretches: as given, or in the order the strips are made up."""
    orders = piece_orders(job, rows)
    if not as_given:
        rows, orders = in_making_order(rows, orders)
    pieces: list[Piece] = []
    offcuts: list[Offcut] = []
    uses: list[Use] = []
    for number, stretch in enumerate(job.stock):
        here = [place for place, row in enumerate(rows) if row.stretch == number]
        if not here:
            continue
        offcuts += squaring(job, stretch)
        at = lay_stretch(job, number, [(rows[place], orders[place]) for place in here], pieces, offcuts)
        uses.append(Use(stretch.id, job.scale.length(at), len(here)))
    return assemble(job, "cross-cut", pieces, offcuts, uses, rows, proof)


def lay_stretch(
    job: Job, number: int, rows: list[tuple[Row, tuple[int, ...]]], pieces: list[Piece], offcuts: list[Offcut]
) -> int | Fraction:
    """Lay rows in the sound runs of one stretch; give where the last cut falls. All of an owned length is tiled."""
    stretch, count = job.stock[number], 0
    at: int | Fraction = 0
    last: int | Fraction = 0
    for run in runs_of(number, stretch, job.rules, job.scale):
        here = [each for each in rows if each[0].start == run.start]
        if stretch.length is None and count == len(rows):
            break
        offcuts += full_width(job, stretch, at, run.start, "damage")
        at = run.start
        for row, orders in here:
            count += 1
            offcuts += full_width(job, stretch, at, at + row.before, "repeat")
            at += row.before
            lay_row(job, row, orders, (stretch, at, count), pieces, offcuts)
            last = at + row.cut
            at = last + row.after
            offcuts += full_width(job, stretch, last, at, "repeat")
        if run.room is not None and (stretch.length is not None or count < len(rows)):
            offcuts += full_width(job, stretch, at, run.start + run.room, "end")
            at = run.start + run.room
    if stretch.length is not None:
        offcuts += remnant(job, stretch, at)
    return last


def full_width(
    job: Job, stretch: Stretch, start: int | Fraction, stop: int | Fraction, kind: Literal["end", "damage", "repeat"]
) -> list[Offcut]:
    """Cloth from selvedge to selvedge that no piece is cut from."""
    if stop <= start:
        return []
    return [Offcut(stretch.id, job.scale.length(start), ZERO, job.scale.length(stop - start), stretch.usable, kind)]


def assemble(
    job: Job,
    way: Literal["cross-cut", "slit", "stacked", "along"],
    pieces: list[Piece],
    offcuts: list[Offcut],
    uses: list[Use],
    rows: Iterable[Row],
    proof: Proof,
) -> Layout:
    """Count up what the pieces of some rows take, once they are placed."""
    roll = rolled(job, uses)
    return Layout(
        way=way,
        pieces=tuple(sorted(pieces, key=lambda each: (each.stretch, each.start, each.across))),
        offcuts=tuple(offcuts),
        uses=tuple(uses),
        used=total(use.length for use in uses),
        roll=roll,
        buy=bought(job.rules, roll),
        joins=len(pieces) - len(job.strips),
        flats=made(job, rows),
        proof=proof,
        area_bound=area_bound(job),
    )


def made(job: Job, rows: Iterable[Row]) -> tuple[tuple[str, Length], ...]:
    """Each strip's flat cut width as made from its pieces."""
    flats = [job.join] * len(job.strips)
    for row in rows:
        for strip, width in row.parts:
            flats[strip] += width - job.join
    return tuple((strip.id, job.scale.length(flat)) for strip, flat in zip(job.strips, flats, strict=True))


def rolled(job: Job, uses: Sequence[Use]) -> Length:
    """What the roll must give as cut from it; ZERO when nothing is bought."""
    lengths = {use.stretch: use.length for use in uses}
    for stretch in job.stock:
        if stretch.length is None and stretch.id in lengths:
            return as_cut(job.rules, stretch, lengths[stretch.id])
    return ZERO


def as_cut(rules: Rules, stretch: Stretch, used: Length) -> Length:
    """Squaring + used / keeps: the length before it is washed (divide; never multiply by what it loses)."""
    return used / (rules.keeps if rules.keeps > 0 else 1) + squared_off(rules, stretch)


def squared_off(rules: Rules, stretch: Stretch) -> Length:
    """What squaring takes off one stretch."""
    return ZERO if stretch.squared or rules.squaring <= ZERO else rules.squaring


def bought(rules: Rules, roll: Length) -> Length:
    """Up to the shop's step."""
    return round_up(roll, rules.step) if rules.step and rules.step > ZERO else roll


def most_that_buys(job: Job, stretch: Stretch, plan: Layout) -> int:
    """The most roll, in ticks, that buys the same length in shop steps as a plan."""
    used = job.scale.down(plan.used)
    if not job.rules.step or job.rules.step <= ZERO:
        return used
    keeps = job.rules.keeps if job.rules.keeps > 0 else Fraction(1)
    most = job.scale.down((plan.buy - squared_off(job.rules, stretch)) * keeps)
    return max(most, used)


def area_bound(job: Job) -> Length:
    """`sum(A x C) / U`, U the widest cloth there is."""
    widest = max((stretch.usable for stretch in job.stock), default=ZERO)
    area = sum(need.flat * need.cut for need in job.needs)
    return job.scale.tick * job.scale.tick.inches * area / widest.inches if widest > ZERO else ZERO


def piece_orders(job: Job, rows: Sequence[Row]) -> list[tuple[int, ...]]:
    """For every row, each of its pieces' places in its strip, from 1 at the left end as hung."""
    orders: dict[tuple[int, int], int] = {}
    for strip, asked in enumerate(job.strips):
        held = [
            (width, place, spot, row.usable)
            for place, row in enumerate(rows)
            if not row.orders
            for spot, (owner, width) in enumerate(row.parts)
            if owner == strip
        ]
        for order, (_, place, spot, _) in enumerate(arranged(held, asked.larger_end == "right"), 1):
            orders[place, spot] = order
    return [
        row.orders or tuple(orders[place, spot] for spot in range(len(row.parts))) for place, row in enumerate(rows)
    ]


Held = tuple[int, int, int, int]


def arranged(held: list[Held], larger_right: bool) -> list[Held]:
    """Full widths in the middle, a part at each end, the larger at the chosen one; other parts beside the smaller."""
    held = sorted(held, key=lambda each: (-each[0], each[1], each[2]))
    full = [each for each in held if each[0] == each[3]]
    parts = [each for each in held if each[0] < each[3]]
    order = full + parts[:1] if len(parts) < 2 else [parts[0], *full, *parts[2:], parts[1]]
    return order[::-1] if larger_right else order


def in_making_order(rows: Sequence[Row], orders: list[tuple[int, ...]]) -> tuple[list[Row], list[tuple[int, ...]]]:
    """The rows sorted so that each strip's pieces are cut one after the other, from its left end."""

    def first(place: int) -> tuple[int, int]:
        return min((strip, order) for (strip, _), order in zip(rows[place].parts, orders[place], strict=True))

    places = sorted(range(len(rows)), key=first)
    return [rows[place] for place in places], [orders[place] for place in places]


def lay_row(
    job: Job,
    row: Row,
    orders: tuple[int, ...],
    where: tuple[Stretch, int | Fraction, int],
    pieces: list[Piece],
    offcuts: list[Offcut],
) -> None:
    """Place one row's pieces side by side from the left edge, with what is left below and beside them."""
    stretch, at, number = where
    length, start, across = job.scale.length, job.scale.length(at), 0
    for spot, ((strip, width), order) in enumerate(zip(row.parts, orders, strict=True), 1):
        cut = job.needs[strip].cut
        if row.right and spot == len(row.parts):
            offcuts += beside(job, row, (stretch, at), across, row.usable - width)
            across = row.usable - width
        side = rip_side(across > 0, across + width < row.usable)
        placed = (stretch.id, start, length(across), number, side)
        pieces.append(Piece(job.strips[strip].id, order, length(width), length(cut), *placed))
        if cut < row.cut:
            below = length(row.cut - cut)
            offcuts.append(Offcut(stretch.id, start + length(cut), length(across), below, length(width), "below"))
        across += width
    offcuts += beside(job, row, (stretch, at), across, None)


def beside(job: Job, row: Row, where: tuple[Stretch, int | Fraction], left: int, right: int | None) -> list[Offcut]:
    """What is left of a row between two places across it, or to its right edge."""
    stretch, start = where[0], job.scale.length(where[1])
    across = job.scale.length(left)
    width = (stretch.usable if right is None else job.scale.length(right)) - across
    return [Offcut(stretch.id, start, across, job.scale.length(row.cut), width, "side")] if width > ZERO else []


RIPPED: Final[dict[tuple[bool, bool], Literal["none", "left", "right", "both"]]] = {
    (False, False): "none", (True, False): "left", (False, True): "right", (True, True): "both"
}  # fmt: skip


def rip_side(left: bool, right: bool) -> Literal["none", "left", "right", "both"]:
    """Which edges of a piece are cut rather than selvedge."""
    return RIPPED[left, right]


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
