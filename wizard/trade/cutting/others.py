"""Ways of cutting shorter than any cross cut, when cut lengths differ: slit and stacked layouts.

*Slit*: the roll is ripped lengthwise in two, and each lane is cut across by a plan of its own. *Stacked*: beside the
longer pieces of a width, shorter ones lie above each other. Both are tried, not searched to the end: a layout is shown
where it is shorter, and nothing is claimed to be the least.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cutting.by_length import ByLength
from wizard.trade.cutting.columns import Column, columns_layout
from wizard.trade.cutting.grouping import Choice, Cloth, by_area
from wizard.trade.cutting.rows import Row, even_out, rows_of
from wizard.trade.cutting.strips import Layout
from wizard.trade.cutting.ticks import ENDLESS, Job, Need, fewest_widths

EFFORT = 100
"""Nodes for the plan of one lane: these layouts are extras, and a plan must not wait for them."""

PARTINGS = 5
"""Up to so many strips every parting in two lanes is tried; with more, only partings by cut length."""


def shorter_ways(job: Job, used: int) -> tuple[Layout, ...]:
    """Slit and stacked layouts on the roll alone that take less than `used` ticks of it, the shortest first."""
    if len({need.cut for need in job.needs}) < 2 or any(need.spans for need in job.needs):
        return ()
    usable = job.scale.down(job.stock[0].usable)
    if sum(need.flat * need.cut for need in job.needs) > (used - 1) * usable:
        return ()
    found = [each for each in (slit(job, used, usable), stacked(job, used, usable)) if each]
    return tuple(sorted(found, key=lambda layout: layout.used))


class Lane(Struct, frozen=True):
    """Some strips cut across a lane of its own width."""

    places: tuple[int, ...]
    usable: int
    choice: Choice


def slit(job: Job, used: int, usable: int) -> Layout | None:
    """The shortest layout in two lanes that is under `used`, or None."""
    best: tuple[int, Lane, Lane] | None = None
    for left, right in partings(job.needs):
        limit = best[0] if best else used
        found = ripped(job, left, right, usable, limit)
        if found and found[0] < limit:
            best = found
    if best is None:
        return None
    columns, at = [], 0
    for lane in best[1:]:
        needs = [job.needs[place] for place in lane.places]
        rows = [
            replace(row, parts=tuple((lane.places[strip], width) for strip, width in row.parts))
            for row in rows_of(lane.choice, needs, lane.usable, job.join)
        ]
        columns.append(Column(at, at + lane.usable, tuple(sorted(rows, key=lambda row: min(row.parts)))))
        at += lane.usable
    return columns_layout(job, "slit", [(best[0], columns)])


def partings(needs: Sequence[Need]) -> Iterator[tuple[tuple[int, ...], tuple[int, ...]]]:
    """Ways of putting strips in two lanes."""
    count = len(needs)
    if count <= PARTINGS:
        for mask in range(1, 1 << (count - 1)):
            left = tuple(place for place in range(count) if mask >> place & 1)
            yield left, tuple(place for place in range(count) if place not in left)
        return
    for cut in sorted({need.cut for need in needs})[:-1]:
        left = tuple(place for place, need in enumerate(needs) if need.cut > cut)
        yield left, tuple(place for place, need in enumerate(needs) if need.cut <= cut)


def ripped(
    job: Job, left: tuple[int, ...], right: tuple[int, ...], usable: int, limit: int
) -> tuple[int, Lane, Lane] | None:
    """Two sets of strips in two lanes, ripped where the longer lane is short, if that is under `limit`.

    A wider lane is never longer, so the best place is where the two lengths cross: found by halving, once with the
    bound by area and once with every strip cut on its own, which cost nothing; only there are the lanes planned.
    """
    one, other = ([job.needs[place] for place in places] for places in (left, right))
    rough = crossing(usable, lambda at: by_width(one, at, job.join) <= by_width(other, usable - at, job.join))
    if min(longer(one, other, at, usable, job.join) for at in (rough - 1, rough)) >= limit:
        return None
    alone = crossing(usable, lambda at: apart(one, at, job.join) <= apart(other, usable - at, job.join))
    best: tuple[int, Lane, Lane] | None = None
    for at in sorted({rough - 1, rough, alone - 1, alone}):
        under = best[0] if best else limit
        if longer(one, other, at, usable, job.join) >= under:
            continue
        lanes = lane_of(job, left, at), lane_of(job, right, usable - at)
        if lanes[0] and lanes[1]:
            length = max(lanes[0].choice.cost, lanes[1].choice.cost)
            if length < under:
                best = (length, lanes[0], lanes[1])
    return best


def crossing(usable: int, narrow_enough: Callable[[int], bool]) -> int:
    """The least place from 1 at which a test that stays true holds."""
    low, high = 1, usable - 1
    while low < high:
        middle = (low + high) // 2
        if narrow_enough(middle):
            high = middle
        else:
            low = middle + 1
    return low


def by_width(needs: Sequence[Need], usable: int, join: int) -> int:
    """No plan of a lane is shorter; ENDLESS where the lane is too narrow for one."""
    for need in needs:
        if need.flat > usable and (usable <= join or -(-need.net // (usable - join)) > need.most):
            return ENDLESS
    return by_area(needs, Cloth(max(usable, join + 1), join))


def longer(one: Sequence[Need], other: Sequence[Need], at: int, usable: int, join: int) -> int:
    """The longer of two lanes, by width alone."""
    return max(by_width(one, at, join), by_width(other, usable - at, join))


def apart(needs: Sequence[Need], usable: int, join: int) -> int:
    """The length of a lane in which no two strips share a width."""
    if by_width(needs, usable, join) == ENDLESS:
        return ENDLESS
    return sum((fewest_widths(need, usable, join) or 0) * need.cut for need in needs)


def lane_of(job: Job, places: tuple[int, ...], usable: int) -> Lane | None:
    """A lane with its plan, where it can be cut."""
    needs = [job.needs[place] for place in places]
    if usable < 1 or by_width(needs, usable, job.join) == ENDLESS:
        return None
    return Lane(places, usable, ByLength(needs, Cloth(usable, job.join), EFFORT).least.choice)


@dataclass(slots=True)
class Slot:
    """Room beside the longer pieces of a row, for one piece of a shorter strip in each of its layers."""

    row: int
    start: int
    width: int
    height: int
    """What of the row's length is still free."""


