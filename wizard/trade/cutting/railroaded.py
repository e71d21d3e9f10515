"""Strips laid along the roll (railroaded), in lanes across it.

The same search as for cross cuts with the directions exchanged: a lane is as wide as its deepest strip, the lanes must
fit side by side within the usable width, and the shortest length at which they do is the plan. Of several sound runs
each takes whole strips first; where that buys cloth or uses more than needed, strips are shared out over them
(`railroaded_runs`).
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cutting.assign_stock import could_save, lots_of, room_of, too_little
from wizard.trade.cutting.cut_records import LEAST_BOUGHT, LOT_EACH, Cutting, Layout, Piece, Proof, Refusal, class_of
from wizard.trade.cutting.grid_units import CutJob, Demand, refused, without_spans
from wizard.trade.cutting.no_join_spans import can_be_cut
from wizard.trade.cutting.pareto_partition import Choice, Cloth, by_area
from wizard.trade.cutting.piece_widths import Row, rows_in_job
from wizard.trade.cutting.place_pieces import (
    Laying,
    Ordered,
    most_that_buys,
    piece_orders,
    placed,
)
from wizard.trade.cutting.plan_by_length import ByLength
from wizard.trade.cutting.railroaded_runs import LaneBounds, score_of, shared_out
from wizard.trade.cutting.stock_groups import Run, Score, sound_runs
from wizard.trade.lengths import ZERO

SHARE = 5
"""Each length is tried with this part of the effort."""


class Lanes(Struct, frozen=True):
    """Some strips in lanes of one length."""

    length: int
    choice: Choice
    places: tuple[int, ...]
    run: Run
    least: bool
    fewest: bool


def along_roll(job: CutJob) -> Cutting | Refusal:
    """The shortest lanes, on cloth in hand first, then the fewest joins."""
    if refusal := refused(job):
        return refusal
    blocks = over_runs(job)
    rows = rows_of_blocks(job, blocks) if blocks else None
    score = score_of(job, rows) if rows else None
    runs = sound_runs(job)
    # All on the first sound run, as short as possible: no other run then ends sooner.
    first = blocks and len(blocks) == len(job.stock) == 1 and blocks[0].least and blocks[0].run == runs[0]
    if blocks and rows and score and (len(runs) == 1 or first):
        proof = proof_of(job, blocks, score)
    else:
        # Whole strips on several runs, or strips shared out over them, whichever takes less.
        floors = LaneBounds(job)
        shared = None if score and floors.met(*score[:2]) else shared_out(job, floors, score)
        if shared:
            rows, score, blocks = shared.rows, shared.score, None
        if rows is None or score is None:
            area = sum(demand.flat * demand.cut for demand in job.demands)
            return too_little(job, -(-area // job.widest), certain=False)
        proof = proof_by_floors(job, floors, rows, score)
    best = lanes_layout(job, rows, proof)
    fewest = fewest_joins(job, blocks, best) if blocks else None
    return Cutting(best, lambda: fewest)


def over_runs(job: CutJob) -> list[Lanes] | None:
    """Strips put on runs, the longest that fit first, all on one where possible; None where some are left."""
    left, blocks = list(range(len(job.demands))), []
    # Those in hand first, the endless one of the roll last.
    order = sorted(sound_runs(job), key=lambda run: (run.room is None, job.stock[run.stretch].length is None))
    for run in order:
        if not left:
            break
        on_run = OnRun(job, run)
        here = left if run.room is None else on_run.fitting(left)
        block = on_run.shortest(here) if here else None
        if block:
            blocks.append(block)
            left = [place for place in left if place not in here]
    return None if left else blocks


class OnRun:
    """Strips in lanes on one run."""

    def __init__(self, job: CutJob, run: Run) -> None:
        self.job, self.run = job, run
        self.usable = job.scale.down(job.stock[run.stretch].usable)

    def fitting(self, places: Sequence[int]) -> list[int]:
        """Strips that fit together: all of them, or one after another, the largest first."""
        if self.at_length(places, self.run.room or 0):
            return list(places)
        here: list[int] = []
        for place in sorted(places, key=self.area, reverse=True):
            here += [place] if self.at_length([*here, place], self.run.room or 0) else []
        return sorted(here)

    def area(self, place: int) -> int:
        """The area of a strip."""
        return self.job.demands[place].flat * self.job.demands[place].cut

    def planned(self, demands: Sequence[Demand], length: int) -> ByLength | None:
        """Strips in lanes of this length; None where one cannot be cut from them."""
        if not all(can_be_cut(demand, length, self.job.join) for demand in demands):
            return None
        return ByLength(demands, Cloth(length, self.job.join), self.job.rules.effort // SHARE)

    def at_length(self, places: Sequence[int], length: int) -> ByLength | None:
        """The plan of least width in lanes of this length; None where they do not fit the usable width."""
        demands = [self.job.demands[place] for place in places]
        if length > self.job.join and by_area(demands, Cloth(length, self.job.join)) > self.usable:
            return None
        found = self.planned(demands, length)
        return found if found and found.least.choice.cost <= self.usable else None

    def fewest(self, found: ByLength) -> tuple[Choice, bool]:
        """The fewest joins in lanes of a length that fit the usable width, and whether that is certain."""
        fewest, certain = found.fewest(self.usable)
        return (fewest, certain) if fewest else (found.least.choice, certain and found.least.finished)

    def shortest(self, places: Sequence[int]) -> Lanes | None:
        """The least length at which some strips fit side by side, by halving: longer lanes never need more width."""
        demands = [self.job.demands[place] for place in places]
        high = self.run.room or sum(demand.flat for demand in demands)
        best = self.at_length(places, high) if self.usable >= max(demand.cut for demand in demands) else None
        if best is None:
            return None
        low = max(1, -(-sum(map(self.area, places)) // self.usable))
        middle, finished = low, True
        while low < high:
            found = self.at_length(places, middle)
            if found:
                best, high = found, middle
            else:
                # Are lanes of this length certainly too wide together, wherever joins may fall?
                rough = self.planned(without_spans(demands), middle) if finished else None
                finished = finished and (rough is None or rough.bound > self.usable)
                low = middle + 1
            middle = (low + high) // 2
        choice, certain = self.fewest(best)
        fewest = certain and not any(demand.spans for demand in demands)
        return Lanes(high, choice, tuple(places), self.run, finished, fewest)


def fewest_joins(job: CutJob, blocks: list[Lanes], best: Layout) -> Layout | None:
    """The plan of fewest joins that buys the same length in shop steps; None where it has no fewer."""
    if len(blocks) != 1 or blocks[0].run.room is not None or not job.rules.step or job.rules.step <= ZERO:
        return None
    block, on_run = blocks[0], OnRun(job, blocks[0].run)
    length = most_that_buys(job, best) - block.run.start
    found = on_run.at_length(block.places, length)
    choice, certain = on_run.fewest(found) if found else (None, False)
    if choice is None or choice.joins >= best.joins:
        return None
    fewer = [replace(block, length=length, choice=choice, least=False, fewest=certain)]
    rows = rows_of_blocks(job, fewer)
    return lanes_layout(job, rows, proof_of(job, fewer, score_of(job, rows)))


def rows_of_blocks(job: CutJob, blocks: Sequence[Lanes]) -> list[Row]:
    """The lanes of all blocks as rows, the deepest of each block first."""
    out: list[Row] = []
    for block in blocks:
        rows = sorted(rows_in_job(job, block.places, block.choice, block.length), key=lambda row: -row.cut)
        out += [replace(row, stretch=block.run.stretch, start=block.run.start) for row in rows]
    return out


def proof_of(job: CutJob, blocks: list[Lanes], score: Score) -> Proof:
    """One block on all the cloth is proven when every shorter length is ruled out."""
    used, usable = score[0] + score[1], job.widest
    area = -(-sum(demand.flat * demand.cut for demand in job.demands) // usable)
    words = class_of(job.rules)
    if len(blocks) == len(job.stock) == 1 and blocks[0].least:
        return Proof(True, job.scale.length(used), "bound" if used == area else "search", words, blocks[0].fewest)
    saves = could_save(job, score[0], max(area - room_of(job), 0))
    return Proof(False, job.scale.length(area), "none", words, False, saves)


def proof_by_floors(job: CutJob, floors: LaneBounds, rows: Sequence[Row], score: Score) -> Proof:
    """Lanes on several runs are proven only where they meet the bound."""
    words, used = class_of(job.rules), score[0] + score[1]
    if len(job.stock) > 1:
        words += LEAST_BOUGHT
    lots = lots_of(job)
    cut_from = {(strip, lots[row.stretch]) for row in rows for strip, _ in row.parts}
    if len(set(lots)) > 1 and len(cut_from) == len(job.demands):
        words += LOT_EACH
    fewest = score[2] == sum(floors.pieces(demand, score[0]) for demand in job.demands)
    if floors.met(*score[:2]):
        return Proof(True, job.scale.length(used), "bound", words, fewest)
    bound = min(floors.least(sound_runs(job), {}) or 0, used)
    saves = could_save(job, score[0], max(bound - room_of(job), 0))
    return Proof(False, job.scale.length(bound), "none", words, fewest and len(rows) == len(job.demands), saves)


def lanes_layout(job: CutJob, rows: Sequence[Row], proof: Proof) -> Layout:
    """Every lane laid on its run, those of one run side by side in the given order."""
    return placed(job, "along", list(zip(rows, piece_orders(job, rows), strict=True)), proof, LaneLaying)


class LaneLaying(Laying):
    """The pieces and offcuts of one stretch cut in lanes."""

    def lay_run(self, rows: Sequence[Ordered], at: int | Fraction, count: int) -> tuple[int | Fraction, int | Fraction]:
        """Lay lanes side by side from the left edge, the pieces of each one after the other along it."""
        stop, across = at + max(sum(width for _, width in row.parts) for row, _ in rows), 0
        for number, (row, orders) in enumerate(rows, count + 1):
            along = at
            for (strip, width), order in zip(row.parts, orders, strict=True):
                name, cut, wide = self.strips[strip]
                start, left = self.length(along), self.length(across)
                place = self.stretch.id, start, left
                self.pieces.append(Piece(name, order, self.length(width), wide, *place, number, "both"))
                self.spare(along, along + width, across + cut, across + row.cut, "side")
                along += width
            self.spare(along, stop, across, across + row.cut, "below")
            across += row.cut
        self.spare(at, stop, across, self.edge, "side")
        return stop, stop
