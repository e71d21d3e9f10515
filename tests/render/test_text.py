"""The text sheet: complete, literal, and as wide as it may be."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.render.jobs import growing_plans, metric_plan, whole_plan
from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project
from wizard.render.plain_text import cell_len, clipped, literal
from wizard.render.text_sheet import text_sheets
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
            assert f"{need.words} ({need.key})" in text
        assert ("Still to answer" in text) == bool(plan.missing)
        assert ("This plan is complete." in text) == plan.complete


def test_every_piece_of_every_layer_stands_in_the_cut_list_with_its_measures() -> None:
    plan = whole_plan()
    ruler = ruler_of(plan.job)
    names = {part.id: part.name for part in plan.parts}
    lines = [" ".join(line.split()) for line in sheet(plan).splitlines()]
    for layer in plan.layers:
        assert layer.cutting is not None
        for piece in layer.cutting.best.pieces:
            lengths = (piece.cut, piece.width, piece.start, piece.start + piece.cut, piece.across)
            measures = " ".join(shown(each, ruler).removesuffix(" in") for each in lengths)
            wanted = f"{names[piece.strip]} {piece.order}/"
            assert any(wanted in line and measures in line for line in lines), (wanted, measures)


def test_the_chalk_marks_run_on_from_the_squared_end() -> None:
    text = flat(whole_plan())
    # Interlining: four at 14 5/8, three at 11 3/4, four at 15 1/2.
    assert "Square the end (1). Chalk from the squared end: 14 5/8, 29 1/4, 43 7/8, 58 1/2, 70 1/4, 82, 93 3/4" in text


def test_steps_findings_cautions_and_purchases_are_all_there() -> None:
    plan = whole_plan()
    text = flat(plan, 120)
    assert plan.work
    assert plan.findings
    for step in plan.work:
        assert f"[ ] {step.title}" in text
        for words in (*step.lines, *step.tools, *step.settings):
            assert " ".join(words.split()) in text
    for finding in plan.findings:
        assert finding.sentence in text
        assert finding.way_out in text
    for caution in plan.cautions:
        assert f"! {caution.sentence}" in text
    for purchase in plan.purchases:
        assert f"[ ] {purchase.what}: {purchase.amount}" in text


def test_marks_of_the_right_section_are_measured_from_the_head() -> None:
    plan = whole_plan()
    part = next(each for each in plan.parts if each.id == "right")
    block = sheet(plan).split("right section in ", 1)[1].split("\n── ", 1)[0]
    assert "Measure every mark from the head" in " ".join(block.split())
    first, last = part.marks[0].drop, part.marks[-1].drop
    assert first is not None
    assert last is not None
    table = block.split("mark  ", 1)[1].split("\n\n", 1)[0]
    rows = [line.split() for line in table.splitlines()[2:]]
    drops = ["".join(shown(each, ruler_of(plan.job)).removesuffix(" in").split()) for each in (last, first)]
    assert [rows[0][0], rows[-1][0]] == ["0", str(len(part.marks) - 1)]
    assert ["".join(rows[0]).endswith(drops[0]), "".join(rows[-1]).endswith(drops[1])] == [True, True]


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
