"""Strips laid along the roll: lanes side by side, against the exact model and against their own cloth."""

from __future__ import annotations

from fractions import Fraction
from random import Random
from typing import Any

import pytest
from msgspec.structs import replace

from tests.trade.cutting.comparing import compare_lanes
from tests.trade.cutting.geometry import faults
from tests.trade.cutting.jobs import ROLL, best, cutting, rules_of, strips_of
from tests.trade.cutting.lanes_on_runs import Lanes, Runs, runs_job, score_of
from tests.trade.cutting.random_jobs import any_stock, quarter, sample, spanned
from tests.trade.sample_jobs import inches, section, small
from wizard.trade.cutting import Cutting, Layout, Refusal, Stretch, lay_out
from wizard.trade.job_fields import Cloth, Cloths, Fixing, Fullness, Owned, Survey
from wizard.trade.lengths import ZERO, Length
from wizard.trade.make_plan import make_plan


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


def test_cloth_in_hand_that_is_too_short_for_the_lanes_is_held_against_the_least_they_take() -> None:
    # 2,000 square inches on 54 in take 37 1/27 in, so 37 1/16 on the ruler.
    answer = lay_out(
        strips_of((100, 10), (50, 20)), [Stretch("own", Length(30), ROLL.usable, True)], rules_of(along=True)
    )
    assert answer == Refusal("no cloth", None, inches("37 1/16"), Length(30))


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


# Strips in lanes that are shared out over several lengths in hand, and over what lies before and after damage.
ALONG = rules_of(along=True, squaring=ZERO)


def owned(name: str, length: int, usable: int, **more: object) -> Stretch:
    """A length in hand."""
    return Stretch(name, inches(length), inches(usable), **more)  # type: ignore[arg-type]


TWO = [owned("a", 59, 44), owned("b", 59, 44)]
"""Two lanes of 19 in each."""
WIDE_ROLL = Stretch("roll", None, inches(44))


def lanes_on(plan: Layout) -> dict[str, int]:
    """How many lanes each stretch gives."""
    return {use.stretch: use.rows for use in plan.uses}


def test_one_strip_fills_the_lanes_of_two_lengths_to_the_last_mark() -> None:
    plan = best(strips_of((4 * 59 - 3, 19)), ALONG, TWO)
    assert (lanes_on(plan), plan.used, plan.joins) == ({"a": 2, "b": 2}, Length(118), 3)
    assert (plan.proof.least, plan.proof.fewest_joins) == (True, True)
    assert isinstance(lay_out(strips_of((Fraction(3729, 16), 19)), TWO, ALONG), Refusal)


def test_nothing_is_bought_where_two_lengths_give_a_strip_together() -> None:
    plan = best(strips_of((202, 19)), ALONG, [*TWO, WIDE_ROLL])
    assert (plan.roll, plan.used, plan.joins) == (ZERO, inches(Fraction(205, 2)), 3)
    assert plan.proof.least


def test_a_strip_goes_from_length_to_length_where_each_gives_one_lane() -> None:
    three = [owned(name, 59, 23) for name in "abc"]
    plan = best(strips_of((162, 19)), ALONG, [*three, Stretch("roll", None, inches(23))])
    assert (lanes_on(plan), plan.roll, plan.joins) == ({"a": 1, "b": 1, "c": 1}, ZERO, 2)
    assert plan.proof.least


def test_what_the_lengths_in_hand_do_not_give_is_bought_and_no_more() -> None:
    plan = best(strips_of((253, 19)), ALONG, [*TWO, WIDE_ROLL])
    assert (plan.roll, plan.uses[-1].rows, plan.joins) == (inches(11), 2, 5)
    assert plan.proof.least


def test_a_strip_lies_before_and_after_damage() -> None:
    chest = owned("chest", 80, 44, damage=((Length(25), Length(27)),))
    plan = best(strips_of((105, 19)), ALONG, [chest])
    assert (plan.used, plan.joins, plan.proof.least) == (Length(56), 3, True)
    assert {piece.start for piece in plan.pieces} == {ZERO, Length(27)}


def test_cloth_before_damage_that_is_shorter_than_the_least_piece_is_left() -> None:
    chest = owned("chest", 80, 44, damage=((Length(2), Length(27)),))
    plan = best(strips_of((105, 19)), ALONG, [chest])
    assert (plan.used, lanes_on(plan)) == (Length(80), {"chest": 2})


def test_a_strip_is_cut_from_one_dye_lot_though_less_would_be_bought_of_both() -> None:
    lots = [replace(TWO[0], lot="1"), replace(TWO[1], lot="2"), WIDE_ROLL]
    plan = best(strips_of((202, 19)), ALONG, lots)
    assert lanes_on(plan) == {"roll": 2}
    assert plan.proof.among.endswith("each section from one dye lot")


def test_a_strip_is_cut_from_two_dye_lots_only_where_there_is_no_other_way() -> None:
    lots = [replace(TWO[0], lot="1"), replace(TWO[1], lot="2")]
    assert lanes_on(best(strips_of((202, 19)), ALONG, lots)) == {"a": 2, "b": 2}


def test_a_roll_too_narrow_for_the_deepest_strip_takes_the_others() -> None:
    narrow = Stretch("roll", None, inches(20))
    plan = best(strips_of((50, 40), (90, 19)), ALONG, [TWO[0], narrow])
    assert (lanes_on(plan), plan.roll) == ({"a": 1, "roll": 1}, inches(82))


