"""One plan in every form: the same figures, the same names, nothing that a browser or a spreadsheet would run."""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Callable
from functools import cache
from html.parser import HTMLParser
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.render.golden_files import FOLDER, WANTED, demo_plan, fresh
from tests.render.jobs import WHOLE, growing_plans, metric_plan, project_of, whole_plan
from tests.trade.sample_jobs import small, with_face
from wizard.project.plan_of_project import job_of, plan_of
from wizard.project.project import Project
from wizard.render.csv_sheet import HEADS, safe
from wizard.render.formats import Request, render
from wizard.render.html_sheet import paper_html
from wizard.render.plain_text import cell_len, clipped, literal
from wizard.render.sheet_names import ENDINGS, TITLES, Format, SheetId
from wizard.render.text_page import Page, wrapped
from wizard.render.text_sheet import text_sheets
from wizard.trade.field_names import first_up
from wizard.trade.formatting import SIXTEENTHS, How, how_shown, ruler_of, shown
from wizard.trade.lengths import Length
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Plan
from wizard.trade.steps.cut_order import cut_pieces

HOSTILE = '<b>&"[red]\x1b[31m=1+1'
LITERAL = '<b>&"[red]\\x1b[31m=1+1'
ALL = tuple(TITLES)
XHTML = "{http://www.w3.org/1999/xhtml}"
VOID = {"meta", "input", "rect", "path"}


def words_of(html: str) -> str:
    """All that a reader sees of a page, blanks as they come, those of a length as ordinary ones."""
    body = ElementTree.fromstring(html).find(f"{XHTML}body")
    assert body is not None
    return " ".join(" ".join(body.itertext()).replace("\N{NO-BREAK SPACE}", " ").split())


def bare(plan: Plan, length: Length, how: How = "nearest") -> str:
    """A length as it is in a table, without the job's unit."""
    return shown(length, ruler_of(plan.job), how).removesuffix(f" {plan.job.show or 'in'}")


def rows_of(plan: Plan) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(render(plan, Request("csv")), newline="")))


class AtOnce(HTMLParser):
    """The tags that are closed where they are opened."""

    def __init__(self) -> None:
        super().__init__()
        self.tags = set[str]()

    def handle_startendtag(self, tag: str, attrs: object) -> None:
        self.tags.add(tag)


@pytest.mark.parametrize("plan", [whole_plan(), metric_plan(), plan_of(Project()), demo_plan()], ids="wmed")
def test_the_page_is_well_formed_for_two_parsers_and_no_id_is_given_twice(plan: Plan) -> None:
    html = paper_html(plan, ALL, "2026-03-02")
    ids = [each.get("id") for each in ElementTree.fromstring(html).iter() if each.get("id")]
    assert len(set(ids)) == len(ids)
    reader = AtOnce()
    reader.feed(html)
    assert reader.tags <= VOID, "a browser closes no other tag at once, and none of these later"
    assert not re.search("</(meta|input)>", html)


def test_the_page_names_no_address_and_holds_style_and_script_itself() -> None:
    html = paper_html(whole_plan(), ALL)
    assert set(re.findall(r"\w+://[^\"'\s]+", html)) == {"http://www.w3.org/1999/xhtml", "http://www.w3.org/2000/svg"}
    assert re.findall(r"<(?:link|iframe|img|object|base|form)\b|\bsrc=|@import|url\((?!#)", html) == []


def test_every_form_is_written_at_every_stage_of_filling_and_the_text_names_what_is_missing() -> None:
    for stage, plan in enumerate((plan_of(Project()), *growing_plans())):
        for form in ENDINGS if stage % 7 < 2 else ():
            text = render(plan, Request(form, ALL if form in ("text", "html", "svg") else None))
            assert text.endswith("\n")
            if form in ("html", "svg"):
                ElementTree.fromstring(text)
        text, workings = text_of(plan), text_of(plan, 80, "workings")
        for need in plan.missing:
            assert f"? {first_up(need.words)}" in text
            assert f"{need.words} ({need.key})" in workings or not plan.figures
        assert ("Still open" in text) == bool(plan.missing)
        assert ("Unfinished: " in text) == (not plan.complete)