def stacked(job: Job, used: int, usable: int) -> Layout | None:
    """The shortest layout with shorter pieces stacked beside longer ones that is under `used`, or None."""
    best: tuple[int, Layout] | None = None
    for cut in sorted({need.cut for need in job.needs})[:-1]:
        found = stack_below(job, cut, usable)
        if found and found[0] < (best[0] if best else used):
            best = found[0], columns_layout(job, "stacked", found[1])
    return best[1] if best else None


def stack_below(job: Job, cut: int, usable: int) -> tuple[int, list[tuple[int, list[Column]]]] | None:
    """Strips longer than `cut` by cross cuts; the others beside them where that saves a width, the rest after them."""
    places = [place for place, need in enumerate(job.needs) if need.cut > cut]
    needs = [job.needs[place] for place in places]
    long = rows_of(ByLength(needs, Cloth(usable, job.join), EFFORT).least.choice, needs, usable, job.join)
    rows = [replace(row, parts=tuple((places[strip], width) for strip, width in row.parts)) for row in long]
    rows.sort(key=lambda row: min(row.parts))
    slots = [Slot(n, 0, usable - sum(width for _, width in row.parts), row.cut) for n, row in enumerate(rows)]
    for slot in slots:
        slot.start = usable - slot.width
    beside: dict[int, list[Row]] = {}
    after: list[Row] = []
    short = sorted((p for p, need in enumerate(job.needs) if need.cut <= cut), key=lambda p: -job.needs[p].cut)
    for place in short:
        taken, full = spread(job.needs[place], slots, usable, job.join)
        for slot, width in taken:
            slot.height -= job.needs[place].cut
            beside.setdefault(slot.row, []).append(Row(job.needs[place].cut, ((place, width),), usable=usable))
        after += [Row(job.needs[place].cut, ((place, width),), usable=usable) for width in full]
    if not beside:
        return None
    blocks = [(row.cut, columns_of(row, beside.get(n, []), usable)) for n, row in enumerate(rows)]
    blocks += [(row.cut, [Column(0, usable, (row,))]) for row in after]
    return sum(length for length, _ in blocks), blocks


def columns_of(row: Row, beside: Sequence[Row], usable: int) -> list[Column]:
    """A row's own pieces, and the stack beside them where there is one."""
    if not beside:
        return [Column(0, usable, (row,))]
    edge = sum(width for _, width in row.parts)
    return [Column(0, edge, (row,)), Column(edge, usable, tuple(beside))]


def spread(need: Need, slots: Sequence[Slot], usable: int, join: int) -> tuple[list[tuple[Slot, int]], list[int]]:
    """A strip's pieces beside others and in widths of its own: the fewest of these, then the fewest pieces."""
    free = [slot for slot in slots for _ in range(slot.height // need.cut) if slot.width >= need.least]
    free.sort(key=lambda slot: -slot.width)
    options = []
    for count in range(len(free) + 1):
        room = sum(slot.width for slot in free[:count])
        full = max(0, -(-(need.net - room + join * count) // (usable - join))) if usable > join else 1
        pieces = count + full
        if 0 < pieces <= need.most and need.flat + join * (pieces - 1) <= room + full * usable:
            options.append((full, pieces, count))
    full, pieces, count = min(options)
    return widths_in(need, free[:count], full, usable, need.flat + join * (pieces - 1))


def widths_in(
    need: Need, taken: Sequence[Slot], full: int, usable: int, total: int
) -> tuple[list[tuple[Slot, int]], list[int]]:
    """`total` cut width over widths of their own, as full as may be, and slots."""
    own = min(full * usable, total - len(taken) * need.least)
    left, placed = total - own, []
    for n, slot in enumerate(taken):
        width = min(slot.width, left - need.least * (len(taken) - n - 1))
        placed.append((slot, width))
        left -= width
    return placed, even_out(own, full, need.least, usable)
