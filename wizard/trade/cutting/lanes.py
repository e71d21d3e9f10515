"""Strips laid along the roll, in lanes across it.

The same search as for cross cuts with the directions changed: a lane is as wide as its deepest strip, the lanes must
lie side by side within the usable width, and the question is the shortest length at which they do.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cutting.by_length import ByLength
from wizard.trade.cutting.grouping import Choice, Cloth, by_area
from wizard.trade.cutting.laid import assemble, in_order, most_that_buys, piece_orders
from wizard.trade.cutting.laying import full_width, remnant, squaring
from wizard.trade.cutting.packing import Run, runs_of, sound_runs
from wizard.trade.cutting.rows import Row, rows_of
from wizard.trade.cutting.seams import fewest_alone
from wizard.trade.cutting.strips import Cutting, Layout, Offcut, Piece, Proof, Refusal, Use
from wizard.trade.cutting.ticks import Job, Need, fewest_widths, without_spans
from wizard.trade.cutting.words import class_of
from wizard.trade.lengths import ZERO

SHARE = 5
"""Any one length is tried with this part of the effort."""


class Lanes(Struct, frozen=True):
    """Some strips in lanes of one length."""

    length: int
    choice: Choice
    places: tuple[int, ...]
    run: Run
    least: bool
    fewest: bool


def along_roll(job: Job) -> Cutting | Refusal:
    """The shortest lanes, on owned lengths first, then the fewest joins."""
    widest = max(job.scale.down(stretch.usable) for stretch in job.stock)
    for strip, need in zip(job.strips, job.needs, strict=True):
        if need.flat <= 0 or need.cut <= 0:
            return Refusal("piece too narrow", strip.id, job.scale.tick, min(strip.flat, strip.cut))
        if need.cut > widest:
            return Refusal("usable too narrow", strip.id, strip.cut, job.scale.length(widest))
    blocks = over_runs(job)
    if blocks is None:
        found = sum((run.room or 0 for run in all_runs(job)), 0)
        needed = -(-sum(need.flat * need.cut for need in job.needs) // widest)
        return Refusal("no cloth", None, job.scale.length(needed), job.scale.length(found))
    best = lanes_layout(job, blocks)
    return Cutting(best, fewest_joins(job, blocks, best))


def all_runs(job: Job) -> list[Run]:
    """Every sound run, owned ones first, the roll's endless one last."""
    return sorted(sound_runs(job), key=lambda run: (run.room is None, job.stock[run.stretch].length is None))


def over_runs(job: Job) -> list[Lanes] | None:
    """Strips put on runs, the longest that fit first, all on one where they can; None when some are left."""
    left = list(range(len(job.needs)))
    blocks = []
    for run in all_runs(job):
        if not left:
            break
        here = left if run.room is None else fitting(job, left, run)
        block = shortest(job, here, run) if here else None
        if block:
            blocks.append(block)
            left = [place for place in left if place not in here]
    return None if left else blocks


def fitting(job: Job, places: Sequence[int], run: Run) -> list[int]:
    """Strips that can lie on a run together: all of them, or else one after another, the largest first."""
    if at_length(job, places, run, run.room or 0):
        return list(places)
    here: list[int] = []
    for place in sorted(places, key=lambda place: -job.needs[place].flat * job.needs[place].cut):
        if at_length(job, [*here, place], run, run.room or 0):
            here.append(place)
    return sorted(here)


