"""Slit and stacked layouts of what is bought beside cloth in hand: some strips cut across what is owned, and the rest
laid out on less of the roll than any cross cut takes."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from wizard.trade.cutting.laid import area_bound, as_cut, bought, in_order, layout
from wizard.trade.cutting.others import shorter_ways
from wizard.trade.cutting.pool import Pooled
from wizard.trade.cutting.pools import pooled
from wizard.trade.cutting.strips import Layout, Proof
from wizard.trade.cutting.ticks import Job
from wizard.trade.lengths import ZERO, total

FEW = 5
"""Of so many strips every choice of those that are cut from the roll is tried; of more none is."""


def shorter_beside(job: Job, plan: Layout) -> tuple[Layout, ...]:
    """The shortest slit and the shortest stacked layout that take less of the roll than a plan that also cuts cloth in
    hand, the shortest first; none where the roll is damaged."""
    roll = next((each for each in job.stock if each.length is None), None)
    if roll is None or roll.damage or len(job.needs) > FEW or len({need.cut for need in job.needs}) < 2:
        return ()
    limit = job.scale.down(total([use.length for use in plan.uses if use.stretch == roll.id]))
    best: dict[str, Layout] = {}
    for bought_of, owned_of in partings(job):
        short = shorter_ways(replace(bought_of, stock=(roll,)), limit) if limit else ()
        across = across_owned(owned_of) if short else None
        for each in short if across else ():
            assert across is not None
            found = together(job, across, each)
            if each.way not in best or found.roll < best[each.way].roll:
                best[each.way] = found
    return tuple(sorted(best.values(), key=lambda each: (each.roll, each.used)))


def partings(job: Job) -> Iterator[tuple[Job, Job]]:
    """The strips parted in two: those of the roll, two at least, and those of the cloth in hand, one at least."""
    count = len(job.needs)
    for mask in range(1, (1 << count) - 1):
        if mask & (mask - 1):
            yield some_of(job, mask), some_of(job, (1 << count) - 1 - mask)


def some_of(job: Job, mask: int) -> Job:
    """The job of some strips alone."""
    places = [place for place in range(len(job.needs)) if mask >> place & 1]
    return replace(
        job,
        strips=tuple([job.strips[place] for place in places]),
        needs=tuple([job.needs[place] for place in places]),
    )


def across_owned(job: Job) -> Layout | None:
    """Strips cut across what is owned, where they fit."""
    job = replace(job, stock=tuple([each for each in job.stock if each.length is not None]))
    found = pooled(job)
    return layout(job, found.rows, Proof(False, ZERO, "none", "", False)) if isinstance(found, Pooled) else None


def together(job: Job, owned: Layout, roll: Layout) -> Layout:
    """Two layouts of the strips of one job as one, on other stretches each."""
    uses, flats = (*owned.uses, *roll.uses), dict((*owned.flats, *roll.flats))
    stretch = next(each for each in job.stock if each.length is None)
    cut = as_cut(job.rules, stretch, roll.used)
    return replace(
        roll,
        pieces=tuple(in_order((*owned.pieces, *roll.pieces))),
        offcuts=(*owned.offcuts, *roll.offcuts),
        uses=uses,
        used=total([use.length for use in uses]),
        roll=cut,
        buy=bought(job.rules, cut),
        joins=owned.joins + roll.joins,
        flats=tuple([(strip.id, flats[strip.id]) for strip in job.strips]),
        proof=replace(roll.proof, bound=area_bound(job)),
        area_bound=area_bound(job),
    )
