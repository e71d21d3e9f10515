"""Small random jobs against the mixed-integer model: cloth and joins equal, and nothing proven that it beats."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
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
from tests.trade.cutting.jobs import best, cutting, rules_of, strips_of
from tests.trade.cutting.random_jobs import Owned, of_many_joins, owned, sample
from tests.trade.sample_jobs import inches
from wizard.trade.cutting import Policy
from wizard.trade.cutting.grid_units import Demand, demand_of
from wizard.trade.cutting.pareto_partition import Cloth
from wizard.trade.cutting.partition import PartitionSearch
from wizard.trade.lengths import Length


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


# The planted cases, where the obvious bound is not reachable or where scraps decide.
def hand_bed() -> list[tuple[Fraction, str]]:
    """Runs 76 5/8, 76 1/2 and 58 in, a 1 in return at one end of each side, fullness 2.5, end hems 1 in."""
    gathered = (Fraction("77.625"), Fraction("77.5"), Fraction(58))
    return [(g * Fraction(5, 2) + 2, cut) for g, cut in zip(gathered, ("13.375", "13.5", "10.5"), strict=True)]


def test_the_bed_worked_by_hand_takes_eleven_widths_eight_joins_and_139_inches() -> None:
    plan = best(strips_of(*hand_bed()), rules_of())
    assert (plan.used, plan.joins, plan.uses[0].rows) == (Length(139), 8, 11)
    assert plan.proof.least
    assert plan.proof.fewest_joins
    assert plan.proof.bound == Length(139)


def test_the_bed_worked_by_hand_shares_no_width_between_sections() -> None:
    plan = best(strips_of(*hand_bed()), rules_of())
    assert len({(piece.stretch, piece.row) for piece in plan.pieces}) == len(plan.pieces) == 11


def test_squaring_is_taken_once_and_the_roll_goes_up_to_the_shop_step() -> None:
    plan = best(strips_of(*hand_bed()), rules_of())
    assert (plan.roll, plan.buy) == (Length(140), Length(144))


def test_washed_cloth_is_bought_by_dividing_by_what_is_kept() -> None:
    plan = best(strips_of(*hand_bed()), rules_of(keeps=Fraction(97, 100), squaring=Length(1)))
    assert plan.roll == Length(1 + Fraction(13900, 97))


def test_a_layered_bound_of_26_that_cannot_be_reached_gives_28_proven_least() -> None:
    plan = best(strips_of((20, 14), (20, 14), (34, 12), (34, 12)), rules_of())
    assert (plan.used, plan.joins) == (Length(28), 0)
    assert (plan.proof.least, plan.proof.bound) == (True, Length(28))


def ways(*sizes: tuple[int, int]) -> dict[str, Length]:
    """The cloth of every layout shown, by its way."""
    answer = cutting(strips_of(*sizes), rules_of())
    return {plan.way: plan.used for plan in (answer.best, *answer.others)}


def test_53_at_18_with_79_at_12_takes_36_when_the_roll_is_slit() -> None:
    assert ways((53, 18), (79, 12))["slit"] == Length(36)


def test_30_at_16_with_40_at_8_takes_16_when_the_short_pieces_are_stacked() -> None:
    assert ways((30, 16), (40, 8))["stacked"] == Length(16)


def test_no_other_way_is_shown_when_all_cut_lengths_are_equal() -> None:
    assert list(ways((53, 12), (79, 12))) == ["cross-cut"]


def test_53_at_18_with_79_at_12_takes_42_by_cross_cuts() -> None:
    plan = best(strips_of((53, 18), (79, 12)), rules_of())
    assert (plan.used, plan.proof.least) == (Length(42), True)


def test_30_at_16_with_40_at_8_takes_24_by_cross_cuts() -> None:
    plan = best(strips_of((30, 16), (40, 8)), rules_of())
    assert (plan.used, plan.proof.least) == (Length(24), True)


def tenths(least: str) -> Length:
    """Cloth used by flats of 52.7 and 54.3 in on a ruler of tenths, with this least piece."""
    strips = strips_of((1, 12), (1, 12))
    strips = [replace(strips[0], flat=inches("52.7")), replace(strips[1], flat=inches("54.3"))]
    return best(strips, rules_of(mark=inches("0.1"), least_piece=inches(least))).used


def test_52_7_and_54_3_take_two_widths_only_with_a_scrap_of_1_3_inches() -> None:
    assert (tenths("1.3"), tenths("1.4")) == (Length(24), Length(36))


def test_a_width_shared_twice_is_found_where_the_least_piece_forbids_every_tree() -> None:
    plan = best(strips_of((56, 12), (44, 12)), rules_of(least_piece=Length(20)))
    assert (plan.used, plan.joins, plan.proof.least, plan.proof.fewest_joins) == (Length(24), 2, True, True)


def test_the_plan_of_fewest_joins_buys_the_same_in_shop_steps() -> None:
    plan = cutting(strips_of((86, 12), (86, 12), (86, 12)), rules_of(step=Length(100)))
    assert plan.fewest_joins is not None
    assert (plan.best.used, plan.best.joins) == (Length(60), 4)
    assert (plan.fewest_joins.used, plan.fewest_joins.joins) == (Length(72), 3)
    assert plan.fewest_joins.buy == plan.best.buy == Length(100)


def test_no_plan_of_fewest_joins_is_offered_when_it_would_buy_more() -> None:
    assert cutting(strips_of((86, 12), (86, 12), (86, 12)), rules_of(step=Length(1))).fewest_joins is None


# Two strips that meet their floor are planned without a search: as the search would plan them.
class Searching(PartitionSearch):
    """Searches every pair."""

    def pair(self, mask: int, members: Sequence[int]) -> bool:
        return False


def demands_from(random: Random, least: int, join: int) -> list[Demand]:
    """Strips that can all be cut from cloth of 216 ticks, the longest first."""
    demands = [
        demand_of(random.randint(40, 700), random.choice([50, 60, 75]), least, join)
        for _ in range(random.randint(2, 6))
    ]
    return sorted(demands, key=lambda demand: -demand.cut)


@pytest.mark.parametrize("effort", [1, 2, 3, 7, 60, 400])
def test_a_pair_that_meets_its_floor_is_planned_as_the_search_would_plan_it_and_takes_as_much_effort(
    effort: int,
) -> None:
    quick = 0
    for seed in range(150):
        random = Random(seed)
        join = random.choice([0, 4, 6])
        demands, cloth = demands_from(random, random.choice([join + 4, 24, 90]), join), Cloth(216, join)
        ours, searched = PartitionSearch(demands, cloth, effort), Searching(demands, cloth, effort)
        assert ours.least() == searched.least()
        assert ours.left == searched.left
        quick += len([mask for mask in ours.shapes if mask.bit_count() == 2 and mask not in ours.groups])
    assert (quick > 0) == (effort > 1)
