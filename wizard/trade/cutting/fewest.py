"""The plan of fewest joins within a length: the same search over partings as for the least length, joins first."""

from __future__ import annotations

from operator import add

from wizard.trade.cutting.filling import connect
from wizard.trade.cutting.floors import MANY, OUT
from wizard.trade.cutting.grouping import Choice
from wizard.trade.cutting.parting import Parting, chained
from wizard.trade.cutting.sharing import Meter, Shape
from wizard.trade.cutting.tally import spend

ROUNDS = 40
"""Partings tried before the search is given up."""

Option = tuple[int, int, Shape | None]
"""A way of cutting a group: its joins beyond those of its strips cut alone, its length, and its shape, or None where
that is only a floor."""


class Fewest:
    """What is known while the plan is searched for."""

    def __init__(self, parting: Parting, limit: int, most: int) -> None:
        """`most`: the most joins beyond those of strips cut alone."""
        self.parting, self.limit, self.most = parting, limit, most
        self.apart = [0]
        """The joins of each set of strips cut alone."""
        for place in range(len(parting.needs)):
            alone = parting.shapes[1 << place].key[1]
            self.apart += [each + alone for each in self.apart]
        self.options: dict[int, list[Option]] = {
            1 << place: [(0, parting.shapes[1 << place].key[0], parting.shapes[1 << place])]
            for place in range(len(parting.needs))
        }
        """Of the groups looked at."""
        self.low = [each // MANY for each in parting.low]
        self.least = [each // MANY for each in parting.lowest]
        """The least length that any plan of a set could take."""
        self.within: dict[int, list[int]] = {}
        """For each set asked of, the groups of its first strip that leave a plan within the limit."""
        self.spent = False
        """True once nothing is left of the effort to look at a group with."""
        self.finished = True

    def of(self, mask: int) -> list[Option]:
        """The ways of cutting a group: what was found, or its floor."""
        if mask not in self.options:
            joins = max(self.parting.floors.rows[mask] - 1 - self.apart[mask], 0)
            self.options[mask] = [] if self.spent else [(joins, self.low[mask], None)]
        return self.options[mask]

    def ties(self, mask: int) -> list[int]:
        """The groups of a set's first strip, itself last, that can be part of a plan within the limit: whatever lies
        outside the set takes at least what all do less what the set does."""
        if mask not in self.within:
            floors, least, full = self.parting.floors, self.least, self.parting.full
            most, pick, ties = self.limit - least[full] + least[mask], floors.picks[mask], list[int]()
            if pick:
                sums = map(add, pick[0](self.low), pick[1](least))
                ties = [tie for tie, length in zip(floors.ties[mask], sums, strict=False) if length <= most]
            self.within[mask] = [*ties, mask]
        return self.within[mask]

    def search(self) -> list[tuple[int, Shape]] | None:
        """The groups of the plan; None when there is none."""
        for _ in range(ROUNDS):
            found = Table(self).groups()
            unknown = [mask for mask, option in found if option[2] is None]
            if not unknown:
                return [(mask, option[2]) for mask, option in found if option[2]] or None
            for mask in unknown:
                self.look(mask)
            if self.parting.left <= 0:
                self.drop_floors()
        self.finished = False
        return None

    def drop_floors(self) -> None:
        """From here on no group counts of which nothing is known: it could not be looked at any more."""
        self.spent = True
        self.options = {mask: ways for mask, ways in self.options.items() if not any(way[2] is None for way in ways)}

    def look(self, mask: int) -> None:
        """Search a group for every plan within the length and the joins there may be."""
        parting = self.parting
        members = [place for place in range(len(parting.needs)) if mask >> place & 1]
        group = parting.group(mask, members)
        front = [Shape((self.limit + 1, 0)), Shape((0, self.apart[mask] + self.most + 1))]
        given = max(min(parting.left, parting.most), 0)
        meter = Meter(given)
        if not given or not connect(group, front, parting.floors.floor(mask, members), meter):
            self.finished = False
        parting.left -= given - max(meter.left, 0)
        shapes = [shape for shape in front if shape.shared]
        self.options[mask] = [(shape.key[1] - self.apart[mask], shape.key[0], shape) for shape in shapes]


class Table:
    """The least length of every set by its joins, as far as a plan within the limit can come to need it."""

    def __init__(self, fewest: Fewest) -> None:
        self.fewest, self.known = fewest, dict[tuple[int, int], tuple[int, int, Option | None]]()

    def best(self, mask: int, joins: int) -> tuple[int, int, Option | None]:
        """With at most so many joins beyond those of strips cut alone: the least length, the first group, its way."""
        if not mask:
            return 0, 0, None
        if (mask, joins) not in self.known:
            spend(5)
            self.known[mask, joins] = self.work_out(mask, joins)
        return self.known[mask, joins]

    def work_out(self, mask: int, joins: int) -> tuple[int, int, Option | None]:
        """The best way of the first group, with the best of the rest."""
        fewest, least = self.fewest, self.fewest.least
        best: tuple[int, int, Option | None] = (OUT, 0, None)
        most = fewest.limit - least[fewest.parting.full] + least[mask]
        for tie in fewest.ties(mask):
            for option in fewest.of(tie):
                if option[0] <= joins and option[1] + least[mask ^ tie] < min(best[0], most + 1):
                    length = option[1] + self.best(mask ^ tie, joins - option[0])[0]
                    best = min(best, (length, tie, option), key=lambda each: each[0])
        return best

    def groups(self) -> list[tuple[int, Option]]:
        """The groups of the plan of fewest joins within the limit, then of least length; none where there is none."""
        for joins in range(self.fewest.most + 1):
            if self.best(self.fewest.parting.full, joins)[0] <= self.fewest.limit:
                return self.traced(joins)
        return []

    def traced(self, joins: int) -> list[tuple[int, Option]]:
        mask, out = self.fewest.parting.full, []
        while mask:
            _, tie, option = self.best(mask, joins)
            assert option is not None
            out.append((tie, option))
            mask, joins = mask ^ tie, joins - option[0]
        return out


def fewest_within(parting: Parting, limit: int, under: int) -> tuple[Choice | None, bool]:
    """The plan of fewest joins, and fewer than `under`, that takes at most `limit`; and whether that is certain."""
    alone = sum([parting.shapes[1 << place].key[1] for place in range(len(parting.needs))])
    if under <= alone:
        return None, True
    fewest = Fewest(parting, limit, under - 1 - alone)
    groups = fewest.search()
    return (chained(groups) if groups else None), fewest.finished
