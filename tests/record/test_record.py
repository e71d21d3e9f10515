"""What the program makes of the named jobs and of random ones is what the record says (see plans.py)."""

from __future__ import annotations

import pytest

from tests.record.plans import all_jobs, changes, compared, digests, kept

SLOW = "json-slow-339"
"""Its comparison of ways takes seconds."""


def test_plans_and_sheets_are_those_of_the_record() -> None:
    quick = [name for name in all_jobs(random_jobs=24) if name != SLOW]
    assert list(changes({name: digests(name) for name in quick}, kept())) == []


@pytest.mark.long
def test_all_of_the_record_is_as_it_was() -> None:
    assert list(changes(compared(), kept())) == []