@cache
def named(name: str) -> Plan:
    """The whole job with that name wherever one may stand. A file refuses some letters; a plan takes them all."""
    job = job_of(project_of(WHOLE))
    left = job.survey.section["left"]
    thing = replace(left.in_the_way["centre-leg"], name=name)
    sections = {**job.survey.section, "left": replace(left, name=name, in_the_way={"centre-leg": thing})}
    cloth = replace(
        job.cloth, face=replace(job.cloth.face, name=name), interlining=replace(job.cloth.interlining, name=name)
    )
    survey = replace(job.survey, section=sections)
    return make_plan(replace(job, name=name, currency=name, survey=survey, cloth=cloth))


SEEN: dict[Format, Callable[[str], str]] = {
    "text": lambda text: text,
    "html": lambda text: words_of(text),
    "svg": lambda text: " ".join(ElementTree.fromstring(text).itertext()),
    # JSON has an escape of its own: read back, it is the name as it was typed.
    "json": lambda text: str(json.loads(text)["name"]).replace("\x1b", "\\x1b"),
}
"""What is seen of what is written in each form."""


@pytest.mark.parametrize("form", SEEN)
def test_a_name_with_markup_and_escape_codes_comes_out_literally(form: Format) -> None:
    text = render(named(HOSTILE), Request(form, None if form == "json" else ALL))
    assert "\x1b" not in text
    assert LITERAL in SEEN[form](text)


def test_no_element_comes_out_of_a_name_and_in_cells_it_is_literal() -> None:
    rows = rows_of(named(HOSTILE))
    assert (rows[0]["project"], rows[0]["cloth"]) == (LITERAL, LITERAL)
    assert "\x1b" not in "".join(cell for each in rows for cell in each.values())
    pages = [paper_html(named(name), ("overview", "care", "hanging")) for name in ("a plain name", HOSTILE)]
    plain, hostile = (sorted(each.tag for each in ElementTree.fromstring(page).iter()) for page in pages)
    assert plain == hostile


@pytest.mark.parametrize("typed", ["=1+1", "+1", "-1", "@x", "\t=1", "\r=1", " =1", "＝1", "|x", "%x"])
def test_no_cell_begins_with_what_a_spreadsheet_runs(typed: str) -> None:
    rows = rows_of(named(typed))
    assert rows
    for row in rows:
        assert not any(cell.lstrip()[:1] in set("=+-@\t\r|%＝＋－＠") for cell in row.values() if cell)
    assert safe(typed).lstrip("'").replace("\\x09", "\t").replace("\\x0d", "\r") == typed


def test_the_cut_list_as_csv_is_the_cut_list_piece_by_piece() -> None:
    plan = whole_plan()
    text = render(plan, Request("csv"))
    assert text.split("\r\n", 1)[0] == ",".join(HEADS)
    assert text.replace("\r\n", "").count("\n") == 0
    rows, ruler = iter(rows_of(plan)), ruler_of(plan.job)
    for layer in plan.layers:
        for each in cut_pieces(plan.layers, layer):
            row = next(rows)
            assert (row["layer"], row["no."]) == (layer.id, str(each.number))
            for name, length in (("to", each.end), ("wide", each.piece.width), ("long", each.piece.cut)):
                assert row[name] == shown(length, ruler)
                # Whole tenths of a millimetre never end in thirds: a decimal number is exact here.
                assert row[f"{name} in mm"].replace(".", "", 1).isdigit()
    assert next(rows, None) is None


