"""No plan gets worse, and none takes more work, than is recorded of 800 jobs (see work_record.py)."""

from __future__ import annotations

import pytest

from tests.trade.cutting.work_record import KINDS, found_of, kept


@pytest.mark.parametrize("kind", KINDS)
def test_no_job_takes_more_work_or_gets_a_worse_plan_than_is_recorded(kind: str) -> None:
    pairs = zip(found_of(kind), kept()[kind], strict=True)
    worse = {number: said for number, (ours, theirs) in enumerate(pairs) if (said := list(ours.worse_than(theirs)))}
    assert worse == {}
