"""Shared widths filled: which pure widths each strip needs beside them, and the whole search of one connected group."""

from __future__ import annotations

from wizard.trade.cutting.bounds import Floor, Key
from wizard.trade.cutting.seams import Seams
from wizard.trade.cutting.sharing import Group, Meter, Shape, Shapes, admit, dominated, sum_over_sets


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
