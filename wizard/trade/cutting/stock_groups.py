"""Stock groups: the stretches of one usable width that are planned together, and few strips shared out among
several of them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import cache, partial
from itertools import islice

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cutting.bin_packing import Packed, Packing, Run, runs_of
from wizard.trade.cutting.grid_units import CutJob, Demand, members, subsets
from wizard.trade.cutting.no_join_spans import can_be_cut
from wizard.trade.cutting.pareto_partition import PATIENCE, Cloth, Found, search
from wizard.trade.cutting.piece_widths import Row, fixed_rows, halved, rows_in_job, rows_of
from wizard.trade.cutting.plan_by_length import ByLength
from wizard.trade.cutting.work_budget import spend

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
        self.places = [place for place, demand in enumerate(job.demands) if self.takes(demand)]
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
        return self.searched(places) if self.job.rules.policy == "part widths" else self.fixed(places)

    def fixed(self, places: Sequence[int]) -> list[Option]:
        """The one way of whole or half widths: only their places can be chosen."""
        rows = fixed_rows(self.job, places, self.usable)
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
    rows = rows_of(least.choice, job.demands, stock_group.usable, job.join)
    counts = tuple(sum(row.cut == cut for row in rows) for cut in stock_group.cuts)
    for option in stock_group.placed(counts, sum(len(row.parts) for row in rows), lambda: rows):
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
