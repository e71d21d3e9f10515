"""The least plan by length: the partition of the strips into groups that share widths, found from below.

Groups that share no width are planned apart, so a plan is a partition of the strips. At first each group counts with
its bound. The best partition by what is known is taken, and those of its groups that are not planned yet are searched,
which may make another partition the best; once all groups of the best partition are planned, it is the least. So only
groups that could matter are searched, and each only for something better than what is known.

`Fewest` finds the plan of fewest joins within a length by the same search, joins first.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache, cached_property
from operator import add

from msgspec import Struct

from wizard.trade.cutting.connected_group import Group, Shape, connect_within
from wizard.trade.cutting.grid_units import Demand, members, subsets, sum_over_sets
from wizard.trade.cutting.lower_bounds import MANY, OUT, LengthBounds
from wizard.trade.cutting.pareto_partition import Choice, Cloth, alone
from wizard.trade.cutting.work_budget import spend

FIRST_LOOK = 60
"""The effort spent on a group before its own partitions are looked at, which may show that it need not be searched."""

PAIR = 2
"""The effort of searching a pair that meets its bound at once."""

SHARE = 3
"""One group may take this part of the effort at most."""


class Least(Struct, frozen=True):
    """The plan of least length, then fewest joins, that was found, and how good it is known to be."""

    choice: Choice
    bound: int
    """No plan is shorter than this."""
    simple: int
    """The part of that bound that needed no search."""
    finished: bool
    """True when nothing better is left."""


class PartitionSearch:
    """The search over the partitions of some strips, sorted by cut length, longest first. Sets of strips are bit
    masks."""

    def __init__(self, demands: Sequence[Demand], cloth: Cloth, effort: int) -> None:
        self.demands, self.cloth, self.left, self.most = demands, cloth, effort, effort // SHARE
        self.full = (1 << len(demands)) - 1
        self.floors = LengthBounds(demands, cloth.usable - cloth.join, cloth.join)
        self.low = self.floors.keys
        """What no plan of each group goes under."""
        self.work = list(self.low)
        """The same, but what the plan takes where there is one, and OUT where no plan needs the group or none is
        known."""
        self.log: list[int] = []
        """The groups for which `work` has changed, in order."""
        self.shapes: dict[int, Shape] = {}
        self.simple = 0
        """The bound of all the strips before any search."""
        self.groups: dict[int, Group] = {}
        """The groups looked at."""
        self.open: set[int] = set()
        """Groups whose search was given up."""
        for place, demand in enumerate(demands):
            self.settle(1 << place, alone(demand, self.floors.rows[1 << place], cloth), True)

    def settle(self, mask: int, shape: Shape, least: bool) -> None:
        """Note the plan of a group."""
        self.shapes[mask] = shape
        self.takes(mask, weight(shape))
        if least:
            self.low[mask] = self.work[mask]

    def takes(self, mask: int, weight: int) -> None:
        """Note what a group takes as far as is known."""
        if weight != self.work[mask]:
            self.work[mask] = weight
            self.log.append(mask)

    def least(self) -> Least:
        """Search for the least plan, as far as the effort goes."""
        found, groups = self.solve(self.full, False)
        bound = min(found, self.lowest[self.full]) if self.open else found
        choice = chained((mask, self.shapes[mask]) for mask in groups)
        return Least(choice, bound // MANY, self.simple // MANY, bound == found)

    @cached_property
    def lowest(self) -> list[int]:
        """What no plan of each set of strips goes under, once the search is over."""
        return Sums(self.low, self.floors, self.full).best

    def solve(self, whole: int, parted: bool) -> tuple[int, list[int]]:
        """The best partition of a set, and what it takes; `parted`: into two groups at least."""
        groups = [1 << place for place in members(whole)]
        best = sum(self.work[mask] for mask in groups)
        sums, told = Sums(self.work, self.floors, whole, parted), len(self.log)
        self.simple = self.simple or sums.best[whole]
        while sums.best[whole] < best:
            tried = sums.groups()
            unknown = [mask for mask in tried if mask not in self.shapes]
            for mask in unknown:
                self.look(mask, best - sums.best[whole] + self.work[mask])
            if all(mask in self.shapes for mask in tried):
                taken = sum(self.work[mask] for mask in tried)
                if taken < best:
                    best, groups = taken, tried
            if told < len(self.log):
                sums.raised(self.log[told:])
                told = len(self.log)
        return best, groups

    def look(self, mask: int, limit: int) -> None:
        """Search a group for a plan that takes less than `limit`, and less than any partition of it."""
        if self.met_at_once(mask) or self.left <= 0 or self.search(mask, limit, FIRST_LOOK):
            self.give_up(mask)
            return
        parted = self.solve(mask, True)[0] if self.left > 0 else OUT
        if parted <= self.low[mask]:
            self.low[mask] = parted
            self.takes(mask, OUT)
        elif not self.search(mask, min(limit, parted), self.most):
            self.open.add(mask)
            self.give_up(mask)
        elif mask not in self.shapes and parted <= limit:
            self.takes(mask, OUT)

    def met_at_once(self, mask: int) -> bool:
        """Plan strips without a search where they fit one width together, or are two of which one shared width meets
        the bound: nothing takes less. The pair is what the search would find first, and takes as much effort."""
        demands, shape = [self.demands[place] for place in members(mask)], None
        if len(demands) > 2:
            shape = in_one_width(demands, self.cloth.usable)
        elif mask not in self.groups and self.left >= PAIR and not (demands[0].spans or demands[1].spans):
            shape = tied(demands[0], demands[1], self.cloth)
            shape = shape if shape and weight(shape) == self.low[mask] else None
            self.left -= PAIR if shape else 0
        if shape:
            self.settle(mask, shape, True)
        return shape is not None

    def give_up(self, mask: int) -> None:
        """When no effort is left, groups of which nothing is known no longer count."""
        shown = range(1, self.full + 1) if self.left <= 0 else {mask} & self.open
        unknown = [each for each in shown if each not in self.shapes and self.work[each] < OUT]
        self.open.update(unknown)
        for each in unknown:
            self.takes(each, OUT)

    def group(self, mask: int) -> Group:
        """The group of some strips; it is often looked at twice."""
        if mask not in self.groups:
            demands = [self.demands[place] for place in members(mask)]
            self.groups[mask] = Group(demands, self.cloth.usable, self.cloth.join)
        return self.groups[mask]

    def connect(self, mask: int, front: list[Shape], nodes: int, begun: int = 0) -> bool:
        """Put the plans of a group on a front, with part of the effort that is left; True when the search is finished.
        `begun`: nodes that its beginning counts as."""
        finished, self.left = connect_within(self.group(mask), front, self.floors.floor(mask), self.left, nodes, begun)
        return finished

    def search(self, mask: int, limit: int, nodes: int) -> bool:
        """Search a group for a plan that takes less than `limit`; True when the search is finished."""
        length, joins = divmod(limit, MANY)
        front = [Shape((length, joins)), Shape((length + 1, 0))]
        finished = self.connect(mask, front, nodes, len(self.group(mask).sets) // 4)
        found = min((shape for shape in front if shape.shared), key=weight, default=None)
        if found and (finished or mask not in self.shapes or weight(found) < self.work[mask]):
            self.settle(mask, found, finished)
        elif finished:
            self.shapes.pop(mask, None)
            self.low[mask] = max(limit, self.low[mask])
            self.takes(mask, self.low[mask])
        return finished


def in_one_width(demands: Sequence[Demand], usable: int) -> Shape | None:
    """Strips side by side in one width; None where they are too wide for it together."""
    if sum([demand.flat for demand in demands]) > usable:
        return None
    return Shape((max([demand.cut for demand in demands]), 0), ((1 << len(demands)) - 1,), (0,) * len(demands))


def tied(one: Demand, other: Demand, cloth: Cloth) -> Shape | None:
    """Two strips with one shared width and no more pure ones than each must have; None where that is not enough."""
    room, width = cloth.usable - one.least - other.least, cloth.usable - cloth.join
    here, there = one.net - one.slim - room, other.net - other.slim - room
    first, second = max(0, -(-here // width)), max(0, -(-there // width))
    enough = -(-(here + there + room) // width) <= first + second
    if room < 0 or not enough or first >= one.most or second >= other.most:
        return None
    length = max(one.cut, other.cut) + first * one.cut + second * other.cut
    return Shape((length, first + second), (3,), (first, second))


def weight(shape: Shape) -> int:
    """A shape's length and joins in one number."""
    return shape.key[0] * MANY + shape.key[1]


