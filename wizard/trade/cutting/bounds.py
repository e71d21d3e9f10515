"""What no plan goes under, from widths alone: the layered bound of connected groups.

Take the pieces of the longest strips of a connected group, then of the next longest as well, and so on: each such layer
falls into connected parts, every part lies within one part of the next layer, and a part of `n` strips with net width
`a` takes at least `ceil((a + join * (n - 1)) / W)` widths. A width is as long as the layer in which it first appears.
The bound is the cheapest such nesting. It leaves the least piece out of account, so it can only be too low.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from msgspec import Struct

from wizard.trade.cutting.ticks import Need

Key = tuple[int, ...]
"""What a plan takes: one or more measures of its cloth, then its joins. Less in all is better."""


class Measure(Struct, frozen=True):
    """How cloth is weighed. By length, in one measure; or, where the widths have to be packed on several lengths of
    cloth, by the number of widths at least as long as each of `cuts` (longest first), in as many measures."""

    cuts: tuple[int, ...] = ()

    def of(self, cut: int) -> Key:
        """One width of this length."""
        return tuple(int(cut >= each) for each in self.cuts) if self.cuts else (cut,)

    def levels(self, needs: Iterable[Need]) -> tuple[int, ...]:
        """The cut lengths at which widths are counted, longest first."""
        return self.cuts or tuple(sorted({need.cut for need in needs}, reverse=True))

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

    def __init__(self, needs: Sequence[Need], width: int, join: int, measure: Measure) -> None:
        self.needs, self.width, self.join, self.measure = needs, width, join, measure
        self.nets = [0]
        for need in needs:
            self.nets += [each + need.net for each in self.nets]
        self.apart: list[list[Layer]] = [[Layer(0, 0)]]
        """What each set takes in the best ways of parting it."""
        self.ties: list[list[tuple[int, list[Layer]]]] = [[] for _ in needs]

    def add(self, mask: int) -> Floor:
        """The floor of one connected group; notes what its best partings take."""
        members = [i for i in range(len(self.needs)) if mask >> i & 1]
        cut = min(self.needs[i].cut for i in members)
        floor = Floor(self.nets[mask], len(members), self.width, self.join, cut, self.apart[self.over(members, cut)])
        if self.measure.cuts:
            above = [each for each in self.measure.cuts if each > cut]
            counted = tuple(self.apart[self.over(members, each - 1)][0].rows for each in above)
            floor = floor._replace(counted=counted, depth=len(self.measure.cuts) - len(above))
        self.part(mask, members[0], floor.layers(len(members) - 1))
        return floor

    def over(self, members: Iterable[int], cut: int) -> int:
        """Those of the strips that are longer than `cut`."""
        return sum(1 << i for i in members if self.needs[i].cut > cut)

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