@pytest.mark.parametrize("plan", [whole_plan(), metric_plan(), demo_plan()], ids=["inches", "metric", "demo"])
def test_a_figure_reads_the_same_in_every_form(plan: Plan) -> None:
    """Held against `shown`; the real screen is held against the sheets in tests/screens/test_same_figures.py."""
    ruler = ruler_of(plan.job)
    text = " ".join(render(plan, Request("text", ALL, None, 240)).split())
    page = words_of(render(plan, Request("html", ALL)))
    data = json.loads(render(plan, Request("json")))
    rows = rows_of(plan)
    for section, part in zip(data["sections"], plan.parts, strict=True):
        for name in ("run", "gathered", "drop", "flat", "tape"):
            figure = getattr(part, name)
            wanted = shown(figure.value, ruler, how_shown(figure.id))
            assert section[name]["text"] == wanted
            assert f"{figure.title}: {wanted}" in text
            assert f"{figure.title}: {wanted}" in page
    for layer, made in zip(plan.layers, data["layers"], strict=True):
        assert layer.cutting is not None
        own = [row for row in rows if row["layer"] == layer.id]
        for piece, row in zip(made["cutting"]["pieces"], own, strict=True):
            lengths = [piece[name]["text"] for name in ("start", "end", "across", "width", "length")]
            assert lengths == [row[name] for name in ("from", "to", "across", "wide", "long")]
            long, wide, start, end = (
                row[name].removesuffix(f" {ruler.unit}") for name in ("long", "wide", "from", "to")
            )
            told = f"{row['section']}, {row['piece']} of {row['of']} {long} × {wide} {start} {end}"
            assert told in text
            assert told in page


def test_only_the_sheets_asked_for_are_written_in_the_order_of_the_job() -> None:
    text = render(whole_plan(), Request("text", ("hanging", "table")))
    assert [title for title in TITLES.values() if f"\n{title}\n═" in text] == ["Cutting table", "Hanging"]
    assert text.index("\nCutting table\n") < text.index("\nHanging\n")
    html = render(whole_plan(), Request("html", ["care"]))
    assert re.findall(r'<table class="sheet[^"]*" id="([^"]+)"', html) == ["care"]
    nothing = render(plan_of(Project()), Request("text", ["hanging"]))
    assert "Nothing to show yet: answer more questions first." in nothing


def test_a_care_card_names_each_cloth_by_its_name_else_its_kind() -> None:
    assert "\n    lawn (face)\n" in render(make_plan(with_face(small(), kind="lawn")), Request("text", ["care"]))
    assert "\n    face cloth\n" in render(make_plan(small()), Request("text", ["care"]))


def test_every_sheet_carries_job_mark_and_date() -> None:
    for sheet in TITLES:
        for form in ("text", "html", "svg"):
            text = render(whole_plan(), Request(form, (sheet,), "2026-03-02"))
            assert "Juniper loft" in text
            assert re.search(r"plan mark [0-9A-Z]{4}-[0-9A-Z]{4}, cuts [0-9A-Z]{4}, 2026-03-02", text)


# The text sheet: complete, and as wide as it may be.
def text_of(plan: Plan, columns: int = 80, *sheets: SheetId) -> str:
    """The sheets with their line breaks taken out."""
    return " ".join(text_sheets(plan, columns, sheets or None).split())


@pytest.mark.parametrize("plan", [whole_plan(), metric_plan(), plan_of(Project())], ids=["inches", "metric", "empty"])
def test_no_line_is_wider_than_asked_and_no_two_are_blank_together(plan: Plan) -> None:
    for columns in (60, 80, 120):
        text = text_sheets(plan, columns)
        assert max(cell_len(line) for line in text.splitlines()) <= columns
        assert "\n\n\n" not in text
        assert not text.startswith("\n")


