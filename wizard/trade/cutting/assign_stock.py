"""Cloth in hand and cloth to buy: which strips are cut from which group of stretches, and where each width goes.

A group holds the stretches of one usable width and one dye lot. Every strip is cut from one group where possible. If
not, dye lots are combined first, and only then does a strip get pieces of different usable widths. Within one dye lot
it gets them also where that buys less.

A few strips are assigned to groups in every possible way. With many, all but those given to other groups are cut from
one, the home: the roll's group, or the largest. The ways are sorted by the cloth their area alone would take, and the
first of them are planned. Ways without some of the lengths in hand are tried too, so that no length ever makes the
plan dearer.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import cache
from itertools import combinations, zip_longest
from math import prod

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cutting.cut_records import ONE_LOT, ONE_WIDTH, Refusal
from wizard.trade.cutting.grid_units import ENDLESS, CutJob, members, without_spans
from wizard.trade.cutting.pareto_partition import PATIENCE, TOGETHER, Cloth, by_area
from wizard.trade.cutting.piece_widths import Row
from wizard.trade.cutting.place_pieces import as_cut
from wizard.trade.cutting.plan_by_length import ByLength
from wizard.trade.cutting.stock_groups import (
    FEW,
    StockGroup,
    StockPlan,
    better,
    filled,
    from_one_group,
    least_packed,
    over_stock_groups,
    sound_runs,
    sum_of_scores,
)
from wizard.trade.lengths import ZERO, Length

SOON = 5
"""Up to this many strips are assigned in every way even while the maker waits."""

UNHURRIED = 1_000
"""With this effort nobody waits."""


def stock_plan(job: CutJob) -> tuple[StockPlan | None, bool]:
    """The best way over all groups, by the strictest rule that can be kept; where there is none, also whether that is
    certain, because every way was tried or a bound excludes all."""
    if infeasible(job):
        return None, True
    lots, widths = by_lot(job), by_width(job)
    found, certain = shared(job, lots, ONE_LOT)
    if not found and widths != lots:
        found, certain = shared(job, widths, ONE_WIDTH)
    if not found and len(widths) > 1:
        return on_any_widths(job, widths), False
    one_lot = len(set(lots_of(job))) == 1
    if found and found.score[0] and len(widths) > 1 and one_lot and job.rules.policy == "part widths":
        # Sections may have pieces of several widths: less may be bought than where each keeps to one.
        other = of_mixed_widths(job, widths)
        found = other if other and other.score[0] < found.score[0] else found
    return found, certain


def of_mixed_widths(job: CutJob, stock_groups: Sequence[Sequence[int]]) -> StockPlan | None:
    """A plan whose sections have pieces of several widths."""
    # Imported late: few jobs have lengths of several widths.
    from wizard.trade.cutting.mixed_widths import mixed

    return mixed(job, stock_groups)


def shared(job: CutJob, stock_groups: Sequence[Sequence[int]], kept: str) -> tuple[StockPlan | None, bool]:
    """Every strip cut from one of these groups; where there is no way, also whether that is certain."""
    count = len(job.demands)
    if len(stock_groups) == 1:
        stock_group = StockGroup(job, stock_groups[0], job.rules.effort)
        passed_over = job.rules.policy == "part widths" and (count > TOGETHER or job.spanned)
        return from_one_group(job, stock_group), stock_group.finished and not passed_over
    few = count <= (SOON if job.rules.effort < UNHURRIED else TOGETHER)
    found = every_assignment(job, stock_groups) if few else None
    if found is None or not found.finished:
        other = AssignmentPlanner(job, stock_groups).solve()
        best = better(found, other)
        # The better one meets any bound the other meets.
        found = replace(best, finished=other.finished, fewest=False) if best and found and other else best
    return (replace(found, kept=kept) if found else None), False


def fewest_within(job: CutJob, found: StockPlan, most: int) -> StockPlan | None:
    """The fewest pieces by the rule a plan keeps to, buying no more of the roll than `most`; None where none is known,
    or where there are too many strips."""
    lots, widths = by_lot(job), by_width(job)
    stock_groups = lots if found.kept == ONE_LOT or len(lots) == 1 else widths
    if (not found.kept and len(stock_groups) > 1) or len(job.demands) > TOGETHER:
        return None
    return over_stock_groups(job, [StockGroup(job, numbers, job.rules.effort) for numbers in stock_groups], most)


def every_assignment(job: CutJob, numbers: Sequence[Sequence[int]]) -> StockPlan | None:
    """A few strips assigned in every way; where the search was cut short, all from one group is tried as well."""
    stock_groups = [StockGroup(job, each, job.rules.effort) for each in numbers]
    found = over_stock_groups(job, stock_groups)
    if found is None or not found.finished:
        for stock_group in stock_groups:
            alone = from_one_group(job, stock_group) if len(stock_group.places) == len(job.demands) else None
            found = better(found, replace(alone, finished=False) if alone else None)
    return found


def on_any_widths(job: CutJob, stock_groups: Sequence[Sequence[int]]) -> StockPlan | None:
    """Strips with pieces of different widths, or all cut as if from the narrowest, whichever is better."""
    narrow = from_one_group(job, StockGroup(job, range(len(job.stock)), job.rules.effort))
    narrow = replace(narrow, finished=False) if narrow else None
    return better(narrow, of_mixed_widths(job, stock_groups)) if job.rules.policy == "part widths" else narrow


def lots_of(job: CutJob) -> tuple[str, ...]:
    """The dye lot of each stretch. One without a lot counts as the only lot there is, else as one without a name."""
    lots = sorted({stretch.lot for stretch in job.stock if stretch.lot is not None})
    only = lots[0] if len(lots) == 1 else ""
    return tuple([stretch.lot or only for stretch in job.stock])


def by_lot(job: CutJob) -> list[list[int]]:
    """Stretches of one width and one dye lot."""
    return by_width(job, lots_of(job))


def by_width(job: CutJob, lots: Sequence[str] = ()) -> list[list[int]]:
    """The stretches of one width, and of one dye lot where the lot of each is given, in the order they were given."""
    stock_groups: dict[tuple[int, str], list[int]] = {}
    for number, (stretch, lot) in enumerate(zip(job.stock, lots or ("",) * len(job.stock), strict=True)):
        stock_groups.setdefault((job.scale.down(stretch.usable), lot), []).append(number)
    return list(stock_groups.values())


def could_save(job: CutJob, bought: int | Fraction, least: int | Fraction) -> Length | None:
    """The most of the roll that another plan could save against `bought`, both in grid units of cloth as it is used,
    beside cloth in hand; None where there is none, or nothing is bought. Where nothing need be bought, squaring is
    saved too."""
    roll = job.roll
    if roll is None or len(job.stock) < 2 or not bought:
        return None
    takes, least_taken = (as_cut(job.rules, roll, job.scale.length(each)) for each in (bought, max(least, 0)))
    return max(ZERO, takes - least_taken if least > 0 else takes)


def room_of(job: CutJob) -> int:
    """The length of undamaged cloth in hand, in grid units."""
    return sum(run.room or 0 for run in sound_runs(job))


def too_little(job: CutJob, needed: int, *, certain: bool) -> Refusal:
    """The least that all strips take, and all undamaged cloth; certain too where the first is more."""
    room = room_of(job)
    return Refusal("no cloth", None, job.scale.length(needed), job.scale.length(room), certain or needed > room)


TRIES = (6, 24)
"""Number of ways that are planned, while the maker waits and otherwise."""

WAYS = (500, 4_000)
"""Sets of strips looked at for one group, in the same two cases."""

PACKED = 2_000
"""Ways of packing a group that are tried before only the fullest of each run is taken."""

BEAM = 40
"""Number of ways that are kept from group to group."""

LEFT_OUT = 3
"""Of up to this many lengths in hand every choice is left out once; of more, single lengths and all of them."""

Masks = tuple[int, ...]
"""The strips of each group, as bit masks."""


class Assignment(Struct, frozen=True):
    """A way of assigning strips, and what its area alone buys and uses of the cloth in hand."""

    floor: tuple[int, int]
    masks: Masks


class AssignmentPlanner:
    """Strips assigned to groups, each portion planned once."""

    def __init__(self, job: CutJob, stock_groups: Sequence[Sequence[int]]) -> None:
        self.job, self.stock_groups = job, [tuple(numbers) for numbers in stock_groups]
        self.patient = job.rules.effort >= PATIENCE
        self.areas = [max(demand.net, 0) * demand.cut for demand in job.demands]
        self.classes, self.complete = classes_of(job, WAYS[self.patient])
        self.portion = cache(self.plan_of)

    def solve(self) -> StockPlan | None:
        """The best way found; finished where no other is better by area, or by plans that are certain."""
        best: StockPlan | None = None
        for out in left_out(self.job):
            kept = [[n for n in numbers if n not in out] for numbers in self.stock_groups]
            ways = Assignments(self, [StockGroup(self.job, numbers, 0) for numbers in kept])
            best = self.first_of(ways, ways.found(), best)
            if best is None:
                best = self.first_of(ways, sorted(ways.ways, key=ways.tightest), None)
            if not out and best and ways.complete and (ways.looked_through or ways.met(best.score[:2])):
                return replace(best, finished=True, fewest=False)
            if not best and self.job.roll is None:
                return None
        return replace(best, finished=False) if best else None

    def first_of(self, sharing: Assignments, ways: Sequence[Assignment], best: StockPlan | None) -> StockPlan | None:
        """The best of the first ways that could be better, each planned on all the cloth of its groups."""
        tries, sure = TRIES[self.patient], True
        for way in ways:
            if best and way.floor >= best.score[:2]:
                continue
            if not tries:
                return best
            floor = sharing.layered(way)
            if floor[0] < ENDLESS and not (best and floor >= best.score[:2]):
                found = self.planned(way.masks)
                best, tries, sure = better(best, found), tries - 1, bool(sure and found and found.finished)
        sharing.looked_through = sure
        return best

    def planned(self, masks: Masks) -> StockPlan | None:
        """The portion of every group planned, smallest first, because those fail soonest."""
        score, rows, finished = (0, 0, 0), list[Row](), True
        for _, number in sorted((mask.bit_count(), number) for number, mask in enumerate(masks) if mask):
            found = self.portion(number, masks[number])
            if found is None:
                return None
            score, rows = sum_of_scores(score, found.score), rows + found.rows
            finished &= found.finished
        return StockPlan(score, rows, finished)

    def plan_of(self, number: int, mask: int) -> StockPlan | None:
        """Some strips planned on one group alone; `portion` remembers it."""
        places, numbers = members(mask), self.stock_groups[number]
        part = self.job.part(places, numbers)
        plan = from_one_group if len(places) == len(self.job.demands) else plan_of_portion
        found = plan(part, StockGroup(part, range(len(numbers)), part.rules.effort))
        rows = [row.renumbered(places, numbers[row.stretch]) for row in found.rows] if found else []
        return replace(found, rows=rows) if found else None

    def area(self, mask: int) -> int:
        """The area of some strips, net of joins."""
        return sum([self.areas[place] for place in members(mask)])


def plan_of_portion(job: CutJob, stock_group: StockGroup) -> StockPlan | None:
    """All strips from one group as one portion of many: every plan is tried only for a few strips, or where the least
    has no room and another may have."""
    if job.rules.policy != "part widths":
        return over_stock_groups(job, [stock_group])
    job = replace(job, rules=replace(job.rules, effort=min(job.rules.effort, PATIENCE)))
    stock_group.packing.left = PACKED
    straight = least_packed(job, stock_group)
    several = len(stock_group.cuts) > 1 and (straight is None or (len(job.demands) <= FEW and not straight.finished))
    return better(straight, over_stock_groups(job, [stock_group])) if several else straight


def left_out(job: CutJob) -> Iterator[frozenset[int]]:
    """Which lengths in hand are left out, none of them first."""
    owned = [number for number, stretch in enumerate(job.stock) if stretch.length is not None]
    most = len(owned) - (len(owned) == len(job.stock))
    sizes = range(most + 1) if len(owned) <= LEFT_OUT else sorted({0, 1, most})
    for size in sizes:
        yield from map(frozenset, combinations(owned, size))


def classes_of(job: CutJob, most: int) -> tuple[list[list[int]], bool]:
    """Strips that are alike, as bit masks: only how many of them are chosen matters. Where there would be more than
    `most` ways of choosing, those nearest in size are chosen together, and the choice is not complete."""
    alike: dict[tuple[object, ...], list[int]] = {}
    for place in job.by_size:
        demand = job.demands[place]
        alike.setdefault((demand.cut, demand.flat, demand.spans), []).append(1 << place)
    classes = list(alike.values())
    while prod([len(each) + 1 for each in classes]) > most and len(classes) > 1:
        at = min(range(len(classes) - 1), key=lambda n: sum(map(int.bit_count, classes[n] + classes[n + 1])))
        # Their members two by two, then those left over.
        pairs = zip_longest(classes[at], classes[at + 1], fillvalue=0)
        classes[at : at + 2] = [[one | other for one, other in pairs]]
    return classes, len(classes) == len(alike)


class Assignments:
    """Ways of sharing all strips out among groups, some of which may be without cloth."""

    def __init__(self, planner: AssignmentPlanner, stock_groups: Sequence[StockGroup]) -> None:
        self.planner, self.stock_groups = planner, stock_groups
        self.complete = planner.complete
        self.widths = [stock_group.net for stock_group in stock_groups]
        self.bought = [bool(stock_group.packing.rolls) for stock_group in stock_groups]
        """True for the group of the roll."""
        self.room = [stock_group.packing.room for stock_group in stock_groups]
        """The most each group gives of cloth in hand."""
        order = sorted(range(len(stock_groups)), key=lambda n: (self.bought[n], self.room[n] * self.widths[n]))
        self.home, self.others = order[-1], order[-2::-1]
        self.full = (1 << len(planner.job.demands)) - 1
        self.ways: list[Assignment] = []
        self.looked_through = False
        """True once every way that could be the best is planned with certainty."""

    def found(self) -> list[Assignment]:
        """The ways of sharing out, most promising first."""
        ways = [self.weighed((0,) * len(self.stock_groups))]
        for number in self.others:
            ways = [self.weighed(masks) for way in ways for masks in self.further(way.masks, number)]
            ways.sort(key=lambda way: (way.floor, way.masks))
            if number != self.others[-1] and len(ways) > BEAM:
                ways, self.complete = ways[:BEAM], False
        for way in ways:
            left = self.full & ~sum(way.masks)
            if not left & ~self.stock_groups[self.home].able and (self.bought[self.home] or not way.floor[0]):
                # What is left is cut at home.
                self.ways.append(Assignment(way.floor, with_mask(way.masks, self.home, left)))
        return self.ways

    def further(self, masks: Masks, number: int) -> Iterator[Masks]:
        """A way with each set of strips that a group could take by its area."""
        free = self.stock_groups[number].able & ~sum(masks)
        most = self.room[number] * self.widths[number]
        return (with_mask(masks, number, mask) for mask in self.chosen(0, free, most))

    def chosen(self, at: int, free: int, most: int) -> Iterator[int]:
        """Sets made of the classes from `at` on whose area is within a limit."""
        if at == len(self.planner.classes):
            yield 0
            return
        taken = 0
        for unit in [0, *[each for each in self.planner.classes[at] if each & free == each]]:
            taken |= unit
            left = most - self.planner.area(taken)
            if left < 0:
                break
            for rest in self.chosen(at + 1, free, left):
                yield taken | rest

    def weighed(self, masks: Masks) -> Assignment:
        """A way with what its area takes: all that is in no other group is cut at home."""
        area = self.planner.area
        there = sum([-(-area(mask) // self.widths[number]) for number, mask in enumerate(masks) if mask])
        here = -(-area(self.full & ~sum(masks)) // self.widths[self.home])
        over = max(0, here - self.room[self.home])
        return Assignment((over, there + here - over), masks)

    def tightest(self, way: Assignment) -> int:
        """The least space left in any group, negated: where hardly anything fits, the tightest way comes first."""
        area = self.planner.area
        return -min([self.room[n] * self.widths[n] - area(mask) for n, mask in enumerate(way.masks) if mask])

    def met(self, score: tuple[int, ...]) -> bool:
        """True when no way buys less, or buys as much and uses less of the cloth in hand, even counted in whole
        widths."""
        return all(way.floor >= score or self.layered(way) >= score for way in self.ways)

    def layered(self, way: Assignment) -> tuple[int, int]:
        """A lower bound of what a way takes, in whole widths."""
        job, total, here = self.planner.job, 0, 0
        for number, mask in enumerate(way.masks):
            stock_group = self.stock_groups[number]
            if mask:
                demands = [job.demands[place] for place in members(mask)]
                length = by_area(demands, Cloth(stock_group.usable, job.join)) if stock_group.usable > job.join else 0
                if length > self.room[number] and not self.bought[number]:
                    return ENDLESS, 0
                here = length if number == self.home else here
                total += length
        over = max(0, here - self.room[self.home]) if self.bought[self.home] else 0
        return over, total - over


def with_mask(masks: Masks, number: int, mask: int) -> Masks:
    """The strips of each group, with these for one of them."""
    return (*masks[:number], mask, *masks[number + 1 :])


def infeasible(job: CutJob) -> bool:
    """True when the cloth in hand certainly cannot give all strips, even with joins anywhere and every length as wide
    as the widest: there are too few widths of some length, or too little length in all."""
    if job.roll or job.rules.policy != "part widths":
        return False
    demands, runs = without_spans(job.demands), sound_runs(job)
    cloth, effort = Cloth(job.widest, job.join), job.rules.effort
    cuts = sorted({demand.cut for demand in demands}, reverse=True)
    for cut in cuts:
        counted = [replace(demand, cut=1) for demand in demands if demand.cut >= cut]
        if ByLength(counted, cloth, effort).bound > sum((run.room or 0) // cut for run in runs):
            return True
    return ByLength(demands, cloth, effort).bound > sum(filled(run.room or 0, cuts) for run in runs)
