"""Cloth in hand and cloth to buy: which strips are cut from which pool of stretches, and where each width lies.

A pool is the stretches of one usable width and one dye lot. Every strip is cut from one pool: where that cannot be done
with what there is, dye lots are put together first, and only then has a strip pieces of different usable widths. Of one
dye lot it has them where less is bought for it, too.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cutting.grouping import TOGETHER
from wizard.trade.cutting.in_vain import in_vain
from wizard.trade.cutting.laid import as_cut
from wizard.trade.cutting.packing import sound_runs
from wizard.trade.cutting.pool import Pool, Pooled, better, over_pools, single
from wizard.trade.cutting.ticks import Job
from wizard.trade.lengths import ZERO, Length

ONE_LOT = ", each section from one width and dye lot"
ONE_WIDTH = ", each section from one width"


SOON = 5
"""Of so many strips every way of sharing them out is looked at even while somebody waits."""

UNHURRIED = 1_000
"""With this effort nobody waits."""


class Unfit(Struct, frozen=True):
    """No way was found."""

    certain: bool
    """True when every way was looked at, or none is needed to see that there is none."""


def pooled(job: Job) -> Pooled | Unfit:
    """The best way over all pools, by the strictest rule that can be kept."""
    if in_vain(job):
        return Unfit(True)
    lots, widths = by_lot(job), by_width(job)
    found = shared(job, lots, ONE_LOT)
    if isinstance(found, Unfit) and widths != lots:
        found = shared(job, widths, ONE_WIDTH)
    if isinstance(found, Unfit) and len(widths) > 1:
        found = of_all_widths(job, widths) or Unfit(False)
    elif isinstance(found, Pooled) and found.score[0] and may_mix(job, widths):
        found = thriftier(job, widths, found)
    return found


def may_mix(job: Job, widths: Sequence[Sequence[int]]) -> bool:
    """True where a section may well have pieces of several widths: they are all of one dye lot."""
    one_lot = len(set(lots_of(job, range(len(job.stock))))) == 1
    return len(widths) > 1 and one_lot and job.rules.policy == "part widths"


def thriftier(job: Job, widths: Sequence[Sequence[int]], found: Pooled) -> Pooled:
    """A plan whose sections have pieces of several widths, where less is bought for it than for one that keeps each
    section to one."""
    # Late: few have lengths of several widths.
    from wizard.trade.cutting.mixed import mixed

    other = mixed(job, widths)
    return other if other and other.score[0] < found.score[0] else found


def shared(job: Job, pools: Sequence[Sequence[int]], kept: str) -> Pooled | Unfit:
    """Every strip cut from one of these pools."""
    if len(pools) == 1:
        pool = Pool(job, pools[0], job.rules.effort)
        return single(job, pool) or Unfit(looked_through(job, pool))
    found = None if len(job.needs) > most_looked_at(job) else of_few(job, pools)
    if found is None or not found.finished:
        found = either(found, in_portions(job, pools))
    return replace(found, kept=kept) if found else Unfit(False)


def looked_through(job: Job, pool: Pool) -> bool:
    """True when every way of cutting the strips from the only pool was looked at."""
    if job.rules.policy == "part widths" and (len(job.needs) > TOGETHER or any(need.spans for need in job.needs)):
        return False
    return pool.finished


def most_looked_at(job: Job) -> int:
    """Of so many strips every way of sharing them out is looked at."""
    return SOON if job.rules.effort < UNHURRIED else TOGETHER


def in_portions(job: Job, pools: Sequence[Sequence[int]]) -> Pooled | None:
    """The most promising ways of sharing out alone."""
    # Late: few skirts have so many sections.
    from wizard.trade.cutting.portions import Portions

    return Portions(job, pools).solve()


def either(one: Pooled | None, other: Pooled | None) -> Pooled | None:
    """The better of two plans by one rule, proven where either is: what nothing goes under, the better one meets."""
    found = better(one, other)
    if found is None or one is None or other is None:
        return found
    return replace(found, finished=one.finished or other.finished, fewest=False)


def fewest_within(job: Job, found: Pooled, most: int) -> Pooled | None:
    """The fewest pieces by the rule a plan keeps to, buying no more of the roll than `most`; None where none is known,
    or where there are too many strips to look."""
    lots, widths = by_lot(job), by_width(job)
    pools = lots if found.kept == ONE_LOT or len(lots) == 1 else widths
    of_mixed_widths = not found.kept and len(pools) > 1
    if of_mixed_widths or len(job.needs) > TOGETHER:
        return None
    return over_pools(job, [Pool(job, numbers, job.rules.effort) for numbers in pools], most)


def of_few(job: Job, numbers: Sequence[Sequence[int]]) -> Pooled | None:
    """A few strips shared out in every way; where the search was cut short, all from one pool is tried as well."""
    pools = [Pool(job, each, job.rules.effort) for each in numbers]
    found = over_pools(job, pools)
    if found is None or not found.finished:
        for pool in pools:
            alone = single(job, pool) if len(pool.places) == len(job.needs) else None
            found = better(found, replace(alone, finished=False) if alone else None)
    return found


def of_all_widths(job: Job, pools: Sequence[Sequence[int]]) -> Pooled | None:
    """Strips with pieces of different widths; or all cut as if from the narrowest, where that is better."""
    narrow = single(job, Pool(job, range(len(job.stock)), job.rules.effort))
    narrow = replace(narrow, finished=False) if narrow else None
    if job.rules.policy != "part widths":
        return narrow
    from wizard.trade.cutting.mixed import mixed

    return better(narrow, mixed(job, pools))


def by_lot(job: Job) -> list[list[int]]:
    """Stretches of one width and one dye lot."""
    lots = lots_of(job, range(len(job.stock)))
    return gathered(job, lambda number: (job.scale.down(job.stock[number].usable), lots[number]))


def lots_of(job: Job, stretches: Iterable[int]) -> tuple[str, ...]:
    """The dye lot of each of these. Lots that do not matter go with the only other, or apart."""
    lots = sorted({stretch.lot for stretch in job.stock if stretch.lot is not None})
    only = lots[0] if len(lots) == 1 else ""
    return tuple([job.stock[number].lot or only for number in stretches])


def by_width(job: Job) -> list[list[int]]:
    """Stretches of one width, whatever their lots."""
    return gathered(job, lambda number: (job.scale.down(job.stock[number].usable), ""))


def gathered(job: Job, key: Callable[[int], tuple[int, str]]) -> list[list[int]]:
    """The stretches that share a key, in the order they were given."""
    pools: dict[tuple[int, str], list[int]] = {}
    for number in range(len(job.stock)):
        pools.setdefault(key(number), []).append(number)
    return list(pools.values())


def could_save(job: Job, bought: int | Fraction, least: int | Fraction) -> Length | None:
    """The most that another plan could take less of the roll than `bought` does, both in ticks of cloth as it is used,
    beside cloth in hand; None where there is none, or nothing is bought. Squaring goes too where nothing need be."""
    roll = next((each for each in job.stock if each.length is None), None)
    if roll is None or len(job.stock) < 2 or not bought:
        return None
    takes, least_taken = (as_cut(job.rules, roll, job.scale.length(each)) for each in (bought, max(least, 0)))
    return max(ZERO, takes - least_taken if least > 0 else takes)


def room_of(job: Job) -> int:
    """All the sound owned cloth, in ticks along it."""
    return sum(run.room or 0 for run in sound_runs(job))
