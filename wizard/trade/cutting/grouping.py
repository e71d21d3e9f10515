"""Which strips share widths with which: the best grouping, by sets of strips, and how well it is proven.

Groups that share no width are planned apart, so the fronts (length of cloth against joins) of a set come from those of
its parts. A group is searched only where a bound says that sharing could beat every way of splitting it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from operator import add

from wizard.trade.cutting.bounds import Bounds, Floor, Key, Measure
from wizard.trade.cutting.seams import fewest_alone
from wizard.trade.cutting.sharing import LENGTH, Group, Meter, Shape, below, connect, dominated
from wizard.trade.cutting.ticks import Need


@dataclass(frozen=True, slots=True)
class Cloth:
    """The roll, in ticks."""

    usable: int
    join: int
    measure: Measure = LENGTH


Known = dict[tuple[tuple[int, int], ...], int]
"""For some strips, as sorted (flat, cut), the cloth nothing goes under."""


@dataclass(frozen=True, slots=True)
class Choice:
    """A plan of a set: a connected group with its shape, and the plan of the rest."""

    key: Key
    mask: int
    shape: Shape
    rest: Choice | None

    @property
    def cost(self) -> int:
        """Its length of cloth, where that is the measure."""
        return self.key[0]

    @property
    def joins(self) -> int:
        return self.key[-1]


@dataclass(frozen=True, slots=True)
class Found:
    """The front of the whole set, shortest first, the length nothing goes under, and what is known of both."""

    front: tuple[Choice, ...]
    bound: int
    simple: int
    """The layered bound, which needs no search."""
    finished: bool
    sets: tuple[tuple[Choice, ...], ...] = ()
    """The fronts of all sets, by bit mask."""


def groups_of(choice: Choice | None) -> list[tuple[int, Shape]]:
    """The groups of a choice with their shapes."""
    out = []
    while choice:
        out.append((choice.mask, choice.shape))
        choice = choice.rest
    return out


FIRST_LOOK = 60
"""Nodes spent on one group before a sharper bound is worked out for it."""

SHARE = 4
"""One group may take at most this part of the effort."""


class Grouping:
    """The search over sets of strips. Sets are bit masks; every subset of a set has a smaller number."""

    def __init__(self, needs: Sequence[Need], cloth: Cloth, effort: int, known: Known) -> None:
        self.needs, self.cloth, self.left, self.known = needs, cloth, effort, known
        self.most = effort // SHARE
        self.count = len(needs)
        self.full = (1 << self.count) - 1
        self.bounds = Bounds(needs, cloth.usable - cloth.join, cloth.join, cloth.measure)
        self.fronts: list[list[Choice]] = [[]]
        self.ties: list[list[tuple[int, list[Shape]]]] = [[] for _ in needs]
        self.open: list[tuple[int, int]] = []

    def solve(self) -> Found:
        """Plan every set in turn, the whole one last."""
        for mask in range(1, self.full + 1):
            self.plan(mask, self.bounds.add(mask))
        simple = self.bounds.apart[self.full][-1].cost
        for front in self.fronts:
            front.sort(key=lambda each: each.key)
        whole = tuple(self.fronts[self.full])
        if self.cloth.measure.cuts:
            return Found(whole, simple, simple, not self.open, tuple(tuple(each) for each in self.fronts))
        bound = max(simple, self.least_of_all()[self.full]) if self.open else whole[0].cost
        return Found(whole, bound, simple, not self.open)

    def plan(self, mask: int, floor: Floor) -> None:
        """The front of one set: the best of its splits, then whatever sharing among all of it adds."""
        low = (mask & -mask).bit_length() - 1
        front: list[Choice] = []
        for tie, shapes in self.ties[low]:
            if tie & mask == tie:
                self.combine(front, tie, shapes, self.fronts[mask ^ tie])
        shapes = self.share(mask, floor, front)
        if shapes:
            self.ties[low].append((mask, shapes))
            self.combine(front, mask, shapes, [])
        self.fronts.append(front)

    def share(self, mask: int, floor: Floor, front: list[Choice]) -> list[Shape]:
        """Shapes of one connected group that no split of it dominates."""
        if not mask & (mask - 1):
            return [self.alone(mask.bit_length() - 1, floor)]
        best = [Shape(each.key) for each in front]
        if all(dominated(best, key) for key in floor.at(floor.strips - 1)):
            return []
        self.look(mask, floor, best)
        return [shape for shape in best if shape.shared or shape.pure]

    def alone(self, place: int, floor: Floor) -> Shape:
        """One strip in widths of its own."""
        need = self.needs[place]
        count = floor.at(0)[0][-1] + 1
        if need.spans:
            count = fewest_alone(need, self.cloth.usable, self.cloth.join) or count
        worth = self.cloth.measure.of(need.cut)
        return Shape((*(count * each for each in worth), count - 1), (), (count,))

    def look(self, mask: int, floor: Floor, best: list[Shape]) -> None:
        """Search a group briefly; where that does not finish, with a sharper bound and for longer."""
        needs = [need for place, need in enumerate(self.needs) if mask >> place & 1]
        if self.spend(FIRST_LOOK, needs, floor, best):
            return
        if self.left > 0:
            if not self.cloth.measure.cuts:
                floor = floor._replace(least=self.sharper(needs))
            if self.spend(self.most, needs, floor, best):
                return
        self.open.append((mask, floor.at(floor.strips - 1)[0][0]))

    def spend(self, nodes: int, needs: list[Need], floor: Floor, best: list[Shape]) -> bool:
        """Search a group with some of what is left; True when finished."""
        given = min(self.left, nodes)
        meter = Meter(given)
        done = connect(
            Group(needs, self.cloth.usable, self.cloth.join, self.cloth.measure, floor.least), best, floor, meter
        )
        self.left -= given - max(meter.left, 0)
        return done

    def sharper(self, needs: list[Need]) -> int:
        """The cloth some strips take at least, by parting their cut lengths at a height.

        What lies above the height is a plan of the longer strips, and what lies below it a plan of all of them, each
        with its cut lengths shortened to match: so the least of each, added, is a bound.
        """
        heights = sorted({need.cut for need in needs})[:-1]
        best = 0
        for height in heights:
            above = [replace(need, cut=need.cut - height, spans=()) for need in needs if need.cut > height]
            below = [replace(need, cut=min(need.cut, height), spans=()) for need in needs]
            best = max(best, self.least(above) + self.least(below))
        return best

    def least(self, needs: list[Need]) -> int:
        """The cloth nothing goes under for some strips, from what is known already or searched for."""
        key = tuple(sorted((need.flat, need.cut) for need in needs))
        if key not in self.known:
            inner = Grouping(needs, self.cloth, min(self.left, self.most), self.known)
            self.known[key] = inner.solve().bound
            self.left -= min(self.left, self.most) - inner.left
        return self.known[key]

    @staticmethod
    def combine(front: list[Choice], tie: int, shapes: list[Shape], rests: list[Choice]) -> None:
        """Add to the front every shape of a group with every plan of the rest."""
        for shape in shapes:
            for rest in rests or (None,):
                key = tuple(map(add, shape.key, rest.key)) if rest else shape.key
                if any(below(each.key, key) for each in front):
                    continue
                front[:] = [each for each in front if not below(key, each.key)]
                front.append(Choice(key, tie, shape, rest))

    def least_of_all(self) -> list[int]:
        """For every set the length nothing goes under, groups that were not searched to the end at their floors."""
        least = [0]
        for mask in range(1, self.full + 1):
            low = (mask & -mask).bit_length() - 1
            found = [(tie, shapes[0].key[0]) for tie, shapes in self.ties[low]] + self.open
            here = [cost + least[mask ^ tie] for tie, cost in found if tie & mask == tie and tie >> low & 1]
            least.append(min(here))
        return least


TOGETHER = 8
"""So many strips are searched as one; more only with the effort to match."""

PATIENCE = 50_000
"""Effort from which up to a dozen strips are searched as one."""


def search(needs: Sequence[Need], cloth: Cloth, effort: int) -> Found:
    """The best grouping, and how well it is known. Many strips are planned in batches, with the gap stated."""
    if cloth.usable <= cloth.join:
        needs, cloth = [whole(need) for need in needs], replace(cloth, join=0)
    if len(needs) <= (TOGETHER if effort < PATIENCE else 12):
        return Grouping(needs, cloth, effort, {}).solve()
    return in_batches(needs, cloth, effort)


def whole(need: Need) -> Need:
    """A strip on cloth no wider than a join, where nothing can be joined."""
    return Need(need.flat, need.cut, need.flat, 1, need.flat, need.flat)


def in_batches(needs: Sequence[Need], cloth: Cloth, effort: int) -> Found:
    """Strips of like cut length planned together, batch by batch: always feasible, not always the least."""
    order = sorted(range(len(needs)), key=lambda place: (-needs[place].cut, place))
    count = -(-len(order) // TOGETHER)
    batches = [sorted(order[len(order) * n // count : len(order) * (n + 1) // count]) for n in range(count)]
    front: list[Choice | None] = [None]
    for batch in batches:
        found = Grouping([needs[place] for place in batch], cloth, effort // count, {}).solve()
        front = list(chained(found.front, batch, front))
    whole = tuple(sorted((each for each in front if each), key=lambda each: each.key))
    bound = by_area(needs, cloth)
    return Found(whole, bound, bound, False)


def chained(heads: Sequence[Choice], batch: Sequence[int], rests: Sequence[Choice | None]) -> list[Choice]:
    """Every plan of a batch before every plan of the rest, with its sets numbered as in the whole job."""
    out: list[Choice] = []
    for head in heads:
        for rest in rests:
            plan = rest
            for mask, shape in reversed(groups_of(head)):
                wide = sum(1 << place for n, place in enumerate(batch) if mask >> n & 1)
                plan = Choice(tuple(map(add, shape.key, plan.key)) if plan else shape.key, wide, shape, plan)
            if plan and not any(below(each.key, plan.key) for each in out):
                out = [each for each in out if not below(plan.key, each.key)] + [plan]
    return out


def by_area(needs: Sequence[Need], cloth: Cloth) -> int:
    """The layered bound without any grouping: each layer of cut lengths takes its net width over what a width gives."""
    total, width = 0, cloth.usable - cloth.join
    cuts = sorted({need.cut for need in needs}, reverse=True)
    for cut, below_it in zip(cuts, [*cuts[1:], 0], strict=True):
        net = sum(need.net for need in needs if need.cut >= cut)
        total += max(1, -(-net // width)) * (cut - below_it)
    return total
