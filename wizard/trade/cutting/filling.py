"""Shared widths filled: which pure widths each strip needs beside them, and the whole search of one connected group."""

from __future__ import annotations

from functools import lru_cache
from operator import gt, lt, mul
from operator import sub as minus

from wizard.trade.cutting.bounds import Floor, Key
from wizard.trade.cutting.seams import Seams
from wizard.trade.cutting.sharing import Group, Meter, Shape, Shapes, admit, dominated, sum_over_sets


def lacking(group: Group, counts: list[int], shared: tuple[int, ...]) -> list[int]:
    """For every set of strips, what its pure widths must give, net, beside these shared widths."""
    out = sum_over_sets([net - count * slim for net, count, slim in zip(group.own, counts, group.slims, strict=True)])
    for mask in shared:
        room = group.usable - group.least[mask]
        out = [each - room if t & mask else each for t, each in enumerate(out)]
    return out


def fill(group: Group, shared: tuple[int, ...], front: list[Shape], meter: Meter) -> bool:
    """Find the pure widths each strip needs beside `shared`; put every shape worth having on the front. True if any."""
    counts, left, width = [0] * group.size, group.own.copy(), group.width
    for mask in shared:
        room = group.usable - group.least[mask]
        for i in places_of(mask):
            counts[i] += 1
            left[i] -= group.slims[i] + room
    pure = [-(-each // width) if each > 0 else 0 for each in left]
    filling = Filling(group, shared, counts, front, meter)
    if any(map(gt, pure, filling.room)):
        return False
    key = filling.key(pure)
    # All a shared width gives, net, is its usable width less a join for each of its pieces.
    together = -(-(group.net[-1] - len(shared) * group.usable + group.join * sum(counts)) // width)
    if filling.hopeless(key, together - sum(pure)):
        return False
    filling.wanted = [-(-each // width) for each in lacking(group, counts, shared)]
    return filling.widen(key, pure, sum_over_sets(pure), 0)


@lru_cache(maxsize=1 << 12)
def places_of(mask: int) -> tuple[int, ...]:
    """The strips of a set."""
    return tuple([place for place in range(mask.bit_length()) if mask >> place & 1])


class Filling:
    """The search for pure widths beside some shared ones."""

    def __init__(
        self, group: Group, shared: tuple[int, ...], counts: list[int], front: list[Shape], meter: Meter
    ) -> None:
        self.group, self.shared, self.front, self.meter = group, shared, front, meter
        self.room = list(map(minus, group.most, counts))
        self.base: Key = (*group.taken(shared), sum(counts) - group.size)
        self.wanted: list[int] = []
        """For every set of strips, the pure widths it must have."""

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
        """Look on from these pure widths unless the front rules them out."""
        key, sums = self.key(pure), sum_over_sets(pure)
        return not self.hopeless(key, self.wanted[-1] - sums[-1]) and self.widen(key, pure, sums, frozen)

    def widen(self, key: Key, pure: list[int], sums: list[int], frozen: int) -> bool:
        """Give widths to a set of strips that lacks them, in every way, until none lacks any."""
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
        if all([dominated(front, point) for point in points]):
            break
        for shared in Shapes(group, excess, front, meter):
            if fill(group, shared, front, meter) and all([dominated(front, point) for point in points]):
                break
        if meter.left < 0:
            return False
    return meter.sure
