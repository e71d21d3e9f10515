"""What no plan goes under, from widths alone: the layered bound of connected groups.

Take the pieces of the longest strips of a connected group, then of the next longest as well, and so on: each such layer
falls into connected parts, every part lies within one part of the next layer, and a part of `n` strips with net width
`a` takes at least `ceil((a + join * (n - 1)) / W)` widths. A width is as long as the layer in which it first appears.
The bound is the cheapest such nesting. It leaves the least piece out of account, so it can only be too low.

What no connected group goes under, for every set of strips at once.

A group of `n` strips with net width `a` takes at least `ceil((a + join * (n - 1)) / W)` widths. Its longer strips,
which need not hang together without the shorter ones, take at least the fewest widths of any parting of them; a width
is as long as its longest piece. The least piece is left out of account, so a floor can only be too low.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache
from operator import add, itemgetter
from typing import NamedTuple

from msgspec import Struct

from wizard.trade.cutting.grid_units import Demand, members, sum_over_sets
from wizard.trade.cutting.work_budget import spend

Key = tuple[int, ...]
"""What a plan takes: one or more measures of its cloth, then its joins. Less in all is better."""


class Measure(Struct, frozen=True):
    """How cloth is weighed. By length, in one measure; or, where the widths have to be packed on several lengths of
    cloth, by the number of widths at least as long as each of `cuts` (longest first), in as many measures."""

    cuts: tuple[int, ...] = ()

    def of(self, cut: int) -> Key:
        """One width of this length."""
        return tuple(int(cut >= each) for each in self.cuts) if self.cuts else (cut,)

    def levels(self, demands: Iterable[Demand]) -> tuple[int, ...]:
        """The cut lengths at which widths are counted, longest first."""
        return self.cuts or tuple(sorted({demand.cut for demand in demands}, reverse=True))

    def total(self, levels: Sequence[int], rows: Sequence[int]) -> Key:
        """So many widths in all at least as long as each level."""
        if self.cuts:
            return tuple(rows)
        steps = (cut - below for cut, below in zip(levels, [*levels[1:], 0], strict=True))
        return (sum(step * count for step, count in zip(steps, rows, strict=True)),)


class Layer(NamedTuple):
    """Widths that a set of strips takes, and their length of cloth in all."""

    rows: int
    cost: int


class Floor(NamedTuple):
    """What one connected group cannot go under, for any excess of its shared widths."""

    net: int
    strips: int
    width: int
    join: int
    cut: int
    """Its shortest cut length."""
    longer: list[Layer]
    """What its longer strips take, in the best ways of parting them."""
    counted: tuple[int, ...] = ()
    """Where widths are counted by cut length: the fewest at least as long as each level above its shortest."""
    depth: int = 0
    """And at how many levels all of its strips count."""

    def rows(self, excess: int) -> int:
        """The fewest widths of any shape with this excess, or more."""
        return max(1, -(-(self.net + self.join * excess) // self.width))

    def layers(self, excess: int) -> list[Layer]:
        """What no shape with this excess, or more, goes under; fewest widths first."""
        rows = self.rows(excess)
        return pareto(
            [Layer(max(rows, each.rows), each.cost + max(0, rows - each.rows) * self.cut) for each in self.longer]
        )

    def at(self, excess: int) -> list[Key]:
        """The same as keys, shortest first."""
        over = excess - self.strips
        if self.depth:
            rows = self.layers(excess)[0].rows
            return [(*self.counted, *[rows] * self.depth, rows + over)]
        if len(self.longer) > 1:
            return [(each.cost, each.rows + over) for each in reversed(self.layers(excess))]
        fewest, cost = self.longer[0]
        rows = self.rows(excess)
        return [(cost + (rows - fewest) * self.cut, rows + over) if rows > fewest else (cost, fewest + over)]


def pareto(layers: list[Layer]) -> list[Layer]:
    """Those that none matches in both widths and length, fewest widths first."""
    if len(layers) == 1:
        return layers
    kept: list[Layer] = []
    for each in sorted(set(layers)):
        if not kept or each.cost < kept[-1].cost:
            kept.append(each)
    return kept


class Bounds:
    """The floors of all sets of strips, added in the order of their bit masks."""

    def __init__(self, demands: Sequence[Demand], width: int, join: int, measure: Measure) -> None:
        self.demands, self.width, self.join, self.measure = demands, width, join, measure
        self.nets = sum_over_sets([demand.net for demand in demands])
        self.apart: list[list[Layer]] = [[Layer(0, 0)]]
        """What each set takes in the best ways of parting it."""
        self.ties: list[list[tuple[int, list[Layer]]]] = [[] for _ in demands]

    def add(self, mask: int) -> Floor:
        """The floor of one connected group; notes what its best partings take."""
        numbers = members(mask)
        cut = min(self.demands[i].cut for i in numbers)
        floor = Floor(self.nets[mask], len(numbers), self.width, self.join, cut, self.apart[self.over(numbers, cut)])
        if self.measure.cuts:
            above = [each for each in self.measure.cuts if each > cut]
            counted = tuple(self.apart[self.over(numbers, each - 1)][0].rows for each in above)
            floor = floor._replace(counted=counted, depth=len(self.measure.cuts) - len(above))
        self.part(mask, numbers[0], floor.layers(len(numbers) - 1))
        return floor

    def over(self, numbers: Iterable[int], cut: int) -> int:
        """Those of the strips that are longer than `cut`."""
        return sum(1 << i for i in numbers if self.demands[i].cut > cut)

    def part(self, mask: int, low: int, together: list[Layer]) -> None:
        """The best partings of a set, `together` being what it takes undivided."""
        found = [
            Layer(one.rows + rest.rows, one.cost + rest.cost)
            for tie, layers in self.ties[low]
            if tie & mask == tie
            for one in layers
            for rest in self.apart[mask ^ tie]
        ]
        best = pareto(found + together)
        if not mask & (mask - 1) or any(each not in found for each in best):
            self.ties[low].append((mask, together))
        self.apart.append(best)


MANY = 1 << 20
"""More than any number of joins: a plan is weighed by one number, its length times this and its joins."""

OUT = 1 << 80
"""More than any plan takes."""


@lru_cache(maxsize=16)
def ties_of(count: int) -> tuple[tuple[int, ...], ...]:
    """For every set of so many strips, by bit mask, its proper subsets that hold its first strip."""
    numbers = list(range(1 << count))
    out: list[tuple[int, ...]] = [()]
    for mask in numbers[1:]:
        low = mask & -mask
        rest = part = mask ^ low
        ties = []
        while part:
            part = (part - 1) & rest
            ties.append(numbers[part | low])
        out.append(tuple(ties))
    return tuple(out)


Pick = Callable[[Sequence[int]], tuple[int, ...]]
"""Takes the numbers of some sets out of those of all sets."""


@lru_cache(maxsize=16)
def picks_of(count: int) -> tuple[tuple[Pick, Pick] | None, ...]:
    """For every set with ties: what picks the ties' numbers, in their order, and what picks those of the rests."""
    out: list[tuple[Pick, Pick] | None] = []
    for mask, ties in enumerate(ties_of(count)):
        # Of one place alone a getter would give no tuple: it is picked twice.
        groups = ties if len(ties) != 1 else ties * 2
        out.append((itemgetter(*groups), itemgetter(*[mask ^ tie for tie in groups])) if ties else None)
    return tuple(out)


