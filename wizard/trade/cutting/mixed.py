"""Strips with pieces of different usable widths, where no one width can give every strip.

Strips are taken longest first, each made up from what is left beside those before it and from new widths. The ways that
lose the least cloth are kept from strip to strip: a search with bounds, so the plan is seldom known to be the least.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from heapq import nsmallest

from msgspec import Struct

from wizard.trade.cutting.grouping import PATIENCE, Cloth, by_area
from wizard.trade.cutting.packing import Packing, runs_of
from wizard.trade.cutting.pieces import Made, Maker, Source
from wizard.trade.cutting.pool import Pooled, Score, added, meets, spread
from wizard.trade.cutting.rows import Row
from wizard.trade.cutting.tally import spend
from wizard.trade.cutting.ticks import Job, Need

BEAM = (6, 40)
"""Ways kept from strip to strip, while somebody waits and while nobody does."""

TRIES = (150, 600)
"""How often joins that keep clear of spans may be looked for with trouble."""

OPEN = 4
"""Of what is left of the widths begun, so many are looked at for one strip, the widest ones."""

Piece = tuple[int, int, int]
"""A piece in a width: its strip, its cut width, its place in the strip from the left end."""


class Begun(Struct, frozen=True):
    """A width that has pieces: of which ground, how long, what is left of it, and its pieces."""

    ground: int
    cut: int
    left: int
    parts: tuple[Piece, ...]


class State(Struct, frozen=True):
    """Some strips cut."""

    rows: tuple[Begun, ...]
    score: Score
    lost: int
    """What is taken of all grounds, length times width, less what is left beside the pieces."""

    @property
    def rank(self) -> tuple[int, int, int]:
        """Least bought first, then least lost, then fewest pieces."""
        return self.score[0], self.lost, self.score[2]


class Ground:
    """The stretches of one usable width."""

    def __init__(self, job: Job, numbers: Sequence[int]) -> None:
        self.usable = job.scale.down(job.stock[numbers[0]].usable)
        self.cuts = sorted({need.cut for need in job.needs}, reverse=True)
        self.runs = [run for number in numbers for run in runs_of(number, job.stock[number], job.rules, job.scale)]
        rolls = frozenset([number for number in numbers if job.stock[number].length is None])
        self.packing = Packing(self.runs, self.cuts, rolls)
        self.endless = any(run.room is None for run in self.runs)

    def gives(self, cut: int) -> int:
        """How many widths of a length it could give at the most."""
        return MANY if self.endless else sum([(run.room or 0) // cut for run in self.runs])


MANY = 1 << 20
"""More widths than any strip takes."""


def mixed(job: Job, pools: Sequence[Sequence[int]]) -> Pooled | None:
    """The best plan found whose strips may have pieces of every width there is; None where none was found."""
    search = Mixed(job, [Ground(job, numbers) for numbers in pools])
    states = search.solve()
    if not states:
        return None
    best = min(states, key=lambda state: state.score)
    usable = max(ground.usable for ground in search.grounds)
    bound = by_area(job.needs, Cloth(usable, job.join)) if usable > job.join else 0
    room = sum([ground.packing.room for ground in search.grounds])
    return Pooled(best.score, search.placed(best), meets(best.score, bound, room), fewest=False)


class Mixed:
    """The search from strip to strip."""

    def __init__(self, job: Job, grounds: Sequence[Ground]) -> None:
        self.job, self.grounds = job, grounds
        patient = job.rules.effort >= PATIENCE
        self.beam, self.maker = BEAM[patient], Maker(job.join, TRIES[patient])
        self.order = sorted(range(len(job.needs)), key=lambda place: (-job.needs[place].cut, -job.needs[place].flat))

    def solve(self) -> list[State]:
        """The ways kept when every strip is cut."""
        states = [State((), (0, 0, 0), 0)]
        for place in self.order:
            further: dict[tuple[object, ...], State] = {}
            for state in states:
                for each in self.further(state, place):
                    further.setdefault(alike(each), each)
            states = nsmallest(self.beam, further.values(), key=lambda state: state.rank)
        return states

    def further(self, state: State, place: int) -> Iterator[State]:
        """A state with one strip more, cut in every way there is cloth for."""
        need = self.job.needs[place]
        for made in self.maker.made_up(need, self.sources(state, need)):
            rows = self.with_pieces(state, place, made)
            score = self.packed(rows)
            if score is not None:
                yield State(rows, score, self.lost(rows))

    def sources(self, state: State, need: Need) -> list[Source]:
        """What is left of the widths begun, and new ones of every ground."""
        least = min(need.least, need.flat)
        begun = [
            Source(row.left, n, 1) for n, row in enumerate(state.rows) if row.left >= least and row.cut >= need.cut
        ]
        new = [Source(ground.usable, -1 - n, ground.gives(need.cut)) for n, ground in enumerate(self.grounds)]
        begun = sorted(begun, reverse=True)[:OPEN]
        return [*begun, *sorted([each for each in new if each.most and each.widest >= least], reverse=True)]

    def with_pieces(self, state: State, place: int, made: Made) -> tuple[Begun, ...]:
        """The widths with a strip's pieces in them, or in new ones."""
        rows = list(state.rows)
        spend(50)
        for order, (name, wide) in enumerate(made, 1):
            part = (place, wide, order)
            if name < 0:
                ground = self.grounds[-1 - name]
                rows.append(Begun(-1 - name, self.job.needs[place].cut, ground.usable - wide, (part,)))
            else:
                row = rows[name]
                rows[name] = Begun(row.ground, row.cut, row.left - wide, (*row.parts, part))
        return tuple(rows)

    def packed(self, rows: Sequence[Begun]) -> Score | None:
        """What widths take on their grounds, if they fit."""
        total: Score = (0, 0, sum([len(row.parts) for row in rows]))
        for number, ground in enumerate(self.grounds):
            found = ground.packing.pack(self.counts(rows, number))
            if found is None:
                return None
            total = added(total, (found.roll, found.owned, 0))
        return total

    def counts(self, rows: Sequence[Begun], number: int) -> tuple[int, ...]:
        """How many widths of each length lie on a ground."""
        cuts = [row.cut for row in rows if row.ground == number]
        return tuple([cuts.count(cut) for cut in self.grounds[number].cuts])

    def lost(self, rows: Sequence[Begun]) -> int:
        """What is taken less what is left that a further strip could have."""
        least = min([need.least for need in self.job.needs])
        taken = [(self.grounds[row.ground].usable - (row.left if row.left >= least else 0)) * row.cut for row in rows]
        return sum(taken)

    def placed(self, state: State) -> list[Row]:
        """The rows of a state, each on its run."""
        settled = any([need.spans for need in self.job.needs])
        out: list[Row] = []
        for number, ground in enumerate(self.grounds):
            packed = ground.packing.pack(self.counts(state.rows, number))
            assert packed is not None, "a state that was packed no longer is"
            rows = [row_of(row, ground.usable, settled) for row in state.rows if row.ground == number]
            out += spread(rows, ground.runs, ground.cuts, packed)
        return out


def row_of(begun: Begun, usable: int, settled: bool) -> Row:
    """A width with its pieces; their places in their strips only where joins are kept clear of something."""
    parts = tuple([(strip, wide) for strip, wide, _ in begun.parts])
    orders = tuple([order for _, _, order in begun.parts]) if settled else ()
    return Row(begun.cut, parts, usable=usable, orders=orders)


def alike(state: State) -> tuple[object, ...]:
    """What matters of a state further on."""
    return state.score[2], tuple(sorted([(row.ground, row.cut, row.left) for row in state.rows]))
