"""Random jobs of every kind, checked piece by piece and offcut by offcut."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.trade.cutting.geometry import faults
from tests.trade.cutting.jobs import best, rules_of, strips_of
from tests.trade.cutting.random_jobs import any_stock, quarter, sample
from wizard.trade.cutting import Cutting, Policy, Refusal, Repeat, Rules, Stretch, Strip, lay_out
from wizard.trade.lengths import Length


def faults_of(seed: int, policy: Policy) -> list[str]:
    """What is wrong with any layout of one random job."""
    random = Random(seed)
    job = sample(random, 5, 3)
    squaring, surplus = quarter(random.choice([0, 4])), random.choice(["trim", "keep"])
    rules = job.rules(squaring=squaring, policy=policy, surplus=surplus, step=quarter(18))
    stock = any_stock(random, job.usable)
    answer = lay_out(job.strips(), stock, rules)
    if isinstance(answer, Refusal):
        return []
    plans = [answer.best, *answer.others] + ([answer.fewest_joins] if answer.fewest_joins else [])
    return [fault for plan in plans for fault in faults(plan, job.strips(), stock, rules)]


@pytest.mark.parametrize("policy", ["part widths", "half widths", "whole widths"])
def test_pieces_and_offcuts_tile_every_stretch_and_make_every_strip(policy: Policy) -> None:
    assert [(seed, found) for seed in range(80) if (found := faults_of(seed, policy))] == []
    # Random jobs can be cut from a roll, so that the check means something.
    random = Random(1)
    jobs = [sample(random) for _ in range(50)]
    assert all(not isinstance(lay_out(job.strips(), [job.roll()], job.rules()), Refusal) for job in jobs)


# What holds of every plan: more flat or a longer cut never needs less cloth, and nothing raises.
SIZES = st.lists(st.tuples(st.integers(20, 160), st.sampled_from([10, 12, 13, 18])), min_size=1, max_size=4)
ANY = st.builds(Length, st.fractions(-5, 120, max_denominator=16))


@settings(deadline=None, max_examples=25)
@given(SIZES, st.integers(0, 3), st.integers(1, 30), st.integers(0, 6))
def test_a_larger_flat_or_a_longer_cut_never_needs_less_cloth(
    sizes: list[tuple[int, int]], which: int, wider: int, longer: int
) -> None:
    which %= len(sizes)
    flat, cut = sizes[which]
    more = [*sizes[:which], (flat + wider, cut + longer), *sizes[which + 1 :]]
    rules = rules_of(least_piece=Length(3), effort=50_000)
    assert best(strips_of(*more), rules).used >= best(strips_of(*sizes), rules).used


@settings(deadline=None, max_examples=25)
@given(SIZES)
def test_nothing_goes_under_the_bound_or_the_area(sizes: list[tuple[int, int]]) -> None:
    plan = best(strips_of(*sizes), rules_of())
    assert plan == best(strips_of(*sizes), rules_of()), "the same job gives the same plan"
    assert plan.used >= plan.proof.bound
    assert plan.proof.bound >= plan.area_bound
    assert plan.proof.least == (plan.used == plan.proof.bound)


PAIRS = st.lists(st.tuples(ANY, ANY), max_size=2).map(tuple)
STRIP = st.builds(Strip, st.sampled_from("abcd"), st.just("s"), st.just("face"), ANY, ANY, PAIRS)
STRETCH = st.builds(Stretch, st.sampled_from("rs"), st.none() | ANY, ANY, st.booleans(), PAIRS)
RULES = st.builds(
    Rules,
    join_cost=ANY,
    least_piece=ANY,
    mark=st.sampled_from([Length(1), Length(Fraction(1, 16)), Length(0)]),
    squaring=ANY,
    policy=st.sampled_from(["part widths", "half widths", "whole widths"]),
    surplus=st.sampled_from(["trim", "keep"]),
    repeat=st.none() | st.builds(Repeat, ANY, st.sampled_from(["straight", "half-drop"])),
    step=st.none() | ANY,
    keeps=st.fractions(0, 1, max_denominator=10),
    along=st.booleans(),
    effort=st.integers(0, 200),
)


@settings(deadline=None, max_examples=120)
@given(st.lists(STRIP, max_size=3), st.lists(STRETCH, max_size=3), RULES)
def test_whatever_is_asked_there_is_a_plan_or_a_refusal(
    strips: list[Strip], stock: list[Stretch], rules: Rules
) -> None:
    assert isinstance(lay_out(strips, stock, rules), Cutting | Refusal)
