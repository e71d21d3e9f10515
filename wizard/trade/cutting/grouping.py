"""Which strips share widths with which: the best grouping, by sets of strips, and how well it is proven.

Groups that share no width are planned apart, so the fronts (length of cloth against joins) of a set come from those of
its parts. A group is searched only where a bound says that sharing could beat every way of splitting it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from wizard.trade.cutting.sharing import Group, Meter, Shape, connect
from wizard.trade.cutting.ticks import Need


@dataclass(frozen=True, slots=True)
class Choice:
    """A plan of a set: a connected group with its shape, and the plan of the rest."""

    cost: int
    joins: int
    mask: int
    shape: Shape
    rest: Choice | None


@dataclass(frozen=True, slots=True)
class Found:
    """The front of the whole set, shortest first, the length nothing goes under, and what is known of both."""

    front: tuple[Choice, ...]
    bound: int
    simple: int
    """The layered bound, which needs no search."""
    finished: bool


def groups_of(choice: Choice | None) -> list[tuple[int, Shape]]:
    """The groups of a choice with their shapes."""
    out = []
    while choice:
        out.append((choice.mask, choice.shape))
        choice = choice.rest
    return out


def picked(values: Sequence[Need], mask: int) -> list[Need]:
    """The needs at the places of `mask`, in order."""
    return [value for place, value in enumerate(values) if mask >> place & 1]


class Grouping:
    """The search over sets of strips. Sets are bit masks; every subset of a set has a smaller number."""

    def __init__(self, needs: Sequence[Need], usable: int, join: int, meter: Meter) -> None:
        self.needs, self.usable, self.join, self.meter = needs, usable, join, meter
        self.width = usable - join
        self.count = len(needs)
        self.full = (1 << self.count) - 1
        self.cuts = sorted({need.cut for need in needs}, reverse=True)
        self.fronts: list[list[Choice]] = [[]]
        self.rows: list[int] = [0]
        self.ties: list[list[tuple[int, list[Shape]]]] = [[] for _ in needs]
        self.row_ties: list[list[tuple[int, int]]] = [[] for _ in needs]
        self.open: list[tuple[int, int]] = []

    def solve(self) -> Found:
        """Plan every set in turn, the whole one last."""
        nets = [0]
        for need in self.needs:
            nets += [each + need.net for each in nets]
        for mask in range(1, self.full + 1):
            together = self.fewest_rows(mask, nets[mask])
            self.plan(mask, together)
        simple = self.layered(self.full, self.rows[self.full])
        front = tuple(sorted(self.fronts[self.full], key=lambda each: each.cost))
        return Found(front, self.least_left(simple) if self.open else front[0].cost, simple, not self.open)

    def fewest_rows(self, mask: int, net: int) -> int:
        """Note the fewest widths any grouping of the set needs by width alone; give those of one connected group."""
        count = mask.bit_count()
        low = (mask & -mask).bit_length() - 1
        together = max(1, -(-(net + self.join * (count - 1)) // self.width))
        apart = min(
            (rows + self.rows[mask ^ tie] for tie, rows in self.row_ties[low] if tie & mask == tie), default=together
        )
        if together < apart or count == 1:
            self.row_ties[low].append((mask, together))
        self.rows.append(min(together, apart))
        return together

    def layered(self, mask: int, rows: int) -> int:
        """The layered bound: for each cut length the fewest widths at least that long, times the step to the next."""
        total, left = 0, 0
        for place, cut in enumerate(self.cuts):
            left |= sum(1 << i for i, need in enumerate(self.needs) if need.cut == cut)
            below = self.cuts[place + 1] if place + 1 < len(self.cuts) else 0
            total += self.rows[left & mask] * (cut - below) if left & mask != mask else 0
            if left & mask == mask:
                return total + rows * cut
        return total

    def plan(self, mask: int, together: int) -> None:
        """The front of one set: the best of its splits, then whatever sharing among all of it adds."""
        low = (mask & -mask).bit_length() - 1
        front: list[Choice] = []
        for tie, shapes in self.ties[low]:
            if tie & mask == tie:
                self.combine(front, tie, shapes, self.fronts[mask ^ tie])
        shapes = self.share(mask, together, front)
        if shapes:
            self.ties[low].append((mask, shapes))
            self.combine(front, mask, shapes, [])
        self.fronts.append(front)

    def share(self, mask: int, together: int, front: list[Choice]) -> list[Shape]:
        """Shapes of one connected group that no split of it dominates."""
        cost = self.layered(mask, together)
        if not mask & (mask - 1):
            return [Shape(cost, together - 1, (), (together,))]
        if any(each.cost <= cost and each.joins < together for each in front):
            return []
        needs = picked(self.needs, mask)
        group = Group(needs, self.usable, self.join)
        best = [Shape(each.cost, each.joins) for each in front]
        if not connect(group, best, cost, min(need.cut for need in needs), self.meter):
            self.open.append((mask, cost))
        return [shape for shape in best if shape.shared or shape.pure]

    @staticmethod
    def combine(front: list[Choice], tie: int, shapes: list[Shape], rests: list[Choice]) -> None:
        """Add to the front every shape of a group with every plan of the rest."""
        for shape in shapes:
            for rest in rests or (None,):
                cost, joins = shape.cost + (rest.cost if rest else 0), shape.joins + (rest.joins if rest else 0)
                if any(each.cost <= cost and each.joins <= joins for each in front):
                    continue
                front[:] = [each for each in front if each.cost < cost or each.joins < joins]
                front.append(Choice(cost, joins, tie, shape, rest))

    def least_left(self, simple: int) -> int:
        """The length nothing goes under when some groups were not searched to the end."""
        least = [0]
        for mask in range(1, self.full + 1):
            low = (mask & -mask).bit_length() - 1
            found = [(tie, shapes[0].cost) for tie, shapes in self.ties[low]] + self.open
            here = [cost + least[mask ^ tie] for tie, cost in found if tie & mask == tie and tie >> low & 1]
            least.append(min(here))
        return max(least[self.full], simple)
