"""What the program makes of the named jobs and of random ones is what the record says (see plans.py)."""

from __future__ import annotations

import pytest

from tests.record.plans import changes, compared, digests, kept
from tests.render.jobs import named_jobs

SLOW = "json-slow-339"
"""Its comparison of ways takes seconds."""

JOBS = {name: [name] for name in named_jobs() if name != SLOW} | {
    f"random from {first}": [str(seed) for seed in range(first, first + 10)] for first in range(0, 80, 10)
}
"""The quick jobs, a few at a time."""


@pytest.mark.parametrize("jobs", JOBS)
def test_jobs_come_out_as_recorded(jobs: str) -> None:
    """Where only words have changed, `json` and `sheets` are named, and `figures` are not."""
    assert list(changes({name: digests(name) for name in JOBS[jobs]}, kept())) == []


@pytest.mark.long
def test_all_of_the_record_is_as_it_was() -> None:
    assert list(changes(compared(), kept())) == []
