"""Strips in lanes, each shared out over as many runs of cloth as it takes: least bought, then least of the cloth in
hand.

`LaneSharing` tries how far each stretch is used, in the order of what that uses at the least, and then makes the lanes
of the last run as short as possible.

`LaneFilling` shares strips out over the lanes of runs whose lengths are fixed. A lane is as deep as the strip it was
opened for; what that strip leaves of it takes only strips no deeper. Strips come deepest first. Each is cut from what
is left of open lanes and from new ones, as much from each as the least piece and the spans allow, going back where that
leads nowhere; what the remaining cloth rules out is not tried.

`LaneBounds` is what strips take at the least. Counted net of one join a piece, the pieces of a strip give its flat
width less one join however it is cut, and a lane gives no more than its length less one join. So whatever weight strips
have by their depth, together they weigh no more than what the lanes give, each weighing as much as its deepest strip,
and the lanes of a run no more than what fits side by side in its usable width. Strips weigh their depth, or one where
they are at least so deep: either holds.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from itertools import accumulate, groupby, product
from math import prod
from operator import attrgetter
from typing import NamedTuple

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cutting.assign_stock import lots_of
from wizard.trade.cutting.connected_group import Meter
from wizard.trade.cutting.grid_units import CutJob, Demand
from wizard.trade.cutting.piece_widths import Row
from wizard.trade.cutting.place_pieces import piece_orders
from wizard.trade.cutting.stock_groups import Run, Score, StockPlan, filled, sound_runs

SPENT = 20
"""Looks at a lane or a run over the whole search, for each step of the effort."""

LANE = 2
"""Work of one such look."""

ONCE = 8
"""Each set of lengths is tried with this part of it."""


def score_of(job: CutJob, rows: Sequence[Row]) -> Score:
    """What lanes take."""
    ends: dict[int, int] = {}
    for row in rows:
        ends[row.stretch] = max(ends.get(row.stretch, 0), row.start + used_length(row))
    rolled = sum(end for stretch, end in ends.items() if job.stock[stretch].length is None)
    return rolled, sum(ends.values()) - rolled, sum(len(row.parts) for row in rows)


def used_length(row: Row) -> int:
    """How much of a lane is used."""
    return sum(width for _, width in row.parts)


def shared_out(job: CutJob, floors: LaneBounds, known: Score | None) -> StockPlan | None:
    """Strips shared out over runs, each from one dye lot where possible; None where that takes no less than what is
    known."""
    found = LaneSharing(job, floors, True).best(known)
    if found is None and known is None and len(set(lots_of(job))) > 1:
        found = LaneSharing(job, floors, False).best(None)
    return found if found and (known is None or found.score < known) else None


class LaneSharing:
    """The search for the best lengths of lanes."""

    def __init__(self, job: CutJob, floors: LaneBounds, apart: bool) -> None:
        """`apart`: every strip is cut from one dye lot."""
        self.job, self.floors = job, floors
        self.runs = [*floors.owned, *floors.rolled]
        lots = lots_of(job) if apart else ("",) * len(job.stock)
        self.lots = {run: lots[run.stretch] for run in self.runs}
        self.whole = max(sum(demand.flat for demand in job.demands), 1)
        self.meter = Meter(job.rules.effort * SPENT, LANE)
        self.share = self.meter.left // ONCE

    def best(self, known: Score | None) -> StockPlan | None:
        """The best found; None where it is no better than what is known."""
        found = self.least_bought(known[0] if known else None)
        if found is None:
            return None
        least = known[1] if known and found.score[0] == known[0] else found.score[1]
        return self.fewer_pieces(self.least_owned(found, least))

    def least_bought(self, known: int | None) -> StockPlan | None:
        """All of the cloth in hand, and as little of the roll as possible: no more than is known to do."""
        lengths = {run: run.room or 0 for run in self.floors.owned}
        found = self.fill(lengths)
        for run in self.floors.rolled:
            if found or (known is not None and run.start >= known):
                break
            lengths[run] = min(run.room or self.whole, known - run.start if known is not None else self.whole)
            found = self.fill(lengths)
            if found:
                return self.shortened(found, lengths, run)
        return found

    def least_owned(self, found: StockPlan, known: int) -> StockPlan:
        """The least of the cloth in hand with no more bought, by the ways that may use less than is known."""
        rolled = self.as_found(found, self.floors.rolled)
        best, least = found, known
        for floor, way in self.ways(rolled):
            if floor >= least or self.meter.left < 0:
                break
            last = [each[-1] for each in way if each]
            # The last runs are shortened in this order, and in the other.
            for lasts in [last, last[::-1]] if len(last) > 1 else [last]:
                shorter = self.by_way(way, lasts, rolled)
                if shorter and shorter.score[:2] < (best.score[0], least):
                    best, least = shorter, shorter.score[1]
        return best

    def ways(self, rolled: LaneLengths) -> list[tuple[int, Way]]:
        """Ways to choose how far each stretch in hand is used, the one that may use least first."""
        ways = ways_of(self.floors.owned)
        if prod(map(len, ways)) <= MANY_WAYS:
            return sorted(self.floors.by_way(product(*ways), rolled), key=lambda each: each[0])
        far = sorted((each[-1] for each in ways), key=lambda way: -(way[-1].room or 0))
        return list(self.floors.by_way((far[: n + 1] for n in range(len(far))), rolled))

    def by_way(self, way: Way, lasts: Sequence[Run], rolled: LaneLengths) -> StockPlan | None:
        """Each stretch used this far, with the last runs shortened one after the other."""
        lengths = rolled | {run: run.room or 0 for each in way for run in each}
        found = self.fill(lengths)
        for run in lasts if found else ():
            found = self.shortened(found, lengths, run) if found else None
        return found

    def shortened(self, found: StockPlan, lengths: LaneLengths, run: Run) -> StockPlan:
        """The lanes of a run as short as possible, found by halving; `lengths` is updated."""
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

    def low(self, lengths: LaneLengths, run: Run) -> int:
        """The least length that the lanes of a run need beside the others."""
        others = {each: length for each, length in lengths.items() if each != run}
        low = self.floors.of([(Run(run.stretch, 0, run.room),)], others)
        return lengths[run] if low is None else min(max(low, 1), lengths[run])

    def as_found(self, found: StockPlan, runs: Sequence[Run]) -> LaneLengths:
        """How long the lanes of some runs became, where they are used."""
        out: LaneLengths = {}
        for row in found.rows:
            for run in runs:
                if (run.stretch, run.start) == (row.stretch, row.start):
                    out[run] = max(out.get(run, 0), used_length(row))
        return out

    def fewer_pieces(self, found: StockPlan) -> StockPlan:
        """The same cloth in fewer pieces, as far as the effort goes."""
        self.meter.left = max(self.meter.left, self.share)
        lengths = self.as_found(found, self.runs)
        while found.score[2] > len(self.job.demands):
            fewer = self.tried(lengths, found.score[2] - 1, False)
            if fewer is None or fewer.score[:2] > found.score[:2]:
                break
            found = fewer
        return found

    def fill(self, lengths: LaneLengths) -> StockPlan | None:
        """Strips shared out over lanes of these lengths."""
        return self.tried(lengths, None, False) or self.tried(lengths, None, True)

    def tried(self, lengths: LaneLengths, most: int | None, saving: bool) -> StockPlan | None:
        """One search with a part of the effort."""
        runs = [(run, length, self.lots[run]) for run, length in lengths.items() if length > 0]
        meter = Meter(min(self.share, self.meter.left), LANE)
        before = meter.left
        filling = LaneFilling(self.job, runs, meter, most, saving)
        found = filling.strip(0)
        self.meter.left -= before - meter.left
        if not found:
            return None
        rows = rows_of_lanes(self.job, filling, runs)
        return StockPlan(score_of(self.job, rows), rows, finished=False)


def rows_of_lanes(job: CutJob, filling: LaneFilling, runs: Sequence[tuple[Run, int, str]]) -> list[Row]:
    """The lanes as rows, deepest first. Where joins are kept out of spans, pieces keep the order of cutting."""
    made = [list[tuple[int, int, int]]() for _ in filling.lanes]
    counts = [0] * len(job.demands)
    for lane, strip, width in filling.pieces:
        counts[strip] += 1
        made[lane].append((strip, width, counts[strip]))
    rows = []
    for each, pieces in zip(filling.lanes, made, strict=True):
        run, length, _ = runs[each.run]
        parts = tuple((strip, width) for strip, width, _ in pieces)
        rows.append(Row(each.depth, parts, run.stretch, length, run.start))
    for number, hung in enumerate(piece_orders(job, rows) if job.spanned else ()):
        # As cut where there are spans, else as they look best.
        pairs = zip(made[number], hung, strict=True)
        orders = tuple(cut if job.demands[strip].spans else place for (strip, _, cut), place in pairs)
        rows[number] = replace(rows[number], orders=orders)
    return rows


MOST_PIECES = 200
"""No search goes deeper: nobody cuts a layer in more pieces."""


class OpenLane(Struct):
    """A lane while it is filled."""

    run: int
    depth: int
    left: int
    strip: int
    """The last strip cut from it."""


class Move(NamedTuple):
    """A piece that may come next; the least comes first."""

    rank: tuple[int, ...]
    width: int
    lane: int
    """Negative: a new lane."""
    run: int
    lost: int


class LaneFilling:
    """The search for one way of sharing strips out."""

    def __init__(
        self, job: CutJob, runs: Sequence[tuple[Run, int, str]], meter: Meter, most: int | None, saving: bool
    ) -> None:
        """`runs`: each with the length of its lanes and its dye lot; each strip is cut from one lot only. `most`: no
        more pieces than this, where it is given. `saving`: what loses least is tried first, not what joins least."""
        self.demands, self.join, self.meter, self.most, self.saving = job.demands, job.join, meter, most, saving
        self.lots = [lot for _, _, lot in runs]
        self.lengths = [length for _, length, _ in runs]
        self.across = [max(0, job.scale.down(job.stock[run.stretch].usable)) for run, _, _ in runs]
        """What is left of the usable width of each run."""
        self.order = job.by_size
        self.cuts = cuts = [job.demands[place].cut for place in self.order]
        weights = [self.demands[place].net * self.demands[place].cut for place in self.order]
        self.later = [sum(weights[number + 1 :]) for number in range(len(weights))]
        """What the strips after each one weigh by their depth, net."""
        self.lanes: list[OpenLane] = []
        self.pieces: list[tuple[int, int, int]] = []
        """Each as (number of its lane, its strip, its cut width)."""
        self.failed: set[tuple[object, ...]] = set()
        self.hold = cache(lambda number, across: filled(across, sorted(set(cuts[number:]))))
        """The most of a width that lanes of the strips from a number on can take."""

    def strip(self, number: int) -> bool:
        """Cut the strips from `number` on, in their order. True when all are cut: `lanes` and `pieces` then say how."""
        if number == len(self.order):
            return True
        spare = self.spare(number)
        return spare >= 0 and self.rest(number, self.demands[self.order[number]].flat, None, spare)

    def rest(self, number: int, left: int, lot: str | None, spare: int) -> bool:
        """Cut what is left of a strip, with its joins so far, then the strips after it; `spare` is what may still be
        lost."""
        most, made = self.most, len(self.pieces)
        if made + len(self.order) - number > (MOST_PIECES if most is None else most):
            return False
        strip = self.order[number]
        lanes = [(lane.run, lane.depth, lane.left, lane.strip == strip) for lane in self.lanes if lane.left]
        state = (number, left, lot, made if most else 0, *self.across, *sorted(lanes))
        if state in self.failed:
            return False
        self.meter.spend(1 + len(self.lanes) + len(self.lengths))
        for tried, move in enumerate(self.moves(number, left, lot, spare)):
            if tried and self.meter.left < 0:
                return False
            at = self.opened(number, move.run) if move.lane < 0 else move.lane
            if self.cut(number, left, at, move, spare):
                return True
            if move.lane < 0:
                self.across[move.run] += self.lanes.pop().depth
        self.failed.add(state)
        return False

    def opened(self, number: int, run: int) -> int:
        """A new lane for a strip; its number."""
        depth = self.cuts[number]
        self.across[run] -= depth
        self.lanes.append(OpenLane(run, depth, self.lengths[run], -1))
        return len(self.lanes) - 1

    def cut(self, number: int, left: int, at: int, move: Move, spare: int) -> bool:
        """Cut a piece from a lane, then all that follows; undone where that leads nowhere."""
        lane, strip, width = self.lanes[at], self.order[number], move.width
        before = lane.strip
        lane.left, lane.strip = lane.left - width, strip
        self.pieces.append((at, strip, width))
        if width == left:
            done = self.strip(number + 1)
        else:
            done = self.rest(number, left - width + self.join, self.lots[lane.run], spare - move.lost)
        if not done:
            self.pieces.pop()
            lane.left, lane.strip = lane.left + width, before
        return done

    def spare(self, number: int) -> int:
        """What open lanes and free widths hold beyond the strips from `number` on, weighed by depth: so much may be
        lost. Negative where it is too little."""
        depth, join = self.cuts[number], self.join
        free = [(lane.left, min(lane.depth, depth)) for lane in self.lanes]
        free += [(length, self.hold(number, across)) for length, across in zip(self.lengths, self.across, strict=True)]
        weight = sum((length - join) * deep for length, deep in free if length > join)
        return weight - self.later[number] - self.demands[self.order[number]].net * depth

    def moves(self, number: int, left: int, lot: str | None, spare: int) -> list[Move]:
        """The pieces that may come next, likeliest first."""
        demand, found = self.demands[self.order[number]], list[Move]()
        for room, lane, run in self.rooms(number):
            if lot is not None and lot != self.lots[run]:
                continue
            for shy, width in enumerate(self.widths(number, demand, left, room)):
                lost = self.lost(number, room - width, run, lane < 0)
                if lost <= spare:
                    rank = (shy, width < left, room if width == left else -width, int(lane < 0))
                    found.append(Move((lost, *rank) if self.saving else rank, width, lane, run, lost))
        return sorted(found)

    def lost(self, number: int, over: int, run: int, new: bool) -> int:
        """What a piece loses of the cloth, weighed by depth: to a join, or what is left where that is less than a join;
        and beside a new lane, where no other lane fits."""
        cut, lost = self.cuts[number], min(self.join, over) * self.cuts[number]
        if new and self.lengths[run] > self.join:
            across = self.across[run]
            beside = self.hold(number, across) - cut - self.hold(number, across - cut)
            lost += beside * (self.lengths[run] - self.join)
        return lost

    def widths(self, number: int, demand: Demand, left: int, room: int) -> Iterator[int]:
        """How wide a piece may be in this much room: as wide as possible, or what leaves the next strip a piece."""
        width = widest(demand, left, room, self.join)
        spare = self.demands[self.order[number + 1]].least if number + 1 < len(self.order) else 0
        less = widest(demand, left, room - spare, self.join) if width and spare > room - width else 0
        yield from filter(None, (width, less))

    def rooms(self, number: int) -> Iterator[tuple[int, int, int]]:
        """How wide a piece of a strip could be, in every open lane and in a new lane of every run; lanes that are alike
        once."""
        cut, strip, seen = self.cuts[number], self.order[number], set[tuple[int, int, int]]()
        for at, lane in enumerate(self.lanes):
            key = (lane.run, lane.depth, lane.left)
            if lane.left and lane.depth >= cut and lane.strip != strip and key not in seen:
                seen.add(key)
                yield lane.left, at, lane.run
        for run, length in enumerate(self.lengths):
            if self.across[run] >= cut:
                yield length, -1, run


def widest(demand: Demand, left: int, room: int, join: int) -> int:
    """The widest next piece of a strip of which `left` is left, with its joins so far; 0 where there is none."""
    if left <= room:
        return left
    end = demand.flat - left + min(room - join, left - demand.least)
    for first, last in reversed(demand.spans):
        if first <= end <= last:
            end = first - 1
    width = end - (demand.flat - left) + join
    return width if width >= demand.least else 0


MANY_WAYS = 200
"""With more ways than this to choose how far each stretch is used, they are not listed."""

LaneLengths = dict[Run, int]
"""How long the lanes of each run may be; other runs are not used."""


StretchUse = tuple[Run, ...]
"""How far one stretch is used: all of these runs but the last, and part of that; without runs, not at all."""

Way = Sequence[StretchUse]
"""How far each stretch is used."""


def ways_of(runs: Sequence[Run]) -> list[list[StretchUse]]:
    """How far each stretch may be used. Runs are sorted by stretch, in order along it."""
    stretches = [tuple(each) for _, each in groupby(runs, key=attrgetter("stretch"))]
    return [[here[:count] for count in range(len(here) + 1)] for here in stretches]


class LaneBounds:
    """The bounds of one job."""

    def __init__(self, job: CutJob) -> None:
        self.join = job.join
        runs = sound_runs(job)
        self.owned = [run for run in runs if job.stock[run.stretch].length is not None]
        self.rolled = [run for run in runs if job.stock[run.stretch].length is None]
        self.first = min(job.join, min(demand.least for demand in job.demands))
        """No run that is used is used for less than this."""
        self.widths = [max(0, job.scale.down(stretch.usable)) for stretch in job.stock]
        cuts = sorted({demand.cut for demand in job.demands}, reverse=True)
        deep = [(cut, sum(demand.net for demand in job.demands if demand.cut >= cut)) for cut in cuts]
        self.weighings = [
            (sum(demand.net * demand.cut for demand in job.demands), [filled(width, cuts) for width in self.widths]),
            # Strips at least so deep, by how many of their lanes lie side by side.
            *((net, [width // cut for width in self.widths]) for cut, net in deep),
        ]
        """Strips weighed by their depth: the net widths of all, each by its weight, and the most that the lanes side by
        side on each stretch weigh."""

    def met(self, rolled: int, owned: int) -> bool:
        """True when no plan buys less than this, or uses less of the cloth in hand with no more bought."""
        if self.least(self.rolled, {run: run.room or 0 for run in self.owned}) != rolled:
            return False
        return self.least(self.owned, self.of_roll(rolled)) == owned

    def of_roll(self, rolled: int) -> LaneLengths:
        """The runs of the roll when this much of it is used."""
        ends = {run: rolled - run.start for run in self.rolled}
        return {run: end if run.room is None else min(end, run.room) for run, end in ends.items() if end > 0}

    def pieces(self, demand: Demand, rolled: int) -> int:
        """The fewest pieces of a strip when this much is bought: one from each of the longest lanes."""
        lengths = {run: run.room or 0 for run in self.owned} | self.of_roll(rolled)
        lanes = list[int]()
        for run, length in lengths.items():
            lanes += [length] * min(demand.most, self.widths[run.stretch] // demand.cut)
        # Each piece but the last takes a join.
        held = accumulate(length - self.join for length in sorted(lanes, reverse=True))
        return next((count for count, length in enumerate(held, 1) if length >= demand.net), len(lanes) + 1)

    def lefts(self, given: LaneLengths) -> list[int]:
        """What is left of every weight when these runs give all they can."""
        nets = [(run.stretch, max(0, length - self.join)) for run, length in given.items()]
        return [weight - sum(gives[stretch] * net for stretch, net in nets) for weight, gives in self.weighings]

    def least(self, runs: Sequence[Run], given: LaneLengths) -> int | None:
        """What is used of some stretches at the least beside given runs; None where all of it is too little."""
        ways = ways_of(runs)
        if prod(map(len, ways)) <= MANY_WAYS:
            return min((floor for floor, _ in self.by_way(product(*ways), given)), default=None)
        # Without choosing: as if all were on the stretch that gives most.
        gives = [max(each[run.stretch] for run in runs) for _, each in self.weighings]
        return max([0, *(-(-left // most) for left, most in zip(self.lefts(given), gives, strict=True) if most)])

    def by_way(self, ways: Iterable[Way], given: LaneLengths) -> Iterator[tuple[int, Way]]:
        """The choices of how far each stretch is used that may do, with what each uses at the least."""
        floors = ((self.of(chosen, given), chosen) for chosen in ways)
        return ((floor, chosen) for floor, chosen in floors if floor is not None)

    def of(self, chosen: Way, given: LaneLengths) -> int | None:
        """What is used at the least when each stretch is used this far; None where that cannot do."""
        before = {run: run.room or 0 for way in chosen for run in way[:-1]}
        lasts = [way[-1] for way in chosen if way]
        most = 0
        for (_, gives), left in zip(self.weighings, self.lefts(given | before), strict=True):
            more = self.more(gives, left, lasts)
            if more is None:
                return None
            most = max(most, more)
        return sum(run.start + self.first for run in lasts) + most

    def more(self, gives: Sequence[int], left: int, lasts: Sequence[Run]) -> int | None:
        """How much longer than one join each the lanes of the last runs are together, the widest runs taking most."""
        longer = 0
        for run in sorted(lasts, key=lambda run: -gives[run.stretch]):
            most = gives[run.stretch]
            if left <= 0 or not most:
                break
            here = -(-left // most)
            if run.room is not None:
                here = min(here, max(0, run.room - self.join))
            longer, left = longer + here, left - here * most
        return None if left > 0 else longer
