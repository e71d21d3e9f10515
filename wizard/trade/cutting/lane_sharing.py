"""Strips in lanes, each shared out over as many runs of cloth as it takes: least bought, then least of the owned used.

How far each stretch is used is tried in the order of what is used at the least; the lanes of its last run are then made
as short as they can be.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import prod

from msgspec import Struct

from wizard.trade.cutting.laid import piece_orders
from wizard.trade.cutting.lane_filling import Filling, Goal
from wizard.trade.cutting.lane_floors import MANY_WAYS, Floors, Lengths, Way, ways_of
from wizard.trade.cutting.packing import Run, sound_runs
from wizard.trade.cutting.pools import lots_of
from wizard.trade.cutting.rows import Row
from wizard.trade.cutting.sharing import Meter
from wizard.trade.cutting.ticks import Job

Score = tuple[int, int, int]
"""What is bought, what is used of the owned, and the pieces."""

SPENT = 20
"""For each step of the effort so many looks at a lane or a run are taken over the whole search."""

LANE = 2
"""Work of one such look."""

ONCE = 8
"""Any one set of lengths is tried with this part of it."""


class Shared(Struct, frozen=True):
    """Strips shared out over runs."""

    score: Score
    rows: tuple[Row, ...]


def score_of(job: Job, rows: Sequence[Row]) -> Score:
    """What lanes take."""
    ends: dict[int, int] = {}
    for row in rows:
        ends[row.stretch] = max(ends.get(row.stretch, 0), row.start + long(row))
    rolled = sum(end for stretch, end in ends.items() if job.stock[stretch].length is None)
    return rolled, sum(ends.values()) - rolled, sum(len(row.parts) for row in rows)


def long(row: Row) -> int:
    """How much of a lane is used."""
    return sum(width for _, width in row.parts)


def one_lot_each(job: Job, rows: Sequence[Row]) -> bool:
    """True when there are several dye lots, and every strip is cut from one."""
    lots = lots_of(job, range(len(job.stock)))
    cut = {(strip, lots[row.stretch]) for row in rows for strip, _ in row.parts}
    return len(set(lots)) > 1 and len(cut) == len(job.needs)


def shared_out(job: Job, floors: Floors, known: Score | None) -> Shared | None:
    """Strips shared out over runs, if that takes less than what is known: each from one dye lot where that can be."""
    found = Sharing(job, floors, True).best(known)
    if found is None and known is None and len(set(lots_of(job, range(len(job.stock))))) > 1:
        found = Sharing(job, floors, False).best(None)
    return found if found and (known is None or found.score < known) else None


class Sharing:
    """The search for the best lengths of lanes."""

    def __init__(self, job: Job, floors: Floors, apart: bool) -> None:
        """`apart`: every strip is cut from one dye lot."""
        self.job, self.floors = job, floors
        runs = sound_runs(job)
        self.rolled = [run for run in runs if job.stock[run.stretch].length is None]
        self.owned = [run for run in runs if job.stock[run.stretch].length is not None]
        self.runs = [*self.owned, *self.rolled]
        lots = lots_of(job, [run.stretch for run in self.runs]) if apart else ("",) * len(self.runs)
        self.lots = dict(zip(self.runs, lots, strict=True))
        self.whole = max(sum(need.flat for need in job.needs), 1)
        self.meter = Meter(job.rules.effort * SPENT, LANE)
        self.share = self.meter.left // ONCE

    def best(self, known: Score | None) -> Shared | None:
        """The best that is found, if it is better than what is known."""
        found = self.least_bought(known[0] if known else None)
        if found is None:
            return None
        if known and found.score[0] == known[0]:
            return self.fewer_pieces(self.least_owned(found, known[1]))
        return self.fewer_pieces(self.least_owned(found, found.score[1]))

    def least_bought(self, known: int | None) -> Shared | None:
        """All of the owned, and as little of the roll as possible: no more than is known to do."""
        lengths = {run: run.room or 0 for run in self.owned}
        found = self.fill(lengths)
        for run in self.rolled:
            if found or (known is not None and run.start >= known):
                break
            lengths[run] = min(run.room or self.whole, known - run.start if known is not None else self.whole)
            found = self.fill(lengths)
            if found:
                return self.shortened(found, lengths, run)
        return found

    def least_owned(self, found: Shared, known: int) -> Shared:
        """The least of the owned with no more bought, by the ways that may use less than is known."""
        rolled = self.as_found(found, self.rolled)
        best, least = found, known
        for floor, way in self.ways(rolled):
            if floor >= least or self.meter.left < 0:
                break
            for lasts in self.turns(way):
                shorter = self.by_way(way, lasts, rolled)
                if shorter and shorter.score[:2] < (best.score[0], least):
                    best, least = shorter, shorter.score[1]
        return best

    def ways(self, rolled: Lengths) -> list[tuple[int, Sequence[Way]]]:
        """Ways to choose how far each owned stretch is used, the one that may use least first."""
        ways = ways_of(self.owned)
        if prod(map(len, ways)) <= MANY_WAYS:
            return sorted(self.floors.by_way(ways, rolled), key=lambda each: each[0])
        far = sorted((each[-1] for each in ways), key=lambda way: -(way.last.room or 0) if way.last else 0)
        few = [far[: n + 1] for n in range(len(far))]
        floors = [(self.floors.of(way, rolled), way) for way in few]
        return [(floor, way) for floor, way in floors if floor is not None]

    def turns(self, way: Sequence[Way]) -> Iterator[list[Run]]:
        """The last runs of a way in the orders in which they are made shorter."""
        lasts = [each.last for each in way if each.last is not None]
        yield lasts
        if len(lasts) > 1:
            yield lasts[::-1]

    def by_way(self, way: Sequence[Way], lasts: Sequence[Run], rolled: Lengths) -> Shared | None:
        """Each stretch used so far, the last runs made shorter one after the other."""
        lengths = rolled | {run: run.room or 0 for each in way for run in (*each.before, each.last) if run}
        found = self.fill(lengths)
        for run in lasts if found else ():
            found = self.shortened(found, lengths, run) if found else None
        return found

    def shortened(self, found: Shared, lengths: Lengths, run: Run) -> Shared:
        """The lanes of a run as short as they can be, found by halving; `lengths` follow."""
        high, low = self.as_found(found, [run]).get(run, 0), self.low(lengths, run)
        middle = low
        while low < high and self.meter.left >= 0:
            tried = self.fill({**lengths, run: middle})
            if tried:
                found, high = tried, min(middle, self.as_found(tried, [run]).get(run, 0))
            else:
                low = middle + 1
            middle = (low + high) // 2
        lengths[run] = high
        return found

    def low(self, lengths: Lengths, run: Run) -> int:
        """What the lanes of a run must have at the least beside the others."""
        others = {each: length for each, length in lengths.items() if each != run}
        bare = Run(run.stretch, 0, run.room)
        low = self.floors.of([Way((), bare)], others)
        return lengths[run] if low is None else min(max(low, 1), lengths[run])

    def as_found(self, found: Shared, runs: Sequence[Run]) -> Lengths:
        """How long the lanes of some runs came out, where they are used."""
        out: Lengths = {}
        for row in found.rows:
            for run in runs:
                if (run.stretch, run.start) == (row.stretch, row.start):
                    out[run] = max(out.get(run, 0), long(row))
        return out

    def fewer_pieces(self, found: Shared) -> Shared:
        """The same cloth in fewer pieces, as far as the effort goes."""
        self.meter.left = max(self.meter.left, self.share)
        lengths = self.as_found(found, self.runs)
        while found.score[2] > len(self.job.needs):
            fewer = self.tried(lengths, found.score[2] - 1, False)
            if fewer is None or fewer.score[:2] > found.score[:2]:
                break
            found = fewer
        return found

    def fill(self, lengths: Lengths) -> Shared | None:
        """Strips shared out over lanes of these lengths."""
        return self.tried(lengths, None, False) or self.tried(lengths, None, True)

    def tried(self, lengths: Lengths, most: int | None, saving: bool) -> Shared | None:
        """One search with a part of the effort."""
        runs = [(run, length) for run, length in lengths.items() if length > 0]
        meter = Meter(min(self.share, self.meter.left), LANE)
        before = meter.left
        filling = Filling(self.job, runs, Goal(most, saving, tuple(self.lots[run] for run, _ in runs)), meter)
        found = filling.search()
        self.meter.left -= before - meter.left
        if not found:
            return None
        rows = rows_of_lanes(self.job, filling, runs)
        return Shared(score_of(self.job, rows), rows)


def rows_of_lanes(job: Job, filling: Filling, runs: Sequence[tuple[Run, int]]) -> tuple[Row, ...]:
    """The lanes as rows, the deepest first. Where joins are kept out of spans, pieces stay in the order of cutting."""
    made = [list[tuple[int, int, int]]() for _ in filling.lanes]
    counts = [0] * len(job.needs)
    for lane, strip, width in filling.pieces:
        counts[strip] += 1
        made[lane].append((strip, width, counts[strip]))
    rows = []
    for each, pieces in zip(filling.lanes, made, strict=True):
        run, length = runs[each.run]
        parts = tuple((strip, width) for strip, width, _ in pieces)
        rows.append(Row(each.depth, parts, run.stretch, length, run.start))
    if not any(need.spans for need in job.needs):
        return tuple(rows)
    orders = piece_orders(job, rows)
    return tuple(settled(job, row, pieces, order) for row, pieces, order in zip(rows, made, orders, strict=True))


def settled(job: Job, row: Row, pieces: Sequence[tuple[int, int, int]], order: Sequence[int]) -> Row:
    """A row with its pieces' places in their strips: as cut where there are spans, else as they hang best."""
    orders = tuple(cut if job.needs[strip].spans else hung for (strip, _, cut), hung in zip(pieces, order, strict=True))
    return Row(row.cut, row.parts, row.stretch, row.usable, row.start, orders)