def test_the_unit_is_named_once_and_every_line_of_every_step_is_there_once_for_all_sections() -> None:
    """A line that differs from section to section stands as what is before its colon, and as a cell. What is at hand at
    every cutting table is not listed on its pages."""
    plan = whole_plan()
    text = text_of(plan, 240)
    assert "Lengths without a unit are in inches, on a ruler marked in 1/16 in." in text
    metric = "Lengths without a unit are in centimetres, on a ruler marked in 0.1 cm."
    assert metric in text_of(metric_plan())
    assert len(plan.work) > 30
    for step in (each for each in plan.work if each.stage != "Cloth"):
        tools = () if step.stage == "Cutting" else step.tools
        for words in (*step.lines, *tools, *step.settings):
            label, _, value = words.removesuffix(".").partition(": ")
            assert label.removeprefix("stitch length ").removeprefix("needle ") in text, words
            assert value in text, words


# Plain lines of a page: nothing is wider than the page, nothing is lost, no length is torn apart.
NARROW = Page(40, SIXTEENTHS)
WORDS = st.lists(st.text(st.characters(categories=("L", "N", "P")), min_size=1, max_size=90), min_size=1, max_size=20)


@given(WORDS, st.integers(20, 80))
def test_a_paragraph_fits_and_keeps_every_letter_in_order(words: list[str], columns: int) -> None:
    text = literal(" ".join(words))
    lines = list(wrapped(text, columns))
    assert max(cell_len(line) for line in lines) <= columns
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


def test_a_length_is_never_broken_inside_and_a_name_cannot_break_out_of_its_line() -> None:
    text = "then ≈ 12 5/16 in, then ≈ 12 5/16 in, then ≈ 12 5/16 in"
    assert list(wrapped(text, 22)) == ["then ≈ 12 5/16 in,", "then ≈ 12 5/16 in,", "then ≈ 12 5/16 in"]
    assert NARROW.pair("na\nme", "a\x1b[2Jb") == ["na\\x0ame          a\\x1b[2Jb"]
    assert NARROW.pair("the window side section", "54") == ["the window side section", "                  54"]


def test_a_table_lines_its_columns_up_and_where_it_is_too_wide_becomes_labelled_lines() -> None:
    assert NARROW.table(("piece", "wide"), [("left 1/2", "54"), ("日本", "7 1/16")]) == [
        "piece       wide", "────────  ──────", "left 1/2      54", "日本      7 1/16",
    ]  # fmt: skip
    heads = ("section", "a-very-long-head-of-one-word", "another-head")
    labelled = NARROW.table(heads, [("left section", "12 1/2", "")], ())
    assert labelled == ["left section", "  a-very-long-head-of-one-word  12 1/2"]


# People's own text comes out literally, and its width is known.
@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("\x1b[31mred", "\\x1b[31mred"), ("two\nlines\ttab", "two\\x0alines\\x09tab"), ("\x9b31m", "\\x9b31m"),
        ("right\u202eto left", "right\\u202eto left"), ("line\u2028end", "line\\u2028end"),
        ("half \ud83d of a pair", "half \\ud83d of a pair"), ('<b>&"[red]=1+1', '<b>&"[red]=1+1'),
        ("Löft ½ 日本", "Löft ½ 日本"),
    ],
)  # fmt: skip
def test_what_has_no_shape_is_written_out_and_the_rest_stays(typed: str, shown: str) -> None:
    assert literal(typed) == shown


@given(st.text(), st.integers(0, 12))
def test_no_text_can_steer_a_terminal_nor_take_more_columns_than_it_may(text: str, columns: int) -> None:
    assert not any(ord(each) < 0x20 or 0x7F <= ord(each) < 0xA0 for each in literal(text))
    assert cell_len(clipped(text, columns)) <= max(columns, 0)
    assert (cell_len("loft"), cell_len("日本"), cell_len("e\u0301")) == (4, 4, 1)


# The demo job's sheets, byte for byte. `python -m tests.render.golden_files` writes them anew, to be looked at.
@pytest.mark.parametrize("name", sorted({*WANTED, *(path.name for path in FOLDER.iterdir())}))
def test_the_demo_comes_out_byte_for_byte(name: str) -> None:
    assert fresh(name) == (FOLDER / name).read_bytes()
