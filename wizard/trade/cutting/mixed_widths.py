"""Strips with pieces of different usable widths, where no one width can give every strip.

Strips are taken longest first, each made up from what is left beside the ones before it and from new widths. The ways
that lose least cloth are kept from strip to strip (a beam), so the plan is seldom known to be the least.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from heapq import nsmallest
from itertools import groupby
from typing import NamedTuple

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cutting.grid_units import CutJob, Demand
from wizard.trade.cutting.no_join_spans import Cut, Kind, clears, cut_narrow
from wizard.trade.cutting.pareto_partition import PATIENCE, Cloth, by_area
from wizard.trade.cutting.piece_widths import Row, WidthPiece, dealt, row_with
from wizard.trade.cutting.stock_groups import (
    Packing,
    Score,
    StockPlan,
    meets_bound,
    put_on_runs,
    runs_of,
    sum_of_scores,
)
from wizard.trade.cutting.work_budget import spend

BEAM = (6, 40)
"""Ways kept from strip to strip, while somebody waits and while nobody does."""

TRIES = (150, 600)
"""How often joins that keep clear of spans may be searched for."""

OPEN = 4
"""How many of the widths already begun are looked at for one strip, widest first."""


class Begun(Struct, frozen=True):
    """A width with pieces: of which ground, how long, what is left of it, and its pieces."""

    ground: int
    cut: int
    left: int
    parts: tuple[WidthPiece, ...]


class CutSoFar(Struct, frozen=True):
    """Some of the strips cut."""

    rows: tuple[Begun, ...]
    score: Score
    lost: int
    """The area taken of all grounds, less what is left beside the pieces."""


class Ground:
    """The stretches of one usable width."""

    def __init__(self, job: CutJob, numbers: Sequence[int]) -> None:
        self.usable = job.scale.down(job.stock[numbers[0]].usable)
        self.cuts = sorted({demand.cut for demand in job.demands}, reverse=True)
        self.runs = [run for number in numbers for run in runs_of(job, number)]
        self.packing = Packing(job, self.runs, self.cuts)

    def gives(self, cut: int) -> int:
        """The most widths of a length that it could give."""
        return sum([MANY if run.room is None else run.room // cut for run in self.runs])


MANY = 1 << 20
"""More widths than any strip takes."""


def mixed(job: CutJob, stock_groups: Sequence[Sequence[int]]) -> StockPlan | None:
    """The best plan found whose strips may have pieces of every width; None where none was found."""
    search = Mixed(job, [Ground(job, numbers) for numbers in stock_groups])
    states = search.solve()
    if not states:
        return None
    best = min(states, key=lambda state: state.score)
    usable = max(ground.usable for ground in search.grounds)
    bound = by_area(job.demands, Cloth(usable, job.join)) if usable > job.join else 0
    room = sum([ground.packing.room for ground in search.grounds])
    return StockPlan(best.score, search.placed(best), meets_bound(best.score, bound, room), fewest=False)


class Mixed:
    """The search from strip to strip."""

    def __init__(self, job: CutJob, grounds: Sequence[Ground]) -> None:
        self.job, self.grounds = job, grounds
        patient = job.rules.effort >= PATIENCE
        self.beam, self.maker = BEAM[patient], Maker(job.join, TRIES[patient])
        self.order = job.by_size

    def solve(self) -> list[CutSoFar]:
        """The ways kept when every strip is cut."""
        states = [CutSoFar((), (0, 0, 0), 0)]
        for place in self.order:
            further: dict[tuple[object, ...], CutSoFar] = {}
            for state in states:
                for each in self.further(state, place):
                    # What matters of a state for the strips to come.
                    rows = tuple(sorted([(row.ground, row.cut, row.left) for row in each.rows]))
                    further.setdefault((each.score[2], rows), each)
            # Least bought first, then least lost, then fewest pieces.
            states = nsmallest(self.beam, further.values(), key=lambda each: (each.score[0], each.lost, each.score[2]))
        return states

    def further(self, state: CutSoFar, place: int) -> Iterator[CutSoFar]:
        """A state with one strip more, cut in every way there is cloth for."""
        demand = self.job.demands[place]
        for made in self.maker.made_up(demand, self.sources(state, demand)):
            rows = self.with_pieces(state, place, made)
            score = self.packed(rows)
            if score is not None:
                yield CutSoFar(rows, score, self.lost(rows))

    def sources(self, state: CutSoFar, demand: Demand) -> list[Source]:
        """What is left of the widths begun, and new ones of every ground."""
        least = min(demand.least, demand.flat)
        rows = enumerate(state.rows)
        begun = [Source(row.left, n, 1) for n, row in rows if row.left >= least and row.cut >= demand.cut]
        new = [Source(ground.usable, -1 - n, ground.gives(demand.cut)) for n, ground in enumerate(self.grounds)]
        begun = sorted(begun, reverse=True)[:OPEN]
        return [*begun, *sorted([each for each in new if each.most and each.widest >= least], reverse=True)]

    def with_pieces(self, state: CutSoFar, place: int, made: Made) -> tuple[Begun, ...]:
        """The widths with a strip's pieces in them, or in new ones."""
        rows = list(state.rows)
        spend(50)
        for order, (name, wide) in enumerate(made, 1):
            part = (place, wide, order)
            if name < 0:
                ground = self.grounds[-1 - name]
                rows.append(Begun(-1 - name, self.job.demands[place].cut, ground.usable - wide, (part,)))
            else:
                row = rows[name]
                rows[name] = Begun(row.ground, row.cut, row.left - wide, (*row.parts, part))
        return tuple(rows)

    def packed(self, rows: Sequence[Begun]) -> Score | None:
        """What widths take on their grounds; None where they do not fit."""
        total: Score = (0, 0, sum([len(row.parts) for row in rows]))
        for number, ground in enumerate(self.grounds):
            found = ground.packing.pack(self.counts(rows, number))
            if found is None:
                return None
            total = sum_of_scores(total, (found.roll, found.owned, 0))
        return total

    def counts(self, rows: Sequence[Begun], number: int) -> tuple[int, ...]:
        """The number of widths of each length on a ground."""
        cuts = [row.cut for row in rows if row.ground == number]
        return tuple([cuts.count(cut) for cut in self.grounds[number].cuts])

    def lost(self, rows: Sequence[Begun]) -> int:
        """The area taken, less what a further strip could still use."""
        least = min([demand.least for demand in self.job.demands])
        taken = [(self.grounds[row.ground].usable - (row.left if row.left >= least else 0)) * row.cut for row in rows]
        return sum(taken)

    def placed(self, state: CutSoFar) -> list[Row]:
        """The rows of a state, each on its run."""
        out: list[Row] = []
        for number, ground in enumerate(self.grounds):
            packed = ground.packing.pack(self.counts(state.rows, number))
            assert packed is not None, "a state that was packed no longer is"
            parts = [row.parts for row in state.rows if row.ground == number]
            rows = [row_with(each, self.job.demands, range(len(self.order)), ground.usable) for each in parts]
            out += put_on_runs(rows, ground.runs, ground.cuts, packed)
        # Places in the strips matter only where joins are kept clear of spans.
        return out if self.job.spanned else [replace(row, orders=()) for row in out]


