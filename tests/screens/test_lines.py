"""Lines of text at any width: what people typed is shown as it stands, lengths stay whole, no word is lost, and none is
wider than its place. The plan so far, beside the page and in a line, stays put."""

from __future__ import annotations

import json
import re
from itertools import pairwise
from pathlib import Path

import pytest
from msgspec.structs import replace
from textual.content import Content
from textual.style import Style
from textual.visual import RenderOptions
from textual.widgets import Static
from wcwidth import wcswidth

from tests.screens.pilots import EVERY_SIZE, Size, loft
from tests.screens.screen_texts import worded
from tests.trade.sample_jobs import inches
from wizard.interview.job_state import place_of
from wizard.render.plan_rows import Row, figure_of, rows
from wizard.screens.frame import PlanLine, shortened_line
from wizard.screens.option_lists import Hanging
from wizard.screens.panes.live_rows import Columns
from wizard.screens.panes.side_panel import SidePanel, line_of
from wizard.screens.screen_text import cut_to, filled, in_lines, keep_lengths_whole, line_ends, one_line, plain
from wizard.trade.first_figures import Segment
from wizard.trade.job_fields import Job, Section, Survey
from wizard.trade.lengths import ZERO
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Offer, Offers

# What people typed.
NASTY = "<b>[red]x[/red]\\[$accent]"


def test_control_characters_are_written_out_and_lines_stay_lines_only_where_text_is_laid_out() -> None:
    assert plain("a\x1b[31mb\x07\x9b\u202e") == "a\\x1b[31mb\\x07\\x9b\\u202e"
    assert plain("a\nb") == "a\nb"
    assert one_line("a\nb\tc") == "a b\\x09c"


@pytest.mark.parametrize("columns", [1, 2, 5, 8, 40])
def test_text_cut_to_a_width_fits_it_and_filled_text_is_just_as_wide_as_its_place(columns: int) -> None:
    for text in ("", "short", "a longer line than that", "two\nlines", "漢字漢字漢字"):
        assert wcswidth(cut_to(text, columns)) <= columns
    for text in ("", "short", "漢字漢字漢字"):
        assert wcswidth(filled(text, columns)) == columns


async def test_a_name_with_markup_is_shown_as_it_is_everywhere_and_as_it_is_typed(tmp_path: Path) -> None:
    named = ("[cloth.face]", f"[cloth.face]\nname = {json.dumps(NASTY)}")
    async with loft(tmp_path, None, (120, 40), edit=named) as it:
        it.session.answer("name", NASTY)
        it.job.show()
        await it.sees(NASTY)
        await it.press("f7", sees=f" {NASTY}")
        await it.press("f9", sees=worded("look over", NASTY))
        await it.search("look over", sees=worded("look over", NASTY))
        await it.press("escape")
        await it.go("survey.section.left.drop.2")
        await it.press("end", "ctrl+u", "left_square_bracket", *"bold", "right_square_bracket", "x", "enter")
        await it.sees("“[bold]x”")
        await it.press("ctrl+l", sees=f"{NASTY}   ")


# A length is never broken over two lines: `79` alone at the end of one would be read as 79.
LONG = "Cut 79 1/2 in and 12 3/8 in of the 1 1/4 yd, then 29.2 cm more; ≈ 740 mm, or 2' 5 1/8\""
TORN = re.compile(r"\d$|≈$|\d'$")
"""The end of a line that is no whole length, where every number has a fraction or a unit behind it."""
WITHOUT = ("Read the rail twice, left and right; 裾 hems  hang evenly-spaced.  ", "", "x" * 50, "7 rows, 12 more")


@pytest.mark.parametrize("columns", range(1, 90))
def test_no_line_ends_inside_a_length_and_text_without_one_is_broken_just_as_the_toolkit_does(columns: int) -> None:
    from rich._wrap import divide_line

    keep_lengths_whole()
    wrapped = [each.plain.strip() for each in Content(LONG).wrap(columns)]
    for lines in (in_lines(LONG, columns), wrapped) if columns >= 12 else ():
        assert " ".join(lines) == LONG
        assert not [each for each in lines if TORN.search(each)], lines
        assert all(len(each) <= columns for each in lines)
    for text in WITHOUT:
        assert line_ends(text, columns) == divide_line(text, columns)


def torn(lines: list[str]) -> list[tuple[str, str]]:
    """Each pair of lines of which the second goes on with a length that the first began."""
    rest = re.compile(r"\d+/\d|(in|yd|cm|mm)\b")
    return [pair for pair in pairwise(lines) if pair[0][-1:].isdecimal() and rest.match(pair[1])]


