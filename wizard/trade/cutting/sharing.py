"""Strips that share widths: the exact search within one connected group.

A plan of a group is known by its *shared* widths (each the set of the strips that have a piece in it) and by how many
*pure* widths, holding one piece, each strip has besides. Measured net of one join a piece, a pure width gives
`W = U - join` and a shared one gives its room over the least pieces of its members. Such a plan can be cut exactly
when, for every set T of strips, the pure widths of T give what T needs beyond the room of the shared widths T reaches
(Hall's condition for the flow of cloth from widths to strips). So no piece width is guessed: the search runs over
shapes only. A shape with `X` = the sum of (members - 1) over its shared widths has `widths - strips + X` joins, and a
connected one has X at least `strips - 1`; more is needed only where the least piece forbids every tree.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from operator import add, le
from typing import NamedTuple

from wizard.trade.cutting.bounds import Floor, Key, Measure
from wizard.trade.cutting.seams import Seams
from wizard.trade.cutting.ticks import Need

LENGTH = Measure()
"""Cloth measured by its length."""


@dataclass(frozen=True, slots=True)
class Shape:
    """A plan of a set of strips: what it takes, and the widths that make it."""

    key: Key
    """Its measures of cloth, then its joins."""
    shared: tuple[int, ...] = ()
    """Each shared width as a bit mask of strips."""
    pure: tuple[int, ...] = ()
    """Pure widths of each strip."""


class Meter:
    """Counts what the search visits, so that the same job always stops at the same place."""

    def __init__(self, effort: int) -> None:
        self.left = effort
        self.sure = True
        """False once something was passed over that might have been cut."""

    def spend(self, nodes: int = 1) -> bool:
        """Take nodes from the store; False when it is empty."""
        self.left -= nodes
        return self.left >= 0


def below(one: Key, other: Key) -> bool:
    """True when `one` takes no more than `other` in any measure."""
    return all(map(le, one, other))


def dominated(front: Iterable[Shape], key: Key) -> bool:
    """True when a shape on the front takes no more in any measure. (A loop: the search's innermost step.)"""
    for each in front:  # noqa: SIM110
        if all(map(le, each.key, key)):
            return True
    return False


def admit(front: list[Shape], shape: Shape) -> bool:
    """Put `shape` on the front unless it is dominated; drop what it dominates. The front stays shortest first."""
    if dominated(front, shape.key):
        return False
    front[:] = [each for each in front if not below(shape.key, each.key)]
    front.append(shape)
    front.sort(key=lambda each: each.key)
    return True


class Group:
    """Some strips, numbered from 0, on a roll of usable width `usable`; with the sums every shape asks for."""

    def __init__(
        self, needs: Sequence[Need], usable: int, join: int, measure: Measure = LENGTH, least: int = 0
    ) -> None:
        """`least`: the cloth these strips are known to take at the least, when it is measured by length."""
        self.known, self.measure = least, measure
        self.spanned = any(need.spans for need in needs)
        self.needs, self.usable, self.join = needs, usable, join
        self.width = usable - join
        self.size = len(needs)
        self.full = (1 << self.size) - 1
        self.net = sum_over_sets([need.net for need in needs])
        self.least = sum_over_sets([need.least for need in needs])
        self.sets = [mask for mask in range(3, self.full + 1) if mask & (mask - 1) and self.least[mask] <= usable]
        self.sets.sort(key=lambda mask: (mask.bit_count(), mask))
        self.levels = measure.levels(needs)
        self.worth = [measure.of(need.cut) for need in needs]
        self.each: list[Key] = [(*worth, 1) for worth in self.worth]
        """What one pure width of each strip takes, its piece included."""
        self.cheapest = min(self.each)
        self.tight = sum(1 << i for i, need in enumerate(needs) if need.most < self.size)
        """Strips that could run out of pieces before the shared widths do."""
        self.layers = [sum(1 << i for i, need in enumerate(needs) if need.cut >= cut) for cut in self.levels]
        self.over = [tuple(max(0, (mask & layer).bit_count() - 1) for layer in self.layers) for mask in self.sets]

    def least_key(self, over: tuple[int, ...], shared: int, excess: int) -> Key:
        """What no shape goes under with this excess in each layer of cut lengths, and so many shared widths in all."""
        rows, counts = 0, []
        for layer, extra in zip(self.layers, over, strict=True):
            rows = max(rows, -(-(self.net[layer] + self.join * extra) // self.width)) if layer else 0
            counts.append(rows)
        cloth = self.measure.total(self.levels, counts)
        return (*(max(each, self.known) for each in cloth), max(rows, shared) - self.size + excess)

    def taken(self, shared: tuple[int, ...]) -> Key:
        """What the shared widths take in each measure: each is as long as its longest member."""
        total: Key = (0,) * len(self.worth[0])
        for mask in shared:
            longest = max(self.worth[i] for i in range(self.size) if mask >> i & 1)
            total = tuple(map(add, total, longest))
        return total


def sum_over_sets(values: Sequence[int]) -> list[int]:
    """The sum of `values` over every set of places, by bit mask."""
    sums = [0]
    for value in values:
        sums += [each + value for each in sums]
    return sums


class Shapes:
    """Every connected choice of shared widths with a given excess that the front does not rule out as it grows."""

    def __init__(self, group: Group, excess: int, front: list[Shape], meter: Meter) -> None:
        self.group, self.excess, self.front, self.meter = group, excess, front, meter

    def __iter__(self) -> Iterator[tuple[int, ...]]:
        group = self.group
        start = Growth((), tuple(1 << i for i in range(group.size)), self.excess - (group.size - 1))
        return self.grow(0, self.excess, start, (0,) * len(group.layers))

    def grow(self, first: int, left: int, at: Growth, over: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
        """Add shared widths, in the order of the group's sets, until the excess is used up and all is connected."""
        if not left:
            yield at.taken
            return
        sets = self.group.sets
        for place in range(first, len(sets)):
            mask = sets[place]
            size = mask.bit_count() - 1
            if size > left:
                return
            met = [part for part in at.parts if part & mask]
            spare = at.loops - (size + 1 - len(met))
            if spare < 0 or not self.room(mask, at):
                continue
            further = tuple(map(add, over, self.group.over[place]))
            if self.ruled_out(further, len(at.taken) + 1):
                continue
            if not self.meter.spend():
                return
            rest = (*(part for part in at.parts if not part & mask), sum(met))
            yield from self.grow(place, left - size, Growth((*at.taken, mask), rest, spare), further)

    def room(self, mask: int, at: Growth) -> bool:
        """False when a strip of `mask` is in as many shared widths as it may have pieces."""
        tight = mask & self.group.tight
        if not tight:
            return True
        return all(
            sum(row >> i & 1 for row in at.taken) < need.most
            for i, need in enumerate(self.group.needs)
            if tight >> i & 1
        )

    def ruled_out(self, over: tuple[int, ...], shared: int) -> bool:
        """True when the front dominates whatever these shared widths grow into."""
        return dominated(self.front, self.group.least_key((*over[:-1], self.excess), shared, self.excess))


class Growth(NamedTuple):
    """Shared widths taken so far."""

    taken: tuple[int, ...]
    parts: tuple[int, ...]
    """The strips they connect, as disjoint sets."""
    loops: int
    """Connections that may still be made twice."""


def lacking(group: Group, counts: list[int], shared: tuple[int, ...], rooms: list[int]) -> list[int]:
    """For every set of strips, what its pure widths must give, net, beside these shared widths."""
    out = sum_over_sets([need.net - count * need.slim for count, need in zip(counts, group.needs, strict=True)])
    for mask, room in zip(shared, rooms, strict=True):
        out = [each - room if t & mask else each for t, each in enumerate(out)]
    return out


def fill(group: Group, shared: tuple[int, ...], front: list[Shape], meter: Meter) -> bool:
    """Find the pure widths each strip needs beside `shared`; put every shape worth having on the front. True if any."""
    rooms = [group.usable - group.least[mask] for mask in shared]
    counts, pure = [], []
    for i, need in enumerate(group.needs):
        met = [room for mask, room in zip(shared, rooms, strict=True) if mask >> i & 1]
        lack = max(0, -(-(need.net - len(met) * need.slim - sum(met)) // group.width))
        if lack > need.most - len(met):
            return False
        counts.append(len(met))
        pure.append(lack)
    filling = Filling(group, shared, counts, front, meter)
    held = sum(count * need.slim for count, need in zip(counts, group.needs, strict=True))
    together = -(-(group.net[-1] - held - sum(rooms)) // group.width)
    if filling.hopeless(filling.key(pure), together - sum(pure)):
        return False
    filling.wanted = [-(-each // group.width) for each in lacking(group, counts, shared, rooms)]
    return filling.add(pure, 0)


class Filling:
    """The search for pure widths beside some shared ones."""

    def __init__(
        self, group: Group, shared: tuple[int, ...], counts: list[int], front: list[Shape], meter: Meter
    ) -> None:
        self.group, self.shared, self.front, self.meter = group, shared, front, meter
        self.room = [need.most - count for need, count in zip(group.needs, counts, strict=True)]
        self.base: Key = (*group.taken(shared), sum(counts) - group.size)
        self.wanted: list[int] = []
        """For every set of strips, the pure widths it must have."""

    def key(self, pure: list[int]) -> Key:
        """What the shape takes with these pure widths."""
        key = self.base
        for count, each in zip(pure, self.group.each, strict=True):
            if count:
                key = tuple([k + count * e for k, e in zip(key, each, strict=True)])
        return key

    def hopeless(self, key: Key, more: int) -> bool:
        """True when the front dominates the shape even with `more` widths of the cheapest kind."""
        if more > 0:
            key = tuple([k + more * e for k, e in zip(key, self.group.cheapest, strict=True)])
        return dominated(self.front, key)

    def add(self, pure: list[int], frozen: int) -> bool:
        """Give widths to a set of strips that lacks them, in every way, until none lacks any."""
        key, sums = self.key(pure), sum_over_sets(pure)
        if self.hopeless(key, self.wanted[-1] - sums[-1]) or not self.meter.spend():
            return False
        short = next((t for t, (has, wants) in enumerate(zip(sums, self.wanted, strict=True)) if has < wants), 0)
        if not short and self.cuttable(pure):
            return admit(self.front, Shape(key, self.shared, tuple(pure)))
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
        done = Seams(group.needs, self.shared, pure, group.usable, group.join).solve()
        if not done and sum(mask.bit_count() - 1 for mask in self.shared) >= group.size:
            self.meter.sure = False
        return done


def connect(group: Group, front: list[Shape], floor: Floor, meter: Meter) -> bool:
    """Search the connected shapes of a group for any that the front does not dominate, and put them on it.

    True when the search is finished, so that nothing better is left.
    """
    most = sum(need.most for need in group.needs)
    for excess in range(group.size - 1, most):
        points = floor.at(excess)
        if all(dominated(front, point) for point in points):
            break
        for shared in Shapes(group, excess, front, meter):
            if fill(group, shared, front, meter) and all(dominated(front, point) for point in points):
                break
        if meter.left < 0:
            return False
    return meter.sure
