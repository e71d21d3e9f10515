"""Strips laid along the roll: lanes side by side, against the exact model and against their own cloth."""

from __future__ import annotations

from fractions import Fraction
from random import Random
from typing import Any

import pytest
from msgspec.structs import replace

from tests.trade.cutting.geometry import faults
from tests.trade.cutting.jobs import ROLL, Sample, best, cutting, in_lanes, quarter, rules_of, sample, strips_of
from tests.trade.cutting.model import compare_lanes, lanes, score_of
from tests.trade.sample_jobs import inches, section, small, surveyed, with_face
from wizard.trade.cutting import Cutting, Refusal, Stretch, lay_out
from wizard.trade.job_fields import Fullness, Owned
from wizard.trade.lengths import ZERO, Length
from wizard.trade.make_plan import make_plan


@pytest.mark.parametrize(
    ("sizes", "used", "joins"),
    [
        # As many lanes as the width holds take strips without joins; those of unequal depth lie side by side.
        (((100, 13), (100, 13), (100, 13), (100, 13)), "100", 0),
        (((100, 20), (100, 14), (50, 20), (50, 20)), "100", 0),
        # A strip is joined where that makes the roll shorter.
        (((100, 20), (50, 20)), "75 1/2", 1),
    ],
)
def test_strips_lie_in_lanes_side_by_side(sizes: tuple[tuple[int, int], ...], used: str, joins: int) -> None:
    plan = best(strips_of(*sizes), rules_of(along=True))
    assert (plan.way, plan.used, plan.joins) == ("along", inches(used), joins)
    assert len(sizes) != 4 or plan.uses[0].rows >= 3
    fewest = cutting(strips_of(*sizes), rules_of(along=True, step=Length(200))).fewest_joins()
    assert (fewest and fewest.joins) == (0 if joins else None)


@pytest.mark.parametrize(
    ("sizes", "stretch", "refusal"),
    [
        (((100, 60),), ROLL, Refusal("usable too narrow", "a", Length(60), Length(54))),
        # 2,000 square inches on 54 in take 37 1/27 in, so 37 1/16 on the ruler.
        (((100, 10), (50, 20)), Stretch("own", Length(30), ROLL.usable, True),
         Refusal("no cloth", None, inches("37 1/16"), Length(30))),
    ],
)  # fmt: skip
def test_what_lanes_cannot_be_cut_from_is_held_against_the_least_they_take(
    sizes: tuple[tuple[int, int], ...], stretch: Stretch, refusal: Refusal
) -> None:
    assert lay_out(strips_of(*sizes), [stretch], rules_of(along=True)) == refusal


def test_lanes_equal_the_exact_model() -> None:
    jobs = [sample(Random(seed), 3, 2) for seed in range(30)]
    assert [(job, said) for job in jobs if (said := compare_lanes(job)) not in ("equal", "not solved")] == []


@pytest.mark.parametrize("count", range(1, 13))
def test_any_number_of_sections_lies_along_a_roll_without_end(count: int) -> None:
    for deep, cuts in ((False, (8, 16)), (True, (24, 40))):
        random = Random(f"{count} {deep}")
        strips = strips_of(*((random.randint(30, 200), random.randint(*cuts)) for _ in range(count)))
        assert isinstance(lay_out(strips, [ROLL], rules_of(along=True)), Cutting)


# Strips in lanes that are shared out over several lengths in hand, and over what lies before and after damage.
ALONG = rules_of(along=True, squaring=ZERO)


def owned(name: str, length: int, usable: int, **more: object) -> Stretch:
    """A length in hand."""
    return Stretch(name, inches(length), inches(usable), **more)  # type: ignore[arg-type]


TWO = [owned("a", 59, 44), owned("b", 59, 44)]
"""Two lanes of 19 in each."""
WIDE_ROLL = Stretch("roll", None, inches(44))


THREE = [owned(name, 59, 23) for name in "abc"]
LOTS = [replace(TWO[0], lot="1"), replace(TWO[1], lot="2")]
DAMAGED = owned("chest", 80, 44, damage=((Length(25), Length(27)),))
CLEAR: dict[str, Any] = {"no_join": ((Length(50), Length(62)), (Length(100), Length(110)))}


