"""Matched widths on several lengths: the phases of a half-drop turned for the lengths there are."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from itertools import islice

from wizard.trade.cutting.grouping import PATIENCE
from wizard.trade.cutting.level import Placed, least_bought, over_runs
from wizard.trade.cutting.matching import FLIPS, Pattern, phased, turned_both_ways
from wizard.trade.cutting.packing import sound_runs
from wizard.trade.cutting.rows import Row
from wizard.trade.cutting.ticks import Job

TURNS = (8, 1 << FLIPS)
"""Ways of turning the phases that are tried, at once and with patience."""


def on_lengths(
    job: Job, rows: Sequence[Row], pattern: Pattern, steps: Callable[[Pattern], tuple[Fraction, Fraction]]
) -> Placed | None:
    """Widths on the lengths there are; None when they do not fit. What is shortest on one length may not be on several,
    so there the phases are turned as well. `steps`: works what the least steps add up to, and what a last width saves.
    """
    best = over_runs(job, phased(rows, pattern), pattern)
    if not pattern.half_drop or len(sound_runs(job)) < 2:
        return best
    least = least_bought(job, steps(pattern), pattern)
    for halves in islice(turned_both_ways(rows), TURNS[job.rules.effort >= PATIENCE]):
        if best is not None and bought_for(job, best) <= least:
            break
        found = over_runs(job, halves, pattern)
        if found and (best is None or score_of(job, found) < score_of(job, best)):
            best = found
    return best


def bought_for(job: Job, placed: Placed) -> Fraction:
    """What of the roll placed widths take."""
    return taken(row for row in placed.rows if job.stock[row.stretch].length is None)


def score_of(job: Job, placed: Placed) -> tuple[Fraction, Fraction]:
    """What is bought, and what is used in all."""
    return bought_for(job, placed), taken(placed.rows)


def taken(rows: Iterable[Row]) -> Fraction:
    """What some widths take, with all that the pattern loses."""
    return Fraction(sum(row.before + row.cut + row.after for row in rows))
