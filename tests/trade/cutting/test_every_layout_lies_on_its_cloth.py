"""Random jobs of every kind, checked piece by piece and offcut by offcut."""

from __future__ import annotations

from random import Random

import pytest
from msgspec.structs import replace

from tests.trade.cutting.geometry import faults
from tests.trade.cutting.random_jobs import any_stock, quarter, sample
from wizard.trade.cutting import Policy, Refusal, lay_out


def faults_of(seed: int, policy: Policy) -> list[str]:
    """What is wrong with any layout of one random job."""
    random = Random(seed)
    job = sample(random, 5, 3)
    rules = replace(
        job.rules(),
        squaring=quarter(random.choice([0, 4])),
        policy=policy,
        surplus=random.choice(["trim", "keep"]),
        step=quarter(18),
    )
    stock = any_stock(random, job.usable)
    answer = lay_out(job.strips(), stock, rules)
    if isinstance(answer, Refusal):
        return []
    plans = [answer.best, *answer.others] + ([answer.fewest_joins] if answer.fewest_joins else [])
    return [fault for plan in plans for fault in faults(plan, job.strips(), stock, rules)]


@pytest.mark.parametrize("policy", ["part widths", "half widths", "whole widths"])
def test_pieces_and_offcuts_tile_every_stretch_and_make_every_strip(policy: Policy) -> None:
    assert [(seed, faults_of(seed, policy)) for seed in range(80) if faults_of(seed, policy)] == []


def test_most_random_jobs_can_be_cut_so_that_the_check_means_something() -> None:
    random = Random(1)
    jobs = [sample(random) for _ in range(50)]
    assert all(not isinstance(lay_out(job.strips(), [job.roll()], job.rules()), Refusal) for job in jobs)