def at_length(job: Job, places: Sequence[int], run: Run, length: int) -> ByLength | None:
    """The plan of least width in lanes of this length, where they lie within the usable width; None where not."""
    usable = job.scale.down(job.stock[run.stretch].usable)
    needs = [job.needs[place] for place in places]
    if not all(possible(need, length, job.join) for need in needs):
        return None
    if length > job.join and by_area(needs, Cloth(length, job.join)) > usable:
        return None
    found = ByLength(needs, Cloth(length, job.join), job.rules.effort // SHARE)
    return found if found.least.choice.cost <= usable else None


def fewest_at(job: Job, found: ByLength, run: Run) -> tuple[Choice, bool]:
    """The fewest joins in lanes of a length that lie within the usable width, and whether that is certain."""
    fewest, certain = found.fewest(job.scale.down(job.stock[run.stretch].usable))
    if fewest:
        return fewest, certain
    return found.least.choice, certain and found.least.finished


def possible(need: Need, length: int, join: int) -> bool:
    """True when a strip can be cut in lanes of this length at all."""
    count = fewest_widths(need, length, join)
    if need.spans and fewest_alone(need, length, join) is None:
        return False
    return count is not None and count <= need.most


def shortest(job: Job, places: Sequence[int], run: Run) -> Lanes | None:
    """The least length at which some strips lie side by side, by halving: longer lanes never need more width."""
    high = run.room or sum(job.needs[place].flat for place in places)
    usable = job.scale.down(job.stock[run.stretch].usable)
    low = max(1, -(-sum(job.needs[place].flat * job.needs[place].cut for place in places) // usable))
    best = at_length(job, places, run, high)
    if best is None:
        return None
    middle, finished = low, True
    while low < high:
        found = at_length(job, places, run, middle)
        if found:
            best, high = found, middle
        else:
            finished = finished and ruled_out(job, places, run, middle)
            low = middle + 1
        middle = (low + high) // 2
    choice, certain = fewest_at(job, best, run)
    fewest = certain and not any(job.needs[place].spans for place in places)
    return Lanes(high, choice, tuple(places), run, finished, fewest)


def ruled_out(job: Job, places: Sequence[int], run: Run, length: int) -> bool:
    """True when it is certain that lanes of this length are too wide together, wherever joins may fall."""
    needs = without_spans(job.needs[place] for place in places)
    if not all(possible(need, length, job.join) for need in needs):
        return True
    found = ByLength(needs, Cloth(length, job.join), job.rules.effort // SHARE)
    return found.least.bound > job.scale.down(job.stock[run.stretch].usable)


def fewest_joins(job: Job, blocks: list[Lanes], best: Layout) -> Layout | None:
    """The plan of fewest joins that buys the same length in shop steps, where it has fewer."""
    if len(blocks) != 1 or blocks[0].run.room is not None or not job.rules.step or job.rules.step <= ZERO:
        return None
    block, stretch = blocks[0], job.stock[blocks[0].run.stretch]
    length = most_that_buys(job, stretch, best)
    found = at_length(job, block.places, block.run, length)
    if found is None:
        return None
    choice, certain = fewest_at(job, found, block.run)
    if choice.joins >= best.joins:
        return None
    return lanes_layout(job, [replace(block, length=length, choice=choice, least=False, fewest=certain)])


def lanes_layout(job: Job, blocks: list[Lanes]) -> Layout:
    """Every block of lanes laid on its run."""
    pieces: list[Piece] = []
    offcuts: list[Offcut] = []
    uses: list[Use] = []
    rows = [(block, row) for block in blocks for row in rows_of_lanes(job, block)]
    orders = piece_orders(job, [row for _, row in rows])
    for number, stretch in enumerate(job.stock):
        here = [(block, row, order) for (block, row), order in zip(rows, orders, strict=True) if row.stretch == number]
        if here:
            offcuts += squaring(job, stretch)
            uses.append(lay_lanes(job, number, here, pieces, offcuts))
    proof = proof_of(job, blocks, uses)
    return assemble(job, "along", in_order(pieces), offcuts, uses, [row for _, row in rows], proof)


def rows_of_lanes(job: Job, block: Lanes) -> list[Row]:
    """The lanes of a block as rows, the deepest first."""
    needs = [job.needs[place] for place in block.places]
    rows = rows_of(block.choice, needs, block.length, job.join)
    return [
        replace(
            row,
            parts=tuple((block.places[strip], width) for strip, width in row.parts),
            stretch=block.run.stretch,
            start=block.run.start,
        )
        for row in sorted(rows, key=lambda row: -row.cut)
    ]


def lay_lanes(
    job: Job,
    number: int,
    rows: list[tuple[Lanes, Row, Sequence[int]]],
    pieces: list[Piece],
    offcuts: list[Offcut],
) -> Use:
    """Lay the lanes of one stretch; tile what is left of it."""
    stretch, at, last, count = job.stock[number], 0, 0, 0
    for run in runs_of(number, stretch, job.rules, job.scale):
        here = [each for each in rows if each[1].start == run.start]
        if stretch.length is None and count == len(rows):
            break
        offcuts += full_width(job, stretch, at, run.start, "damage")
        at = run.start
        if here:
            longest = max(sum(width for _, width in row.parts) for _, row, _ in here)
            lay_block(job, (run, longest, count), here, pieces, offcuts)
            count += len(here)
            last = at = at + longest
        if run.room is not None and (stretch.length is not None or count < len(rows)):
            offcuts += full_width(job, stretch, at, run.start + run.room, "end")
            at = run.start + run.room
    if stretch.length is not None:
        offcuts += remnant(job, stretch, at)
    return Use(stretch.id, job.scale.length(last), len(rows))


def lay_block(
    job: Job,
    where: tuple[Run, int, int],
    rows: list[tuple[Lanes, Row, Sequence[int]]],
    pieces: list[Piece],
    offcuts: list[Offcut],
) -> None:
    """Lay lanes side by side from the left edge, each strip's pieces one after the other along them."""
    (run, longest, before), length = where, job.scale.length
    stretch, across = job.stock[run.stretch], 0
    for number, (_, row, orders) in enumerate(rows, before + 1):
        at = run.start
        for (strip, width), order in zip(row.parts, orders, strict=True):
            cut, start = job.needs[strip].cut, length(at)
            placed = (stretch.id, start, length(across), number, "both")
            pieces.append(Piece(job.strips[strip].id, order, length(width), length(cut), *placed))  # type: ignore[arg-type]
            if cut < row.cut:
                beside = length(across + cut), length(width), length(row.cut - cut)
                offcuts.append(Offcut(stretch.id, start, *beside, "side"))
            at += width
        if at < run.start + longest:
            left = length(run.start + longest - at)
            offcuts.append(Offcut(stretch.id, length(at), length(across), left, length(row.cut), "below"))
        across += row.cut
    spare = stretch.usable - length(across)
    if spare > ZERO:
        offcuts.append(Offcut(stretch.id, length(run.start), length(across), length(longest), spare, "side"))


def proof_of(job: Job, blocks: list[Lanes], uses: Sequence[Use]) -> Proof:
    """One block is proven when every shorter length is ruled out; several are not."""
    used = sum((use.length.inches for use in uses), Fraction(0)) / job.scale.tick.inches
    usable = max(job.scale.down(stretch.usable) for stretch in job.stock)
    area = -(-sum(need.flat * need.cut for need in job.needs) // usable)
    words = class_of(job.rules)
    if len(blocks) == 1 and len(job.stock) == 1 and blocks[0].least:
        bound = job.scale.length(used)
        return Proof(True, bound, "bound" if used == area else "search", words, blocks[0].fewest)
    return Proof(False, job.scale.length(area), "none", words, False)
