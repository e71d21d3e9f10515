"""Strips laid along the roll: lanes side by side, against the exact model and against their own cloth."""

from __future__ import annotations

from random import Random

from msgspec.structs import replace

from tests.trade.cutting.comparing import compare_lanes
from tests.trade.cutting.geometry import faults
from tests.trade.cutting.jobs import ROLL, best, cutting, rules_of, strips_of
from tests.trade.cutting.random_jobs import any_stock, quarter, sample
from wizard.trade.cutting import Refusal, lay_out
from wizard.trade.lengths import Length


def test_as_many_lanes_as_the_width_holds_take_strips_without_joins() -> None:
    plan = best(strips_of((100, 13), (100, 13), (100, 13), (100, 13)), rules_of(along=True))
    assert (plan.way, plan.used, plan.joins, plan.uses[0].rows) == ("along", Length(100), 0, 4)
    assert plan.proof.least


def test_lanes_of_unequal_depth_lie_side_by_side() -> None:
    plan = best(strips_of((100, 20), (100, 14), (50, 20), (50, 20)), rules_of(along=True))
    assert (plan.used, plan.joins) == (Length(100), 0)


def test_a_strip_is_joined_where_that_makes_the_roll_shorter() -> None:
    plan = best(strips_of((100, 20), (50, 20)), rules_of(along=True))
    assert (plan.used, plan.joins) == (Length(151) / 2, 1)


def test_the_plan_of_fewest_joins_buys_the_same() -> None:
    plan = cutting(strips_of((100, 20), (50, 20)), rules_of(along=True, step=Length(200)), [ROLL])
    assert plan.fewest_joins is not None
    assert (plan.fewest_joins.joins, plan.fewest_joins.buy) == (0, plan.best.buy)


def test_a_strip_deeper_than_the_cloth_is_wide_is_refused() -> None:
    answer = lay_out(strips_of((100, 60)), [ROLL], rules_of(along=True))
    assert answer == Refusal("usable too narrow", "a", Length(60), Length(54))


def test_lanes_equal_the_exact_model() -> None:
    jobs = [sample(Random(seed), 3, 2) for seed in range(30)]
    assert [(job, said) for job in jobs if (said := compare_lanes(job)) not in ("equal", "not solved")] == []


def test_lanes_lie_on_their_cloth_whatever_it_is() -> None:
    wrong = []
    for seed in range(40):
        random = Random(seed)
        job = sample(random, 3, 2)
        rules = replace(job.rules(), along=True, squaring=quarter(4), step=quarter(18), effort=2000)
        stock = any_stock(random, job.usable)
        answer = lay_out(job.strips(), stock, rules)
        if not isinstance(answer, Refusal):
            plans = [answer.best] + ([answer.fewest_joins] if answer.fewest_joins else [])
            found = [fault for plan in plans for fault in faults(plan, job.strips(), stock, rules)]
            wrong += [(seed, found)] if found else []
    assert wrong == []


def test_any_number_of_sections_lies_along_a_roll_without_end() -> None:
    refused = []
    for count in range(1, 13):
        for deep in (False, True):
            random = Random(f"{count} {deep}")
            cuts = (24, 40) if deep else (8, 16)
            strips = strips_of(*((random.randint(30, 200), random.randint(*cuts)) for _ in range(count)))
            answer = lay_out(strips, [ROLL], rules_of(along=True))
            if isinstance(answer, Refusal):
                refused.append((count, deep, answer))
    assert refused == []
