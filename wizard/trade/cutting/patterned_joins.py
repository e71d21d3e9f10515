"""The fewest joins on matched cloth: the strips strung in smaller groups, or each in widths of its own."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from wizard.trade.cutting.chains import State
from wizard.trade.cutting.laid import layout, most_that_buys
from wizard.trade.cutting.level import over_runs
from wizard.trade.cutting.matching import Pattern, phased
from wizard.trade.cutting.patterned import of_each_width, strung
from wizard.trade.cutting.pools import by_lot
from wizard.trade.cutting.rows import Row
from wizard.trade.cutting.strips import Layout, Proof
from wizard.trade.cutting.ticks import Job
from wizard.trade.cutting.turning import bought_for

PARTED = 5
"""Up to so many strips every parting into groups is tried; of more only each strip alone."""


def fewer_matched(asked: Job, pattern: Pattern, plan: Layout) -> Layout | None:
    """The fewest joins that buy the same in shop steps as a matched plan, where that is fewer than the plan's; None for
    fixed numbers of widths and for several dye lots, which leave no choice."""
    cut_from = {each.stretch for each in plan.uses}
    job = next(each for each in of_each_width(asked) if cut_from & {stretch.id for stretch in each.stock})
    if job.rules.policy != "part widths" or len(by_lot(job)) > 1:
        return None
    usable, alone = job.scale.down(job.stock[0].usable), [[place] for place in range(len(job.needs))]
    parted = partings(range(len(job.needs))) if len(job.needs) <= PARTED else iter([alone])
    known: dict[tuple[int, ...], State | None] = {}
    made = [rows for groups in parted if (rows := strung(job, usable, pattern, groups, known)[0])]
    best: tuple[int, Fraction, list[Row]] | None = None
    for rows in sorted(made, key=pieces_in):
        pieces = pieces_in(rows)
        if pieces - len(job.needs) >= plan.joins or (best and pieces > best[0]):
            break
        found = within(job, rows, pattern, plan)
        if found and (best is None or found[0] < best[1]):
            best = (pieces, *found)
    if best is None:
        return None
    return layout(job, best[2], Proof(False, plan.proof.bound, "none", plan.proof.among, False), as_given=True)


def pieces_in(rows: Sequence[Row]) -> int:
    """How many pieces some widths hold."""
    return sum(len(row.parts) for row in rows)


def within(job: Job, rows: list[Row], pattern: Pattern, plan: Layout) -> tuple[Fraction, list[Row]] | None:
    """Widths laid in their phases, and what they buy, where that is no more than what a plan buys in shop steps."""
    placed = over_runs(job, phased(rows, pattern), pattern)
    if placed is None:
        return None
    most = sum(most_that_buys(job, each, plan) for each in job.stock if each.length is None)
    bought = bought_for(job, placed)
    return (bought, placed.rows) if bought <= most else None


def partings(places: Sequence[int]) -> Iterator[list[list[int]]]:
    """Every parting of some places into groups."""
    if not places:
        yield []
        return
    first, rest = places[0], places[1:]
    for groups in partings(rest):
        yield [[first], *groups]
        for n, group in enumerate(groups):
            yield [*groups[:n], [first, *group], *groups[n + 1 :]]
