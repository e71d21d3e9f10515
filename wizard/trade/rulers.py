"""What a job measures with: its unit and its ruler mark."""

from __future__ import annotations

from typing import cast

from wizard.trade.defaults import default_of
from wizard.trade.job import Job
from wizard.trade.lengths import ZERO, Length
from wizard.trade.printing import METRIC, Ruler


def is_metric(show: object, standard: object) -> bool:
    """True for a job that shows its lengths in metric units, else follows the metric standard; whatever a file says."""
    return show in METRIC if show else standard == "metric"


def ruler_of(job: Job) -> Ruler:
    """The job's unit and ruler mark, else the usual ones of its standard. A mark of nothing counts as not said."""
    standard = job.standard or "inches"
    unit = job.show or cast("str", default_of("show", standard))
    usual = cast("Length", default_of("ruler", standard))
    return Ruler(unit, job.ruler if job.ruler is not None and job.ruler > ZERO else usual)
