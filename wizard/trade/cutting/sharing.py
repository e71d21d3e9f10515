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
from itertools import pairwise
from operator import add, le
from typing import NamedTuple

from msgspec import Struct

from wizard.trade.cutting.bounds import Key, Measure
from wizard.trade.cutting.ticks import Need

LENGTH = Measure()
"""Cloth measured by its length."""


class Shape(Struct, frozen=True):
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

    def __init__(self, needs: Sequence[Need], usable: int, join: int, measure: Measure = LENGTH) -> None:
        self.measure = measure
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
        self.nets = [self.net[layer] for layer in self.layers]
        self.steps = [cut - below for cut, below in pairwise([*self.levels, 0])]
        self.extra = [tuple(self.lost(mask, layer) for layer in self.layers) for mask in self.sets]

    def lost(self, mask: int, layer: int) -> int:
        """What a shared width takes from a layer of longer strips: its joins beyond one, and the least pieces of the
        shorter ones that lie in it."""
        within = mask & layer
        return self.join * (within.bit_count() - 1) + self.least[mask ^ within] if within else 0

    def least_key(self, extra: tuple[int, ...], shared: int, excess: int) -> Key:
        """What no shape goes under whose shared widths take so much `extra` from each layer of cut lengths, with so
        many shared widths in all."""
        rows, cloth = 0, 0
        counts = []
        for net, lost, step in zip(self.nets, extra, self.steps, strict=True):
            rows = max(rows, -(-(net + lost) // self.width))
            cloth += rows * step
            counts.append(rows)
        joins = max(rows, shared) - self.size + excess
        return (*counts, joins) if self.measure.cuts else (cloth, joins)

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


class Growth(NamedTuple):
    """Shared widths taken so far."""

    taken: tuple[int, ...]
    parts: tuple[int, ...]
    """The strips they connect, as disjoint sets."""
    loops: int
    """Connections that may still be made twice."""
    extra: tuple[int, ...]
    """What they take from each layer of cut lengths beyond the strips' own net widths."""


class Shapes:
    """Every connected choice of shared widths with a given excess that the front does not rule out as it grows."""

    def __init__(self, group: Group, excess: int, front: list[Shape], meter: Meter) -> None:
        self.group, self.excess, self.front, self.meter = group, excess, front, meter
        self.last = group.join * excess
        """What the joins of a whole shape take from all its strips together."""

    def __iter__(self) -> Iterator[tuple[int, ...]]:
        group = self.group
        parts = tuple(1 << i for i in range(group.size))
        start = Growth((), parts, self.excess - (group.size - 1), (0,) * len(group.layers))
        return self.grow(range(len(group.sets)), self.excess, start)

    def grow(self, places: Sequence[int], left: int, at: Growth) -> Iterator[tuple[int, ...]]:
        """Add shared widths, in the order of the group's sets, until the excess is used up and all is connected.

        What is ruled out here stays ruled out further on, so only the rest is looked at there.
        """
        if not left:
            yield at.taken
            return
        able = self.able(places, left, at)
        kept = [place for place, _ in able]
        if len(able) < len(places) and not self.connects([self.group.sets[place] for place in kept], at.parts):
            return
        for number, (place, extra) in enumerate(able):
            mask, met, rest = self.group.sets[place], 0, []
            for part in at.parts:
                if part & mask:
                    met |= part
                else:
                    rest.append(part)
            loops = at.loops + len(at.parts) - len(rest) - mask.bit_count()
            growth = Growth((*at.taken, mask), (*rest, met), loops, extra)
            yield from self.grow(kept[number:], left + 1 - mask.bit_count(), growth)

    def able(self, places: Sequence[int], left: int, at: Growth) -> list[tuple[int, tuple[int, ...]]]:
        """The shared widths that may be added, each with what is then taken from the layers."""
        group = self.group
        out: list[tuple[int, tuple[int, ...]]] = []
        known: dict[tuple[int, ...], tuple[int, ...] | None] = {}
        for place in places:
            mask = group.sets[place]
            if mask.bit_count() > left + 1 or not self.meter.spend():
                break
            met = sum(1 for part in at.parts if part & mask)
            if mask.bit_count() - met > at.loops or (mask & group.tight and not self.room(mask, at)):
                continue
            lost = group.extra[place]
            if lost not in known:
                extra = tuple(map(add, at.extra, lost))
                key = group.least_key((*extra[:-1], self.last), len(at.taken) + 1, self.excess)
                known[lost] = None if dominated(self.front, key) else extra
            if further := known[lost]:
                out.append((place, further))
        return out

    def room(self, mask: int, at: Growth) -> bool:
        """False when a strip of `mask` is in as many shared widths as it may have pieces."""
        tight = mask & self.group.tight
        return all(
            sum(row >> i & 1 for row in at.taken) < need.most
            for i, need in enumerate(self.group.needs)
            if tight >> i & 1
        )

    @staticmethod
    def connects(sets: Sequence[int], parts: Sequence[int]) -> bool:
        """True when these sets can make one of all the parts."""
        reached, before = parts[0], 0
        while reached != before:
            before = reached
            for each in (*sets, *parts):
                if each & reached:
                    reached |= each
        return all(part & reached for part in parts)
