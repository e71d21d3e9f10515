"""The plan of fewest joins within a length: the same search over partings as for the least length, joins first."""

from __future__ import annotations

from dataclasses import dataclass, field

from wizard.trade.cutting.filling import connect
from wizard.trade.cutting.floors import MANY
from wizard.trade.cutting.grouping import Choice
from wizard.trade.cutting.parting import OUT, Parting, chained
from wizard.trade.cutting.sharing import Group, Meter, Shape

ROUNDS = 40
"""Partings tried before the search is given up."""

Option = tuple[int, int, Shape | None]
"""A way of cutting a group: its joins beyond those of its strips cut alone, its length, and its shape, or None where
that is only a floor."""


@dataclass
class Fewest:
    """What is known while the plan is searched for."""

    parting: Parting
    limit: int
    most: int
    """The most joins beyond those of strips cut alone."""
    apart: list[int] = field(default_factory=lambda: [0])
    """The joins of each set of strips cut alone."""
    options: dict[int, list[Option]] = field(default_factory=dict)
    finished: bool = True

    def __post_init__(self) -> None:
        parting = self.parting
        for place in range(len(parting.needs)):
            alone = parting.shapes[1 << place].key[1]
            self.apart += [each + alone for each in self.apart]
        rows, low = parting.floors.rows, parting.low
        for mask in range(1, parting.full + 1):
            more, length = max(rows[mask] - 1 - self.apart[mask], 0), low[mask] // MANY
            if not mask & (mask - 1):
                self.options[mask] = [(0, length, parting.shapes[mask])]
            elif more <= self.most and length <= self.limit:
                self.options[mask] = [(more, length, None)]

    def search(self) -> list[tuple[int, Shape]] | None:
        """The groups of the plan; None when there is none."""
        for _ in range(ROUNDS):
            found = Table(self).groups()
            if found is None:
                return None
            unknown = [mask for mask, option in found if option[2] is None]
            if not unknown:
                return [(mask, option[2]) for mask, option in found if option[2]]
            for mask in unknown:
                self.look(mask)
        self.finished = False
        return None

    def look(self, mask: int) -> None:
        """Search a group for every plan within the length and the joins there may be."""
        parting = self.parting
        members = [place for place in range(len(parting.needs)) if mask >> place & 1]
        group = Group([parting.needs[place] for place in members], parting.cloth.usable, parting.cloth.join)
        front = [Shape((self.limit + 1, 0)), Shape((0, self.apart[mask] + self.most + 1))]
        given = max(min(parting.left, parting.most), 0)
        meter = Meter(given)
        if not given or not connect(group, front, parting.floors.floor(mask, members), meter):
            self.finished = False
        parting.left -= given - max(meter.left, 0)
        shapes = [shape for shape in front if shape.shared]
        self.options[mask] = [(shape.key[1] - self.apart[mask], shape.key[0], shape) for shape in shapes]


class Table:
    """For every set the least length by joins beyond those of strips cut alone."""

    def __init__(self, fewest: Fewest) -> None:
        self.options, self.limit = fewest.options, fewest.limit
        self.ties, self.full = fewest.parting.floors.ties, fewest.parting.full
        self.lengths: dict[int, list[int]] = {0: [0] * (fewest.most + 1)}
        for mask in (*range(2, self.full + 1, 2), self.full):
            self.lengths[mask] = self.of(mask, fewest.most)

    def of(self, mask: int, most: int) -> list[int]:
        best = [OUT] * (most + 1)
        for tie in (*self.ties[mask], mask):
            for more, length, _ in self.options.get(tie, ()):
                rest = self.lengths[mask ^ tie]
                for joins in range(more, most + 1):
                    if length + rest[joins - more] < best[joins]:
                        best[joins] = length + rest[joins - more]
        return best

    def groups(self) -> list[tuple[int, Option]] | None:
        """The groups of the plan of fewest joins within the limit, then of least length."""
        mask, out = self.full, []
        joins = next((n for n, length in enumerate(self.lengths[mask]) if length <= self.limit), None)
        if joins is None:
            return None
        while mask:
            tie, option = self.first(mask, joins)
            out.append((tie, option))
            mask, joins = mask ^ tie, joins - option[0]
        return out

    def first(self, mask: int, joins: int) -> tuple[int, Option]:
        """The first group of a set that gives its length at so many joins."""
        return next(
            (tie, option)
            for tie in (*self.ties[mask], mask)
            for option in self.options.get(tie, ())
            if option[0] <= joins
            and option[1] + self.lengths[mask ^ tie][joins - option[0]] == self.lengths[mask][joins]
        )


def fewest_within(parting: Parting, limit: int, under: int) -> tuple[Choice | None, bool]:
    """The plan of fewest joins, and fewer than `under`, that takes at most `limit`; and whether that is certain."""
    alone = sum(parting.shapes[1 << place].key[1] for place in range(len(parting.needs)))
    if under <= alone:
        return None, True
    fewest = Fewest(parting, limit, under - 1 - alone)
    groups = fewest.search()
    return (chained(groups) if groups else None), fewest.finished
