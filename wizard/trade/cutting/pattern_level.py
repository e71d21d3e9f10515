"""Matched widths on lengths of cloth: least is bought, then least of the cloth in hand is used.

The pattern has one level all round. One run of cloth sets it; on another stretch a whole repeat is set aside to find it
there, and further along the same stretch the pattern says where the next width may start. On several lengths the phases
of a half-drop are also turned to suit the lengths (`on_lengths`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import islice
from operator import mul

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cutting.grid_units import CutJob
from wizard.trade.cutting.pareto_partition import PATIENCE
from wizard.trade.cutting.pattern_match import FLIPS, Pattern, least_turn, matched, phased, turned_both_ways
from wizard.trade.cutting.piece_widths import Row
from wizard.trade.cutting.stock_groups import Counts, Packed, Packing, Run, filled, sound_runs
from wizard.trade.cutting.work_budget import spend

DEARER = 4
"""A way of packing counts as this many nodes of the search: its widths must be ordered by their phases."""

TURNED = 200
"""Widths that are ordered by phase, for each step of the effort, to see which fit a run."""

ELSEWHERE = -1
"""The number of the run that sets the level, where it is none of these."""

Kind = tuple[int, int]
"""Cut length and phase: widths of one kind can be exchanged."""


class WidthKinds:
    """Widths by their kinds, longest first, and the cloth that some of each take together."""

    def __init__(self, halves: Sequence[Sequence[Row]], pattern: Pattern, effort: int) -> None:
        self.pattern, self.left = pattern, effort * TURNED
        self.rows: dict[Kind, list[Row]] = {}
        for phase, half in enumerate(halves):
            for row in half:
                self.rows.setdefault((row.cut, phase), []).append(row)
        self.kinds = sorted(self.rows, key=lambda kind: (-kind[0], kind[1]))
        self.counts: Counts = tuple(len(self.rows[kind]) for kind in self.kinds)
        self.steps = [pattern.least_in_parts(cut) for cut, _ in self.kinds]
        self.saved = max(step - cut * pattern.parts for step, (cut, _) in zip(self.steps, self.kinds, strict=True))
        self.stays = [pattern.in_parts(cut) for cut, _ in self.kinds]
        self.gains = [pattern.in_parts(cut) - pattern.in_parts(cut, True) for cut, _ in self.kinds]
        self.known: dict[Counts, int] = {}

    def halves(self, taken: Counts, behind: Counts) -> list[list[Row]]:
        """Some widths of each kind by their phases, leaving out those `behind`."""
        halves: list[list[Row]] = [[], []]
        for kind, count, first in zip(self.kinds, taken, behind, strict=True):
            halves[kind[1]] += self.rows[kind][first : first + count]
        return halves

    def length(self, taken: Counts) -> int:
        """What some widths of each kind take."""
        if taken not in self.known:
            halves = self.halves(taken, (0,) * len(taken))
            self.left -= sum(taken)
            self.known[taken] = int(least_turn(halves, self.pattern).length * self.pattern.parts)
        return self.known[taken]

    def fit(self, taken: Counts, room: int) -> bool:
        """True where some widths of each kind fit; once the effort is spent, in one of two plain orders."""
        if self.left > 0 or taken in self.known:
            return self.length(taken) <= room
        return self.at_most(taken) <= room

    def at_most(self, taken: Counts) -> int:
        """What they take where the phase changes only once, or as often as possible: the best order takes no more."""
        stays: int = sum(map(mul, self.stays, taken))
        gained = 0
        numbers = [sum(count for kind, count in zip(self.kinds, taken, strict=True) if kind[1] == n) for n in (0, 1)]
        left = [min(numbers)] * 2
        for place in sorted(range(len(taken)), key=lambda place: -self.gains[place]):
            phase = self.kinds[place][1]
            changed = min(taken[place], left[phase])
            left[phase] -= changed
            gained += changed * self.gains[place]
        once = self.pattern.length.numerator if min(numbers) else 0
        return min(stays + once, stays - gained)


class MatchedPacking(Packing):
    """The same search for widths that must start at their phase."""

    def __init__(self, job: CutJob, runs: Sequence[Run], widths: WidthKinds) -> None:
        super().__init__(job, runs, widths.steps, widths.saved)
        self.widths, self.left = widths, job.rules.effort // DEARER

    @property
    def finished(self) -> bool:
        """True when every way was tried, and each in its best order."""
        return super().finished and self.widths.left > 0

    def length(self, taken: Counts) -> int:
        """What widths of these kinds take along the cloth."""
        return self.widths.length(taken)

    def ways(self, room: int, counts: Counts) -> Iterator[Counts]:
        """Every number of widths of each kind that fits a run."""
        for taken in super().ways(room + self.saved, counts):
            spend(len(taken))
            if self.widths.fit(taken, room):
                yield taken


class Placed(Struct, frozen=True):
    """Widths on their runs, with what is set aside before the first of each run."""

    rows: list[Row]
    finished: bool = False
    """True when no way of sharing these widths out buys less: every one was tried."""


def over_runs(job: CutJob, halves: Sequence[Sequence[Row]], pattern: Pattern, *, is_set: bool = False) -> Placed | None:
    """The rows on the runs of the job's cloth; None where they do not fit. `is_set`: other cloth sets the level."""
    if not any(halves):
        return Placed([])
    runs = sound_runs(job)
    widths = WidthKinds(halves, pattern, job.rules.effort)
    best: tuple[Packed, int] | None = None
    # Past a damaged stretch less than a whole repeat may be lost than is reckoned with.
    finished = len(runs) == len(job.stock)
    for level in (ELSEWHERE,) if is_set else range(len(runs)):
        packing = MatchedPacking(job, runs_less_repeat(runs, level, widths), widths)
        packed = packing.pack(widths.counts)
        finished = finished and packing.finished
        # The level is set by what lies there: where nothing does, another run sets it.
        if not packed or (level != ELSEWHERE and not any(packed.counts[level])):
            continue
        if best is None or (packed.roll, packed.owned) < (best[0].roll, best[0].owned):
            best = packed, level
    return None if best is None else Placed(laid_on_runs(runs, best[1], best[0].counts, widths), finished)


