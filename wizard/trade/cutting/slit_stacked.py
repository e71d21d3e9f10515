"""Layouts that can be shorter than any cross cut, where cut lengths differ: slit and stacked.

*Slit*: the roll is ripped lengthwise in two, and each lane is cut across by a plan of its own. *Stacked*: beside the
longer pieces of a width, shorter ones are stacked. Both are tried, not searched to the end: a layout is shown where it
is shorter, and nothing is claimed to be the least. Their rows do not run from selvedge to selvedge, so they are laid in
columns side by side in blocks along the roll.

Beside cloth in hand some strips are cut across that, and the rest laid out on less of the roll than any cross cut
takes.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Sequence
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cutting.assign_stock import stock_plan
from wizard.trade.cutting.cut_records import Layout, Proof, Use
from wizard.trade.cutting.grid_units import ENDLESS, CutJob, Demand, fewest_widths, members
from wizard.trade.cutting.pareto_partition import Choice, Cloth, by_area
from wizard.trade.cutting.piece_widths import Row, dealt, rows_in_job
from wizard.trade.cutting.place_pieces import (
    Laying,
    area_bound,
    assemble,
    from_roll,
    in_order,
    layout,
    made,
    piece_orders,
)
from wizard.trade.cutting.plan_by_length import ByLength
from wizard.trade.lengths import ZERO, round_up

EFFORT = 100
"""Nodes for the plan of one lane: these layouts are extras, and no plan should wait for them."""

SPLITS = 5
"""Up to this many strips every split in two lanes is tried; with more, only splits by cut length."""


def shorter_ways(job: CutJob, used: int) -> tuple[Layout, ...]:
    """Slit and stacked layouts on the roll alone that take less than `used` of it in grid units, shortest first."""
    if len({demand.cut for demand in job.demands}) < 2 or job.spanned:
        return ()
    usable = job.scale.down(job.stock[0].usable)
    if sum(demand.flat * demand.cut for demand in job.demands) > (used - 1) * usable:
        return ()
    found = [each for each in (slit(job, used, usable), stacked(job, used, usable)) if each]
    return tuple(sorted(found, key=lambda layout: layout.used))


class SlitLane(Struct, frozen=True):
    """Some strips cut across a lane of its own width."""

    places: tuple[int, ...]
    usable: int
    choice: Choice

    def rows(self, job: CutJob) -> list[Row]:
        """Its rows, with the strips numbered as in the job, in their order."""
        return sorted(rows_in_job(job, self.places, self.choice, self.usable), key=lambda row: min(row.parts))


Rip = tuple[int, SlitLane, SlitLane]
"""The length of two lanes, and the lanes from the left edge."""


def slit(job: CutJob, used: int, usable: int) -> Layout | None:
    """The shortest layout in two lanes that is under `used`, or None."""
    best: Rip | None = None
    for left, right in splits(job.demands):
        best = best_rip(job, left, right, usable, best[0] if best else used) or best
    if best is None:
        return None
    length, one, other = best
    columns = [Column(0, one.usable, tuple(one.rows(job))), Column(one.usable, usable, tuple(other.rows(job)))]
    return columns_layout(job, "slit", [(length, columns)])


def splits(demands: Sequence[Demand]) -> list[tuple[tuple[int, ...], tuple[int, ...]]]:
    """Ways of putting strips in two lanes."""
    full = (1 << len(demands)) - 1
    cuts = sorted({demand.cut for demand in demands})[:-1]
    by_cut = [sum([1 << place for place, demand in enumerate(demands) if demand.cut > cut]) for cut in cuts]
    masks = range(1, full // 2 + 1) if len(demands) <= SPLITS else by_cut
    return [(members(mask), members(full - mask)) for mask in masks]


def best_rip(job: CutJob, left: tuple[int, ...], right: tuple[int, ...], usable: int, limit: int) -> Rip | None:
    """Two sets of strips in two lanes, ripped where the longer lane is short; None where that is not under `limit`.

    A wider lane is never longer, so the best place is where the two lengths cross. It is found by halving, once with
    the bound by area and once with every strip cut on its own, which cost nothing; lanes are planned only there.
    """
    one, other = ([job.demands[place] for place in places] for places in (left, right))

    def longer(at: int) -> int:
        """The longer of the two lanes, by width alone."""
        return max(length_bound(one, at, job.join), length_bound(other, usable - at, job.join))

    rough = crossing(usable, lambda at: length_bound(one, at, job.join) <= length_bound(other, usable - at, job.join))
    if min(longer(rough - 1), longer(rough)) >= limit:
        return None
    alone = crossing(usable, lambda at: unshared(one, at, job.join) <= unshared(other, usable - at, job.join))
    best: Rip | None = None
    for at in sorted({rough - 1, rough, alone - 1, alone}):
        if longer(at) >= limit:
            continue
        first, second = lane_of(job, left, at), lane_of(job, right, usable - at)
        length = max(first.choice.cost, second.choice.cost) if first and second else ENDLESS
        if first and second and length < limit:
            best, limit = (length, first, second), length
    return best


def crossing(usable: int, narrow_enough: Callable[[int], bool]) -> int:
    """The least place from 1 where a test becomes true and stays true."""
    return bisect_left(range(max(usable - 1, 1)), True, lo=1, key=narrow_enough)


def length_bound(demands: Sequence[Demand], usable: int, join: int) -> int:
    """No plan of a lane is shorter; ENDLESS where the lane is too narrow for one."""
    for demand in demands:
        if demand.flat > usable and (usable <= join or -(-demand.net // (usable - join)) > demand.most):
            return ENDLESS
    return by_area(demands, Cloth(max(usable, join + 1), join))


def unshared(demands: Sequence[Demand], usable: int, join: int) -> int:
    """The length of a lane in which no two strips share a width."""
    if length_bound(demands, usable, join) == ENDLESS:
        return ENDLESS
    return sum((fewest_widths(demand, usable, join) or 0) * demand.cut for demand in demands)


def lane_of(job: CutJob, places: tuple[int, ...], usable: int) -> SlitLane | None:
    """A lane with its plan; None where it cannot be cut."""
    demands = [job.demands[place] for place in places]
    if usable < 1 or length_bound(demands, usable, job.join) == ENDLESS:
        return None
    return SlitLane(places, usable, ByLength(demands, Cloth(usable, job.join), EFFORT).least.choice)


class Slot(Struct):
    """Space beside the longer pieces of a row, for one piece of a shorter strip in each of its layers."""

    row: int
    width: int
    height: int
    """What is still free of the row's length."""


