"""Stock groups: the stretches of one usable width that are planned together, and few strips shared out among
several of them.

Widths are packed on lengths of cloth so that least is bought, then least of the cloth in hand is used. A width must be
in one unbroken run of cloth, between an end or a damaged stretch and the next.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cache, partial
from itertools import islice
from math import gcd
from operator import mul, sub

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cutting.cut_records import Rules, Stretch
from wizard.trade.cutting.grid_units import ENDLESS, CutJob, Demand, members, subsets
from wizard.trade.cutting.no_join_spans import can_be_cut
from wizard.trade.cutting.pareto_partition import PATIENCE, Cloth, Found, search
from wizard.trade.cutting.piece_widths import Row, fixed_rows, halved, rows_in_job, rows_of
from wizard.trade.cutting.plan_by_length import ByLength
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
        self.room = self.owned_room[0]
        """The most that widths of these lengths can use of the cloth in hand."""
        self.best = cache(self.work_out)
        self.left = PACKINGS

    def pack(self, counts: Counts) -> Packed | None:
        """The best packing, with the runs in the order they were given; None where the widths do not fit."""
        found = self.best(0, counts, False)
        if found is None:
            return None
        placed = sorted(zip(self.order, found.counts, strict=True))
        return Packed(found.roll, found.owned, tuple([each for _, each in placed]))

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
        for tried, taken in enumerate((counts,) if run.room is None else self.ways(run.room, counts)):
            if self.left < 0 and tried:
                break
            self.left -= 1
            spend(8)
            used = run.start + self.length(taken) if any(taken) and not later else 0
            roll, owned = (used, 0) if run.stretch in self.rolls else (0, used)
            left, further = tuple(map(sub, counts, taken)), here and (later or any(taken))
            if best is not None:
                least_roll, least_owned = self.floor(number + 1, left, further)
                if (best.roll, best.owned) <= (roll + least_roll, owned + least_owned):
                    continue
            if rest := self.best(number + 1, left, further):
                found = Packed(rest.roll + roll, rest.owned + owned, (taken, *rest.counts))
                best = found if best is None or (found.roll, found.owned) < (best.roll, best.owned) else best
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


FEW = 4
"""For up to this many strips every plan is tried at once."""

Score = tuple[int, int, int]
"""What is bought, what is used of the cloth in hand, and the number of pieces."""


class Option(Struct, frozen=True):
    """One way of cutting some strips from one group."""

    score: Score
    rows: Callable[[], list[Row]]


class StockPlan(Struct, frozen=True):
    """The best plan over all groups."""

    score: Score
    rows: list[Row]
    finished: bool
    """True when no plan by the same rule buys less, or buys as much and uses less of the cloth in hand."""
    fewest: bool = True
    """True when, being finished, it is certain to have the fewest pieces too."""
    kept: str = ""
    """The rule it keeps to beyond those of the job, in the words of its proof."""


class StockGroup:
    """Stretches of one width, planned together."""

    def __init__(self, job: CutJob, numbers: Sequence[int], effort: int) -> None:
        self.job, self.effort = job, effort
        self.usable = min([job.scale.down(job.stock[number].usable) for number in numbers], default=0)
        self.runs = [run for number in numbers for run in runs_of(job, number)]
        self.net = self.usable - job.join if self.usable > job.join else ENDLESS
        """What one width gives, net of its join; ENDLESS where nothing can be joined, so that bounds stay true."""
        self.places = [place for place, demand in enumerate(job.demands) if self.takes(demand)]
        self.able = sum([1 << place for place in self.places])
        """The same as a bit mask."""
        self.cuts = tuple(sorted({job.demands[place].cut for place in self.places}, reverse=True))
        self.packing = Packing(job, self.runs, self.cuts)
        self.found: Found | None = None
        self.options = cache(self.ways)

    def takes(self, demand: Demand) -> bool:
        """True when a strip can be cut from this width at all, and no run is too short for it."""
        longest = max((run.room or demand.cut for run in self.runs), default=0)
        half = self.job.rules.policy != "half widths" or halved(demand, self.usable, self.job.join)
        return half and demand.cut <= longest and can_be_cut(demand, self.usable, self.job.join)

    @property
    def finished(self) -> bool:
        """True when nothing was left unsearched."""
        return self.packing.finished and (self.found is None or self.found.finished)

    def ways(self, mask: int) -> list[Option]:
        """Ways of cutting a set of the job's strips, by bit mask; none where they cannot be cut here. `options`
        remembers them."""
        places = members(mask)
        if not places:
            return [Option((0, 0, 0), list)]
        if any(place not in self.places for place in places):
            return []
        if self.job.rules.policy == "part widths":
            return self.searched(places)
        # There is one way of whole or half widths: only their places can be chosen.
        return self.made(fixed_rows(self.job, places, self.usable))

    def made(self, rows: list[Row]) -> list[Option]:
        """Widths as they are, packed."""
        counts = tuple(sum(row.cut == cut for row in rows) for cut in self.cuts)
        return self.placed(counts, sum(len(row.parts) for row in rows), lambda: rows)

    def searched(self, places: Sequence[int]) -> list[Option]:
        """Every plan on the front, packed."""
        job = self.job
        if self.found is None:
            demands = [job.demands[place] for place in self.places]
            self.found = search(demands, Cloth(self.usable, job.join, self.cuts), self.effort)
        inner = sum(1 << self.places.index(place) for place in places)
        # Strips planned in batches have a front for all of them only; nothing else is asked of a single group.
        choices = self.found.sets[inner] if self.found.sets else self.found.front
        options: list[Option] = []
        for choice in choices:
            counts = tuple(high - low for high, low in zip(choice.key[:-1], (0, *choice.key[:-2]), strict=True))
            rows = partial(rows_in_job, job, self.places, choice, self.usable)
            options += self.placed(counts, choice.joins + len(places), rows)
        return options

    def placed(self, counts: tuple[int, ...], pieces: int, rows: Callable[[], list[Row]]) -> list[Option]:
        """Widths of these lengths packed on the group's runs, where they fit."""
        packed = self.packing.pack(counts)
        if packed is None:
            return []
        return [Option((packed.roll, packed.owned, pieces), lambda: put_on_runs(rows(), self.runs, self.cuts, packed))]


