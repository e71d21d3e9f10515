"""What no connected group goes under, for every set of strips at once.

A group of `n` strips with net width `a` takes at least `ceil((a + join * (n - 1)) / W)` widths. Its longer strips,
which need not hang together without the shorter ones, take at least the fewest widths of any parting of them; a width
is as long as its longest piece. The least piece is left out of account, so a floor can only be too low.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache
from operator import add, itemgetter

from wizard.trade.cutting.bounds import Floor, Layer
from wizard.trade.cutting.tally import spend
from wizard.trade.cutting.ticks import Need

MANY = 1 << 20
"""More than any number of joins: a plan is weighed by one number, its length times this and its joins."""

OUT = 1 << 80
"""More than any plan takes."""


@lru_cache(maxsize=16)
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


Pick = Callable[[Sequence[int]], tuple[int, ...]]
"""Takes the numbers of some sets out of those of all sets."""


@lru_cache(maxsize=16)
def picks_of(count: int) -> tuple[tuple[Pick, Pick] | None, ...]:
    """For every set with ties: what picks the ties' numbers, in their order, and what picks those of the rests."""
    out: list[tuple[Pick, Pick] | None] = []
    for mask, ties in enumerate(ties_of(count)):
        # Of one place alone a getter would give no tuple: it is picked twice.
        groups = ties if len(ties) != 1 else ties * 2
        out.append((itemgetter(*groups), itemgetter(*[mask ^ tie for tie in groups])) if ties else None)
    return tuple(out)


class Floors:
    """The floors of all sets of strips, by bit mask. The strips stand in order of their cut lengths, longest first."""

    def __init__(self, needs: Sequence[Need], width: int, join: int) -> None:
        self.needs, self.width, self.join = needs, width, join
        spend(20 + (1 << len(needs)))
        self.ties, self.picks = ties_of(len(needs)), picks_of(len(needs))
        gross = [-join]
        for flat in [need.flat for need in needs]:
            gross += [each + flat for each in gross]
        self.gross = gross
        self.rows = [0, *[-(-each // width) or 1 for each in gross[1:]]]
        """The fewest widths of each set as one group."""
        self.cuts = [need.cut for need in needs]
        self.longer = [(1 << self.cuts.index(cut)) - 1 for cut in self.cuts]
        """For each strip those longer than it: they stand before it."""
        self.fewest = self.parted(self.longer[-1])
        self.steps: dict[int, list[int]] = {0: [0]}
        """By the strips longer than a cut length, what each set of them takes beyond that length."""
        for place, longer in enumerate(self.longer):
            if longer not in self.steps:
                self.steps[longer] = self.stepped(longer, place)
        self.keys = [0]
        """The least length and joins of each set as one group, in one number."""
        for place in range(len(needs)):
            self.keys += self.weighed(place)

    def parted(self, within: int) -> list[int]:
        """The fewest widths of each set within a set, over all ways of parting it into groups."""
        fewest = self.rows[: within + 1]
        for mask, pick in enumerate(self.picks[: within + 1]):
            if pick:
                fewest[mask] = min(fewest[mask], *map(add, pick[0](fewest), pick[1](fewest)))
        return fewest

    def stepped(self, longer: int, place: int) -> list[int]:
        """What each set of longer strips takes beyond the cut length of the strip at a place."""
        before, above = self.longer[place - 1], self.cuts[place - 1] - self.cuts[place]
        steps, fewest = self.steps[before], self.fewest
        return [steps[mask & before] + fewest[mask] * above for mask in range(longer + 1)]

    def weighed(self, place: int) -> list[int]:
        """The keys of the sets whose last strip is the one at a place."""
        longer, bit = self.longer[place], 1 << place
        steps, rows, worth = self.steps[longer], self.rows, self.cuts[place] * MANY + 1
        return [steps[mask & longer] * MANY + rows[mask] * worth - 1 for mask in range(bit, bit << 1)]

    def floor(self, mask: int, members: Sequence[int]) -> Floor:
        """The floor of one group for any excess of its shared widths."""
        net, cut = self.gross[mask] - self.join * (len(members) - 1), self.cuts[members[-1]]
        longer = self.longer[members[-1]]
        rows = self.fewest[mask & longer]
        over = Layer(rows, self.steps[longer][mask & longer] + rows * cut)
        return Floor(net, len(members), self.width, self.join, cut, [over])