def stacked(job: CutJob, used: int, usable: int) -> Layout | None:
    """The shortest layout with shorter pieces stacked beside longer ones that is under `used`, or None."""
    cuts = sorted({demand.cut for demand in job.demands})[:-1]
    found = [each for each in (stack_below(job, cut, usable) for cut in cuts) if each and each[0] < used]
    best = min(found, key=lambda each: each[0], default=None)
    return columns_layout(job, "stacked", best[1]) if best else None


def stack_below(job: CutJob, cut: int, usable: int) -> tuple[int, list[tuple[int, list[Column]]]] | None:
    """Strips longer than `cut` cut across; the others beside them where that saves a width, the rest after them."""
    lane = lane_of(job, tuple(place for place, demand in enumerate(job.demands) if demand.cut > cut), usable)
    rows = lane.rows(job) if lane else []
    slots = [Slot(n, usable - sum(width for _, width in row.parts), row.cut) for n, row in enumerate(rows)]
    beside: dict[int, list[Row]] = {}
    after: list[Row] = []
    short = sorted((p for p, demand in enumerate(job.demands) if demand.cut <= cut), key=lambda p: -job.demands[p].cut)
    for place in short:
        taken, full = spread(job.demands[place], slots, usable, job.join)
        for slot, width in taken:
            slot.height -= job.demands[place].cut
            beside.setdefault(slot.row, []).append(Row(job.demands[place].cut, ((place, width),), usable=usable))
        after += [Row(job.demands[place].cut, ((place, width),), usable=usable) for width in full]
    if not beside:
        return None
    blocks = [(row.cut, columns_of(row, beside.get(n, []), usable)) for n, row in enumerate(rows)]
    blocks += [(row.cut, columns_of(row, [], usable)) for row in after]
    return sum(length for length, _ in blocks), blocks


def columns_of(row: Row, beside: Sequence[Row], usable: int) -> list[Column]:
    """The row's own pieces, and the stack beside them where there is one."""
    edge = sum(width for _, width in row.parts) if beside else usable
    return [Column(0, edge, (row,)), *([Column(edge, usable, tuple(beside))] if beside else [])]


