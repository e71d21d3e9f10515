"""Small random jobs against the mixed-integer model: cloth and joins equal, and nothing proven that it beats."""

from __future__ import annotations

from random import Random

import pytest
from msgspec.structs import replace

from tests.trade.cutting.comparing import (
    compare_fewest,
    compare_fewest_owned,
    compare_owned,
    compare_policy,
    compare_roll,
)
from tests.trade.cutting.random_jobs import Owned, Sample, owned, sample
from wizard.trade.cutting import Policy


def test_cloth_and_joins_of_part_widths_equal_the_exact_model() -> None:
    jobs = [sample(Random(seed), 4, 3) for seed in range(80)]
    assert [(job, said) for job in jobs if (said := compare_roll(job)) not in ("equal", "not solved")] == []


@pytest.mark.parametrize("damaged", [False, True])
def test_cloth_bought_cloth_used_and_joins_on_owned_lengths_equal_the_exact_model(damaged: bool) -> None:
    jobs = [owned(Random(seed), damaged) for seed in range(25)]
    assert [(job, said) for job in jobs if (said := compare_owned(job)) not in ("equal", "not solved")] == []


@pytest.mark.parametrize("policy", ["half widths", "whole widths"])
def test_half_and_whole_widths_equal_the_exact_model_and_every_pairing_tried(policy: Policy) -> None:
    jobs = [sample(Random(seed)) for seed in range(40)]
    assert [(job, said) for job in jobs if (said := compare_policy(job, policy)) not in ("equal", "not solved")] == []


def of_many_joins(random: Random) -> Sample:
    """Three strips of a little over a width and a half: sharing widths saves cloth and takes another join."""
    job = sample(random, 1)
    flats = [job.usable * random.randint(150, 168) // 100 for _ in range(3)]
    return replace(job, least=job.join + 4, sizes=tuple((flat, random.choice([40, 50])) for flat in flats))


def test_the_fewest_joins_that_buy_the_same_length_equal_the_exact_model() -> None:
    said = [compare_fewest(of_many_joins(Random(seed)), 150, 3) for seed in range(8)]
    assert set(said) <= {"equal", "none", "not solved"}, said
    assert said.count("equal") > 1


def of_many_joins_in_hand(random: Random) -> Owned:
    """The same with a length in hand that gives some of the widths."""
    job = of_many_joins(random)
    return Owned(job, (random.randint(110, 300),), (None,), random.random() < 0.7)


@pytest.mark.long
def test_the_fewest_joins_on_cloth_in_hand_and_what_is_bought_equal_the_exact_model() -> None:
    said = [compare_fewest_owned(of_many_joins_in_hand(Random(seed)), 150, 3) for seed in range(20)]
    assert set(said) <= {"equal", "none", "not solved"}, said
    assert said.count("equal") > 3
