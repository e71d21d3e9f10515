"""Work counted, never timed."""

from __future__ import annotations

from fractions import Fraction
from threading import Thread

import pytest

from tests.trade.cutting.jobs import ROLL, rules_of, strips_of
from tests.trade.sample_jobs import small
from wizard.trade.cut_plans import MOST_WORK, better_plan, cut_plan, improvable, work_of
from wizard.trade.cutting import Cutting, Repeat, Stretch
from wizard.trade.cutting.work_budget import Spent, measured, remembered, spend, within
from wizard.trade.lengths import Length
from wizard.trade.make_plan import make_plan


def test_what_is_remembered_counts_as_if_it_were_worked_anew_but_once_of_one_call() -> None:
    worked: list[int] = []

    @remembered(8)
    def twice(number: int) -> int:
        worked.append(number)
        spend(10)
        return number * 2

    assert measured(lambda: twice(4)) == (8, 10)
    assert measured(lambda: twice(4)) == (8, 10)
    assert measured(lambda: twice(4) + twice(4)) == (16, 10)
    assert worked == [4]


def test_more_than_is_allowed_is_not_worked_within_another_either_nor_counted_of_another_thread() -> None:
    for task in (lambda: spend(11), lambda: measured(lambda: spend(11), 20), lambda: within(lambda: spend(12), 11)):
        with pytest.raises(Spent):
            measured(task, 10)
    assert measured(lambda: spend(10), 10)[1] == 10
    # A call that takes more than its limit gives nothing.
    assert within(lambda: spend(10) or "done", 10) == ("done", 10)  # type: ignore[func-returns-value]
    assert within(lambda: spend(11) or "done", 10) == (None, 10)  # type: ignore[func-returns-value]

    def elsewhere() -> None:
        thread = Thread(target=spend, args=(1000,))
        thread.start()
        thread.join()

    assert measured(elsewhere, 10) == (None, 0)


def test_the_same_steps_take_as_much_work_whatever_was_looked_at_before() -> None:
    first, second = make_plan(small()), make_plan(small())
    took = measured(lambda: tuple(first.basis.nearest_steps()))
    assert measured(lambda: tuple(second.basis.nearest_steps())) == took


# No try to improve a plan takes more than its share of work, counted and never timed, whatever cloth there is.
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