def runs_less_repeat(runs: Sequence[Run], level: int, widths: WidthKinds) -> list[Run]:
    """The runs in parts of a tick, less the repeat set aside on all but the one that sets the level; on the same
    stretch as that one, past damage, the pattern says how much is lost."""
    parts, out = widths.pattern.parts, []
    for number, run in enumerate(runs):
        most, half = widths.pattern.length, widths.pattern.length / 2
        if level != ELSEWHERE and runs[level].stretch == run.stretch:
            # The most before the first width, whatever its phase.
            apart = (runs[level].start - run.start) % most
            most = apart % half + half if widths.pattern.half_drop else Fraction(apart)
        lost = 0 if number == level else int(most * parts)
        room = None if run.room is None else max(0, run.room * parts - lost)
        out.append(Run(run.stretch, run.start * parts + lost, room))
    return out


def laid_on_runs(runs: Sequence[Run], level: int, counts: Sequence[Counts], widths: WidthKinds) -> list[Row]:
    """The widths on their runs."""
    behind: Counts = (0,) * len(widths.kinds)
    here: dict[int, list[Row]] = {}
    for number, taken in enumerate(counts):
        if any(taken):
            here[number] = matched(widths.halves(taken, behind), widths.pattern)
            behind = tuple(a + b for a, b in zip(behind, taken, strict=True))
    firsts: dict[int, tuple[Run, Fraction, int]] = {}
    for number in sorted(here, key=lambda number: (number != level, number)):
        run, phase = runs[number], here[number][0].phase
        lost = set_aside(run, phase, firsts.get(run.stretch), number == level, widths.pattern)
        firsts.setdefault(run.stretch, (run, lost, phase))
        first, *others = (replace(row, stretch=run.stretch, start=run.start) for row in here[number])
        here[number] = [replace(first, before=lost), *others]
    return [row for rows in here.values() for row in rows]


def set_aside(
    run: Run, phase: int, first: tuple[Run, Fraction, int] | None, sets_level: bool, pattern: Pattern
) -> Fraction:
    """What is lost before the first width of a run. `first`: a run of the same stretch, what is lost before its first
    width, and the phase of that."""
    if first is None:
        return Fraction(0) if sets_level else pattern.length
    other, lost, there = first
    return (other.start + lost + pattern.length / 2 * (phase - there) - run.start) % pattern.length


def least_bought(job: CutJob, least: tuple[Fraction, Fraction], pattern: Pattern) -> Fraction:
    """What no matched plan buys less than, in grid units, whichever length sets the level of the pattern. `least`: the
    sum of the least steps, and what the last width of a run may save of its own step."""
    total, saved = least
    parts, repeat = pattern.parts, pattern.length
    sizes = sorted({pattern.least_in_parts(demand.cut) for demand in job.demands})
    runs = sound_runs(job)
    owned = [run for run in runs if run.room is not None and job.stock[run.stretch].length is not None]
    single = [sum(other.stretch == run.stretch for other in owned) == 1 for run in owned]

    def gives(room: int | Fraction) -> Fraction:
        return Fraction(filled(int((room + saved) * parts), sizes), parts) if room > 0 else Fraction(0)

    whole = [gives(run.room or 0) for run in owned]
    # Past a damaged stretch less than a whole repeat may be lost, and only once for the length: there none is counted.
    pairs = zip(owned, single, whole, strict=True)
    less = [gives((run.room or 0) - repeat) if one else all_of for run, one, all_of in pairs]
    bought = [max(Fraction(0), total - sum(less) - saved)]
    for one, other in zip(whole, less, strict=True):
        left = total - sum(less) + other - one - saved
        bought.append(left + repeat if left > 0 else Fraction(0))
    return min(bought)


TURNS = (8, 1 << FLIPS)
"""Ways of turning the phases that are tried, at once and with patience."""


def on_lengths(
    job: CutJob, rows: Sequence[Row], pattern: Pattern, steps: Callable[[Pattern], tuple[Fraction, Fraction]]
) -> Placed | None:
    """Widths on the lengths of the job; None where they do not fit. What is shortest on one length may not be on
    several, so there the phases are turned as well. `steps` works out the sum of the least steps, and what a last width
    saves."""
    best = over_runs(job, phased(rows, pattern), pattern)
    if not pattern.half_drop or len(sound_runs(job)) < 2:
        return best
    least = least_bought(job, steps(pattern), pattern)
    for halves in islice(turned_both_ways(rows), TURNS[job.rules.effort >= PATIENCE]):
        if best is not None and bought_for(job, best) <= least:
            break
        found = over_runs(job, halves, pattern)
        if found and (best is None or score_of(job, found) < score_of(job, best)):
            best = found
    return best


def bought_for(job: CutJob, placed: Placed) -> Fraction:
    """What placed widths take of the roll."""
    return taken(row for row in placed.rows if job.stock[row.stretch].length is None)


def score_of(job: CutJob, placed: Placed) -> tuple[Fraction, Fraction]:
    """What is bought, and what is used in all."""
    return bought_for(job, placed), taken(placed.rows)


def taken(rows: Iterable[Row]) -> Fraction:
    """What some widths take, with all that is lost to the pattern."""
    return Fraction(sum(row.before + row.cut + row.after for row in rows))
