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
        self.most = [need.most for need in group.needs]

    def __iter__(self) -> Iterator[tuple[int, ...]]:
        parts = tuple(1 << i for i in range(self.group.size))
        loops = self.excess - (self.group.size - 1)
        return self.grow(0, self.excess, loops, parts, (), tuple(0 for _ in self.group.layers))

    def grow(
        self, first: int, left: int, loops: int, parts: tuple[int, ...], taken: tuple[int, ...], over: tuple[int, ...]
    ) -> Iterator[tuple[int, ...]]:
        """Add shared widths, in the order of the group's sets, until the excess is used up and all is connected."""
        if not left:
            yield taken
            return
        for place in range(first, len(self.group.sets)):
            mask = self.group.sets[place]
            size = mask.bit_count() - 1
            if size > left:
                return
            met = [part for part in parts if part & mask]
            spare = loops - (size + 1 - len(met))
            if spare < 0 or not self.room(mask, taken):
                continue
            further = tuple(each + more for each, more in zip(over, self.group.over[place], strict=True))
            if self.ruled_out(further, len(taken) + 1):
                continue
            if not self.meter.spend():
                return
            rest = (*(part for part in parts if not part & mask), sum_of(met))
            yield from self.grow(place, left - size, spare, rest, (*taken, mask), further)

    def room(self, mask: int, taken: tuple[int, ...]) -> bool:
        """False when a strip of `mask` is in as many shared widths as it may have pieces."""
        return all(sum(row >> i & 1 for row in taken) < most for i, most in enumerate(self.most) if mask >> i & 1)

    def ruled_out(self, over: tuple[int, ...], shared: int) -> bool:
        """True when the front dominates whatever these shared widths grow into."""
        return dominated(self.front, self.group.least_key((*over[:-1], self.excess), shared, self.excess))


def sum_of(masks: Sequence[int]) -> int:
    """All the strips of some masks together."""
    joined = 0
    for mask in masks:
        joined |= mask
    return joined


def lacking(group: Group, shared: tuple[int, ...]) -> list[int]:
    """For every set of strips, what its pure widths must give, net, beside these shared widths."""
    pieces = [sum(mask >> i & 1 for mask in shared) for i in range(group.size)]
    held = sum_over_sets([count * need.slim for count, need in zip(pieces, group.needs, strict=True)])
    rooms = [(mask, group.usable - group.least[mask]) for mask in shared]
    return [
        group.net[t] - held[t] - sum(room for mask, room in rooms if mask & t) if t else 0
        for t in range(group.full + 1)
    ]


def fill(group: Group, shared: tuple[int, ...], front: list[Shape], meter: Meter) -> bool:
    """Find the pure widths each strip needs beside `shared`; put every shape worth having on the front. True if any."""
    counts = [sum(mask >> i & 1 for mask in shared) for i in range(group.size)]
    wanted = [-(-each // group.width) for each in lacking(group, shared)]
    pure = [max(0, wanted[1 << i]) for i in range(group.size)]
    room = [need.most - count for need, count in zip(group.needs, counts, strict=True)]
    if any(p > more for p, more in zip(pure, room, strict=True)):
        return False
    return Filling(group, shared, wanted, room, front, meter).add(pure, 0)


class Filling:
    """The search for pure widths beside some shared ones."""

    def __init__(
        self,
        group: Group,
        shared: tuple[int, ...],
        wanted: list[int],
        room: list[int],
        front: list[Shape],
        meter: Meter,
    ) -> None:
        self.group, self.shared, self.wanted, self.room = group, shared, wanted, room
        self.front, self.meter = front, meter
        joins = sum(mask.bit_count() for mask in shared) - group.size
        self.base: Key = (*group.taken(shared), joins)
        self.each: list[Key] = [(*worth, 1) for worth in group.worth]
        self.cheapest = min(self.each)

    def add(self, pure: list[int], frozen: int) -> bool:
        """Give widths to a set of strips that lacks them, in every way, until none lacks any."""
        key = self.base
        for count, each in zip(pure, self.each, strict=True):
            key = tuple(k + count * e for k, e in zip(key, each, strict=True))
        sums = sum_over_sets(pure)
        more = max(0, self.wanted[-1] - sums[-1])
        least = tuple(k + more * e for k, e in zip(key, self.cheapest, strict=True)) if more else key
        if dominated(self.front, least) or not self.meter.spend():
            return False
        short = next((t for t in range(1, len(sums)) if sums[t] < self.wanted[t]), 0)
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
