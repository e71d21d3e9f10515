"""The text sheet: complete, literal, and as wide as it may be."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.render.jobs import growing_plans, metric_plan, whole_plan
from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project
from wizard.render.document import Table
from wizard.render.making_up_sheet import marks
from wizard.render.plain_text import cell_len, clipped, literal
from wizard.render.text_sheet import text_sheets
from wizard.trade.field_names import first_up
from wizard.trade.formatting import ruler_of, shown
from wizard.trade.job_fields import Cloth, Cloths, Job, Section, Survey
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Plan


def sheet(plan: Plan, columns: int = 80) -> str:
    return text_sheets(plan, columns)


def flat(plan: Plan, columns: int = 80) -> str:
    """The sheet with its line breaks taken out."""
    return " ".join(sheet(plan, columns).split())


@pytest.mark.parametrize("columns", [60, 80, 120])
@pytest.mark.parametrize("plan", [whole_plan(), metric_plan(), plan_of(Project())], ids=["inches", "metric", "empty"])
def test_no_line_is_wider_than_asked(plan: Plan, columns: int) -> None:
    assert max(cell_len(line) for line in sheet(plan, columns).splitlines()) <= columns


def test_a_sheet_can_be_printed_at_every_stage_of_filling_and_names_what_is_missing() -> None:
    for plan in (plan_of(Project()), *growing_plans()):
        text = flat(plan)
        for need in plan.missing:
            assert f"? {first_up(need.words)}" in text
        assert ("Still open" in text) == bool(plan.missing)
        assert ("Unfinished: " in text) == (not plan.complete)
        workings = " ".join(text_sheets(plan, 80, ["workings"]).split())
        assert all(f"{need.words} ({need.key})" in workings for need in plan.missing if plan.figures)


def test_every_line_of_every_step_is_there_once_for_all_sections() -> None:
    """A line that differs from section to section stands as what is before its colon, and as a cell. What is at hand at
    every cutting table is not listed on its pages."""
    plan = whole_plan()
    text = flat(plan, 240)
    assert len(plan.work) > 30
    for step in plan.work:
        if step.stage == "Cloth":
            continue
        tools = () if step.stage == "Cutting" else step.tools
        for words in (*step.lines, *tools, *step.settings):
            label, _, value = words.removesuffix(".").partition(": ")
            assert label.removeprefix("stitch length ").removeprefix("needle ") in text, words
            assert value in text, words


def test_marks_of_the_right_section_are_measured_from_the_head() -> None:
    plan = whole_plan()
    part = next(each for each in plan.parts if each.id == "right")
    facts, table = (each for each in marks(plan) if isinstance(each, Table))
    assert facts.rows[0] == ("measure from", "the head", "the bed's left", "the head")
    assert table.heads[-3:] == ("right: tape", "skirt", "drop")
    first, last = part.marks[0].drop, part.marks[-1].drop
    assert first is not None
    assert last is not None
    drops = [shown(each, ruler_of(plan.job)).removesuffix(" in") for each in (last, first)]
    assert [table.rows[0][-3:], table.rows[len(part.marks) - 1][-1]] == [("0", "0", drops[0]), drops[1]]


def test_typed_names_come_out_literally() -> None:
    hostile = '<b>&"[red]\x1b[31m=1+1\n'
    job = Job(
        name=hostile,
        survey=Survey(section={"left": Section(name=hostile)}),
        cloth=Cloths(face=Cloth(name=hostile)),
    )
    text = sheet(make_plan(job))
    assert "\x1b" not in text
    assert text.count('<b>&"[red]\\x1b[31m=1+1\\x0a') >= 3


def test_the_unit_is_named_once_and_stands_for_every_bare_length() -> None:
    assert "Lengths without a unit are in inches, on a ruler marked in 1/16 in." in flat(whole_plan())
    assert "Lengths without a unit are in centimetres, on a ruler marked in 0.1 cm." in flat(metric_plan())


def test_the_same_plan_gives_the_same_text() -> None:
    assert sheet(whole_plan()) == sheet(whole_plan())


def test_there_are_never_two_blank_lines_together() -> None:
    assert "\n\n\n" not in sheet(whole_plan())
    assert not sheet(whole_plan()).startswith("\n")


# People's own text comes out literally, and its width is known.
@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("\x1b[31mred", "\\x1b[31mred"),
        ("two\nlines\ttab", "two\\x0alines\\x09tab"),
        ("\x9b31m", "\\x9b31m"),
        ("right\u202eto left", "right\\u202eto left"),
        ("line\u2028end", "line\\u2028end"),
        ("half \ud83d of a pair", "half \\ud83d of a pair"),
        ('<b>&"[red]=1+1', '<b>&"[red]=1+1'),
        ("Löft ½ 日本", "Löft ½ 日本"),
    ],
)
def test_what_has_no_shape_is_written_out_and_the_rest_stays(typed: str, shown: str) -> None:
    assert literal(typed) == shown


@given(st.text())
def test_no_literal_text_can_steer_a_terminal(text: str) -> None:
    assert not any(ord(each) < 0x20 or 0x7F <= ord(each) < 0xA0 for each in literal(text))


def test_wide_letters_take_two_columns_and_marks_none() -> None:
    assert (cell_len("loft"), cell_len("日本"), cell_len("e\u0301")) == (4, 4, 1)


@given(st.text(), st.integers(0, 12))
def test_clipped_text_never_takes_more_columns_than_it_may(text: str, columns: int) -> None:
    assert cell_len(clipped(text, columns)) <= max(columns, 0)
