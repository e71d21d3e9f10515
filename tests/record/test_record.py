"""What the program makes of the named jobs and of random ones is what the record says (see plans.py)."""

from __future__ import annotations

import pytest

from tests.record.plans import Record, all_jobs, changes, compared, digests, kept

SLOW = "json-slow-339"
"""Its comparison of ways takes seconds."""
WORDED = ("json", "sheets")
"""Outputs that change with any word."""


@pytest.fixture(scope="module")
def fresh() -> Record:
    """What there is now of the quick jobs."""
    return {name: digests(name) for name in all_jobs(random_jobs=24) if name != SLOW}


def _only(record: Record, worded: bool) -> Record:
    return {name: {key: each[key] for key in each if (key in WORDED) == worded} for name, each in record.items()}


def test_numbers_ids_and_order_are_those_of_the_record_whatever_the_words(fresh: Record) -> None:
    assert list(changes(_only(fresh, worded=False), kept())) == []


def test_words_of_the_named_jobs_are_those_of_the_record(fresh: Record) -> None:
    assert list(changes(_only(fresh, worded=True), kept())) == []


@pytest.mark.long
def test_all_of_the_record_is_as_it_was() -> None:
    assert list(changes(compared(), kept())) == []
