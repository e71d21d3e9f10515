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

from tests.trade.finding_texts import assert_says
from tests.trade.sample_jobs import cloth, found, inches, known, plain_job, planned, section, small, straight, with_face
from wizard.trade import fullness_offers as offers
from wizard.trade.formatting import SIXTEENTHS
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
    gathers=st.lists(st.integers(3, 40), min_size=1, max_size=3), stays=st.integers(-8, 20), limit=st.integers(1, 400)
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


def test_each_fullness_step_buys_its_roll_and_a_little_more_fullness_buys_more() -> None:
    job = with_face(small(), price=Decimal("12.40"))
    plan = make_plan(job)
    steps = steps_of(plan)
    assert len(steps) > 3
    for step in steps:
        assert made(plan, step.fullness) == step.roll
        assert made(plan, step.handy) <= step.roll
        assert step.handy <= step.fullness
        assert step.fullness == 3 or made(plan, step.fullness + Fraction(1, 10**6)) > step.roll
        assert step.cost == price_for(step.roll, Decimal("12.40"), "yd")
    for first, second in pairwise(steps):
        assert first.roll < second.roll
        assert first.fullness < second.fullness
    assert steps[-1].fullness == 3
    now = offers.present(plan)
    assert now is not None
    for each in offers.finds(steps, now.handy, now.roll):
        assert abs(now.roll - made(plan, each.step.handy)) == each.length, "every find is true"
    assert offers.finds_in_words(plan, steps)
    one_by_one = plan.basis.nearest_steps()
    assert {next(one_by_one), next(one_by_one)} <= set(steps)


def made(plan: Plan, fullness: Fraction) -> Length:
    """What is bought for the same job made to another fullness."""
    bought = make_plan(replace(plan.job, fullness=Fullness(want=fullness))).layers[0].buy.value
    assert bought is not None
    return bought


def owning(*lengths: str, runs: tuple[int, ...] = (40, 30)) -> Job:
    job = small()
    sections = {side: section(run, 11) for side, run in zip(("left", "foot", "right"), runs, strict=False)}
    job = replace(job, survey=replace(job.survey, section=sections), fullness=Fullness(aim="all the cloth I own"))
    return with_face(job, owned={f"length-{number}": Owned(length=inches(each)) for number, each in enumerate(lengths)})


@pytest.mark.parametrize(
    ("job", "fullness", "widths"),
    [
        # 38 1/2 in after squaring give three widths of 12 1/2 in. With one of them shared there are four pieces and two
        # joins: A + A' = 3 x 54 - 2 = 160 in. A = 40 f + 2 and A' = 30 f + 2 stand on sixteenths, so the best is
        # A = 91 1/8 in (f = 713/320) with A' = 68 7/8 in (f = 66 7/8 / 30, a little more); 91 3/16 leaves A' too small.
        (owning("39 1/2"), Fraction(713, 320), ["91 1/8", "68 7/8"]),
        # 25 in after squaring give two widths of 12 1/2 in, one for each: 26 f + 2 = 54 in, so f = 2.
        (owning("26", runs=(26, 26)), Fraction(2), ["54", "54"]),
    ],
)
def test_owned_cloth_is_used_to_the_last_mark_and_nothing_is_bought(
    job: Job, fullness: Fraction, widths: list[str]
) -> None:
    plan = make_plan(job)
    assert plan.figures["fullness"].value == fullness
    face = plan.layers[0]
    assert [each.value for each in face.cut_widths.values()] == [inches(each) for each in widths]
    assert (face.roll.value, face.buy.value) == (inches(0), inches(0))


def test_owned_cloth_that_does_not_make_even_a_flat_skirt_stops_the_plan_and_says_so() -> None:
    for surplus, case in ((None, "owned-short"), ("keep", "owned-short, kept surplus")):
        job = owning("14")
        finding = found(replace(job, fullness=replace(job.fullness, surplus=surplus)))["owned-short"]
        assert finding.level == "stop"
        assert_says(finding, case)


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
LESS = "1.5 needs only the cloth you have"


