"""The roll to scale: one comes nearer and moves over it, by keys, by buttons and from the list of actions."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from textual.events import MouseScrollDown
from textual.widgets import Button

from tests.screens.pilots import loft, wholly_visible
from tests.screens.screen_texts import worded
from tests.trade.sample_jobs import cloth, plain_job, planned, straight
from wizard.interview.job_state import place_of
from wizard.render.drawings.character_grid import HATCH
from wizard.render.drawings.scene import Box
from wizard.render.workings_sheet import LANES
from wizard.screens.panes.cutting_pane import cutting_lines
from wizard.screens.panes.roll_pane import BUTTONS, MARGIN, NEAREST, WHOLE, WIDTH, RollView, drawn, scenes_of
from wizard.trade.formatting import SIXTEENTHS
from wizard.trade.make_plan import make_plan

SECTIONS = {f"part-{n}": straight("left", str(17 + 7 * n), str(9 + n % 3)) for n in range(12)}
TWELVE, _ = planned(plain_job(SECTIONS, fullness="2", cloth=cloth("54")))
SCENE = scenes_of(TWELVE)[0]


@pytest.mark.parametrize(("columns", "rows"), [(45, 12), (65, 16), (105, 32)])
def test_the_whole_roll_fits_its_place_and_its_width_the_columns(columns: int, rows: int) -> None:
    sizes = [
        (len(lines[0][1]), len(lines)) for zoom in range(NEAREST + 1)
        if (lines := list(drawn(SCENE, SIXTEENTHS, columns, rows, zoom)))
    ]  # fmt: skip
    assert sizes[WHOLE][0] <= columns
    assert sizes[WHOLE][1] <= rows
    assert sizes[WIDTH][0] == columns
    assert sizes == sorted(sizes)
    assert sizes[NEAREST][0] > 3 * columns


def test_the_whole_width_shows_every_piece_by_number_name_and_size() -> None:
    lines = list(drawn(SCENE, SIXTEENTHS, 105, 32, WIDTH))
    shown = "\n".join(measure + line for measure, line in lines)
    pieces = [shape for shape in SCENE.shapes if isinstance(shape, Box) and shape.fill == "none"]
    cutting = TWELVE.layers[0].cutting
    assert cutting is not None
    assert len(pieces) == len(cutting.best.pieces)
    assert [n for n in range(1, len(pieces) + 1) if not re.search(rf"\b{n} ", shown)] == []
    assert "up ↓" in shown
    assert HATCH in shown
    assert all(len(measure) < MARGIN for measure, _ in lines)


async def test_keys_buttons_the_wheel_and_the_list_of_actions_move_over_the_roll(tmp_path: Path) -> None:
    async with loft(tmp_path) as it:
        await it.press("shift+f7", focus="roll-view")
        assert it.job.job.view == "roll"
        await it.press("escape", "f7", focus="cutting")
        await it.press("f7", focus="roll-view", sees="whole roll")
        roll = it.job.query_one(RollView)
        await it.press("plus", "plus", "down", "right")
        await it.until(lambda: roll.zoom == WIDTH + 1 and roll.scroll_y > 0)
        assert "0 in" not in it.seen
        before = roll.scroll_y
        await it.pilot._post_mouse_events([MouseScrollDown], roll)
        await it.until(lambda: roll.scroll_y > before)
        await it.click("#do-zoom_out")
        await it.click("#do-see_whole")
        await it.sees("whole roll")
        await it.search("zoom in", "enter", key="ctrl+p")
        await it.until(lambda: roll.zoom == WIDTH)
        await it.press("escape")
        await it.until(lambda: it.job.job.view == "cutting")


async def test_next_goes_on_from_the_roll_as_from_the_cutting_plan_and_moves_nothing_unseen(tmp_path: Path) -> None:
    place = "survey.section.left.run.1"
    async with loft(tmp_path) as it:
        await it.shows(place, "field")
        await it.press("shift+f7", focus="roll-view")
        await it.press("ctrl+f", sees=worded("large figures on"))
        await it.press("ctrl+f", sees=worded("large figures off"))
        await it.press("f8", at=place)
        await it.press("f7", focus="cutting")
        await it.press("f7", focus="roll-view")
        await it.press("f8", focus="cutting")
        await it.press("f8", at=place_of(it.session.plan.work[0]))
        await it.press("escape", focus="cutting")
        assert it.job.job.view == "cutting"


async def test_in_every_width_and_after_every_change_of_it_no_button_of_the_roll_is_cut_off(tmp_path: Path) -> None:
    async with loft(tmp_path) as it:
        await it.press("shift+f7", focus="roll-view")
        buttons = list(it.job.query("#roll-buttons Button").results(Button))
        assert sorted(BUTTONS) == sorted((each.id or "").removeprefix("do-") for each in buttons)
        for columns in (60, 40, 120, 50, 80, 60):
            await it.pilot.resize_terminal(columns, 20)
            await it.until(lambda columns=columns: it.app.size.width == columns)
            await it.until(lambda: all(wholly_visible(each) for each in buttons))
            await it.sees(*(str(each.label) for each in buttons))


async def test_the_cutting_plan_leads_to_the_page_of_ways_and_a_way_taken_there_is_cut(tmp_path: Path) -> None:
    async with loft(tmp_path) as it:
        await it.press("f7", sees="Cut list: ")
        before = it.session.plan
        await it.press("enter", at="ways.face", sees="Recommended: ")
        rows = [line for line in it.seen.split("\n") if "across, part widths" in line or "along the roll " in line]
        assert "»" in rows[0]
        await it.press("down", "down", "down", "down", "enter")
        await it.until(lambda: it.session.plan.job != before.job)
        cutting = it.session.plan.layers[0].cutting
        assert cutting is not None
        assert (cutting.best.way, it.saved("cloth.face.lay")) == ("along", "along")
        await it.press("f5")
        await it.until(lambda: it.session.plan.job == before.job)


# The cutting plan of cloth laid along the roll says which way its lengths go.
@pytest.mark.parametrize("lay", ["along", "across"])
def test_cuts_say_their_size_first_and_lanes_how_they_run_where_there_are_any(lay: str) -> None:
    sections = {"left": straight("left", "76", "12"), "right": straight("right", "70", "11")}
    plan = make_plan(plain_job(sections, fullness="2", cloth=cloth("60", lay=lay)))
    told = " ".join(" ".join(line.plain for line in cutting_lines(plan, {}, "", 110)).split())
    at = "left section, 3 of 3, from 0 in to 74 3/4 in, 13 1/2 in from the left edge"
    assert (LANES in told, "along the roll" in told) == (lay == "along", lay == "along")
    assert (f" 13 1/2 in long × 74 3/4 in wide: {at}" in told) == (lay == "along")
    assert re.search(r" 13 1/2 in long × \S+ ?\S* in wide: left section", told)