def spread(demand: Demand, slots: Sequence[Slot], usable: int, join: int) -> tuple[list[tuple[Slot, int]], list[int]]:
    """The pieces of a strip beside others and in widths of its own: fewest such widths, then fewest pieces."""
    free = [slot for slot in slots for _ in range(slot.height // demand.cut) if slot.width >= demand.least]
    free.sort(key=lambda slot: -slot.width)
    options = []
    for count in range(len(free) + 1):
        room = sum(slot.width for slot in free[:count])
        full = max(0, -(-(demand.net - room + join * count) // (usable - join))) if usable > join else 1
        pieces = count + full
        if 0 < pieces <= demand.most and demand.flat + join * (pieces - 1) <= room + full * usable:
            options.append((full, pieces, count))
    full, pieces, count = min(options)
    total, taken = demand.flat + join * (pieces - 1), free[:count]
    # Its own widths as full as possible.
    own = min(full * usable, total - count * demand.least)
    beside = dealt(total - own, [slot.width for slot in taken], demand.least)
    return list(zip(taken, beside, strict=True)), dealt(own, [usable] * full, demand.least)


class Column(Struct, frozen=True):
    """Rows one below the other between two places across the roll."""

    left: int
    right: int
    rows: tuple[Row, ...]


def columns_layout(job: CutJob, way: Literal["slit", "stacked"], blocks: Sequence[tuple[int, list[Column]]]) -> Layout:
    """Blocks of (length, columns) laid one after the other on the roll."""
    rows = [row for _, columns in blocks for column in columns for row in column.rows]
    orders = iter(piece_orders(job, rows))
    laying = Laying(job, 0)
    at, number = 0, 0
    for length, columns in blocks:
        for column in columns:
            down = at
            for row in column.rows:
                number += 1
                laying.lay_row(row, next(orders), down, number, column.left, column.right)
                down += row.cut
            laying.spare(down, at + length, column.left, column.right, "below")
        at += length
    uses = [Use(laying.stretch.id, job.scale.length(at), number)]
    # Nothing is claimed but that no layout at all goes under its own area.
    area = area_bound(job)
    proof = Proof(False, round_up(area, job.scale.tick) if area > ZERO else ZERO, "none", f"of {way} layouts", False)
    return assemble(job, way, in_order(laying.pieces), laying.offcuts, uses, made(job, rows), proof)


FEW = 5
"""Up to this many strips every choice of those cut from the roll is tried; of more none."""


def shorter_beside(job: CutJob, plan: Layout) -> tuple[Layout, ...]:
    """The shortest slit and the shortest stacked layout that take less of the roll than a plan that also cuts cloth in
    hand, shortest first; none where the roll is damaged."""
    roll = job.roll
    if roll is None or roll.damage or len(job.demands) > FEW or len({demand.cut for demand in job.demands}) < 2:
        return ()
    limit = job.scale.down(from_roll(job, plan.uses))
    found: list[Layout] = []
    full = (1 << len(job.demands)) - 1
    owned = tuple([each for each in job.stock if each.length is not None])
    # Two strips at least are cut from the roll, and one across the cloth in hand.
    for mask in [mask for mask in range(1, full) if mask & (mask - 1)]:
        short = shorter_ways(replace(job.part(members(mask)), stock=(roll,)), limit) if limit else ()
        rest = replace(job.part(members(full - mask)), stock=owned)
        across, _ = stock_plan(rest) if short else (None, False)
        if across:
            plan_of_rest = layout(rest, across.rows, Proof(False, ZERO, "none", "", False))
            found += [together(job, plan_of_rest, each) for each in short]
    by_way = [[each for each in found if each.way == way] for way in dict.fromkeys(each.way for each in found)]
    least = [min(each, key=lambda layout: layout.roll) for each in by_way]
    return tuple(sorted(least, key=lambda each: (each.roll, each.used)))


def together(job: CutJob, owned: Layout, roll: Layout) -> Layout:
    """Two layouts of strips of one job, on different stretches, as one layout."""
    flats = dict((*owned.flats, *roll.flats))
    pieces, offcuts = in_order((*owned.pieces, *roll.pieces)), (*owned.offcuts, *roll.offcuts)
    flats_of_all = tuple([(strip.id, flats[strip.id]) for strip in job.strips])
    proof = replace(roll.proof, bound=area_bound(job))
    return assemble(job, roll.way, pieces, offcuts, (*owned.uses, *roll.uses), flats_of_all, proof)
