"""What no plan goes under, from widths alone: the layered bound of connected groups.

Take the pieces of the longest strips of a connected group, then of the next longest as well, and so on: each such layer
falls into connected parts, every part lies within one part of the next layer, and a part of `n` strips with net width
`a` takes at least `ceil((a + join * (n - 1)) / W)` widths. A width is as long as the layer in which it first appears.
The bound is the cheapest such nesting. It leaves the least piece out of account, so it can only be too low.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from wizard.trade.cutting.ticks import Need


class Layer(NamedTuple):
    """Widths that a set of strips takes, and their length of cloth in all."""

    rows: int
    cost: int


class Point(NamedTuple):
    """A length of cloth and a number of joins."""

    cost: int
    joins: int


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
    least: int = 0
    """Cloth it takes at least, where more is known than widths alone tell."""

    def at(self, excess: int) -> list[Point]:
        """The points no shape with this excess, or more, lies below; the cheapest first."""
        rows = max(1, -(-(self.net + self.join * excess) // self.width))
        layers = pareto(
            Layer(max(rows, each.rows), each.cost + max(0, rows - each.rows) * self.cut) for each in self.longer
        )
        return [Point(max(each.cost, self.least), each.rows - self.strips + excess) for each in reversed(layers)]


def pareto(layers: Iterable[Layer]) -> list[Layer]:
    """Those that none matches in both widths and length, fewest widths first."""
    kept: list[Layer] = []
    for each in sorted(set(layers)):
        if not kept or each.cost < kept[-1].cost:
            kept.append(each)
    return kept


class Bounds:
    """The floors of all sets of strips, added in the order of their bit masks."""

    def __init__(self, needs: Sequence[Need], width: int, join: int) -> None:
        self.needs, self.width, self.join = needs, width, join
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
        longer = sum(1 << i for i in members if self.needs[i].cut > cut)
        floor = Floor(self.nets[mask], len(members), self.width, self.join, cut, self.apart[longer])
        self.part(mask, members[0], [Layer(each.joins + 1, each.cost) for each in floor.at(len(members) - 1)])
        return floor

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