@pytest.mark.parametrize(
    ("flats", "stock", "lanes", "used", "bought", "joins", "proven"),
    [
        # One strip fills the lanes of two lengths to the last mark, and goes from length to length of one lane each.
        ([(233, 19)], TWO, {"a": 2, "b": 2}, "118", "0", 3, True),
        ([(202, 19)], [*TWO, WIDE_ROLL], {"a": 2, "b": 2}, "102 1/2", "0", 3, True),
        ([(162, 19)], [*THREE, Stretch("roll", None, inches(23))], {"a": 1, "b": 1, "c": 1}, "164", "0", 2, True),
        # What the lengths in hand do not give is bought and no more.
        ([(253, 19)], [*TWO, WIDE_ROLL], {"a": 2, "b": 2, "roll": 2}, "129", "11", 5, True),
        # A strip lies before and after damage, but what is shorter than the least piece is left.
        ([(105, 19)], [DAMAGED], {"chest": 4}, "56", "0", 3, True),
        ([(105, 19)], [replace(DAMAGED, damage=((Length(2), Length(27)),))], {"chest": 2}, "80", "0", 1, False),
        # It is cut from one dye lot, though less would be bought of both, and from two only where it has to be.
        ([(202, 19)], [*LOTS, WIDE_ROLL], {"roll": 2}, "101 1/2", "101 1/2", 1, False),
        ([(202, 19)], LOTS, {"a": 2, "b": 2}, "102 1/2", "0", 3, True),
        # A roll too narrow for the deepest strip takes the others.
        ([(50, 40), (90, 19)], [TWO[0], Stretch("roll", None, inches(20))], {"a": 1, "roll": 1}, "141", "82", 1, False),
    ],
)
def test_lanes_are_shared_out_over_the_lengths_there_are(
    flats: list[tuple[int, int]], stock: list[Stretch], lanes: dict[str, int], used: str, bought: str, joins: int,
    proven: bool,
) -> None:  # fmt: skip
    plan = best(strips_of(*flats), ALONG, stock)
    assert ({use.stretch: use.rows for use in plan.uses}, plan.used, plan.roll, plan.joins) == (
        lanes,
        inches(used),
        inches(bought),
        joins,
    )
    assert plan.proof.least or not proven
    assert plan.proof.among.endswith("each section from one dye lot") == (stock == [*LOTS, WIDE_ROLL])
    assert faults(plan, strips_of(*flats), stock, ALONG) == []


def test_a_mark_more_than_the_lanes_hold_is_refused_and_joins_keep_the_least_piece_and_the_spans() -> None:
    assert isinstance(lay_out(strips_of((Fraction(3729, 16), 19)), TWO, ALONG), Refusal)
    assert best(strips_of((233, 19)), ALONG, TWO).proof.fewest_joins
    plan = best(strips_of((60, 19)), rules_of(along=True, squaring=ZERO, least_piece=Length(20)), [owned("a", 45, 44)])
    assert min(piece.width for piece in plan.pieces) >= Length(20)
    strip = replace(strips_of((202, 19))[0], **CLEAR)
    assert faults(best([strip], ALONG, TWO), [strip], TWO, ALONG) == []


OF_ALL = Fullness(aim="all the cloth I own")


def fullness(cloth: str, lengths: int, run: int, **damage: Any) -> Fraction | None:
    """The greatest in hand of one side with 17 1/2 in drop, in lanes on lengths 60 in long, or 81 in where damaged."""
    length = inches(81 if damage else 60)
    hand = {name: Owned(length=length, **damage) for name in "abc"[:lengths]}
    one = surveyed(small(), section={"left": section(run, "17 1/2")})
    job = with_face(one, width=inches(cloth), wash="already washed", lay="along", owned=hand)
    value: Fraction | None = make_plan(replace(job, fullness=OF_ALL)).figures["fullness"].value
    return value


def test_the_greatest_fullness_in_hand_fills_all_lanes_of_all_lengths_before_damage_too() -> None:
    assert fullness("45", 2, 80) == Fraction(4 * 59 - 3 - 2, 80)
    assert fullness("24", 3, 80) == Fraction(3 * 59 - 2 - 2, 80)
    damaged = fullness("45", 1, 60, damage_from=Length(26), damage_to=Length(28))
    assert damaged == Fraction(2 * 25 + 2 * 53 - 3 - 2, 60)


def told(job: Sample) -> list[str]:
    """What a plan says of itself that is not so beside the exact model; nothing where all is well."""
    rules = job.rules(along=True, effort=400)
    answer, model = lay_out(job.strips(), job.stretches(), rules), lanes(job, 5)
    if isinstance(answer, Refusal) or model.score is None:
        return [] if not model.solved or isinstance(answer, Refusal) == (model.score is None) else [f"{answer} {model}"]
    proof, found, out = (
        answer.best.proof,
        score_of(answer.best),
        faults(answer.best, job.strips(), job.stretches(), rules),
    )
    untrue = {
        "is less than the model's": found < model.score,
        "is called the least": proof.least and found[:2] != model.score[:2],
        "is said to have the fewest joins": proof.least and proof.fewest_joins and found != model.score,
        "has a bound above the model's": proof.bound > quarter(sum(model.score[:2])),
        "is far from the model's": not proof.least and sum(model.score[:2]) * 12 < sum(found[:2]) * 11,
    }
    return out + [f"{found} {said} {model}" for said, is_so in untrue.items() if is_so]


@pytest.mark.parametrize("seeds", [range(12), pytest.param(range(12, 36), marks=pytest.mark.long)])
def test_nothing_proven_is_beaten_by_the_exact_model(seeds: range) -> None:
    jobs = [(seed, in_lanes(Random(seed))) for seed in seeds]
    assert [(seed, wrong, job) for seed, job in jobs if (wrong := told(job))] == []


def test_a_chest_full_of_scraps_is_planned_or_refused() -> None:
    scraps = [owned(f"s{n}", 7 + n % 5, 44) for n in range(150)]
    for flat in (300, 1500, 4000):
        strips = strips_of((flat, 13), (flat, 14))
        answer = lay_out(strips, scraps, ALONG)
        assert isinstance(answer, Refusal) or faults(answer.best, strips, scraps, ALONG) == []
