"""The partition of strips into groups where widths are counted by cut length: every plan worth keeping of every set.

The length of widths that must be packed on several lengths of cloth says too little, so whole Pareto fronts are kept.
Groups that share no width are planned apart, so the front of a set comes from those of its parts. A group is searched
only where its bound says that sharing could beat every way of splitting it.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from operator import add

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cutting.connected_group import Group, Shape, below, connect_within, dominated
from wizard.trade.cutting.grid_units import Demand, members
from wizard.trade.cutting.lower_bounds import CountBounds, GroupBound, Key, worth_of
from wizard.trade.cutting.no_join_spans import fewest_alone
from wizard.trade.cutting.work_budget import spend


class Cloth(Struct, frozen=True):
    """Cloth of one usable width, in grid units."""

    usable: int
    join: int
    cuts: tuple[int, ...] = ()
    """The cut lengths by which its widths are counted; none where it is measured by its length."""


class Choice(Struct, frozen=True):
    """A plan of a set: its connected groups with their shapes."""

    key: Key
    groups: tuple[tuple[int, Shape], ...]

    @property
    def cost(self) -> int:
        """Its length of cloth, where cloth is measured by length."""
        return self.key[0]

    @property
    def joins(self) -> int:
        """Its joins."""
        return self.key[-1]


class Found(Struct, frozen=True):
    """The front of the whole set, and whether nothing better is left."""

    front: tuple[Choice, ...]
    finished: bool
    sets: tuple[tuple[Choice, ...], ...] = ()
    """The fronts of all sets, by bit mask."""


SHARE = 4
"""One group may take this part of the effort at most."""


class ParetoSearch:
    """The search over sets of strips. Sets are bit masks; every subset of a set has a smaller number."""

    def __init__(self, demands: Sequence[Demand], cloth: Cloth, effort: int) -> None:
        self.demands, self.cloth, self.left = demands, cloth, effort
        self.most = effort // SHARE
        self.full = (1 << len(demands)) - 1
        self.floors = CountBounds(demands, cloth.usable - cloth.join, cloth.join, cloth.cuts)
        self.fronts: list[list[Choice]] = [[]]
        self.ties: list[list[tuple[int, list[Shape]]]] = [[] for _ in demands]
        self.finished = True

    def solve(self) -> Found:
        """Plan every set in turn, the whole one last."""
        for mask in range(1, self.full + 1):
            self.plan(mask, self.floors.floor(mask))
        for front in self.fronts:
            front.sort(key=lambda each: each.key)
        return Found(tuple(self.fronts[self.full]), self.finished, tuple(tuple(each) for each in self.fronts))

    def plan(self, mask: int, floor: GroupBound) -> None:
        """The front of one set: the best of its splits, then what sharing among all of it adds."""
        low = (mask & -mask).bit_length() - 1
        spend(10)
        front: list[Choice] = []
        for tie, shapes in self.ties[low]:
            if tie & mask == tie:
                self.combine(front, tie, shapes, self.fronts[mask ^ tie])
        shapes = self.share(mask, floor, front)
        if shapes:
            self.ties[low].append((mask, shapes))
            self.combine(front, mask, shapes, [])
        self.fronts.append(front)

    def share(self, mask: int, floor: GroupBound, front: list[Choice]) -> list[Shape]:
        """Shapes of one connected group that no split of it dominates."""
        if not mask & (mask - 1):
            return [alone(self.demands[mask.bit_length() - 1], floor.at(0)[-1] + 1, self.cloth)]
        best = [Shape(each.key) for each in front]
        if dominated(best, floor.at(floor.strips - 1)):
            return []
        demands = [self.demands[place] for place in members(mask)]
        group = Group(demands, self.cloth.usable, self.cloth.join, self.cloth.cuts)
        finished, self.left = connect_within(group, best, floor, self.left, self.most)
        self.finished &= finished
        return [shape for shape in best if shape.shared or shape.pure]

    @staticmethod
    def combine(front: list[Choice], tie: int, shapes: list[Shape], rests: list[Choice]) -> None:
        """Add to the front every shape of a group with every plan of the rest."""
        for shape in shapes:
            spend(2 * len(rests) + 2)
            head = Choice(shape.key, ((tie, shape),))
            for rest in rests or (None,):
                admit_choice(front, head, rest)


def alone(demand: Demand, count: int, cloth: Cloth) -> Shape:
    """One strip in widths of its own: this many, or as many as keep its joins clear of spans."""
    if demand.spans:
        count = fewest_alone(demand, cloth.usable, cloth.join) or count
    return Shape((*(count * each for each in worth_of(demand.cut, cloth.cuts)), count - 1), (), (count,))


TOGETHER = 8
"""This many strips are searched as one; more only with more effort."""

PATIENT = 12
"""This many are searched as one with that effort."""

PATIENCE = 5_000
"""The effort with which nobody is kept waiting."""


def search(demands: Sequence[Demand], cloth: Cloth, effort: int) -> Found:
    """The fronts of all sets; of many strips, which are planned in batches, the front of the whole set only."""
    demands, cloth = unjoined(demands, cloth)
    batches = [sorted(batch) for batch in batches_of(demands, TOGETHER if effort < PATIENCE else PATIENT)]
    if len(batches) == 1:
        return ParetoSearch(demands, cloth, effort).solve()
    front: list[Choice | None] = [None]
    for batch in batches:
        found = ParetoSearch([demands[place] for place in batch], cloth, effort // len(batches)).solve()
        joined: list[Choice] = []
        groups = [(each.key, tuple([renumbered(*group, batch) for group in each.groups])) for each in found.front]
        for head, rest in product(groups, front):
            admit_choice(joined, Choice(*head), rest)
        front = [*joined]
    return Found(tuple(sorted((each for each in front if each), key=lambda each: each.key)), False)


def batches_of(demands: Sequence[Demand], most: int) -> list[list[int]]:
    """The strips in batches of similar cut length, longest first, of at most so many."""
    order = sorted(range(len(demands)), key=lambda place: (-demands[place].cut, place))
    count = -(-len(order) // most)
    return [order[len(order) * n // count : len(order) * (n + 1) // count] for n in range(count)]


def unjoined(demands: Sequence[Demand], cloth: Cloth) -> tuple[Sequence[Demand], Cloth]:
    """Strips and cloth as they are; on cloth no wider than a join, where nothing can be joined, as one piece each."""
    if cloth.usable > cloth.join:
        return demands, cloth
    return [Demand(each.flat, each.cut, each.flat, 1, each.flat, each.flat) for each in demands], replace(cloth, join=0)


def renumbered(mask: int, shape: Shape, batch: Sequence[int]) -> tuple[int, Shape]:
    """A group as a set of the whole job's strips, its shape with the strips in their order there."""
    if not mask & (mask - 1):
        return 1 << batch[mask.bit_length() - 1], shape
    places = [batch[n] for n in members(mask)]
    order = sorted(range(len(places)), key=places.__getitem__)
    shared = tuple([sum([1 << n for n, before in enumerate(order) if each >> before & 1]) for each in shape.shared])
    return sum([1 << place for place in places]), Shape(shape.key, shared, tuple([shape.pure[n] for n in order]))


def admit_choice(front: list[Choice], head: Choice, rest: Choice | None) -> None:
    """Put a plan and the plan of the rest together on a front, unless it has one that takes no more, and drop what they
    are better than."""
    key = tuple(map(add, head.key, rest.key)) if rest else head.key
    if not any(below(each.key, key) for each in front):
        front[:] = [each for each in front if not below(key, each.key)]
        front.append(Choice(key, (*head.groups, *(rest.groups if rest else ()))))


def by_area(demands: Sequence[Demand], cloth: Cloth) -> int:
    """A bound without any groups: the net width of each layer of cut lengths over what a width gives."""
    total, net, width = 0, 0, cloth.usable - cloth.join
    order = sorted(demands, key=lambda demand: -demand.cut)
    for demand, cut in zip(order, [*[demand.cut for demand in order[1:]], 0], strict=True):
        net += demand.net
        if cut < demand.cut:
            total += max(1, -(-net // width)) * (demand.cut - cut)
    return total