@pytest.mark.parametrize(
    ("wanted", "eighths", "steps", "words"),
    [
        ("2.5", 18, STEPS, ["2.46 instead of 2.5 saves 1/8 yd ($2.32)", "the same cloth gives 2.58", LESS]),
        ("2.4", 17, STEPS, ["2.2 instead of 2.4 saves 1/8 yd ($2.31)", "the same cloth gives 2.46",
                            "2.58 instead of 2.4 takes 1/8 yd ($2.32) more", LESS]),
        # More fullness for the same cloth is offered from a twentieth on.
        ("2.53", 18, STEPS, ["2.46 instead of 2.53 saves 1/8 yd ($2.32)", "the same cloth gives 2.58", LESS]),
        ("2.54", 18, STEPS, ["2.46 instead of 2.54 saves 1/8 yd ($2.32)", LESS]),
        # Beyond the last step it is at least that. Without a price the cloth alone is named.
        ("2", 16, (step(16, "3", "37.00"),), ["the same cloth gives at least 3"]),
        ("2.5", 18, (step(17, "2.46"), step(18, "2.58")),
         ["2.46 instead of 2.5 saves 1/8 yd", "the same cloth gives 2.58"]),
    ],
)  # fmt: skip
def test_the_finds_of_the_trade_are_named_in_words(
    wanted: str, eighths: int, steps: tuple[FullnessStep, ...], words: list[str]
) -> None:
    full = Fraction(wanted)
    found = offers.finds(steps, full, Length.of(Fraction(eighths, 8), "yd"))
    assert [offers.find_words(each, full, "yd", "$") for each in found] == words
    assert offers.finds(steps, None, ZERO) == offers.finds(steps, full, None) == ()


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
    chest, attic, scrap = offers.in_hand_lines(plan.job, face, names, SIXTEENTHS)
    assert chest.startswith("Your length “chest”: 60 in long, 54 in usable width, dye lot A7. Pieces cut")
    assert "only 30 in usable width, damaged from 10 in to 13 in" in attic
    assert scrap == "Your length “scrap”: 9 in long, 54 in usable width. Nothing is cut from it."
    told = sum(count for each in offers.in_hand_of(face) for _, count in each.pieces)
    assert 0 < told == sum(piece.stretch != "roll" for piece in known(face.cutting).best.pieces)
    # Two widths of 12 1/2 in after an inch of squaring: nothing whole is left.
    plan = make_plan(owning("26", runs=(26, 26)))
    (used_up,) = offers.in_hand_lines(plan.job, plan.layers[0], {}, SIXTEENTHS)
    assert used_up.endswith("Pieces cut from it: 1 for left; 1 for foot.")


def test_of_a_length_for_a_washed_skirt_it_is_said_whether_it_was_washed() -> None:
    washed: dict[str, Any] = {"wash": "washed first", "warp_shrink": Fraction(0), "weft_shrink": Fraction(0)}
    lengths = {"old": Owned(length=inches(60), washed=True), "new": Owned(length=inches(60), washed=False)}
    given = plain_job(SECTIONS, fullness="2", cloth=cloth("54", owned=lengths, **washed))
    old, new = offers.in_hand_lines(given, planned(given)[1], {}, SIXTEENTHS)
    assert old.startswith("Your length “old”: 60 in long, washed already, ")
    assert new.startswith("Your length “new”: 60 in long once it is washed, ")


def test_the_fullness_without_buying_is_the_greatest_that_buys_nothing() -> None:
    plan, face = planned(job(chest=Owned(length=inches(60))))
    full = plan.fullness_in_hand
    assert full is not None
    assert (known(face.buy.value) > inches(0)) is (full < Fraction(2))
    at = replace(plan.job, fullness=Fullness(aim="a number", want=full, joins="part widths", surplus="trim"))
    assert planned(at)[1].buy.value == inches(0)
    assert offers.without_buying(full, plan.layers).startswith("Without buying any face cloth, the skirt can be ")


def test_without_cloth_in_hand_nothing_is_said_and_too_little_is_told() -> None:
    plan, face = planned(job())
    assert plan.fullness_in_hand is None
    assert offers.without_buying(None, plan.layers) == ""
    assert list(offers.in_hand_of(face)) == []
    short, _ = planned(job(scrap=Owned(length=inches(9))))
    assert offers.without_buying(short.fullness_in_hand, short.layers).endswith(
        "no way was found to make even a flat skirt."
    )
