"""Cloth in hand that is certain not to do, by what the strips take at the least: nothing need be cut to see it."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from wizard.trade.cutting.by_length import ByLength
from wizard.trade.cutting.grouping import Cloth
from wizard.trade.cutting.packing import Run, filled, sound_runs
from wizard.trade.cutting.ticks import Job, Need, without_spans


def in_vain(job: Job) -> bool:
    """True when it is certain that what is in hand does not give all strips, joins anywhere and every length as wide as
    the widest: there are too few widths of some length, or too little length in all."""
    if any(stretch.length is None for stretch in job.stock) or job.rules.policy != "part widths":
        return False
    usable = max(job.scale.down(stretch.usable) for stretch in job.stock)
    needs, runs = without_spans(job.needs), sound_runs(job)
    cloth, effort = Cloth(usable, job.join), job.rules.effort
    cuts = sorted({need.cut for need in needs}, reverse=True)
    if any(wanted(needs, cut, cloth, effort) > there_are(runs, cut) for cut in cuts):
        return True
    room = sum(filled(run.room or 0, cuts) for run in runs)
    return ByLength(needs, cloth, effort).bound > room


def wanted(needs: Sequence[Need], cut: int, cloth: Cloth, effort: int) -> int:
    """How many widths the strips of at least some cut length take at the least."""
    counted = [replace(need, cut=1) for need in needs if need.cut >= cut]
    return ByLength(counted, cloth, effort).bound


def there_are(runs: Sequence[Run], cut: int) -> int:
    """How many widths of a length there are."""
    return sum((run.room or 0) // cut for run in runs)
