"""What no connected group goes under, for every set of strips at once.

A group of `n` strips with net width `a` takes at least `ceil((a + join * (n - 1)) / W)` widths. Its longer strips,
which need not hang together without the shorter ones, take at least the fewest widths of any parting of them; a width
is as long as its longest piece. The least piece is left out of account, so a floor can only be too low.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from wizard.trade.cutting.bounds import Floor, Layer
from wizard.trade.cutting.ticks import Need

MANY = 1 << 20
"""More than any number of joins: a plan is weighed by one number, its length times this and its joins."""


@lru_cache(maxsize=4)
def ties_of(count: int) -> tuple[tuple[int, ...], ...]:
    """For every set of so many strips, by bit mask, its proper subsets that hold its first strip."""
    numbers = list(range(1 << count))
    out: list[tuple[int, ...]] = [()]
    for mask in numbers[1:]:
        low = mask & -mask
        rest = part = mask ^ low
        ties = []
        while part:
            part = (part - 1) & rest
            ties.append(numbers[part | low])
        out.append(tuple(ties))
    return tuple(out)


class Floors:
    """The floors of all sets of strips, by bit mask."""

    def __init__(self, needs: Sequence[Need], width: int, join: int) -> None:
        self.needs, self.width, self.join = needs, width, join
        self.ties = ties_of(len(needs))
        gross = [-join]
        for need in needs:
            gross += [each + need.net + join for each in gross]
        self.rows = [0, *(max(1, -(-each // width)) for each in gross[1:])]
        """The fewest widths of each set as one group."""
        self.gross = gross
        self.cuts = sorted({need.cut for need in needs}, reverse=True)
        self.layers = [sum(1 << i for i, need in enumerate(needs) if need.cut >= cut) for cut in self.cuts]
        self.over = [Layer(0, 0)] * len(gross)
        """What the longer strips of each set take."""
        self.keys = self.weighed()

    def weighed(self) -> list[int]:
        """The least length and joins of each set as one group, in one number."""
        if len(self.cuts) == 1:
            worth = self.cuts[0] * MANY + 1
            return [0, *(rows * worth - 1 for rows in self.rows[1:])]
        fewest, keys = self.parted(self.layers[-2]), [0]
        for mask in range(1, len(self.rows)):
            rows = length = 0
            for layer, cut, below in zip(self.layers, self.cuts, [*self.cuts[1:], 0], strict=True):
                if mask & layer == mask:
                    break
                rows = fewest[mask & layer]
                length += rows * (cut - below)
            self.over[mask] = Layer(rows, length + rows * cut)
            here = max(self.rows[mask], rows)
            keys.append((length + here * cut) * MANY + here - 1)
        return keys

    def parted(self, within: int) -> list[int]:
        """The fewest widths of each set within a set, over all ways of parting it into groups."""
        fewest = list(self.rows)
        for mask in range(1, within + 1):
            if not mask & ~within and self.ties[mask]:
                fewest[mask] = min(fewest[mask], min([fewest[tie] + fewest[mask ^ tie] for tie in self.ties[mask]]))
        return fewest

    def floor(self, mask: int, members: Sequence[int]) -> Floor:
        """The floor of one group for any excess of its shared widths."""
        net = self.gross[mask] - self.join * (len(members) - 1)
        cut = min(self.needs[i].cut for i in members)
        return Floor(net, len(members), self.width, self.join, cut, [self.over[mask]])
