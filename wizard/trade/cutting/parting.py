"""The least plan by length, found from below: which strips share widths with which.

Groups that share no width are planned apart, so a plan is a parting of the strips into groups. At first each group
stands at its floor. The best parting by what is known is taken, and its groups that are not yet planned are searched,
which may make another parting the best; once all groups of the best parting are planned, it is the least. So only the
groups that could matter are ever searched, and each of them only for what would be better than what there is.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cached_property
from operator import add

from msgspec import Struct

from wizard.trade.cutting.filling import connect
from wizard.trade.cutting.floors import MANY, OUT, Floors
from wizard.trade.cutting.grouping import Choice, Cloth
from wizard.trade.cutting.seams import fewest_alone
from wizard.trade.cutting.sharing import Group, Meter, Shape
from wizard.trade.cutting.tally import spend
from wizard.trade.cutting.ticks import Need

FIRST_LOOK = 60
"""What is spent on a group before its own partings are looked at, which may show that it need not be searched."""

PAIR = 2
"""What the search of a pair takes that meets its floor at once."""

SHARE = 3
"""One group may take at most this part of the effort."""


class Least(Struct, frozen=True):
    """The plan of least length, then fewest joins, that was found, and what is known of it."""

    choice: Choice
    bound: int
    """The length nothing goes under."""
    simple: int
    """What is known of that without a search."""
    finished: bool
    """True when nothing better is left."""


class Parting:
    """The search over partings of some strips, those of longest cut first. Sets of strips are bit masks."""

    def __init__(self, needs: Sequence[Need], cloth: Cloth, effort: int) -> None:
        self.needs, self.cloth, self.left, self.most = needs, cloth, effort, effort // SHARE
        self.full = (1 << len(needs)) - 1
        self.floors = Floors(needs, cloth.usable - cloth.join, cloth.join)
        self.low = self.floors.keys
        """What no plan of a group goes under."""
        self.work = list(self.low)
        """The same, but what was planned where it is planned, and OUT where no plan needs it or none is known."""
        self.log: list[int] = []
        """The groups for which that has changed, in order."""
        self.shapes: dict[int, Shape] = {}
        self.simple = 0
        """What the floors alone say of all the strips."""
        self.groups: dict[int, Group] = {}
        """Those looked at."""
        self.open: set[int] = set()
        """Groups whose search was given up."""
        for place, need in enumerate(needs):
            self.alone(place, need)

    def alone(self, place: int, need: Need) -> None:
        """One strip in widths of its own."""
        count = self.floors.rows[1 << place]
        if need.spans:
            count = fewest_alone(need, self.cloth.usable, self.cloth.join) or count
        self.settle(1 << place, Shape((count * need.cut, count - 1), (), (count,)), True)

    def settle(self, mask: int, shape: Shape, least: bool) -> None:
        """Note the plan of a group."""
        self.shapes[mask] = shape
        self.takes(mask, weight(shape))
        if least:
            self.low[mask] = self.work[mask]

    def takes(self, mask: int, weight: int) -> None:
        """Note what a group takes by what is known now."""
        if weight != self.work[mask]:
            self.work[mask] = weight
            self.log.append(mask)

    def least(self) -> Least:
        """Search for the least plan, as far as the effort goes."""
        found, groups = self.solve(self.full, False)
        bound = found
        if self.open:
            bound = min(found, self.lowest[self.full])
        choice = chained((mask, self.shapes[mask]) for mask in groups)
        return Least(choice, bound // MANY, self.simple // MANY, bound == found)

    @cached_property
    def lowest(self) -> list[int]:
        """What no plan of each set of strips goes under, once the search is over."""
        return Sums(self.low, self.floors, self.full).best

    def solve(self, whole: int, parted: bool) -> tuple[int, list[int]]:
        """The best parting of a set, and what it takes; `parted`: into two groups at least."""
        groups = [1 << place for place in range(len(self.needs)) if whole >> place & 1]
        best = sum(self.work[mask] for mask in groups)
        sums, told = Sums(self.work, self.floors, whole, parted), len(self.log)
        self.simple = self.simple or sums.best[whole]
        while sums.best[whole] < best:
            tried = sums.groups()
            unknown = [mask for mask in tried if mask not in self.shapes]
            for mask in unknown:
                self.look(mask, best - sums.best[whole] + self.work[mask])
            if all(mask in self.shapes for mask in tried):
                taken = sum(self.work[mask] for mask in tried)
                if taken < best:
                    best, groups = taken, tried
            if told < len(self.log):
                sums.raised(self.log[told:])
                told = len(self.log)
        return best, groups

    def look(self, mask: int, limit: int) -> None:
        """Search a group for a plan that takes less than `limit`, and less than any parting of it."""
        members = [place for place in range(len(self.needs)) if mask >> place & 1]
        met = self.pair(mask, members) if len(members) == 2 else self.whole(mask, members)
        if met or self.left <= 0 or self.search(mask, members, limit, FIRST_LOOK):
            self.give_up(mask)
            return
        parted = self.solve(mask, True)[0] if self.left > 0 else OUT
        if parted <= self.low[mask]:
            self.low[mask] = parted
            self.takes(mask, OUT)
        elif not self.search(mask, members, min(limit, parted), self.most):
            self.open.add(mask)
            self.give_up(mask)
        elif mask not in self.shapes and parted <= limit:
            self.takes(mask, OUT)

    def whole(self, mask: int, members: Sequence[int]) -> bool:
        """Plan strips that all fit one width as they are: nothing takes less, and no search has to find that."""
        shape = in_one_width([self.needs[place] for place in members], self.cloth.usable)
        if shape is not None:
            self.settle(mask, shape, True)
        return shape is not None

    def pair(self, mask: int, members: Sequence[int]) -> bool:
        """Plan two strips without a search where they meet their floor with one width shared; False where they do not.

        It is what the search would find first, and takes as much of the effort.
        """
        one, other = (self.needs[place] for place in members)
        if mask in self.groups or self.left < PAIR or one.spans or other.spans:
            return False
        shape = tied(one, other, self.cloth)
        if shape is None or weight(shape) != self.low[mask]:
            return False
        self.left -= PAIR
        self.settle(mask, shape, True)
        return True

    def give_up(self, mask: int) -> None:
        """With nothing left of the effort, no group counts any more of which nothing is known."""
        if self.left <= 0:
            unknown = [each for each in range(1, self.full + 1) if each not in self.shapes and self.work[each] < OUT]
            self.open.update(unknown)
            for each in unknown:
                self.takes(each, OUT)
        elif mask in self.open and mask not in self.shapes:
            self.takes(mask, OUT)

    def group(self, mask: int, members: Sequence[int]) -> Group:
        """The group of some strips; a group is often looked at twice."""
        if mask not in self.groups:
            needs = [self.needs[place] for place in members]
            self.groups[mask] = Group(needs, self.cloth.usable, self.cloth.join)
        return self.groups[mask]

    def search(self, mask: int, members: list[int], limit: int, nodes: int) -> bool:
        """Search with some of what is left of the effort; True when it is finished."""
        given = min(self.left, nodes)
        if given <= 0:
            return False
        length, joins = divmod(limit, MANY)
        front = [Shape((length, joins)), Shape((length + 1, 0))]
        meter = Meter(given)
        group = self.group(mask, members)
        meter.spend(len(group.sets) // 4)
        finished = connect(group, front, self.floors.floor(mask, members), meter)
        self.left -= given - max(meter.left, 0)
        found = min((shape for shape in front if shape.shared), key=weight, default=None)
        if found and (finished or mask not in self.shapes or weight(found) < self.work[mask]):
            self.settle(mask, found, finished)
        elif finished:
            self.shapes.pop(mask, None)
            self.low[mask] = max(limit, self.low[mask])
            self.takes(mask, self.low[mask])
        return finished


def in_one_width(needs: Sequence[Need], usable: int) -> Shape | None:
    """Strips side by side in one width, as they are; None where they are too wide for it together."""
    if sum([need.flat for need in needs]) > usable:
        return None
    return Shape((max([need.cut for need in needs]), 0), ((1 << len(needs)) - 1,), (0,) * len(needs))


def tied(one: Need, other: Need, cloth: Cloth) -> Shape | None:
    """Two strips with one shared width and no more pure ones than each must have; None where those do not suffice."""
    room, width = cloth.usable - one.least - other.least, cloth.usable - cloth.join
    here, there = one.net - one.slim - room, other.net - other.slim - room
    first, second = max(0, -(-here // width)), max(0, -(-there // width))
    enough = -(-(here + there + room) // width) <= first + second
    if room < 0 or not enough or first >= one.most or second >= other.most:
        return None
    length = max(one.cut, other.cut) + first * one.cut + second * other.cut
    return Shape((length, first + second), (3,), (first, second))


def weight(shape: Shape) -> int:
    """A shape's length and joins in one number."""
    return shape.key[0] * MANY + shape.key[1]


