"""What a job measures with: its unit and its ruler mark."""

from __future__ import annotations

from typing import cast

from wizard.trade.defaults import default_of
from wizard.trade.job import Job
from wizard.trade.lengths import ZERO, Length
from wizard.trade.printing import Ruler


def ruler_of(job: Job) -> Ruler:
    """The job's unit and ruler mark, else the usual ones of its standard. A mark of nothing counts as not said."""
    standard = job.standard or "inches"
    unit = job.show or cast("str", default_of("show", standard))
    usual = cast("Length", default_of("ruler", standard))
    return Ruler(unit, job.ruler if job.ruler is not None and job.ruler > ZERO else usual)
