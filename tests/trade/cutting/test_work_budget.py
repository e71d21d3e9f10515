"""Work counted, never timed."""

from __future__ import annotations

from threading import Thread

import pytest

from tests.trade.sample_jobs import small
from wizard.trade.cutting.work_budget import Spent, measured, remembered, spend, within
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


def test_more_than_is_allowed_is_not_worked_within_another_either() -> None:
    with pytest.raises(Spent):
        measured(lambda: spend(11), 10)
    with pytest.raises(Spent):
        measured(lambda: measured(lambda: spend(11), 20), 10)
    assert measured(lambda: spend(10), 10)[1] == 10


def test_the_same_steps_take_as_much_work_whatever_was_looked_at_before() -> None:
    first, second = make_plan(small()), make_plan(small())
    took = measured(lambda: tuple(first.basis.steps()))
    assert measured(lambda: tuple(second.basis.steps())) == took
    assert tuple(sorted(second.basis.nearest_steps(), key=lambda each: each.fullness)) == took[0]


def spending(steps: int) -> str:
    spend(steps)
    return "done"


def test_a_call_that_takes_more_than_its_limit_gives_nothing_but_is_cut_short_by_less_around_it() -> None:
    assert within(lambda: spending(10), 10) == ("done", 10)
    assert within(lambda: spending(11), 10) == (None, 10)
    with pytest.raises(Spent):
        measured(lambda: within(lambda: spend(11), 10), 9)


def test_what_another_thread_works_spends_nothing_here() -> None:
    def elsewhere() -> None:
        thread = Thread(target=spend, args=(1000,))
        thread.start()
        thread.join()

    assert measured(elsewhere, 10) == (None, 0)
