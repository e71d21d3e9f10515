"""Tape: its fold, the rows under it, and how much to buy."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from tests.trade.finding_texts import assert_says
from tests.trade.sample_jobs import inches
from wizard.trade.figures import Ledger
from wizard.trade.findings.checker import Checker
from wizard.trade.findings.sense_findings import sense_findings
from wizard.trade.formatting import SIXTEENTHS
from wizard.trade.job_fields import Allowances, Cloths, Job, Section, Survey, Tape
from wizard.trade.lengths import Length
from wizard.trade.make_plan import make_plan
from wizard.trade.notions import round_up_to, row_figures, tape_figures
from wizard.trade.plan_records import Finding


def figures(**fields: Any) -> list[Length | None]:
    return [each.value for each in row_figures(Ledger(Job(**fields)))]


def test_the_tape_folds_in_half_and_the_rows_lie_below_the_raw_edge() -> None:
    assert figures() == [inches("1"), inches("1/4"), inches("3/8")]


def test_in_metric_the_rows_are_whole_millimetres() -> None:
    assert figures(standard="metric") == [Length.of(25, "mm"), Length.of(6, "mm"), Length.of(9, "mm")]


def _top(top: str, width: str = "2") -> list[Finding]:
    job = Job(allowances=Allowances(top=inches(top)), cloth=Cloths(tape=Tape(width=inches(width))))
    found = sense_findings(Checker(Ledger(job), SIXTEENTHS))
    return [each for each in found if each.id == "tape-top"]


@pytest.mark.parametrize("top", ["1/2", "3/4", "1"])
def test_a_raw_edge_from_half_an_inch_up_to_the_fold_is_no_finding(top: str) -> None:
    assert _top(top) == []


def test_a_top_allowance_that_leaves_no_room_for_the_rows_is_a_finding() -> None:
    (finding,) = _top("7/16")
    assert_says(finding, "tape-top, no room")


def test_a_top_allowance_that_sticks_out_of_the_folded_tape_is_a_finding() -> None:
    (finding,) = _top("1 1/16")
    assert_says(finding, "tape-top, sticks out")


def _ledger(**tape: Any) -> Ledger:
    section = Section(run=(inches("80 1/2"), inches("80 1/2")), left_end="stops", right_end="stops")
    job = Job(survey=Survey(section={"left": section, "right": section}), cloth=Cloths(tape=Tape(**tape)))
    plan = make_plan(job)
    ledger = Ledger(job, dict(plan.figures))
    tape_figures(ledger, plan.parts)
    return ledger


def test_tape_to_buy_is_every_cut_up_to_the_step() -> None:
    found = _ledger().figures
    assert found["tape.length"].value == inches("165")
    assert found["tape.buy"].value == Length.of(5, "yd")


def test_tape_costs_what_its_length_costs_at_its_price() -> None:
    assert _ledger(price=Decimal("1.25")).figures["tape.cost"].value == Decimal("6.25")
    assert _ledger().figures["tape.cost"].value is None


def test_a_step_of_nothing_buys_the_very_length() -> None:
    assert round_up_to(inches("165"), inches("0")) == inches("165")


def test_without_parts_no_tape_is_bought() -> None:
    assert tape_figures(Ledger(Job()), ()).value is None