def test_no_piece_is_left_under_the_least_piece_where_a_strip_is_joined() -> None:
    plan = best(strips_of((60, 19)), rules_of(along=True, squaring=ZERO, least_piece=Length(20)), [owned("a", 45, 44)])
    assert min(piece.width for piece in plan.pieces) >= Length(20)


def test_a_join_falls_in_no_span_that_is_to_be_kept_clear() -> None:
    strip = replace(strips_of((202, 19))[0], no_join=((Length(50), Length(62)), (Length(100), Length(110))))
    plan = best([strip], ALONG, TWO)
    assert faults(plan, [strip], TWO, ALONG) == []


def fullness(cloth: str, lengths: int, run: int, **damage: Any) -> Fraction | None:
    """The greatest in hand of one side with 17 1/2 in drop, in lanes on lengths 60 in long, or 81 in where damaged."""
    length = inches(81 if damage else 60)
    hand = {name: Owned(length=length, **damage) for name in "abc"[:lengths]}
    face = Cloth(width=inches(cloth), weight="medium", wash="already washed", lay="along", owned=hand)
    survey = Survey(
        rail="solid wood", rail_thickness=inches(1), floor="carpet", floor_gap=ZERO,
        section={"left": section(run, Fraction(35, 2))},  # type: ignore[arg-type]
    )  # fmt: skip
    cloths = Cloths(face=face, fixing=Fixing(kind="staples"))
    job = small(survey=survey, cloth=cloths, fullness=Fullness(aim="all the cloth I own"))
    value: Fraction | None = make_plan(job).figures["fullness"].value
    return value


def test_the_greatest_fullness_in_hand_fills_two_lanes_of_two_lengths() -> None:
    assert fullness("45", 2, 80) == Fraction(4 * 59 - 3 - 2, 80)


def test_the_greatest_fullness_in_hand_goes_on_over_three_lengths_of_one_lane() -> None:
    assert fullness("24", 3, 80) == Fraction(3 * 59 - 2 - 2, 80)


def test_the_greatest_fullness_in_hand_takes_what_lies_before_damage_too() -> None:
    found = fullness("45", 1, 60, damage_from=Length(26), damage_to=Length(28))
    assert found == Fraction(2 * 25 + 2 * 53 - 3 - 2, 60)


def told(job: Runs) -> str:
    """What is wrong with the plan of a job beside the exact model; nothing where all is well."""
    answer = lay_out(job.strips(), job.stretches(), job.rules())
    said, model = Lanes(job).score(5)
    if said != "solved" or isinstance(answer, Refusal):
        return (
            "" if isinstance(answer, Refusal) == (said == "impossible") or said == "not solved" else f"{answer} {model}"
        )
    return " ".join([*faults(answer.best, job.strips(), job.stretches(), job.rules()), *untrue(answer, model)])


def untrue(answer: Cutting, model: tuple[int, ...]) -> list[str]:
    """What a plan says of itself that is not so."""
    proof, found, out = answer.best.proof, score_of(answer), []
    if found < model:
        out.append(f"{found} is less than the model's {model}")
    if proof.least and found[:2] != model[:2]:
        out.append(f"{found} is called the least, but the model has {model}")
    if proof.least and proof.fewest_joins and found != model:
        out.append(f"{found} is said to have the fewest joins, but the model has {model}")
    if proof.bound > quarter(model[0] + model[1]):
        out.append(f"the bound is {proof.bound}, but the model has {model}")
    if not proof.least and sum(model[:2]) * 12 < sum(found[:2]) * 11:
        out.append(f"{found} is far from the model's {model}")
    return out


@pytest.mark.parametrize("seeds", [range(12), pytest.param(range(12, 36), marks=pytest.mark.long)])
def test_nothing_proven_is_beaten_by_the_exact_model(seeds: range) -> None:
    jobs = [(seed, runs_job(Random(seed))) for seed in seeds]
    assert [(seed, wrong, job) for seed, job in jobs if (wrong := told(job))] == []


def test_a_chest_full_of_scraps_is_planned_or_refused() -> None:
    scraps = [owned(f"s{n}", 7 + n % 5, 44) for n in range(150)]
    for flat in (300, 1500, 4000):
        strips = strips_of((flat, 13), (flat, 14))
        answer = lay_out(strips, scraps, ALONG)
        assert isinstance(answer, Refusal) or faults(answer.best, strips, scraps, ALONG) == []


def test_shared_lanes_lie_on_their_cloth_whatever_it_is() -> None:
    wrong, shared = [], 0
    for seed in range(80):
        random = Random(f"shared {seed}")
        job = spanned(random)
        rules = replace(job.job.rules(), along=True, squaring=quarter(4), step=quarter(18), effort=400)
        stock = any_stock(random, job.job.usable)
        answer = lay_out(job.strips(), stock, rules)
        if isinstance(answer, Cutting):
            wrong += [(seed, found)] if (found := faults(answer.best, job.strips(), stock, rules)) else []
            shared += len({(piece.strip, piece.stretch) for piece in answer.best.pieces}) > len(job.strips())
    assert wrong == []
    assert shared > 5