def put_on_runs(rows: Iterable[Row], runs: Iterable[Run], cuts: Sequence[int], packed: Packed) -> list[Row]:
    """Each width with its run; those made first come first."""
    made = sorted(rows, key=lambda row: min(row.parts))
    left = {cut: iter([row for row in made if row.cut == cut]) for cut in cuts}
    out: list[Row] = []
    for run, counts in zip(runs, packed.counts, strict=True):
        for cut, count in zip(cuts, counts, strict=True):
            out += [replace(row, stretch=run.stretch, start=run.start) for row in islice(left[cut], count)]
    return out


def from_one_group(job: CutJob, stock_group: StockGroup) -> StockPlan | None:
    """All strips from one group. The plan of least length, packed, is the best where it meets the bound of all
    packings; elsewhere every plan is tried, but not for many strips while somebody waits."""
    least = job.rules.policy == "part widths" and len(stock_group.places) == len(job.demands)
    straight = least_packed(job, stock_group) if least else None
    if straight and (straight.finished or (len(job.demands) > FEW and job.rules.effort < PATIENCE)):
        return straight
    return better(straight, over_stock_groups(job, [stock_group]))


def better(one: StockPlan | None, other: StockPlan | None) -> StockPlan | None:
    """The plan that buys less, then uses less of the cloth in hand, then has fewer pieces; the second where they are
    alike."""
    if one is None or other is None:
        return one or other
    return one if one.score < other.score else other


def least_packed(job: CutJob, stock_group: StockGroup) -> StockPlan | None:
    """The plan of least length on the lengths of a group, finished where no plan buys less or uses less in all."""
    least = ByLength(job.demands, Cloth(stock_group.usable, job.join), job.rules.effort).least
    for option in stock_group.made(rows_of(least.choice, job.demands, stock_group.usable, job.join)):
        met = meets_bound(option.score, least.bound, stock_group.packing.room)
        return StockPlan(option.score, option.rows(), met and least.finished)
    return None


def meets_bound(score: Score, bound: int, room: int) -> bool:
    """True where no plan that takes at least `bound` in all, `room` of it in hand, buys less or uses less."""
    buys, used, _ = score
    return buys == max(0, bound - room) and buys + used == bound


def over_stock_groups(job: CutJob, stock_groups: Sequence[StockGroup], within: int | None = None) -> StockPlan | None:
    """Share the strips out among the groups: least to buy, then least of the cloth in hand, then fewest pieces.

    `within`: no more of the roll than this is bought, and the fewest pieces come first.
    """

    def rank(score: Score) -> Score:
        """A score as it stands, or the fewest pieces first."""
        return score if within is None else (score[2], score[0], score[1])

    full = (1 << len(job.demands)) - 1
    best: dict[int, tuple[Score, tuple[Option, ...]]] = {0: ((0, 0, 0), ())}
    for number, stock_group in enumerate(stock_groups):
        last = number + 1 == len(stock_groups)
        further: dict[int, tuple[Score, tuple[Option, ...]]] = {}
        for done, (score, chosen) in best.items():
            spend(5)
            for mask in [full ^ done] if last else reversed(subsets(full ^ done)):
                for option in stock_group.options(mask):
                    # Only one group has the roll, so that its own options settle what is bought.
                    if within is not None and option.score[0] > within:
                        continue
                    total = sum_of_scores(score, option.score)
                    held = further.get(done | mask)
                    if held is None or rank(total) < rank(held[0]):
                        further[done | mask] = (total, (*chosen, option))
        best = further
    if full not in best:
        return None
    score, chosen = best[full]
    rows = [row for option in chosen for row in option.rows()]
    return StockPlan(score, rows, all(stock_group.finished for stock_group in stock_groups))


def sum_of_scores(one: Score, other: Score) -> Score:
    """Two scores together."""
    return (one[0] + other[0], one[1] + other[1], one[2] + other[2])
