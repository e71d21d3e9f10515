"""Widths packed on lengths of cloth: least is bought, then least of the cloth in hand is used.

A width must be in one unbroken run of cloth, between an end or a damaged stretch and the next.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from math import gcd
from operator import mul, sub

from msgspec import Struct

from wizard.trade.cutting.cut_records import Rules, Stretch
from wizard.trade.cutting.grid_units import ENDLESS, CutJob
from wizard.trade.cutting.work_budget import spend
from wizard.trade.lengths import ZERO, Length

Counts = tuple[int, ...]
"""The number of widths of each length, longest first."""

PACKINGS = 20_000
"""Ways of packing tried before only the fullest of each run is taken."""


class Run(Struct, frozen=True):
    """Sound cloth along a stretch, `room` grid units from `start` (from its squared end); None: without end."""

    stretch: int
    start: int
    room: int | None


class Packed(Struct, frozen=True):
    """What is bought, what is used of the cloth in hand, and the number of widths of each length on every run."""

    roll: int
    owned: int
    counts: tuple[Counts, ...]


def squared_off(rules: Rules, stretch: Stretch) -> Length:
    """What squaring takes off one stretch."""
    return ZERO if stretch.squared or rules.squaring <= ZERO else rules.squaring


def runs_of(job: CutJob, number: int) -> list[Run]:
    """The sound runs of a stretch after squaring, in order along it."""
    stretch, scale = job.stock[number], job.scale
    squared = squared_off(job.rules, stretch)
    end = ENDLESS if stretch.length is None else scale.down(stretch.length - squared)
    damage = sorted(stretch.damage, key=lambda each: each[0])
    bad = [(scale.down(min(each) - squared), scale.up(max(each) - squared)) for each in damage]
    runs, at = [], 0
    for stop, sound in [*bad, (end, end)]:
        room = min(stop, end) - at
        if room > 0:
            runs.append(Run(number, at, None if stop == ENDLESS else room))
        at = max(at, sound)
    return runs


def sound_runs(job: CutJob) -> list[Run]:
    """Every sound run of all the cloth, stretch by stretch."""
    return [run for number in range(len(job.stock)) for run in runs_of(job, number)]


class Packing:
    """The search for the best packing of widths of some lengths (longest first) on some runs, the roll's runs last."""

    def __init__(self, job: CutJob, runs: Sequence[Run], cuts: Sequence[int], saved: int = 0) -> None:
        """`saved`: no run takes less than the sum of its lengths by more than this."""
        self.cuts, self.saved = cuts, saved
        self.rolls = rolls = {run.stretch for run in runs if job.stock[run.stretch].length is None}
        """The stretches that are bought."""
        self.order = sorted(range(len(runs)), key=lambda n: (runs[n].stretch in rolls, runs[n].stretch, -runs[n].start))
        self.runs = [runs[n] for n in self.order]
        self.owned_room, self.same_room = self.rooms()
        self.best = cache(self.work_out)
        self.left = PACKINGS

    def pack(self, counts: Counts) -> Packed | None:
        """The best packing, with the runs in the order they were given; None where the widths do not fit."""
        found = self.best(0, counts, False)
        if found is None:
            return None
        placed = sorted(zip(self.order, found.counts, strict=True))
        return Packed(found.roll, found.owned, tuple([each for _, each in placed]))

    @property
    def room(self) -> int:
        """The most that widths of these lengths can use of the cloth in hand."""
        return self.owned_room[0]

    def rooms(self) -> tuple[list[int], list[int]]:
        """The most that widths of these lengths can use from each run on: of the cloth in hand, and of its stretch."""
        owned, same = [0], [0]
        for number in reversed(range(len(self.runs))):
            run = self.runs[number]
            room = filled(run.room + self.saved, self.cuts) if run.room else 0
            follows = number + 1 < len(self.runs) and self.runs[number + 1].stretch == run.stretch
            owned.append(owned[-1] + (0 if run.stretch in self.rolls else room))
            same.append(room + (same[-1] if follows else 0))
        return owned[::-1], same[::-1]

    @property
    def finished(self) -> bool:
        """True when every way was tried."""
        return self.left > 0

    def work_out(self, number: int, counts: Counts, later: bool) -> Packed | None:
        """The best for the runs from `number` on; `later`: a run further along the same stretch is used already. `best`
        remembers it."""
        if number == len(self.runs):
            return None if any(counts) else Packed(0, 0, ())
        run = self.runs[number]
        here = number + 1 < len(self.runs) and self.runs[number + 1].stretch == run.stretch
        best: Packed | None = None
        tried = False
        for taken in (counts,) if run.room is None else self.ways(run.room, counts):
            if self.left < 0 and tried:
                break
            self.left, tried = self.left - 1, True
            spend(8)
            used = run.start + self.length(taken) if any(taken) and not later else 0
            roll, owned = (used, 0) if run.stretch in self.rolls else (0, used)
            left, further = tuple(map(sub, counts, taken)), here and (later or any(taken))
            if best is not None:
                least_roll, least_owned = self.floor(number + 1, left, further)
                if (best.roll, best.owned) <= (roll + least_roll, owned + least_owned):
                    continue
            rest = self.best(number + 1, left, further)
            if rest is None:
                continue
            found = Packed(rest.roll + roll, rest.owned + owned, (taken, *rest.counts))
            if best is None or (found.roll, found.owned) < (best.roll, best.owned):
                best = found
        return best

    def length(self, taken: Counts) -> int:
        """What widths take of a run together."""
        return sum(map(mul, self.cuts, taken))

    def floor(self, number: int, counts: Counts, later: bool) -> tuple[int, int]:
        """No packing from a run on buys less, or buys as much and uses less of the cloth in hand: what does not fit on
        that is bought, and only what is before a run already in use costs nothing."""
        length = sum(map(mul, self.cuts, counts))
        free = self.same_room[number] if later else 0
        bought = later and self.runs[number].stretch in self.rolls
        roll = max(0, length - self.owned_room[number] - (free if bought else 0) - self.saved)
        return roll, max(0, length - free - self.saved * (len(self.runs) - number) - roll)

    def ways(self, room: int, counts: Counts) -> Iterator[Counts]:
        """Every number of widths of each length that fits a run, fullest first."""
        if not counts:
            yield ()
            return
        cut = self.cuts[len(self.cuts) - len(counts)]
        for count in range(min(counts[0], room // cut), -1, -1):
            for rest in Packing.ways(self, room - count * cut, counts[1:]):
                yield (count, *rest)


def filled(room: int, cuts: Sequence[int]) -> int:
    """The greatest sum of these lengths, each used any number of times, that fits a room."""
    # Counted in the largest unit that goes into all: for matched cloth half a repeat, however fine the ticks.
    unit = gcd(*cuts) or 1
    most = room // unit
    sums, within = 1, (1 << (most + 1)) - 1
    for cut in cuts:
        step = cut // unit
        while step <= most:
            sums |= sums << step & within
            step *= 2
    return (sums.bit_length() - 1) * unit
