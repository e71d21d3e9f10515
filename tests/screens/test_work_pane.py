"""The checklist, and steps and fields in large figures: ticks, notes and minutes by keys, in the file at once."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
from msgspec.structs import replace
from textual.widgets import Static

from tests.screens.jobs import NOON, job_file
from tests.screens.pilots import loft, opened, wholly_visible
from tests.screens.screen_texts import worded
from wizard.interview.job_state import place_of
from wizard.interview.page import Page
from wizard.interview.question import Choice, Question
from wizard.project.plan_of_project import plan_of
from wizard.project.store import Opened, Store
from wizard.render.drawings.page_drawing import PageDrawing
from wizard.screens.pages.field_view import FieldView
from wizard.screens.pages.form_layout import Form, Said, lay_out
from wizard.screens.panes.large_pages import (
    ROWS,
    figures_in,
    in_blocks,
    large_figure,
    large_words,
    leaves_of,
    pages_of,
    shapes,
    width,
)
from wizard.screens.panes.large_view import LargePane, lay_out_large
from wizard.trade.plan_records import Step


async def test_a_step_is_ticked_unticked_noted_and_left_for_a_glance_at_the_cutting_plan(tmp_path: Path) -> None:
    async with loft(tmp_path, None, (120, 40)) as it:
        await it.press("f9", focus="steps")
        first, second = it.session.plan.work[:2]
        await it.press("enter")
        await it.at(place_of(second), "steps")
        assert it.saved("work")[first.id]["done"].tzinfo is not None
        await it.press("f7", sees="Cut list")
        await it.press("escape")
        await it.at(place_of(second), "steps")
        await it.press("space")
        await it.until(lambda: "done" in it.saved("work").get(second.id, {}))
        await it.sees("Untick ")
        await it.press("space")
        await it.until(lambda: "done" not in it.saved("work").get(second.id, {}))
        await it.over("ctrl+o")
        await it.typed("slub in the second width", "enter")
        await it.on_the_job()
        assert it.saved("work")[second.id]["note"] == "slub in the second width"
        await it.sees("Note      slub in the second width")


async def test_a_ticked_step_is_seen_and_not_ticked_anew_while_an_answer_is_missing(tmp_path: Path) -> None:
    async with loft(tmp_path) as it:
        it.session.tick("cut:face")
        it.session.choose({"fullness.want": None})  # type: ignore[dict-item]
        told = it.saved("work.cut:face")
        await it.press("f9", sees="[x] Cut out: face")
        await it.shows("work.cut:face", "steps")
        await it.sees(worded("waits"))
        await it.press("enter", sees=worded("steps done of", 1, len(it.session.steps)))
        assert it.saved("work.cut:face") == told


async def test_the_text_of_a_long_step_is_read_to_its_end_and_back_from_the_list(tmp_path: Path) -> None:
    async with loft(tmp_path, None, (60, 20)) as it:
        await it.shows("work.join:face:left", "steps")
        body = it.job.query_one("#step-body")
        await it.sees_no(worded("not done"))
        await it.until(lambda: body.max_scroll_y > body.size.height)
        for key, end, sees in (("pagedown", body.max_scroll_y, worded("not done")), ("pageup", 0, "Join: face")):
            while body.scroll_y != end:
                await it.press(key)
            await it.sees(sees)
        await it.at("work.join:face:left", "steps")


@pytest.mark.long
async def test_every_step_ticked_one_after_the_other_ends_with_the_skirt_hung(tmp_path: Path) -> None:
    async with loft(tmp_path) as it:
        await it.press("f9", focus="steps")
        steps = it.session.plan.work
        await it.press(*["enter"] * len(steps), sees=worded("steps done", len(steps)))
        assert set(it.saved("work")) == {each.id for each in it.session.plan.work}


async def test_the_timer_is_started_stopped_and_mended_and_each_stage_is_summed(tmp_path: Path) -> None:
    async with loft(tmp_path, None, (120, 40)) as it:
        await it.press("f9", focus="steps")
        now, first = NOON, it.session.plan.work[0].id
        it.session.now = lambda: now
        await it.press("ctrl+d", sees="Stop timer")
        assert "minutes" not in (it.saved("work") or {}).get(first, {})
        now = NOON + timedelta(minutes=30)
        it.job.work.look_at_clock()
        await it.sees(worded("timer running"))
        await it.click("#timer")
        await it.sees(worded("time of cloth", "30 min"))
        assert it.saved("work")[first]["minutes"] == 30
        for minutes, said in (
            ("an hour", worded("no minutes")),
            ("75", worded("time of cloth", "1 h 15 min")),
        ):
            await it.over("shift+f9")
            await it.anew(minutes, "enter", sees=said)
        await it.press("ctrl+d", sees="timer running")
        now += timedelta(minutes=5)
        assert worded("to go on", "") in it.job.close_job()
        assert it.saved("work")[first]["minutes"] == 80


async def test_a_ticked_step_that_is_timed_is_timed_no_more_when_one_goes_on(tmp_path: Path) -> None:
    async with loft(tmp_path) as it:
        await it.press("f9", focus="steps")
        first, second = it.session.plan.work[:2]
        it.session.tick(first.id)
        await it.press("ctrl+d")
        await it.until(lambda: it.job.timing.step == first.id)
        await it.press("enter")
        await it.at(place_of(second), "steps")
        assert it.job.timing.step is None
        assert it.saved("work")[first.id]["minutes"] == 1


async def test_that_every_step_is_ticked_is_said_no_more_once_one_is_not(tmp_path: Path) -> None:
    async with loft(tmp_path) as it:
        *before, last = it.session.plan.work
        for each in before:
            it.session.tick(each.id)
        await it.shows(place_of(last), "steps")
        await it.press("enter", sees=f"{worded('all ticked')} {worded('it hangs')}.")
        await it.press("space")
        await it.sees_no(worded("it hangs"))


async def test_what_an_answer_upset_stays_in_sight_and_coming_back_tells_of_edits(tmp_path: Path) -> None:
    step = "join:face:left"
    async with loft(tmp_path, None, (60, 20)) as it:
        it.session.tick(step)
        it.session.tick("hem:face:left")
        await it.shows("survey.section.left.run.1")
        await it.anew("70 5/8", "enter", sees=worded("look again", 2))
        await it.search("check again", sees=worded("ticked as it was"))
        await it.press("enter")
        await it.at(f"work.{step}", "steps")
        await it.sees(worded("look again", 2))
        await it.press("enter", at="work.hem:face:left")
        await it.press("f9", at="work.hem:face:left")
        # A key of the page that comes before the focus has left it does nothing.
        await it.job.run_action("walk(1)")
        assert it.session.at == "work.hem:face:left"
        await it.press("enter")
        await it.sees_no(worded("look again, any"))
        it.session.go(f"work.{step}")
        it.session.leave()
        path = it.path
    path.write_text(path.read_text().replace('"58 in"', '"57 1/2 in"'))
    async with opened(path) as it:
        await it.at(f"work.{step}", "steps")
        await it.sees(worded("done so far, seen"))
        assert worded("edited by hand", "foot section") in str(it.job.query_one("#work-resumed", Static).render())
        await it.press("down")
        await it.sees_no(worded("done so far, seen"))


# Large figures: five rows high at least, whole at every width, one key on and one back.
BLOCKS = set(" ▀▄█")


@pytest.fixture(scope="module")
def steps(tmp_path_factory: pytest.TempPathFactory) -> tuple[Step, ...]:
    """All the work of a whole job."""
    opened = Store(job_file(tmp_path_factory.mktemp("large") / "loft.toml")).open()
    assert isinstance(opened, Opened)
    return plan_of(opened.project).work


def test_every_sign_of_a_length_has_a_shape_of_its_own_of_one_width_and_five_rows_or_one_more_below_the_line() -> None:
    for sign, rows in shapes().items():
        assert len({len(row) for row in rows}) == 1, sign
        assert len(rows) in (ROWS, ROWS + 1), sign
        assert set("".join(rows)) <= BLOCKS, sign
    shown = [rows for sign, rows in shapes().items() if sign.strip()]
    assert len(set(shown)) == len(shown)
    assert set("0123456789/.,'\"≈ infcmydt") <= shapes().keys()


def test_a_figure_is_five_rows_times_its_size_as_wide_as_it_says_and_a_larger_one_is_the_same_drawing() -> None:
    for size in (1, 2, 3, 4):
        lines = in_blocks("12 1/8", size)
        assert len(lines) == ROWS * size
        assert {len(line) for line in lines} == {width("12 1/8", size)}
    small, large = in_blocks("0123456789/", 1), in_blocks("0123456789/", 2)
    for row, upper, lower in zip(small, large[::2], large[1::2], strict=True):
        for halves, line in (("▀█", upper), ("▄█", lower)):
            assert line == "".join(("█" if each in halves else " ") * 2 for each in row)


def test_a_long_figure_goes_on_at_the_next_row_and_words_too_long_or_never_drawn_are_not_large() -> None:
    lines = large_figure("143 1/16 in", 1, 44)
    assert lines is not None
    assert len(lines) == ROWS + 1 + ROWS
    assert max(len(line) for line in lines) <= 44
    assert large_figure("143 1/16 in", 2, 58) is None
    assert large_words("143 1/16 in", 44, 10) is None
    assert large_words("143143143143", 58, 40) is None
    assert large_words("жук", 80, 24) is None
    assert lay_out_large(a_form("жук"), 80, 24, drawn).lines[0].plain == "жук"


def a_form(text: str) -> Form:
    """A page of four fields, the second in hand with `text` in it."""
    texts = {"one": "1", "two": text, "three": "", "four": ""}
    fields = tuple(FieldView(key, key, each) for key, each in texts.items())
    said = Said(echo="12 1/8 in · ≈ 308 mm" if text else "")
    question = Question("two", "Survey", "", None, "", "How far is it?", "", "length")
    return Form(Page("side.left", "Survey", "Left side", "", (question,)), question, fields, (), "", "two", said)


def drawn(columns: int, rows: int) -> PageDrawing:
    return PageDrawing(tuple("d" * columns for _ in range(rows)), ())


@pytest.mark.parametrize(("columns", "rows"), [(56, 17), (58, 18), (78, 19), (118, 34)])
@pytest.mark.parametrize("text", ["12 1/8", "143 1/16 in", "29,2 cm", ""])
def test_a_field_is_large_and_whole_with_drawing_echo_and_dots(columns: int, rows: int, text: str) -> None:
    laid = lay_out_large(a_form(text), columns, rows, drawn)
    lines = [each.plain for each in laid.lines]
    assert len(lines) <= rows
    assert max(len(line) for line in lines) <= columns
    assert sum("█" in line for line in lines) >= (ROWS if text else ROWS - 1)
    assert "○ ● ○ ○" in lines
    assert "d" * columns in lines
    assert not text or any("= 12 1/8 in · ≈ 308 mm" in line for line in lines)
    assert laid.editor is not None
    assert lines[laid.editor.row][laid.editor.column - 2] == "["


@pytest.mark.parametrize("columns", range(60, 90))
def test_a_row_of_choices_is_never_wider_than_its_page_and_says_which_is_usual(columns: int) -> None:
    two = Choice("hem", "the hem: which is what you see"), Choice("top", "the top")
    field = FieldView("two", "Level along", "top", "hem", "", "", two, 1)
    laid = lay_out(replace(a_form(""), fields=(field,)), columns, 12, drawn)
    assert max(len(each.plain.rstrip()) for each in laid.lines) <= columns
    assert any("which is what you see" in each.plain and "usual" in each.plain for each in laid.lines)


@pytest.mark.parametrize(
    ("line", "figures"),
    [
        ("Width 1, 0 in to 13 5/8 in: left piece 1, 11 3/16 in wide.", ["0 in", "13 5/8 in", "11 3/16 in"]),
        ("At 20 7/16 in: ≈ 12 3/16 in down.", ["20 7/16 in", "≈ 12 3/16 in"]),
        ("Join pieces 1 to 4 in order, arrows up, tops level: 3 joins.", []),
        ("41 staples, in this order: one end, the other end.", ["41"]),
        ("Cut it 6 ft 8 1/2 in long, or 204.5 cm.", ["6 ft 8 1/2 in", "204.5 cm"]),
        ("Press it along the grain, and let it cool flat.", []),
    ],
)
def test_the_lengths_of_a_line_are_picked_out(line: str, figures: list[str]) -> None:
    assert [each.figure for each in figures_in(line)] == figures


def test_the_cautions_come_first_and_no_word_of_a_step_is_left_out(steps: tuple[Step, ...]) -> None:
    for step in steps:
        pages = pages_of(step)
        assert pages[0].caution == bool(step.cautions)
        assert [words for page in pages for words in page.words if page.caution] == [c.sentence for c in step.cautions]
        told = [words for page in pages for words in page.words if not page.caution]
        assert list(dict.fromkeys(told)) == list(dict.fromkeys((*step.lines, *step.listed))), step.id


@pytest.mark.parametrize(("columns", "rows"), [(36, 6), (57, 16), (77, 19), (117, 35)])
def test_every_leaf_fits_with_figures_of_five_rows(steps: tuple[Step, ...], columns: int, rows: int) -> None:
    for step in steps:
        for leaf in leaves_of(step, columns, rows):
            lines = leaf.content.plain.split("\n")
            assert max(len(line) for line in lines) <= columns, step.id
            if pages_of(step)[leaf.page].figures and columns > 40:
                assert sum("█" in line for line in lines) >= ROWS, leaf.content.plain


async def test_one_field_fills_the_screen_and_the_answer_is_large_while_one_types(tmp_path: Path) -> None:
    async with loft(tmp_path, "survey.section.left.drop.2", (60, 20)) as it:
        await it.at("survey.section.left.drop.2", "field")
        await it.press("ctrl+f", sees="○ ● ○")
        assert "In the way" not in it.seen
        await it.typed("12 1/8")
        await it.sees(*(line.rstrip() for line in in_blocks("12 1/8", 1)), "= 12 1/8 in · ≈ 308 mm")
        assert it.focused == "field"
        assert wholly_visible(it.job.query_one("#field"))
        await it.press("enter", at="survey.section.left.drop.3")
        assert "In the way" not in it.seen
        await it.press("ctrl+f", sees="In the way")


async def test_one_step_fills_the_screen_and_is_gone_through_and_ticked_by_one_key_each(tmp_path: Path) -> None:
    async with loft(tmp_path, None, (60, 20)) as it:
        await it.press("f9", focus="steps")
        await it.press("ctrl+f", focus="large-body")
        pane, (first, second) = it.job.query_one(LargePane), it.session.plan.work[:2]
        await it.until(lambda: len(pane.leaves) > 2)
        await it.sees(f"1 of {len(pane.leaves)}")
        await it.press("f8", sees="2 of ")
        assert sum("█" in line for line in it.seen.split("\n")) >= ROWS
        for back, on in (("left", "right"), ("up", "down"), ("pageup", "pagedown")):
            await it.press(back, sees="1 of ")
            await it.press(on, sees="2 of ")
        await it.press("left", sees="1 of ")
        await it.press("space")
        await it.until(lambda: "done" in (it.saved("work") or {}).get(first.id, {}))
        await it.press("space", *["enter"] * len(pane.leaves))
        await it.at(place_of(second), "large-body")
        assert "done" in it.saved("work")[first.id]
        await it.until(lambda: pane.at == 0)
        await it.press("left")
        await it.at(place_of(first), "large-body")
        await it.until(lambda: pane.at == len(pane.leaves) - 1 > 0)
        await it.pilot.resize_terminal(120, 40)
        await it.until(lambda: pane.query_one("#large-body").size.width > 100)
        assert wholly_visible(pane.query_one("#large-text", Static))
        await it.sees("Esc Close")
        await it.press("escape", focus="steps", sees="Esc Back")


@pytest.mark.parametrize("columns", [40, 60, 80, 120])
async def test_the_state_of_a_timed_step_is_whole_and_its_sayings_go_with_it(tmp_path: Path, columns: int) -> None:
    async with loft(tmp_path, None, (columns, 20)) as it:
        await it.press("f9", focus="steps")
        await it.press("ctrl+f", focus="large-body")
        await it.press("ctrl+d", sees="Stop timer")
        await it.until(lambda: "timer running." in " ".join(it.seen.split()))
        for wanted in ("Ticked ", "Not done yet. "):
            await it.press("space", sees=wanted)
            assert "running" not in it.seen
            assert wholly_visible(it.job.query_one("#large-state"))
