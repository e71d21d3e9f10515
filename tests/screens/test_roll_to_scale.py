"""The roll to scale: one comes nearer and moves over it, by keys, by buttons and from the list of actions."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from textual.events import MouseScrollDown
from textual.widgets import Button

from tests.screens.jobs import job_file
from tests.screens.pilots import at, focused, job, opened, over, seen, sees, typed, until, wholly_visible
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


async def test_keys_buttons_and_the_list_of_actions_move_over_the_roll(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml"), (80, 24)) as pilot:
        screen = job(pilot)
        await pilot.press("shift+f7")
        await until(pilot, lambda: (screen.job.view, focused(pilot)) == ("roll", "roll-view"))
        await pilot.press("escape", "f7")
        await until(pilot, lambda: focused(pilot) == "cutting")
        await pilot.press("f7")
        await until(pilot, lambda: (screen.job.view, focused(pilot)) == ("roll", "roll-view"))
        roll = screen.query_one(RollView)
        await sees(pilot, "whole roll")
        await pilot.press("plus", "plus", "down", "right")
        await until(pilot, lambda: roll.zoom == WIDTH + 1 and roll.scroll_y > 0)
        assert "0 in" not in seen(pilot)
        await pilot.click("#do-zoom_out")
        await pilot.click("#do-see_whole")
        await sees(pilot, "whole roll")
        await pilot.press("ctrl+p")
        await over(pilot)
        await typed(pilot, "zoom in")
        await pilot.press("enter")
        await until(pilot, lambda: roll.zoom == WIDTH)
        await pilot.press("escape")
        await until(pilot, lambda: screen.job.view == "cutting")


async def test_next_goes_on_from_the_roll_as_from_the_cutting_plan_and_moves_nothing_unseen(tmp_path: Path) -> None:
    place = "survey.section.left.run.1"
    async with opened(job_file(tmp_path / "loft.toml"), (80, 24)) as pilot:
        screen = job(pilot)
        screen.session.go(place)
        screen.show()
        await at(pilot, place, "field")
        await pilot.press("shift+f7")
        await until(pilot, lambda: focused(pilot) == "roll-view")
        await pilot.press("ctrl+f")
        await sees(pilot, worded("large figures on"))
        await pilot.press("ctrl+f")
        await sees(pilot, worded("large figures off"))
        await pilot.press("f8")
        await at(pilot, place, "field")
        assert screen.job.view == "page"
        await pilot.press("f7")
        await until(pilot, lambda: focused(pilot) == "cutting")
        await pilot.press("f7")
        await until(pilot, lambda: focused(pilot) == "roll-view")
        await pilot.press("f8")
        await until(pilot, lambda: focused(pilot) == "cutting")
        await pilot.press("f8")
        await at(pilot, place_of(screen.session.plan.work[0]), "steps")
        await pilot.press("escape")
        await until(pilot, lambda: (screen.job.view, focused(pilot)) == ("cutting", "cutting"))


async def test_in_every_width_and_after_every_change_of_it_no_button_of_the_roll_is_cut_off(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml"), (80, 24)) as pilot:
        job(pilot).job.look_at("roll")
        await until(pilot, lambda: focused(pilot) == "roll-view")
        buttons = list(job(pilot).query("#roll-buttons Button").results(Button))
        assert sorted(BUTTONS) == sorted((each.id or "").removeprefix("do-") for each in buttons)
        for columns in (60, 40, 120, 50, 80, 60):
            await pilot.resize_terminal(columns, 20)
            await until(pilot, lambda columns=columns: pilot.app.size.width == columns)
            await until(pilot, lambda: all(wholly_visible(each) for each in buttons))
            await until(pilot, lambda: all(str(each.label) in seen(pilot) for each in buttons))


async def test_the_wheel_moves_along_the_roll(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml"), (80, 24)) as pilot:
        job(pilot).job.look_at("roll")
        await until(pilot, lambda: focused(pilot) == "roll-view")
        roll = job(pilot).query_one(RollView)
        await pilot.press("end")
        await until(pilot, lambda: roll.max_scroll_y > 0 and roll.scroll_y > 0)
        before = roll.scroll_y
        await pilot._post_mouse_events([MouseScrollDown], roll)
        await until(pilot, lambda: roll.scroll_y > before)


async def test_the_cutting_plan_leads_to_the_page_of_ways_and_a_way_taken_there_is_cut(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml")
    async with opened(path, (80, 24)) as pilot:
        screen = job(pilot)
        await pilot.press("f7")
        await sees(pilot, "Cut list: ")
        before = screen.session.plan
        await pilot.press("enter")
        await at(pilot, "ways.face")
        await sees(pilot, "Recommended: ")
        rows = [line for line in seen(pilot).split("\n") if "across, part widths" in line or "along the roll " in line]
        assert "»" in rows[0]
        await pilot.press("down", "down", "down", "down", "enter")
        await until(pilot, lambda: screen.session.plan.job != before.job)
        cutting = screen.session.plan.layers[0].cutting
        assert cutting is not None
        assert cutting.best.way == "along"
        assert 'lay = "along"' in path.read_text(encoding="utf-8")
        await pilot.press("f5")
        await until(pilot, lambda: screen.session.plan.job == before.job)


# The cutting plan of cloth laid along the roll says which way its lengths go.
def told(lay: str) -> list[str]:
    """The lines of the cutting plan of two sections."""
    sections = {"left": straight("left", "76", "12"), "right": straight("right", "70", "11")}
    plan = make_plan(plain_job(sections, fullness="2", cloth=cloth("60", lay=lay)))
    return [line.plain for line in cutting_lines(plan, {}, "", 110)]


def test_cuts_say_their_size_first_and_lanes_say_how_they_run() -> None:
    lines = " ".join(" ".join(told("along")).split())
    assert LANES in lines
    assert (
        " 13 1/2 in long × 74 3/4 in wide: left section 3/3, from 0 in to 74 3/4 in, 13 1/2 in from the left edge"
        in lines
    )
    lines = " ".join(" ".join(told("across")).split())
    assert re.search(r" 1 13 1/2 in long × \S+ ?\S* in wide: left section", lines)


@pytest.mark.parametrize("words", [LANES, "along the roll"])
def test_cloth_cut_across_says_nothing_of_lanes(words: str) -> None:
    assert words not in "\n".join(told("across"))
