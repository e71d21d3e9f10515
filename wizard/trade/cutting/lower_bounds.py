"""What no plan goes under, from widths alone.

A connected group of `n` strips with net width `a` takes at least `ceil((a + join * (n - 1)) / W)` widths. Its longer
strips, which need not hang together without the shorter ones, take at least the fewest widths of any partition of them;
a width is as long as its longest piece. The least piece is left out of account, so a bound can only be too low.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache
from operator import add, itemgetter
from typing import NamedTuple

from wizard.trade.cutting.grid_units import Demand, members, subsets, sum_over_sets
from wizard.trade.cutting.work_budget import spend

Key = tuple[int, ...]
"""What a plan takes: its length of cloth or, where widths must be packed on several lengths, how many widths are at
least as long as each of some cuts (longest first); then its joins. Less in all of them is better."""


def worth_of(cut: int, cuts: Sequence[int]) -> Key:
    """What one width of this length takes: its length, or a count for each of `cuts` where they are given."""
    return tuple([int(cut >= each) for each in cuts]) if cuts else (cut,)


class GroupBound(NamedTuple):
    """What one connected group cannot go under, for any excess of its shared widths."""

    net: int
    strips: int
    width: int
    join: int
    fewest: int
    """The fewest widths of its longer strips."""
    cost: int = 0
    """The length of those widths."""
    cut: int = 0
    """Its shortest cut length."""
    counted: tuple[int, ...] = ()
    """Where widths are counted by cut length: the fewest at least as long as each level above the shortest."""
    depth: int = 0
    """The number of levels at which all of its strips count."""

    def at(self, excess: int) -> Key:
        """The bound of all shapes with this excess or more."""
        rows = max(1, self.fewest, -(-(self.net + self.join * excess) // self.width))
        joins = rows + excess - self.strips
        if self.depth:
            return (*self.counted, *[rows] * self.depth, joins)
        return self.cost + (rows - self.fewest) * self.cut, joins


MANY = 1 << 20
"""More than any number of joins: a plan is weighed by one number, its length times this plus its joins."""

OUT = 1 << 80
"""More than any plan takes."""


@lru_cache(maxsize=16)
def ties_of(count: int) -> tuple[tuple[int, ...], ...]:
    """For every set of `count` strips, by bit mask, its proper subsets that contain its first strip."""
    numbers = list(range(1 << count))
    lows = [mask & -mask for mask in numbers]
    parts = [subsets(mask ^ low)[-2::-1] for mask, low in zip(numbers, lows, strict=True)]
    return tuple([tuple([numbers[part | low] for part in each]) for each, low in zip(parts, lows, strict=True)])


Pick = Callable[[Sequence[int]], tuple[int, ...]]
"""Picks the numbers of some sets from those of all sets."""


@lru_cache(maxsize=16)
def picks_of(count: int) -> tuple[tuple[Pick, Pick] | None, ...]:
    """For every set that has ties: pickers for its ties, in their order, and for what each leaves."""
    out: list[tuple[Pick, Pick] | None] = []
    for mask, ties in enumerate(ties_of(count)):
        # Of one place alone a getter would give no tuple: it is picked twice.
        groups = ties if len(ties) != 1 else ties * 2
        out.append((itemgetter(*groups), itemgetter(*[mask ^ tie for tie in groups])) if ties else None)
    return tuple(out)


def parted(rows: Sequence[int], picks: Sequence[tuple[Pick, Pick] | None]) -> list[int]:
    """The fewest widths of each set over all its partitions into groups, `rows` being what each set takes as one."""
    fewest = list(rows)
    for mask, pick in enumerate(picks[: len(rows)]):
        if pick:
            fewest[mask] = min(fewest[mask], *map(add, pick[0](fewest), pick[1](fewest)))
    return fewest


class CountBounds:
    """The bounds of all sets of strips where widths are counted by cut length."""

    def __init__(self, demands: Sequence[Demand], width: int, join: int, cuts: Sequence[int]) -> None:
        self.demands, self.width, self.join, self.cuts = demands, width, join, cuts
        self.nets = sum_over_sets([demand.net for demand in demands])
        rows = [-(-each // width) for each in sum_over_sets([demand.flat for demand in demands], -join)]
        self.fewest = parted([0, *[max(1, each) for each in rows[1:]]], picks_of(len(demands)))

    def floor(self, mask: int) -> GroupBound:
        """The bound of one group."""
        numbers = members(mask)
        cut = min([self.demands[i].cut for i in numbers])
        counted = tuple([self.fewest[self.over(numbers, each - 1)] for each in self.cuts if each > cut])
        rest = self.fewest[self.over(numbers, cut)]
        depth = len(self.cuts) - len(counted)
        return GroupBound(self.nets[mask], len(numbers), self.width, self.join, rest, counted=counted, depth=depth)

    def over(self, numbers: Iterable[int], cut: int) -> int:
        """The strips longer than `cut`, as a bit mask."""
        return sum([1 << i for i in numbers if self.demands[i].cut > cut])


class LengthBounds:
    """The bounds of all sets of strips by length. The strips are sorted by cut length, longest first."""

    def __init__(self, demands: Sequence[Demand], width: int, join: int) -> None:
        self.demands, self.width, self.join = demands, width, join
        spend(20 + (1 << len(demands)))
        self.ties, self.picks = ties_of(len(demands)), picks_of(len(demands))
        self.gross = sum_over_sets([demand.flat for demand in demands], -join)
        self.rows = [0, *[-(-each // width) or 1 for each in self.gross[1:]]]
        """The fewest widths of each set as one group."""
        self.cuts = [demand.cut for demand in demands]
        self.longer = [(1 << self.cuts.index(cut)) - 1 for cut in self.cuts]
        """For each strip the longer ones, as a bit mask: they are sorted before it."""
        self.fewest = parted(self.rows[: self.longer[-1] + 1], self.picks)
        self.steps: dict[int, list[int]] = {0: [0]}
        """By the strips longer than a cut length: what each set of them takes beyond that length."""
        for place, longer in enumerate(self.longer):
            if longer not in self.steps:
                before, above = self.longer[place - 1], self.cuts[place - 1] - self.cuts[place]
                steps = self.steps[before]
                self.steps[longer] = [steps[m & before] + self.fewest[m] * above for m in range(longer + 1)]
        self.keys = [0]
        """The least length and joins of each set as one group, in one number."""
        for place, (cut, longer) in enumerate(zip(self.cuts, self.longer, strict=True)):
            # Those of the sets whose last strip is this one.
            steps, worth, bit = self.steps[longer], cut * MANY + 1, 1 << place
            self.keys += [steps[m & longer] * MANY + self.rows[m] * worth - 1 for m in range(bit, bit << 1)]

    def floor(self, mask: int) -> GroupBound:
        """The bound of one group for any excess of its shared widths."""
        last, count = mask.bit_length() - 1, mask.bit_count()
        net, cut, longer = self.gross[mask] - self.join * (count - 1), self.cuts[last], self.longer[last]
        rows = self.fewest[mask & longer]
        return GroupBound(net, count, self.width, self.join, rows, self.steps[longer][mask & longer] + rows * cut, cut)
