"""Strips planned by length: few of them together, many in batches, and then wrapped around as well.

In a wrap-around plan strips are cut one after the other, each beginning in what the one before it left. This needs no
search over sets of strips, so it serves any number of them. A strip cut whole, or begun in a width of its own, starts a
new connected group, so the plans of an order contain every partition into groups of neighbours. Strips are sorted by
cut length, longest first, for a width is as long as its first piece. A few plain orders are tried, then the most
promising of all orders, kept from strip to strip (a beam). This is the wrap-around rule of preemptive scheduling, with
the cost of a join and the least piece added.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property
from heapq import nsmallest
from itertools import chain
from typing import NamedTuple

from msgspec.structs import replace

from wizard.trade.cutting.connected_group import Shape
from wizard.trade.cutting.grid_units import Demand, members
from wizard.trade.cutting.no_join_spans import JoinPlacement, head_and_tail
from wizard.trade.cutting.pareto_partition import (
    PATIENCE,
    PATIENT,
    TOGETHER,
    Choice,
    Cloth,
    batches_of,
    by_area,
    renumbered,
    unjoined,
)
from wizard.trade.cutting.partition import Least, PartitionSearch, chained, fewest_within, in_one_width
from wizard.trade.cutting.work_budget import spend


class ByLength:
    """The least plan of some strips, and the one of fewest joins."""

    def __init__(self, demands: Sequence[Demand], cloth: Cloth, effort: int) -> None:
        self.demands, self.cloth = demands, cloth = unjoined(demands, cloth)
        self.batches = batches_of(demands, TOGETHER if effort < PATIENCE else PATIENT)
        """The numbers of the strips in each batch, longest cut first."""
        share = effort // len(self.batches)
        spend(30)
        self.partitions = [PartitionSearch([demands[place] for place in batch], cloth, share) for batch in self.batches]
        self.effort = effort

    @cached_property
    def found(self) -> list[Least]:
        """The least plan of each batch."""
        return [partition.least() for partition in self.partitions]

    @cached_property
    def bound(self) -> int:
        """No plan is shorter than this: for several batches, the bound by area."""
        return self.found[0].bound if len(self.batches) == 1 else by_area(self.demands, self.cloth)

    @cached_property
    def least(self) -> Least:
        """The plans of all batches; a wrap-around of all strips where that is shorter."""
        shape = in_one_width(self.demands, self.cloth.usable) if len(self.batches) > 1 else None
        if shape is not None:
            return Least(chained([((1 << len(self.demands)) - 1, shape)]), shape.key[0], shape.key[0], True)
        choice = self.joined([found.choice for found in self.found])
        alone = self.found[0] if len(self.batches) == 1 else Least(choice, self.bound, self.bound, False)
        if alone.finished or choice.cost == self.bound:
            return replace(alone, choice=choice)
        other = wrap_around(self.demands, self.cloth, self.effort, self.bound)
        return replace(alone, choice=other if other and other.key < choice.key else choice)

    def fewest(self, limit: int) -> tuple[Choice | None, bool]:
        """The plan of fewer joins than the least that takes at most `limit`, or None; and whether that is certain.

        Batches use what `limit` leaves over one after the other; none is looked for where they take more than that
        together.
        """
        plans, certain = list[Choice](), len(self.batches) == 1
        over = limit - sum([found.choice.cost for found in self.found])
        if over < 0:
            return None, False
        for partition, found in zip(self.partitions, self.found, strict=True):
            choice, sure = fewest_within(partition, found.choice.cost + over, found.choice.joins)
            plans.append(choice or found.choice)
            certain = certain and sure
            over -= plans[-1].cost - found.choice.cost
        if sum([plan.joins for plan in plans]) >= self.least.choice.joins:
            return None, certain
        return self.joined(plans), certain

    def joined(self, plans: Sequence[Choice]) -> Choice:
        """The plans of all batches as one, with their sets numbered as in the whole job."""
        pairs = zip(self.batches, plans, strict=True)
        return chained(renumbered(mask, shape, batch) for batch, plan in pairs for mask, shape in plan.groups)


KEPT = 4
"""Plans kept from strip to strip in one order."""

EFFORT_EACH = 100
"""The effort for each order that is kept from strip to strip."""

LOOKED_AT = 60_000
"""Orders kept, times the number of strips squared: about as many plans are looked at."""


class Strung(NamedTuple):
    """Some strips cut one after the other, in grid units. Of two that hold the same strips the lesser is better."""

    length: int
    joins: int
    taken: int
    """How much of the open width is taken."""
    cut: int
    """The length of the open width."""
    area: int = 0
    """The area of the strips themselves."""
    done: int = 0
    """The strips, as a bit mask."""
    strip: int = -1
    widths: int = 0
    """Widths begun for the last strip."""
    shares: bool = False
    """True when it has a piece in the width that was open before it."""
    before: Strung | None = None
    pieces: tuple[int, ...] = ()
    """The pieces of the last strip, head first, where the pattern decides them."""

    def from_first(self) -> list[Strung]:
        """How it stood after each of its strips."""
        states = [self]
        while states[-1].before:
            states.append(states[-1].before)
        return states[-2::-1]


def wrap_around(demands: Sequence[Demand], cloth: Cloth, effort: int, bound: int) -> Choice | None:
    """The shortest plan found, then the one of fewest joins; None where there is none. Stops at one of length
    `bound`."""
    wrapping = Wrapping(demands, cloth)
    # A few strips of several cut lengths are searched exactly once there is time: until then the plain orders do.
    searched = len(demands) > PATIENT or effort >= PATIENCE or len({demand.cut for demand in demands}) == 1
    best: Choice | None = None
    plain = filter(None, (wrapping.in_order(order) for order in plain_orders(demands)))
    for strung in chain(plain, wrapping.in_best_orders(effort) if searched else ()):
        if best is None or (strung.length, strung.joins) < best.key:
            best = wrapping.choice(strung) or best
        if best and best.cost == bound:
            break
    return best


class Wrapping:
    """Strips on one cloth, cut one after the other."""

    def __init__(self, demands: Sequence[Demand], cloth: Cloth) -> None:
        self.demands, self.usable, self.join = demands, cloth.usable, cloth.join
        self.least = min([demand.least for demand in demands])
        self.start = Strung(0, 0, self.usable, 0, 0)

    def in_order(self, order: Sequence[int]) -> Strung | None:
        """The best plan in one order."""
        held = [self.start]
        for place in order:
            further = [each for state in held for each in self.added(state, place)]
            held = undominated(further)[:KEPT] if len(further) > 1 else further
        return held[0] if held else None

    def in_best_orders(self, effort: int) -> Iterator[Strung]:
        """The best plan of the orders that lose least from strip to strip."""
        most = max(min(effort // EFFORT_EACH, LOOKED_AT // len(self.demands) ** 2), 1)
        held = [self.start]
        for _ in self.demands:
            further: dict[tuple[int, int, int], Strung] = {}
            for state in held:
                for place in self.next_places(state.done):
                    for each in self.added(state, place):
                        known = further.setdefault((each.done, each.length, each.taken), each)
                        if each.joins < known.joins:
                            further[each.done, each.length, each.taken] = each
            held = nsmallest(most, further.values(), key=self.rank)
        yield from sorted(held)[:1]

    def rank(self, state: Strung) -> tuple[int, int]:
        """Less is better: the area that is in no strip and too narrow for one, then joins."""
        room = self.usable - state.taken
        open_area = room * state.cut if room >= self.least else 0
        return state.length * self.usable - state.area - open_area, state.joins

    def next_places(self, done: int) -> Iterable[int]:
        """The strips that may come next: those of the longest cut left, only the first of strips that are alike."""
        left = [place for place in range(len(self.demands)) if not done >> place & 1]
        longest = max([self.demands[place].cut for place in left])
        return {self.demands[p]: p for p in reversed(left) if self.demands[p].cut == longest}.values()

    def added(self, state: Strung, place: int) -> list[Strung]:
        """Every way of cutting one more strip: whole or joined, in the open width or from a new one."""
        demand, room = self.demands[place], self.usable - state.taken
        if demand.flat <= room:
            return [self.further(state, place, 0, 0, state.taken + demand.flat, True)]
        begun = self.joined(state, place, room, True) if room >= demand.least else []
        if demand.flat <= self.usable:
            return [*begun, self.further(state, place, 1, 0, demand.flat, False)]
        return [*begun, *self.joined(state, place, self.usable, False)]

    def joined(self, state: Strung, place: int, space: int, shares: bool) -> list[Strung]:
        """A strip in several pieces, the first in this space, the others in the fewest widths."""
        demand, width = self.demands[place], self.usable - self.join
        left = demand.net - space + self.join
        more = -(-left // width)
        if demand.spans:
            counts = range(more + 1, min(more + 2, demand.most) + 1)
            ways = [head_and_tail(demand, count, self.usable, self.join, space) for count in counts]
            return [self.further(state, place, len(w) - shares, len(w) - 1, w[-1], shares) for w in ways if w]
        # The last piece may have to take more than is left: those before it are then so much narrower.
        tail = max(left - (more - 1) * width + self.join, demand.least)
        return [self.further(state, place, more + (not shares), more, tail, shares)] if more < demand.most else []

    def further(self, state: Strung, place: int, widths: int, joins: int, taken: int, shares: bool) -> Strung:
        """A plan with one strip more, in this many new widths."""
        demand = self.demands[place]
        return Strung(
            state.length + widths * demand.cut, state.joins + joins, taken, demand.cut if widths else state.cut,
            state.area + demand.flat * demand.cut, state.done | 1 << place, place, widths, shares, state,
        )  # fmt: skip

    def choice(self, strung: Strung) -> Choice | None:
        """A plan by its connected groups; None where the joins of one group cannot be kept clear."""
        groups = [self.shaped(widths) for widths in grouped(strung)]
        for mask, shape in groups:
            demands = [self.demands[place] for place in members(mask)]
            spanned = any([demand.spans for demand in demands])
            if spanned and not JoinPlacement(demands, shape.shared, shape.pure, self.usable, self.join).solve():
                return None
        return chained(groups)

    def shaped(self, widths: Sequence[Sequence[int]]) -> tuple[int, Shape]:
        """A connected group from the strips in each of its widths."""
        mask = sum({1 << place for width in widths for place in width})
        at = {place: number for number, place in enumerate(members(mask))}
        shared = tuple([sum([1 << at[place] for place in width]) for width in widths if len(width) > 1])
        alone = [width[0] for width in widths if len(width) == 1]
        length = sum([max([self.demands[place].cut for place in width]) for width in widths])
        return mask, Shape((length, sum(map(len, widths)) - len(at)), shared, tuple(map(alone.count, at)))


def undominated(states: Iterable[Strung]) -> list[Strung]:
    """The states that no other matches in length, joins and room together, shortest first."""
    out: list[Strung] = []
    for state in sorted(states):
        if not any([each.joins <= state.joins and each.taken <= state.taken for each in out]):
            out.append(state)
    return out


def grouped(strung: Strung) -> list[list[list[int]]]:
    """For each connected group of a plan, the strips in each of its widths."""
    groups: list[list[list[int]]] = []
    for each in strung.from_first():
        if each.shares:
            groups[-1][-1].append(each.strip)
        else:
            groups.append([])
        groups[-1] += [[each.strip] for _ in range(each.widths)]
    return groups


def plain_orders(demands: Sequence[Demand]) -> list[list[int]]:
    """The longest cut first; within one cut length as given, widest first, narrowest first, and both in turn."""
    places = range(len(demands))
    wide = sorted(places, key=lambda place: -demands[place].flat)
    turns = [place for pair in zip(wide, wide[::-1], strict=True) for place in pair][: len(wide)]
    orders = dict.fromkeys(map(tuple, (places, wide, wide[::-1], turns)))
    return [sorted(order, key=lambda place: -demands[place].cut) for order in orders]