def chained(groups: Iterable[tuple[int, Shape]]) -> Choice:
    """A plan from its groups, the last of them first."""
    groups = tuple(groups)[::-1]
    return Choice((sum(shape.key[0] for _, shape in groups), sum(shape.key[1] for _, shape in groups)), groups)


class Sums:
    """The least sum over all partitions of a set, kept up to date while the values of its groups rise."""

    def __init__(self, work: list[int], floors: LengthBounds, whole: int, parted: bool = False) -> None:
        self.work, self.ties, self.picks = work, floors.ties, floors.picks
        self.whole, self.barred = whole, whole if parted else 0
        self.masks = [*subsets(whole & (whole - 1))[1:], whole]
        self.best = [0] * (whole + 1)
        self.first = [0] * (whole + 1)
        """The group of the first strip in the best partition of each set."""
        self.work_out(self.masks)

    def work_out(self, masks: Sequence[int]) -> None:
        """The best partitions of some sets, once those of their subsets are known."""
        work, best, firsts, picks = self.work, self.best, self.first, self.picks
        spend(len(masks))
        for mask in masks:
            here, first, pick = work[mask] if mask != self.barred else OUT, mask, picks[mask]
            if pick:
                sums = list(map(add, pick[0](work), pick[1](best)))
                least = min(sums)
                if least < here:
                    here, first = least, self.ties[mask][sums.index(least)]
            best[mask], firsts[mask] = here, first

    def raised(self, masks: Iterable[int]) -> None:
        """Work out again what depends on these groups: nothing else can have changed."""
        changed, moved = set(masks), set[int]()
        best, firsts = self.best, self.first
        for mask in self.masks:
            first = firsts[mask]
            if first in changed or mask ^ first in moved:
                before = best[mask]
                self.work_out((mask,))
                if best[mask] != before:
                    moved.add(mask)

    def groups(self) -> list[int]:
        """The groups of the best partition."""
        out, mask = [], self.whole
        while mask:
            out.append(self.first[mask])
            mask ^= self.first[mask]
        return out


