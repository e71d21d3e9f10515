"""What strips in lanes take at the least of several runs of cloth, wherever they are joined.

Counted net of one join a piece, a strip's pieces give its flat width less one join however it is cut, and a lane gives
no more than its length less one join. So whatever weight strips have by their depth, all of them together weigh no more
than what the lanes give, each weighing as much as its deepest strip, and the lanes of a run no more than what fits side
by side in its usable width. Strips weigh their depth, or one where they are at least so deep: either holds.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby, product
from math import prod
from operator import attrgetter

from msgspec import Struct

from wizard.trade.cutting.packing import Run, filled, sound_runs
from wizard.trade.cutting.ticks import Job, Need

MANY_WAYS = 200
"""Of more ways than this to choose how far each stretch is used, no list is made."""

Lengths = dict[Run, int]
"""How long the lanes of each run may be; runs that are left out are not used."""


class Weighing(Struct, frozen=True):
    """Strips weighed by their depth."""

    net: int
    """The net widths of all strips, each by its weight."""
    gives: tuple[int, ...]
    """The most that lanes side by side on each stretch weigh."""


class Way(Struct, frozen=True):
    """How far one stretch is used: all of the runs before, and some of the last; None: it is not used at all."""

    before: tuple[Run, ...]
    last: Run | None


def weighings(job: Job, widths: Sequence[int]) -> list[Weighing]:
    """All the ways of weighing that are looked at."""
    cuts = sorted({need.cut for need in job.needs}, reverse=True)
    by_depth = Weighing(sum(need.net * need.cut for need in job.needs), tuple(filled(width, cuts) for width in widths))
    return [by_depth, *(from_depth(job, cut, widths) for cut in cuts)]


def from_depth(job: Job, depth: int, widths: Sequence[int]) -> Weighing:
    """Strips at least so deep, by how many of their lanes lie side by side."""
    net = sum(need.net for need in job.needs if need.cut >= depth)
    return Weighing(net, tuple(width // depth for width in widths))


def ways_of(runs: Sequence[Run]) -> list[list[Way]]:
    """How far each stretch may be used. Runs stand stretch by stretch, in order along it."""
    out = []
    for _, each in groupby(runs, key=attrgetter("stretch")):
        here = tuple(each)
        out.append([Way((), None), *(Way(here[:n], run) for n, run in enumerate(here))])
    return out


class Floors:
    """What nothing goes under, of one job."""

    def __init__(self, job: Job) -> None:
        self.join = job.join
        runs = sound_runs(job)
        self.owned = [run for run in runs if job.stock[run.stretch].length is not None]
        self.rolled = [run for run in runs if job.stock[run.stretch].length is None]
        self.first = min(job.join, min(need.least for need in job.needs))
        """No run that is used is used for less."""
        self.widths = [max(0, job.scale.down(stretch.usable)) for stretch in job.stock]
        self.weighings = weighings(job, self.widths)

    def met(self, rolled: int, owned: int) -> bool:
        """True when no plan buys less than this, or uses less of the owned with no more bought."""
        if self.least(self.rolled, {run: run.room or 0 for run in self.owned}) != rolled:
            return False
        return self.least(self.owned, self.of_roll(rolled)) == owned

    def of_roll(self, rolled: int) -> Lengths:
        """The runs of the roll when so much of it is used."""
        ends = {run: rolled - run.start for run in self.rolled}
        return {run: end if run.room is None else min(end, run.room) for run, end in ends.items() if end > 0}

    def pieces(self, need: Need, rolled: int) -> int:
        """The fewest pieces a strip can be cut in when so much is bought: one from each of the longest lanes."""
        lengths = {run: run.room or 0 for run in self.owned} | self.of_roll(rolled)
        lanes = [
            length
            for run, length in lengths.items()
            for _ in range(min(need.most, self.widths[run.stretch] // need.cut))
        ]
        left, count = need.flat, 1
        for length in sorted(lanes, reverse=True):
            left -= length
            if left <= 0:
                break
            left, count = left + self.join, count + 1
        return count

    def lefts(self, given: Lengths) -> list[int]:
        """What is left of every weight when these runs give all they can."""
        return [
            each.net - sum(each.gives[run.stretch] * max(0, long - self.join) for run, long in given.items())
            for each in self.weighings
        ]

    def least(self, runs: Sequence[Run], given: Lengths) -> int | None:
        """What is used of some stretches at the least beside runs that are given; None where all is too little."""
        ways = ways_of(runs)
        if prod(map(len, ways)) > MANY_WAYS:
            return self.roughly(runs, given)
        return min((floor for floor, _ in self.by_way(ways, given)), default=None)

    def by_way(self, ways: Sequence[Sequence[Way]], given: Lengths) -> Iterator[tuple[int, tuple[Way, ...]]]:
        """Every way to choose how far each stretch is used that may do, with what is then used at the least."""
        for chosen in product(*ways):
            floor = self.of(chosen, given)
            if floor is not None:
                yield floor, chosen

    def roughly(self, runs: Sequence[Run], given: Lengths) -> int:
        """The same without a choice of ways: as if all lay on the stretch that gives most."""
        most = 0
        for each, left in zip(self.weighings, self.lefts(given), strict=True):
            gives = max(each.gives[run.stretch] for run in runs)
            most = max(most, -(-left // gives) if gives else 0)
        return most

    def of(self, chosen: Sequence[Way], given: Lengths) -> int | None:
        """What is used at the least when each stretch is used so far."""
        before = {run: run.room or 0 for way in chosen for run in way.before}
        lasts = [way.last for way in chosen if way.last is not None]
        most = 0
        for each, left in zip(self.weighings, self.lefts(given | before), strict=True):
            more = self.more(each, left, lasts)
            if more is None:
                return None
            most = max(most, more)
        return sum(run.start + self.first for run in lasts) + most

    def more(self, weighing: Weighing, left: int, lasts: Sequence[Run]) -> int | None:
        """How much longer than one join the lanes of the last runs are together, the widest runs taking most."""
        longer = 0
        for run in sorted(lasts, key=lambda run: -weighing.gives[run.stretch]):
            gives = weighing.gives[run.stretch]
            if left <= 0 or not gives:
                break
            here = -(-left // gives)
            if run.room is not None:
                here = min(here, max(0, run.room - self.join))
            longer, left = longer + here, left - here * gives
        return None if left > 0 else longer
