"""Strips that share widths: the exact search within one connected group.

A plan of a group is known by its *shared* widths (each the set of the strips that have a piece in it) and by how many
*pure* widths, holding one piece, each strip has besides. Measured net of one join a piece, a pure width gives
`W = U - join` and a shared one gives its room over the least pieces of its members. Such a plan can be cut exactly
when, for every set T of strips, the pure widths of T give what T needs beyond the room of the shared widths T reaches:
then cloth can flow from widths to strips so that all are met. So no piece width is guessed: the search runs over
shapes only. A shape with `X` = the sum of (members - 1) over its shared widths has `widths - strips + X` joins, and a
connected one has X at least `strips - 1`; more is needed only where the least piece forbids every tree.

`Shapes` chooses the shared widths, `Filling` the pure widths each strip needs beside them, `connect` does both.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cache, lru_cache
from itertools import pairwise
from operator import add, gt, le, lt, mul
from operator import sub as minus
from typing import NamedTuple

from msgspec import Struct

from wizard.trade.cutting.grid_units import Demand, members, sum_over_sets
from wizard.trade.cutting.lower_bounds import GroupBound, Key, worth_of
from wizard.trade.cutting.no_join_spans import JoinPlacement, loops_of, tied_with
from wizard.trade.cutting.work_budget import spend


class Shape(Struct, frozen=True):
    """A plan of a set of strips: what it takes, and the widths that make it."""

    key: Key
    """Its measures of cloth, then its joins."""
    shared: tuple[int, ...] = ()
    """Each shared width as a bit mask of strips."""
    pure: tuple[int, ...] = ()
    """Pure widths of each strip."""


NODE = 12
"""The work of one node."""


class Meter:
    """Counts the nodes a search visits, so that the same job stops at the same place everywhere."""

    def __init__(self, effort: int, node: int = NODE) -> None:
        """`node`: the work of one node."""
        self.left, self.node = effort, node
        self.sure = True
        """False once something was passed over that could perhaps be cut."""

    def spend(self, nodes: int = 1) -> bool:
        """Visit nodes; False when none are left."""
        self.left -= nodes
        spend(self.node * nodes)
        return self.left >= 0


def below(one: Key, other: Key) -> bool:
    """True when `one` takes no more than `other` in any measure."""
    return all(map(le, one, other))


def dominated(front: Iterable[Shape], key: Key) -> bool:
    """True when a shape on the front takes no more in any measure. A loop: this is the innermost step of the search."""
    first = key[0]
    for each in front:  # noqa: SIM110
        if each.key[0] <= first and all(map(le, each.key, key)):
            return True
    return False


def admit(front: list[Shape], shape: Shape) -> None:
    """Put a shape that nothing dominates on the front and drop what it dominates. The front stays shortest first."""
    front[:] = [each for each in front if not below(shape.key, each.key)]
    front.append(shape)
    front.sort(key=lambda each: each.key)


class Group:
    """Some strips, numbered from 0, on cloth of one usable width, with the sums that every shape needs."""

    def __init__(self, demands: Sequence[Demand], usable: int, join: int, cuts: tuple[int, ...] = ()) -> None:
        """`cuts`: the cut lengths by which widths are counted; none where cloth is measured by its length."""
        self.counted = bool(cuts)
        self.spanned = any(demand.spans for demand in demands)
        self.demands, self.usable, self.join = demands, usable, join
        self.width = usable - join
        self.size = len(demands)
        self.full = (1 << self.size) - 1
        self.own, self.slims = [demand.net for demand in demands], [demand.slim for demand in demands]
        self.most = [demand.most for demand in demands]
        self.net = sum_over_sets(self.own)
        self.least = sum_over_sets([demand.least for demand in demands])
        self.sets = [mask for mask in by_size(self.size) if self.least[mask] <= usable]
        self.levels = cuts or tuple(sorted({demand.cut for demand in demands}, reverse=True))
        self.worth = worth = [worth_of(demand.cut, cuts) for demand in demands]
        self.each: list[Key] = [(*each, 1) for each in worth]
        """What one pure width of each strip takes, its piece included."""
        self.cheapest = min(self.each)
        self.columns = list(zip(*self.each, strict=True))
        """The same, measure by measure."""
        self.longest = cache(lambda mask: max([worth[i] for i in members(mask)]))
        """What one shared width takes, for the sets looked at."""
        self.tight = sum([1 << i for i, demand in enumerate(demands) if demand.most < self.size])
        """Strips that could run out of pieces before the shared widths do."""
        self.layers = [sum([1 << i for i, demand in enumerate(demands) if demand.cut >= cut]) for cut in self.levels]
        self.nets = [self.net[layer] for layer in self.layers]
        self.steps = [cut - below for cut, below in pairwise([*self.levels, 0])]
        self.extra = list(zip(*map(self.lost, self.layers[:-1]), strict=True)) or [()] * len(self.sets)
        """What each shared width takes from each layer of longer strips. From all strips together a whole shape takes
        what its joins do."""

    def lost(self, layer: int) -> list[int]:
        """What each shared width takes from one layer: its joins but one, and the least pieces of the shorter strips in
        it."""
        join, least = self.join, self.least
        return [join * ((m & layer).bit_count() - 1) + least[m & ~layer] if m & layer else 0 for m in self.sets]

    def least_key(self, extra: tuple[int, ...], shared: int, excess: int) -> Key:
        """The bound of all shapes of an excess with `shared` shared widths that take `extra` from the layers of longer
        strips."""
        rows, cloth, counts, width, counted = 0, 0, list[int](), self.width, self.counted
        for net, lost, step in zip(self.nets, (*extra, self.join * excess), self.steps, strict=False):
            here = -(-(net + lost) // width)
            if here > rows:
                rows = here
            cloth += rows * step
            if counted:
                counts.append(rows)
        joins = (rows if rows > shared else shared) - self.size + excess
        return (*counts, joins) if counted else (cloth, joins)

    def taken(self, shared: tuple[int, ...]) -> Key:
        """What the shared widths take in each measure: each is as long as its longest member."""
        return tuple(map(sum, zip(*map(self.longest, shared), strict=True)))


@lru_cache(maxsize=16)
def by_size(count: int) -> tuple[int, ...]:
    """Every set of two or more of `count` strips, smallest sets first."""
    sets = [mask for mask in range(3, 1 << count) if mask & (mask - 1)]
    return tuple(sorted(sets, key=lambda mask: (mask.bit_count(), mask)))


class Growth(NamedTuple):
    """The shared widths chosen so far."""

    taken: tuple[int, ...]
    tied: tuple[int, ...]
    """The strips they connect, as disjoint sets."""
    loops: int
    """How many connections may still be made twice."""
    extra: tuple[int, ...]
    """What they take from each layer of longer strips beyond the net widths of these."""


class Shapes:
    """Every connected choice of shared widths with a given excess that the front does not rule out while it grows."""

    def __init__(self, group: Group, excess: int, front: list[Shape], meter: Meter) -> None:
        self.group, self.excess, self.front, self.meter = group, excess, front, meter

    def __iter__(self) -> Iterator[tuple[int, ...]]:
        group = self.group
        start = Growth((), (), self.excess - (group.size - 1), (0,) * (len(group.layers) - 1))
        return self.grow(range(len(group.sets)), self.excess, start)

    def grow(self, places: Sequence[int], left: int, at: Growth) -> Iterator[tuple[int, ...]]:
        """Add shared widths, in the order of the group's sets, until the excess is used up and all strips are
        connected.

        What is ruled out stays ruled out further on, so only the rest is looked at there.
        """
        sets = self.group.sets
        able = self.able(places, left, at)
        kept = [place for place, _ in able]
        if len(able) < len(places) and not self.connects([sets[place] for place in kept], at.tied):
            return
        for number, (place, extra) in enumerate(able):
            mask = sets[place]
            further = left + 1 - mask.bit_count()
            if further:
                tied, loops = tied_with(at.tied, mask)
                growth = Growth((*at.taken, mask), tied, at.loops - loops, extra)
                yield from self.grow(kept[number:], further, growth)
            else:
                yield (*at.taken, mask)

    def able(self, places: Sequence[int], left: int, at: Growth) -> list[tuple[int, tuple[int, ...]]]:
        """The shared widths that may be added, each with what the layers then lose."""
        group, sets, spend = self.group, self.group.sets, self.meter.spend
        out: list[tuple[int, tuple[int, ...]]] = []
        known: dict[tuple[int, ...], tuple[int, ...] | None] = {}
        for place in places:
            mask = sets[place]
            if mask.bit_count() > left + 1 or not spend():
                break
            if at.tied and loops_of(at.tied, mask) > at.loops:
                continue
            if mask & group.tight and not self.room(mask, at):
                continue
            lost = group.extra[place]
            if lost not in known:
                known[lost] = self.further(lost, at.extra, len(at.taken))
            further = known[lost]
            if further is not None:
                out.append((place, further))
        return out

    def further(self, lost: tuple[int, ...], before: tuple[int, ...], taken: int) -> tuple[int, ...] | None:
        """What the layers lose with one more shared width; None where the front rules it out."""
        extra = tuple(map(add, before, lost))
        key = self.group.least_key(extra, taken + 1, self.excess)
        return None if dominated(self.front, key) else extra

    def room(self, mask: int, at: Growth) -> bool:
        """False when a strip of `mask` is in as many shared widths as it may have pieces."""
        tight, most = members(mask & self.group.tight), self.group.most
        return all(sum(row >> i & 1 for row in at.taken) < most[i] for i in tight)

    def connects(self, sets: Sequence[int], tied: Sequence[int]) -> bool:
        """True when these sets can connect all the strips."""
        reached, before = 1, 0
        while reached != before:
            before = reached
            for each in (*sets, *tied):
                if each & reached:
                    reached |= each
        return reached == self.group.full


def lacking(group: Group, counts: list[int], shared: tuple[int, ...]) -> list[int]:
    """What the pure widths of each set of strips must give, net, beside these shared widths."""
    out = sum_over_sets([net - count * slim for net, count, slim in zip(group.own, counts, group.slims, strict=True)])
    for mask in shared:
        room = group.usable - group.least[mask]
        out = [each - room if t & mask else each for t, each in enumerate(out)]
    return out


class Filling:
    """The search for pure widths beside some shared ones."""

    def __init__(self, group: Group, shared: tuple[int, ...], front: list[Shape], meter: Meter) -> None:
        self.group, self.shared, self.front, self.meter = group, shared, front, meter
        self.counts, self.left = [0] * group.size, group.own.copy()
        for mask in shared:
            room = group.usable - group.least[mask]
            for i in members(mask):
                self.counts[i] += 1
                self.left[i] -= group.slims[i] + room
        self.room = list(map(minus, group.most, self.counts))
        self.base: Key = (*group.taken(shared), sum(self.counts) - group.size)
        self.wanted: list[int] = []
        """The pure widths that each set of strips must have."""

    def fill(self) -> bool:
        """Find the pure widths each strip needs and put every shape worth keeping on the front. True if any was
        found."""
        group, counts, width = self.group, self.counts, self.group.width
        pure = [-(-each // width) if each > 0 else 0 for each in self.left]
        if any(map(gt, pure, self.room)):
            return False
        key = self.key(pure)
        # All a shared width gives, net, is its usable width less a join for each of its pieces.
        together = -(-(group.net[-1] - len(self.shared) * group.usable + group.join * sum(counts)) // width)
        if self.hopeless(key, together - sum(pure)):
            return False
        self.wanted = [-(-each // width) for each in lacking(group, counts, self.shared)]
        return self.widen(key, pure, sum_over_sets(pure), 0)

    def key(self, pure: list[int]) -> Key:
        """What the shape takes with these pure widths."""
        columns = self.group.columns
        return tuple([base + sum(map(mul, pure, each)) for base, each in zip(self.base, columns, strict=True)])

    def hopeless(self, key: Key, more: int) -> bool:
        """True when the front dominates the shape even with `more` widths of the cheapest kind."""
        if more > 0:
            key = tuple([k + more * e for k, e in zip(key, self.group.cheapest, strict=True)])
        return dominated(self.front, key)

    def add(self, pure: list[int], frozen: int) -> bool:
        """Search on from these pure widths unless the front rules them out."""
        key, sums = self.key(pure), sum_over_sets(pure)
        return not self.hopeless(key, self.wanted[-1] - sums[-1]) and self.widen(key, pure, sums, frozen)

    def widen(self, key: Key, pure: list[int], sums: list[int], frozen: int) -> bool:
        """Give widths to a set of strips that lacks some, in every way, until none lacks any."""
        if not self.meter.spend():
            return False
        lacks = list(map(lt, sums, self.wanted))
        short = lacks.index(True) if True in lacks else 0
        if not short and self.cuttable(pure):
            admit(self.front, Shape(key, self.shared, tuple(pure)))
            return True
        short = short or len(sums) - 1
        found = False
        for i in range(len(pure)):
            if short >> i & 1 and not frozen >> i & 1:
                if pure[i] < self.room[i]:
                    found |= self.add([p + (place == i) for place, p in enumerate(pure)], frozen)
                frozen |= 1 << i
        return found

    def cuttable(self, pure: list[int]) -> bool:
        """True unless the joins cannot be kept out of the spans where none may fall."""
        group = self.group
        if not group.spanned:
            return True
        done = JoinPlacement(group.demands, self.shared, pure, group.usable, group.join).solve()
        if not done and sum(mask.bit_count() - 1 for mask in self.shared) >= group.size:
            self.meter.sure = False
        return done


def connect_within(
    group: Group, front: list[Shape], floor: GroupBound, left: int, most: int, begun: int = 0
) -> tuple[bool, int]:
    """The same search with no more than `most` of the effort that is left; and what then is left. `begun`: nodes that
    count before the first."""
    given = min(left, most)
    if given <= 0:
        return False, left
    meter = Meter(given)
    meter.spend(begun)
    return connect(group, front, floor, meter), left - given + max(meter.left, 0)


def connect(group: Group, front: list[Shape], floor: GroupBound, meter: Meter) -> bool:
    """Search the connected shapes of a group for any that the front does not dominate, and put them on it.

    True when the search is finished, so that nothing better is left.
    """
    most = sum(demand.most for demand in group.demands)
    for excess in range(group.size - 1, most):
        if dominated(front, floor.at(excess)):
            break
        for shared in Shapes(group, excess, front, meter):
            if Filling(group, shared, front, meter).fill() and dominated(front, floor.at(excess)):
                break
        if meter.left < 0:
            return False
    return meter.sure
