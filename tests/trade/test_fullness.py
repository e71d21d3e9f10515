"""Fullness: as full as the owned cloth allows, and what each length of roll gives."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.outside.jobs import cloth, plain_job, planned, straight
from tests.trade.finding_texts import assert_says
from tests.trade.sample_jobs import inches, section, small, with_face
from wizard.trade.formatting import SIXTEENTHS
from wizard.trade.fullness_offers import (
    Find,
    find_words,
    finds,
    finds_in_words,
    in_hand_lines,
    in_hand_of,
    present,
    without_buying,
)
from wizard.trade.fullness_steps import FullnessStep, Grows, Ladder, greatest
from wizard.trade.job_fields import Cloth, Fullness, Job, Joins, Owned
from wizard.trade.lengths import ZERO, Length
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Plan
from wizard.trade.stock import price_for


def sixteenths(count: int) -> Length:
    return Length(Fraction(count, 16))


@settings(max_examples=60, deadline=None)
@given(
    gathers=st.lists(st.integers(3, 40), min_size=1, max_size=3),
    stays=st.integers(-8, 20),
    limit=st.integers(1, 400),
)
def test_the_greatest_fullness_found_is_the_greatest_there_is(gathers: list[int], stays: int, limit: int) -> None:
    mark = Length(Fraction(1, 4))
    widths = [Grows(sixteenths(each * 5), sixteenths(stays)) for each in gathers]

    def fits(fullness: Fraction) -> bool:
        return sum(each.at(fullness, mark).inches for each in widths) <= limit

    found = greatest(Ladder(widths, mark), Fraction(1), Fraction(4), fits)
    if found is None:
        assert not fits(Fraction(1))
        return
    assert fits(found)
    # just above it some cut width is a mark wider: there it fits no more, or the limit of the search is passed
    assert found >= 4 or not fits(found + Fraction(1, 10**6))


def test_nothing_matters_between_two_rungs() -> None:
    ladder = Ladder([Grows(inches(76), inches(2)), Grows(inches(58), inches(2))], inches("1/16"))
    rung = ladder.up(Fraction(2))
    above = ladder.over(rung)
    assert rung < above
    assert ladder.up((rung + above) / 2) == above
    assert ladder.under(above) == rung


def steps_of(plan: Plan) -> tuple[FullnessStep, ...]:
    """The fullness steps, the shortest roll first."""
    return tuple(sorted(plan.basis.nearest_steps(), key=lambda each: each.roll))


@settings(max_examples=60, deadline=None)
@given(
    gathers=st.lists(st.integers(3, 40), min_size=2, max_size=4),
    stays=st.lists(st.integers(-8, 20), min_size=4, max_size=4),
    rooms=st.lists(st.integers(1, 60), min_size=2, max_size=2),
)
def test_the_rung_that_fits_groups_of_widths_is_the_greatest_that_does(
    gathers: list[int], stays: list[int], rooms: list[int]
) -> None:
    mark = Length(Fraction(1, 4))
    widths = [Grows(sixteenths(each * 5), sixteenths(stay)) for each, stay in zip(gathers, stays, strict=False)]
    ladder, groups = Ladder(widths, mark), [([0], rooms[0]), ([*range(1, len(widths))], rooms[1])]

    def fits(fullness: Fraction) -> bool:
        return all(sum(widths[n].at(fullness, mark) / mark for n in group) <= room for group, room in groups)

    # One rung after the other, for as long as all fit.
    rung, greatest_found = ladder.up(Fraction(1)), Fraction(1)
    while fits(rung):
        rung, greatest_found = ladder.over(rung), rung
    assert ladder.fitting(groups, Fraction(1)) == greatest_found


def climbing(**more: object) -> Job:
    return with_face(small(), **more)


def test_each_fullness_step_buys_its_roll_and_a_little_more_fullness_buys_more() -> None:
    job = climbing()
    plan = make_plan(job)
    assert len(steps_of(plan)) > 3
    for step in steps_of(plan):
        at = make_plan(replace(job, fullness=Fullness(want=step.fullness)))
        assert at.layers[0].buy.value == step.roll
        if step.fullness < 3:
            over = make_plan(replace(job, fullness=Fullness(want=step.fullness + Fraction(1, 10**6))))
            assert over.layers[0].buy.value is not None
            assert over.layers[0].buy.value > step.roll


def test_fullness_steps_rise_in_roll_in_fullness_and_in_cost() -> None:
    plan = make_plan(climbing(price=Decimal("12.40")))
    steps = steps_of(plan)
    for first, second in pairwise(steps):
        assert first.roll < second.roll
        assert first.fullness < second.fullness
    assert steps[-1].fullness == 3
    assert all(step.cost == price_for(step.roll, Decimal("12.40"), "yd") for step in steps)


def test_all_the_cloth_i_own_without_any_wants_a_length() -> None:
    plan = make_plan(replace(small(), fullness=Fullness(aim="all the cloth I own")))
    assert plan.figures["fullness"].value is None
    assert "cloth.face.owned" in {need.key for need in plan.missing}


def owning(*lengths: str, runs: tuple[int, ...] = (40, 30)) -> Job:
    job = small()
    sections = {side: section(run, 11) for side, run in zip(("left", "foot", "right"), runs, strict=False)}
    job = replace(job, survey=replace(job.survey, section=sections), fullness=Fullness(aim="all the cloth I own"))
    return with_face(job, owned={f"length-{number}": Owned(length=inches(each)) for number, each in enumerate(lengths)})


def test_owned_cloth_is_used_to_the_last_mark_and_nothing_is_bought() -> None:
    plan = make_plan(owning("39 1/2"))
    # 38 1/2 in after squaring give three widths of 12 1/2 in. With one of them shared there are four pieces and two
    # joins: A + A' = 3 x 54 - 2 = 160 in. A = 40 f + 2 and A' = 30 f + 2 stand on sixteenths, so the best is
    # A = 91 1/8 in (f = 713/320) with A' = 68 7/8 in (f = 66 7/8 / 30, a little more); A = 91 3/16 leaves A' too small.
    assert plan.figures["fullness"].value == Fraction(713, 320)
    assert plan.layers[0].cut_widths["left"].value == inches("91 1/8")
    assert plan.layers[0].cut_widths["foot"].value == inches("68 7/8")
    assert plan.layers[0].roll.value == inches(0)
    assert plan.layers[0].buy.value == inches(0)


def test_sections_that_fill_whole_widths_without_a_join_are_as_full_as_that_allows() -> None:
    # 25 in after squaring give two widths of 12 1/2 in, one for each: 26 f + 2 = 54 in, so f = 2.
    plan = make_plan(owning("26", runs=(26, 26)))
    assert plan.figures["fullness"].value == 2
    assert [each.value for each in plan.layers[0].cut_widths.values()] == [inches(54)] * 2


def test_owned_cloth_that_does_not_make_even_a_flat_skirt_stops_the_plan_and_says_so() -> None:
    (finding,) = [each for each in make_plan(owning("14")).findings if each.id == "owned-short"]
    assert finding.level == "stop"
    assert_says(finding, "owned-short")
    kept = owning("14")
    kept = replace(kept, fullness=replace(kept.fullness, surplus="keep"))
    (finding,) = [each for each in make_plan(kept).findings if each.id == "owned-short"]
    assert_says(finding, "owned-short, kept surplus")


def lined(joins: Joins, *, face: str | None, lining: str | None, width: int = 45) -> Job:
    """Face and lining in hand as far as they are given, every surplus kept."""
    job = owning(*([face] if face else []))
    behind = {"length": Owned(length=inches(lining))} if lining else {}
    job = replace(job, cloth=replace(job.cloth, lining=Cloth(use=True, width=inches(width), owned=behind)))
    return replace(job, fullness=replace(job.fullness, joins=joins, surplus="keep"))


@pytest.mark.parametrize("joins", ["half widths", "whole widths"])
@pytest.mark.parametrize(
    ("face", "lining", "width"),
    [("65", "72", 45), (None, "72", 45), (None, "40", 54), ("90", "58", 45), ("65", None, 45)],
)
def test_a_kept_surplus_of_the_face_fits_with_the_layers_behind_it(
    joins: Joins, face: str | None, lining: str | None, width: int
) -> None:
    job = lined(joins, face=face, lining=lining, width=width)
    plan = make_plan(job)
    full = plan.figures["fullness"].value
    assert full is not None
    assert [layer.refused for layer in plan.layers] == [None, None]
    assert plan.fullness_in_hand == full

    def bought(fullness: Fraction) -> bool:
        number = replace(job, fullness=replace(job.fullness, aim="a number", want=fullness))
        held = [layer for layer in make_plan(number).layers if any(each.length for each in layer.stock)]
        return any(layer.buy.value != inches(0) for layer in held)

    assert not bought(full)
    assert bought(full + Fraction(1, 10**6))


def test_a_lining_in_hand_behind_a_kept_surplus_waits_for_the_width_of_the_face() -> None:
    plan = make_plan(with_face(lined("whole widths", face=None, lining="72"), width=None))
    assert plan.figures["fullness"].value is None
    assert "cloth.face.width" in {need.key for need in plan.figures["fullness"].needs}


@settings(max_examples=8, deadline=None)
@given(first=st.integers(30, 60), second=st.integers(14, 60))
def test_a_longer_length_in_hand_never_gives_less_fullness(first: int, second: int) -> None:
    def fullness(*lengths: int) -> Fraction:
        value = make_plan(owning(*(str(each) for each in lengths))).figures["fullness"].value
        return Fraction(0) if value is None else Fraction(value)

    assert fullness(first, second) <= fullness(first + 13, second)


# What the fullness steps offer beside the fullness as it is.
def step(eighths: int, handy: str, cost: str | None = None) -> FullnessStep:
    """A step of so many eighths of a yard."""
    full = Fraction(handy)
    return FullnessStep(Length.of(Fraction(eighths, 8), "yd"), full, 3, None if cost is None else Decimal(cost), full)


STEPS = (step(0, "1.5", "0"), step(16, "2.2", "37.00"), step(17, "2.46", "39.31"), step(18, "2.58", "41.63"))


def words(wanted: str, eighths: int) -> list[str]:
    full = Fraction(wanted)
    return [find_words(each, full, "yd", "$") for each in finds(STEPS, full, Length.of(Fraction(eighths, 8), "yd"))]


def test_the_finds_of_the_trade_are_named_in_words() -> None:
    assert words("2.5", 18) == [
        "2.46 instead of 2.5 saves 1/8 yd ($2.32)",
        "the same cloth gives 2.58",
        "1.5 needs only the cloth you have",
    ]
    assert words("2.4", 17)[-2:] == [
        "2.58 instead of 2.4 takes 1/8 yd ($2.32) more",
        "1.5 needs only the cloth you have",
    ]


def test_what_the_same_cloth_gives_beyond_the_last_step_is_said_to_be_at_least_that() -> None:
    found = finds((step(16, "3", "37.00"),), Fraction(2), Length.of(2, "yd"))
    assert [find_words(each, Fraction(2), "yd") for each in found] == ["the same cloth gives at least 3"]


def test_nothing_is_found_before_the_fullness_and_the_cloth_are_known() -> None:
    assert finds(STEPS, None, ZERO) == finds(STEPS, Fraction(2), None) == ()


def test_more_fullness_for_the_same_cloth_is_offered_from_a_twentieth_on() -> None:
    assert words("2.53", 18)[1] == "the same cloth gives 2.58"
    assert not any("the same cloth" in each for each in words("2.54", 18))


def test_a_find_without_a_price_names_the_cloth_alone() -> None:
    bare = [replace(each, cost=None) for each in STEPS]
    found = finds(bare, Fraction("2.5"), Length.of(Fraction(18, 8), "yd"))[0]
    assert found == Find("saves", bare[2], Length.of(Fraction(1, 8), "yd"), None)
    assert find_words(found, Fraction("2.5"), "yd") == "2.46 instead of 2.5 saves 1/8 yd"


def at(plan: Plan, fullness: Fraction) -> Plan:
    """The same job made to another fullness."""
    return make_plan(replace(plan.job, fullness=Fullness(want=fullness)))


def test_every_handy_fullness_buys_just_its_step_and_every_find_is_true() -> None:
    plan = make_plan(climbing(price=Decimal("12.40")))
    steps = steps_of(plan)
    now = present(plan)
    assert now is not None
    for each in steps:
        made = at(plan, each.handy).layers[0]
        assert each.handy <= each.fullness
        assert made.buy.value is not None
        assert made.buy.value <= each.roll
    for found in finds(steps, now.handy, now.roll):
        bought = at(plan, found.step.handy).layers[0].buy.value
        assert bought is not None
        assert abs(now.roll - bought) == found.length
    assert finds_in_words(plan, steps)


def test_the_steps_come_one_by_one_and_are_laid_out_only_when_asked_for() -> None:
    plan = make_plan(climbing())
    steps = plan.basis.nearest_steps()
    assert {next(steps), next(steps)} <= set(steps_of(plan))


# Cloth in hand: what fits on which length, what is left of it, and how full it makes the skirt without buying.
SECTIONS = {"left": straight("left", "60", "12"), "foot": straight("foot", "40", "12")}
OWNED = {
    "chest": Owned(length=inches(60), lot="A7"),
    "attic": Owned(length=inches(40), width=inches(30), damage_from=inches(10), damage_to=inches(13)),
    "scrap": Owned(length=inches(9)),
}


def job(**owned: Owned) -> Job:
    return plain_job(SECTIONS, fullness="2", cloth=cloth("54", owned=owned))


def test_each_length_says_what_it_is_what_is_cut_from_it_and_what_is_left() -> None:
    plan, face = planned(job(**OWNED))
    names = {part.id: part.name for part in plan.parts}
    chest, attic, scrap = in_hand_lines(plan.job, face, names, SIXTEENTHS)
    assert chest.startswith("Own length “chest”: 60 in long, 54 in of its width can be used, dye lot A7. Pieces cut")
    assert "only 30 in of its width can be used, damaged from 10 in to 13 in" in attic
    assert scrap == "Own length “scrap”: 9 in long, 54 in of its width can be used. Nothing is cut from it."


def test_a_length_that_is_used_to_its_end_leaves_nothing_whole() -> None:
    # Two widths of 12 1/2 in after an inch of squaring.
    plan = make_plan(owning("26", runs=(26, 26)))
    (told,) = in_hand_lines(plan.job, plan.layers[0], {}, SIXTEENTHS)
    assert told.endswith("Pieces cut from it: 1 for left; 1 for foot.")


def test_of_a_length_for_a_washed_skirt_it_is_said_whether_it_was_washed() -> None:
    washed: dict[str, Any] = {"wash": "washed first", "warp_shrink": Fraction(0), "weft_shrink": Fraction(0)}
    lengths = {"old": Owned(length=inches(60), washed=True), "new": Owned(length=inches(60), washed=False)}
    given = plain_job(SECTIONS, fullness="2", cloth=cloth("54", owned=lengths, **washed))
    old, new = in_hand_lines(given, planned(given)[1], {}, SIXTEENTHS)
    assert old.startswith("Own length “old”: 60 in long, washed already, ")
    assert new.startswith("Own length “new”: 60 in long once it is washed, ")


def test_every_piece_that_lies_on_a_length_in_hand_is_counted_there() -> None:
    _, face = planned(job(**OWNED))
    assert face.cutting is not None
    told = sum(count for each in in_hand_of(face) for _, count in each.pieces)
    roll = sum(piece.stretch == "roll" for piece in face.cutting.best.pieces)
    assert told + roll == len(face.cutting.best.pieces)
    assert told > 0


def test_the_fullness_without_buying_is_the_greatest_that_buys_nothing() -> None:
    plan, face = planned(job(chest=Owned(length=inches(60))))
    full = plan.fullness_in_hand
    assert full is not None
    assert face.buy.value is not None
    assert (face.buy.value > inches(0)) is (full < Fraction(2))
    at = replace(plan.job, fullness=Fullness(aim="a number", want=full, joins="part widths", surplus="trim"))
    assert planned(at)[1].buy.value == inches(0)
    assert without_buying(full, plan.layers).startswith("Without buying any face cloth, the skirt can be ")


def test_without_cloth_in_hand_nothing_is_said_and_too_little_is_told() -> None:
    plan, face = planned(job())
    assert plan.fullness_in_hand is None
    assert without_buying(None, plan.layers) == ""
    assert in_hand_of(face) == ()
    short, _ = planned(job(scrap=Owned(length=inches(9))))
    assert without_buying(short.fullness_in_hand, short.layers).endswith(
        "no way was found of making even a flat skirt."
    )