def chained(groups: Iterable[tuple[int, Shape]]) -> Choice:
    """A plan from its groups."""
    plan: Choice | None = None
    for mask, shape in groups:
        length, joins = plan.key if plan else (0, 0)
        plan = Choice((length + shape.key[0], joins + shape.key[1]), mask, shape, plan)
    assert plan is not None
    return plan


class Sums:
    """The least sum over all partings of a set, kept up to date as what its groups take is raised."""

    def __init__(self, work: list[int], floors: Floors, whole: int, parted: bool = False) -> None:
        self.work, self.ties, self.picks = work, floors.ties, floors.picks
        self.whole, self.parted = whole, parted
        self.masks = [0]
        rest = whole & (whole - 1)
        while rest:
            self.masks += [mask | (rest & -rest) for mask in self.masks]
            rest &= rest - 1
        self.masks = [*self.masks[1:], whole]
        self.best = [0] * (whole + 1)
        self.first = [0] * (whole + 1)
        """The group of the first strip in the best parting of each set."""
        self.work_out(self.masks)

    def work_out(self, masks: Sequence[int]) -> None:
        """The best partings of some sets, those of their subsets being known."""
        work, best, firsts, picks = self.work, self.best, self.first, self.picks
        spend(len(masks))
        barred = self.whole if self.parted else 0
        for mask in masks:
            here, first, pick = work[mask] if mask != barred else OUT, mask, picks[mask]
            if pick:
                sums = list(map(add, pick[0](work), pick[1](best)))
                least = min(sums)
                if least < here:
                    here, first = least, self.ties[mask][sums.index(least)]
            best[mask], firsts[mask] = here, first

    def raised(self, masks: Iterable[int]) -> None:
        """Work out again what rests on these groups: nothing else can have changed."""
        changed, moved = set(masks), set[int]()
        best, firsts = self.best, self.first
        for mask in self.masks:
            first = firsts[mask]
            if first in changed or mask ^ first in moved:
                before = best[mask]
                self.work_out((mask,))
                if best[mask] != before:
                    moved.add(mask)

    def groups(self) -> list[int]:
        """The groups of the best parting."""
        out, mask = [], self.whole
        while mask:
            out.append(self.first[mask])
            mask ^= self.first[mask]
        return out