@pytest.mark.parametrize("size", EVERY_SIZE)
async def test_on_every_step_of_the_work_each_length_stands_whole_on_its_line(tmp_path: Path, size: Size) -> None:
    async with loft(tmp_path, None, size) as it:
        for step in it.session.plan.work:
            await it.shows(place_of(step), "steps")
            await it.pilot.pause()
            place = it.job.query_one("#step-text", Static)
            painted = [place.render_line(row).text.strip() for row in range(place.size.height)]
            assert not torn(painted), step.id


@pytest.mark.parametrize("words", [8, 9, 10, 11, 12])
async def test_a_message_is_shown_to_its_last_word(tmp_path: Path, words: int) -> None:
    async with loft(tmp_path) as it:
        it.app.notify(f"{'cushion ' * words}end.", markup=False)
        await it.sees("end.")


# Lists.
OPTIONS = RenderOptions(lambda style: Style(), {})
TEXT = "[ ] Stitch to the tape: the long side along the bench\n· and its lining"


@pytest.mark.parametrize("columns", [16, 24, 40, 80])
@pytest.mark.parametrize("apart", [True, False])
def test_only_what_begins_stands_at_the_left_and_goes_on_under_its_text(columns: int, apart: bool) -> None:
    hanging = Hanging(Content(TEXT), 4, apart=apart)
    found = [strip.text.rstrip() for strip in hanging.render_strips(columns, None, Style(), OPTIONS)]
    assert " ".join(" ".join(found).split()) == " ".join(TEXT.split())
    assert max(map(len, found)) <= columns
    at_the_left = [each for each in found if not each.startswith("    ")]
    assert [each[:1] for each in at_the_left] == (["[", "·"] if apart else ["["])
    assert hanging.get_height({}, columns) == len(found)


def test_a_line_of_two_columns_goes_on_under_the_second() -> None:
    hanging = Hanging(Content("Esc       Back. Closes what is open.\nPlain words."), apart=True)
    found = [strip.text.rstrip() for strip in hanging.render_strips(28, None, Style(), OPTIONS)]
    assert found == ["Esc       Back. Closes what", f"{' ' * 10}is open.", "Plain words."]


# A table to choose from in lines: what is in hand is marked without colour, and no part of a row is lost.
HEADS = ("fullness", "to buy", "joins", "cost")


def row(fullness: str, buy: str, **more: bool) -> Offer:
    entries = {"fullness.aim": "a number", "fullness.want": fullness}
    return Offer(fullness, (fullness, buy, "9", "$30.06"), entries, "within the guide", f"It buys {buy}.", **more)


NOW, BEST, MORE = row("2", "1 yd", in_use=True), row("2.5", "2 yd", recommended=True), row("2.8", "3 yd")
TABLE = Offers(HEADS, (NOW, BEST, MORE), "It is the guide.", NOW, whole=True)


@pytest.mark.parametrize("columns", range(40, 121, 4))
def test_what_has_no_room_in_a_row_is_said_of_it_and_no_line_is_too_wide(columns: int) -> None:
    table = Columns(TABLE, columns)
    assert len(table.heads().plain) <= columns
    for each in TABLE.rows:
        line = table.line(each, in_hand=True).plain
        assert len(line) <= columns
        assert (line[0], line[-1]) == ("»", "«")
        assert "»" not in table.line(each, in_hand=False).plain
        said = f"{line} {table.hidden(each)}".casefold()
        for words in (*each.cells, each.note, *(["in use"] if each.in_use else [])):
            assert words.casefold() in said, (columns, words)


def test_a_column_without_anything_in_it_is_left_out() -> None:
    rows = tuple(Offer("2", ("2", "1 yd", "9", ""), {}) for _ in range(2))
    table = Columns(Offers(HEADS, rows), 80)
    assert table.heads().plain.split() == ["fullness", "to", "buy", "joins"]
    assert table.hidden(rows[0]) == ""


# The plan so far, beside the page.
def told(*rows: Row, columns: int = 28) -> list[str]:
    return [line_of(each, columns).plain for each in rows]


