"""No try to improve a plan takes more than its share of work, counted and never timed, whatever cloth there is."""

from __future__ import annotations

from fractions import Fraction

from tests.trade.cutting.jobs import ROLL, rules_of, strips_of
from wizard.trade.cut_plans import MOST_WORK, better_plan, cut_plan, improvable, work_of
from wizard.trade.cutting import Cutting, Repeat, Stretch
from wizard.trade.lengths import Length


def test_a_half_drop_on_several_lengths_in_hand_is_searched_no_longer_than_is_allowed() -> None:
    cuts = (Fraction(49, 4), 14, Fraction(57, 4), Fraction(29, 2), Fraction(69, 4), 15, 16, 13)
    strips = tuple(strips_of(*((str(97 + 11 * n), str(float(cut))) for n, cut in enumerate(cuts))))
    stock = (*(Stretch(f"own-{n}", Length(length), ROLL.usable) for n, length in enumerate((135, 114, 62))), ROLL)
    rules = rules_of(repeat=Repeat(Length(Fraction(167, 8)), "half-drop"))
    asked = strips, stock, rules
    first = cut_plan(asked)
    assert isinstance(first, Cutting)
    best = first
    while improvable(best):
        best = better_plan(asked, best)
        assert work_of(asked, best) - work_of(asked) == best.searched <= sum(MOST_WORK)
    assert best.best.roll <= first.best.roll
    assert not best.best.proof.least
    assert best.best.proof.saves is not None


def test_the_first_plan_of_hundreds_of_half_drop_widths_puts_few_of_them_in_order_and_still_buys_nothing() -> None:
    stock = (*(Stretch(f"own-{n}", Length(each), ROLL.usable) for n, each in enumerate((3269, 4749, 4176, 1289))), ROLL)
    strips, rules = tuple(strips_of((13500, 15), (14100, 16))), rules_of(repeat=Repeat(Length(7), "half-drop"))
    plan = cut_plan((strips, stock, rules))
    assert isinstance(plan, Cutting)
    assert plan.best.roll == Length(0)
    assert work_of((strips, stock, rules)) < 1_500_000
