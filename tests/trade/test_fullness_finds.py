"""What the fullness steps offer beside the fullness as it is."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from msgspec.structs import replace

from tests.trade.test_fullness import climbing
from wizard.trade.fullness_steps import FullnessStep
from wizard.trade.lengths import ZERO, Length
from wizard.trade.make_plan import make_plan
from wizard.trade.model import Fullness
from wizard.trade.offers import Find, find_words, finds, finds_in_words, present, rows_of
from wizard.trade.plan import Plan


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
        "1.5 takes no cloth but what is in hand",
    ]
    assert words("2.4", 17)[-2:] == [
        "2.58 instead of 2.4 takes 1/8 yd ($2.32) more",
        "1.5 takes no cloth but what is in hand",
    ]


def test_what_the_same_cloth_gives_beyond_the_last_step_is_said_to_be_at_least_that() -> None:
    found = finds((step(16, "3", "37.00"),), Fraction(2), Length.of(2, "yd"))
    assert [find_words(each, Fraction(2), "yd") for each in found] == ["the same cloth gives at least 3"]


def test_nothing_is_found_before_the_fullness_and_the_cloth_are_known() -> None:
    assert finds(STEPS, None, ZERO) == finds(STEPS, Fraction(2), None) == ()


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
    steps = plan.steps_of_fullness
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


def test_the_present_fullness_stands_once_among_the_steps_in_its_place() -> None:
    plan = make_plan(climbing())
    rows = rows_of(plan, plan.steps_of_fullness)
    assert [row.step.handy for row in rows] == sorted({row.step.handy for row in rows})
    assert [row.step.handy for row in rows if row.now] == [plan.job.fullness.want]


def test_the_steps_come_one_by_one_and_are_laid_out_only_when_asked_for() -> None:
    plan = make_plan(climbing())
    steps = plan.basis.steps()
    assert (next(steps), next(steps)) == plan.steps_of_fullness[:2]