def test_no_word_is_cut_and_a_value_without_space_is_under_its_label_or_under_itself_with_its_mark() -> None:
    bought = ((), ("twill tape", "4 yd"), ("sewing thread", "1 spool"), ("staples", "41"))
    rows = [Row("also to buy", *each) for each in bought]
    assert told(*rows) == ["Also to buy", "  twill tape 4 yd", "  sewing thread 1 spool", "  staples    41"]
    long = Row("also to buy", "hook-and-loop, sewn loop side", "4 yd")
    assert told(long) == ["  hook-and-loop, sewn loop\n    side\n      4 yd"]
    drop = Row("left section", "drop", "12 1/16 in, follows the floor", "part.left.drop")
    assert told(drop) == ["  drop       12 1/16 in,\n             follows the\n             floor"]
    marked = replace(drop, changed=True, was="12 3/8 in")
    assert told(marked) == [f"{told(drop)[0]} ▲\n             was 12 3/8 in"]
    assert told(drop, columns=46) == ["  drop       12 1/16 in, follows the floor"]


@pytest.mark.parametrize("columns", range(24, 60))
def test_no_line_of_the_plan_so_far_is_wider_than_its_place(columns: int) -> None:
    rows = [
        Row("", f"{'label ' * n}end", f"{'value ' * m}end", "figure", mark, "value " * m if mark else None)
        for n in range(5)
        for m in range(6)
        for mark in (False, True)
    ]
    lines = "\n".join(told(*rows, columns=columns)).split("\n")
    assert max(len(each) for each in lines) <= columns
    words = " ".join(" ".join(lines).split())
    assert words.count("label") == sum(each.label.count("label") for each in rows)
    assert words.count("end") == sum(f"{each.label}{each.value}".count("end") for each in rows)


MIDDLE = "survey.section.left.drop.2"


def test_the_first_figures_are_said_before_the_plan_knows_its_own_and_each_says_why() -> None:
    job = Job(standard="inches", survey=Survey(bed_size="US queen"))
    told_first = [each for each in rows(make_plan(job)) if each.label == "in all"]
    assert [each.value for each in told_first] == [worded("first figures", "4 1/2 yd", "54 in")]
    drops = tuple(inches(12) for _ in range(3))
    section = {"left": Section(side="left", drop=drops), "foot": Section(side="foot")}
    plan = make_plan(Job(standard="inches", survey=Survey(floor="carpet", floor_gap=ZERO, section=section)))
    cut = next(each for each in rows(plan) if each.label == "cut length")
    assert cut.value.endswith(worded("usual allowances"))
    for each in rows(plan):
        assert each.figure is None or figure_of(plan, each.figure).value is not None


def with_changed(panel: SidePanel, *places: int) -> tuple[Row, ...]:
    return tuple(
        replace(each, changed=place in places and each.figure is not None, was=None)
        for place, each in enumerate(panel.rows)
    )


async def test_it_stays_where_it_is_unless_what_changed_first_would_be_out_of_sight(tmp_path: Path) -> None:
    async with loft(tmp_path, None, (120, 24)) as it:
        await it.shows(MIDDLE, "field")
        panel = it.job.query_one(SidePanel)
        await it.until(lambda: panel.size.height > 0 and panel.max_scroll_y > 0)
        last = max(place for place, each in enumerate(panel.rows) if each.figure)
        for change in ((2, last), (last,), (2,)):
            panel.tell(with_changed(panel, *change))
            await it.pilot.pause()
            assert panel.highlighted == min(change)
            there = panel.scroll_offset.y
            assert (there > 2) == (change == (last,))
            panel.tell(with_changed(panel))
            await it.pilot.pause()
            assert panel.scroll_offset.y == there
        panel.scroll_to(y=3, animate=False, immediate=True)
        panel.tell(with_changed(panel, 5))
        panel.tell(with_changed(panel))
        await it.pilot.pause()
        assert panel.scroll_offset.y == 3


async def test_the_plan_line_keeps_its_figures_where_there_is_no_room_for_what_it_is(tmp_path: Path) -> None:
    async with loft(tmp_path) as it:
        await it.shows(MIDDLE)
        line = it.job.query_one(PlanLine)
        await it.until(lambda: line.size.width > 0)
        long, cloths = "x" * 50, ("buy 4 yd", ", 3 yd of b", " and 2 yd of c")
        for said, shown in (
            (("4 yd",), worded("plan so far", "4 yd")),
            ((long, "; ", "buy 4 yd"), f"{long}; buy 4 yd"),
            ((long, " (usual)", ", 5 widths", "; ", "buy 4 yd"), f"{long} (usual); buy 4 yd"),
            ((long, "; ", *cloths), f"{long}; buy 4 yd and more"),
            ((long, "; ", "about 4 yd, 54 in wide"), f"{long}; about 4 yd"),
            ((long, "; ", f"about 4 yd {long}"), long),
        ):
            line.texts, line.key = shortened_line([Segment(each) for each in said]), "F2"
            line.on_resize()
            assert str(line.render()).startswith(f"{shown} ")