class Floors:
    """The floors of all sets of strips, by bit mask. The strips stand in order of their cut lengths, longest first."""

    def __init__(self, demands: Sequence[Demand], width: int, join: int) -> None:
        self.demands, self.width, self.join = demands, width, join
        spend(20 + (1 << len(demands)))
        self.ties, self.picks = ties_of(len(demands)), picks_of(len(demands))
        self.gross = sum_over_sets([demand.flat for demand in demands], -join)
        self.rows = [0, *[-(-each // width) or 1 for each in self.gross[1:]]]
        """The fewest widths of each set as one group."""
        self.cuts = [demand.cut for demand in demands]
        self.longer = [(1 << self.cuts.index(cut)) - 1 for cut in self.cuts]
        """For each strip those longer than it: they stand before it."""
        self.fewest = self.parted(self.longer[-1])
        self.steps: dict[int, list[int]] = {0: [0]}
        """By the strips longer than a cut length, what each set of them takes beyond that length."""
        for place, longer in enumerate(self.longer):
            if longer not in self.steps:
                self.steps[longer] = self.stepped(longer, place)
        self.keys = [0]
        """The least length and joins of each set as one group, in one number."""
        for place in range(len(demands)):
            self.keys += self.weighed(place)

    def parted(self, within: int) -> list[int]:
        """The fewest widths of each set within a set, over all ways of parting it into groups."""
        fewest = self.rows[: within + 1]
        for mask, pick in enumerate(self.picks[: within + 1]):
            if pick:
                fewest[mask] = min(fewest[mask], *map(add, pick[0](fewest), pick[1](fewest)))
        return fewest

    def stepped(self, longer: int, place: int) -> list[int]:
        """What each set of longer strips takes beyond the cut length of the strip at a place."""
        before, above = self.longer[place - 1], self.cuts[place - 1] - self.cuts[place]
        steps, fewest = self.steps[before], self.fewest
        return [steps[mask & before] + fewest[mask] * above for mask in range(longer + 1)]

    def weighed(self, place: int) -> list[int]:
        """The keys of the sets whose last strip is the one at a place."""
        longer, bit = self.longer[place], 1 << place
        steps, rows, worth = self.steps[longer], self.rows, self.cuts[place] * MANY + 1
        return [steps[mask & longer] * MANY + rows[mask] * worth - 1 for mask in range(bit, bit << 1)]

    def floor(self, mask: int) -> Floor:
        """The floor of one group for any excess of its shared widths."""
        last, count = mask.bit_length() - 1, mask.bit_count()
        net, cut, longer = self.gross[mask] - self.join * (count - 1), self.cuts[last], self.longer[last]
        rows = self.fewest[mask & longer]
        over = Layer(rows, self.steps[longer][mask & longer] + rows * cut)
        return Floor(net, count, self.width, self.join, cut, [over])