class Source(NamedTuple):
    """Where a piece may come from: its greatest width, and how many such there are."""

    widest: int
    name: int
    """A width already begun, counted from 0, or -1 - n for a new one of the n-th ground."""
    most: int


Made = tuple[tuple[int, int], ...]
"""A strip in pieces from its left end, as (name of its source, cut width)."""


class Maker:
    """Makes up strips, and remembers what was searched for."""

    def __init__(self, join: int, tries: int) -> None:
        """`tries`: how often it may search for joins that keep clear of spans."""
        self.join, self.left = join, tries
        self.known: dict[tuple[Demand, tuple[int, ...], int], Cut | None] = {}

    def made_up(self, demand: Demand, sources: Sequence[Source]) -> Iterator[Made]:
        """Ways of making up a strip: all sources but one fully used, and the least of that one."""
        for full in full_sources(demand, self.join, sources):
            for last in sources:
                if full.count(last) < last.most:
                    pieces = self.cut_from(demand, full, last)
                    if pieces:
                        yield pieces

    def cut_from(self, demand: Demand, full: Sequence[Source], last: Source) -> Made | None:
        """The pieces of a strip; None where they cannot be cut."""
        pieces = joined_anywhere(demand, self.join, full, last)
        if pieces and demand.spans:
            ordered = [(*pieces[:at], pieces[-1], *pieces[at:-1]) for at in range(len(pieces))]
            clear = [each for each in ordered if clears([wide - self.join for _, wide in each], demand.spans)]
            return clear[0] if clear else self.kept_clear(demand, full, last)
        return pieces

    def kept_clear(self, demand: Demand, full: Sequence[Source], last: Source) -> Made | None:
        """The same in any order and with any widths, so that every join falls where one may."""
        full = sorted(full, key=lambda each: each.widest)
        groups = [list(group) for _, group in groupby(full, key=lambda each: each.widest)]
        key = (demand, tuple([each.widest for each in full]), last.widest)
        if key not in self.known:
            self.left -= 1
            kinds = [Kind(group[0].widest, len(group)) for group in groups]
            made = cut_narrow(demand, self.join, kinds, last.widest) if self.left >= 0 else None
            self.known[key] = made[1] if made else None
        cut = self.known[key]
        names = [[each.name for each in group] for group in groups]
        return tuple([(last.name if n < 0 else names[n].pop(), wide) for n, wide in cut]) if cut else None


def full_sources(
    demand: Demand, join: int, sources: Sequence[Source], at: int = 0, full: tuple[Source, ...] = ()
) -> Iterator[tuple[Source, ...]]:
    """Fully used sources that leave something for one more, at most one of them a width already begun. Where joins must
    keep clear of spans there may be one piece more than that."""
    yield full
    for number in range(at, len(sources)):
        source = sources[number]
        again = full.count(source) >= source.most or (source.name >= 0 and any([each.name >= 0 for each in full]))
        if again or source.widest < demand.least or len(full) + 1 >= demand.most:
            continue
        given = sum([each.widest - join for each in full])
        if given + source.widest - join < demand.net or (demand.spans and given < demand.net):
            yield from full_sources(demand, join, sources, number, (*full, source))


def joined_anywhere(demand: Demand, join: int, full: Sequence[Source], last: Source) -> Made | None:
    """The pieces of a strip whose joins may fall anywhere, with the narrow one last."""
    total = demand.flat + join * len(full)
    narrow = max(demand.least, total - sum([each.widest for each in full])) if full else demand.flat
    left = total - narrow
    if narrow > last.widest or left < demand.least * len(full):
        return None
    widths = dealt(left, [each.widest for each in full], demand.least)
    return tuple(zip([each.name for each in (*full, last)], [*widths, narrow], strict=True))