ROUNDS = 40
"""Partitions tried before the search is given up."""

GroupOption = tuple[int, int, Shape | None]
"""A way of cutting a group: its joins beyond those of its strips cut alone, its length, and its shape; the shape is
None where the length is only a bound."""


class Fewest:
    """What is known during the search for the fewest joins."""

    def __init__(self, partition: PartitionSearch, limit: int, most: int) -> None:
        """`most`: the most joins beyond those of strips cut alone."""
        self.partition, self.limit, self.most = partition, limit, most
        apart = [partition.shapes[1 << place] for place in range(len(partition.demands))]
        self.apart = sum_over_sets(shape.key[1] for shape in apart)
        """The joins of each set of strips cut alone."""
        self.options: dict[int, list[GroupOption]] = {
            1 << n: [(0, shape.key[0], shape)] for n, shape in enumerate(apart)
        }
        """The ways of cutting each group looked at."""
        self.low = [each // MANY for each in partition.low]
        self.least = [each // MANY for each in partition.lowest]
        """The least length that any plan of a set could take."""
        self.ties = cache(self.ties_within)
        self.best = cache(self.best_of)
        self.spent = False
        """True once no effort is left to look at a group."""
        self.finished = True

    def of(self, mask: int) -> list[GroupOption]:
        """The ways of cutting a group: those found, or its bound."""
        if mask not in self.options:
            joins = max(self.partition.floors.rows[mask] - 1 - self.apart[mask], 0)
            self.options[mask] = [] if self.spent else [(joins, self.low[mask], None)]
        return self.options[mask]

    def ties_within(self, mask: int) -> list[int]:
        """The groups of a set's first strip, the set itself last, that can be part of a plan within the limit: what is
        outside the set takes at least what all strips do less what the set does. `ties` remembers them."""
        floors, least, full = self.partition.floors, self.least, self.partition.full
        most, pick = self.limit - least[full] + least[mask], floors.picks[mask]
        sums = map(add, pick[0](self.low), pick[1](least)) if pick else ()
        return [*(tie for tie, length in zip(floors.ties[mask], sums, strict=False) if length <= most), mask]

    def search(self) -> list[tuple[int, Shape]] | None:
        """The groups of the plan; None where there is none."""
        for _ in range(ROUNDS):
            self.best = cache(self.best_of)
            found = self.groups()
            unknown = [mask for mask, option in found if option[2] is None]
            if not unknown:
                return [(mask, option[2]) for mask, option in found if option[2]] or None
            for mask in unknown:
                self.look(mask)
            if self.partition.left <= 0:
                # From here on no group counts of which nothing is known: it could not be looked at any more.
                self.spent = True
                self.options = {mask: ways for mask, ways in self.options.items() if all(way[2] for way in ways)}
        self.finished = False
        return None

    def look(self, mask: int) -> None:
        """Search a group for every plan within the limits of length and joins."""
        front = [Shape((self.limit + 1, 0)), Shape((0, self.apart[mask] + self.most + 1))]
        self.finished &= self.partition.connect(mask, front, self.partition.most)
        shapes = [shape for shape in front if shape.shared]
        self.options[mask] = [(shape.key[1] - self.apart[mask], shape.key[0], shape) for shape in shapes]

    def best_of(self, mask: int, joins: int) -> tuple[int, int, GroupOption | None]:
        """With no more joins than these beyond those of strips cut alone: the least length, as far as a plan within the
        limit can need it, the first group and its way. `best` remembers them for a round."""
        if not mask:
            return 0, 0, None
        spend(5)
        least = self.least
        best: tuple[int, int, GroupOption | None] = (OUT, 0, None)
        most = self.limit - least[self.partition.full] + least[mask]
        for tie in self.ties(mask):
            for option in self.of(tie):
                if option[0] <= joins and option[1] + least[mask ^ tie] < min(best[0], most + 1):
                    length = option[1] + self.best(mask ^ tie, joins - option[0])[0]
                    best = min(best, (length, tie, option), key=lambda each: each[0])
        return best

    def groups(self) -> list[tuple[int, GroupOption]]:
        """The groups of the plan of fewest joins within the limit, then of least length; none where there is none."""
        full = self.partition.full
        enough = (joins for joins in range(self.most + 1) if self.best(full, joins)[0] <= self.limit)
        joins = next(enough, -1)
        mask, out = full if joins >= 0 else 0, list[tuple[int, GroupOption]]()
        while mask:
            _, tie, option = self.best(mask, joins)
            assert option is not None
            out.append((tie, option))
            mask, joins = mask ^ tie, joins - option[0]
        return out


def fewest_within(partition: PartitionSearch, limit: int, under: int) -> tuple[Choice | None, bool]:
    """The plan of fewest joins, fewer than `under`, that takes at most `limit`; and whether that is certain."""
    apart = sum([partition.shapes[1 << place].key[1] for place in range(len(partition.demands))])
    if under <= apart:
        return None, True
    fewest = Fewest(partition, limit, under - 1 - apart)
    groups = fewest.search()
    return (chained(groups) if groups else None), fewest.finished
