"""The roll to scale: one comes nearer and moves over it, by keys, by buttons and from the list of actions."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest
from textual.widgets import Button

from tests.outside.jobs import cloth, plain_job, planned, straight
from tests.screens.jobs import job_file
from tests.screens.pilots import SIZES, at, focused, job, opened, over, seen, sees, typed, until, wholly_visible
from wizard.interview.job_state import place_of
from wizard.render.drawings.character_grid import HATCH
from wizard.render.drawings.scene import Box
from wizard.screens import cutting_controller
from wizard.screens.actions import actions_in
from wizard.screens.panes.cutting_pane import LANES, cutting_lines
from wizard.screens.panes.roll_pane import NEARER, NEEDED, Looker, RollView, View, scenes_of
from wizard.trade.formatting import SIXTEENTHS
from wizard.trade.lengths import ZERO
from wizard.trade.make_plan import make_plan

SECTIONS = {f"part-{n}": straight("left", str(17 + 7 * n), str(9 + n % 3)) for n in range(12)}
TWELVE, _ = planned(plain_job(SECTIONS, fullness="2", cloth=cloth("54")))
SCENE = scenes_of(TWELVE)[0]


def drawn(looker: Looker, view: View) -> str:
    return "\n".join(measure + line for measure, line in looker.lines(view, SIXTEENTHS))


def test_every_view_is_as_large_as_its_place_and_stays_on_the_cloth() -> None:
    for columns, rows in ((56, 12), (76, 16), (116, 32)):
        looker, view = Looker(SCENE, columns, rows), View()
        assert looker.seen(view, SIXTEENTHS) == "all; nearer shows more"
        for step in ("in", "in", "right", "down", "in", "down", "left", "up", "out", "out", "out", "out"):
            if step in ("in", "out"):
                view = looker.nearer(view, NEARER if step == "in" else 1 / NEARER)
            else:
                moves = {"right": (90, 0), "left": (-9, 0), "down": (0, 90), "up": (0, -5)}
                view = looker.moved(view, *moves[step])
            window = looker.window(view)
            assert ZERO <= window.left <= SCENE.width
            assert ZERO <= window.top <= SCENE.height
            lines = list(looker.lines(view, SIXTEENTHS))
            assert len(lines) == rows
            assert {len(measure + line) for measure, line in lines} == {columns}
        assert looker.seen(view, SIXTEENTHS) == "all; nearer shows more"


def test_where_the_whole_length_fills_the_width_nearer_is_not_said_to_show_what_is_left_out() -> None:
    plan, _ = planned(plain_job({"left": straight("left", "40", "12")}, fullness="2", cloth=cloth("54")))
    assert Looker(scenes_of(plan)[0], 56, 40).seen(View(), SIXTEENTHS) == "all of it"


def test_moving_over_the_whole_width_shows_every_piece_by_number_name_and_size() -> None:
    looker, view, shown = Looker(SCENE, 116, 32), View(zoom=Fraction(1)), ""
    for _ in range(40):
        shown += drawn(looker, view)
        view = looker.moved(view, 0, 8)
    pieces = [shape for shape in SCENE.shapes if isinstance(shape, Box) and shape.fill == "none"]
    cutting = TWELVE.layers[0].cutting
    assert cutting is not None
    assert len(pieces) == len(cutting.best.pieces)
    unseen = [n for n in range(1, len(pieces) + 1) if not re.search(rf"\b{n} ", shown)]
    assert unseen == []
    assert "up ↓" in shown
    assert HATCH in shown


def test_the_edge_of_the_window_is_not_drawn_as_the_edge_of_a_piece() -> None:
    looker = Looker(SCENE, 40, 6)
    near = looker.nearer(View(zoom=Fraction(1)), Fraction(8))
    inside = looker.moved(near, 2, 1)
    assert "│" not in "".join(line for _, line in looker.lines(inside, SIXTEENTHS))


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
        await sees(pilot, "nearer shows more")
        await pilot.press("plus", "plus", "down", "right")
        await until(pilot, lambda: roll.view.zoom is not None and roll.view.top > ZERO)
        assert "along" in seen(pilot)
        await pilot.click("#do-zoom_out")
        await pilot.click("#do-see_whole")
        await sees(pilot, "nearer shows more")
        await pilot.press("ctrl+p")
        await over(pilot)
        await typed(pilot, "nearer")
        await pilot.press("enter")
        await until(pilot, lambda: roll.view.zoom is not None)
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
        await sees(pilot, "Large figures are for a question and for a step: the next one is shown so.")
        await pilot.press("ctrl+f")
        await sees(pilot, "Large figures are off.")
        await pilot.press("f8")
        await at(pilot, place, "field")
        assert screen.job.view == "page"
        await pilot.press("f7")
        await until(pilot, lambda: focused(pilot) == "cutting")
        await pilot.press("f7")
        await until(pilot, lambda: focused(pilot) == "roll-view")
        await pilot.press("f8")
        await at(pilot, place_of(screen.session.plan.work[0]), "steps")
        await pilot.press("escape")
        await until(pilot, lambda: (screen.job.view, focused(pilot)) == ("cutting", "cutting"))


@pytest.mark.long
async def test_the_roll_and_its_buttons_fit_every_size(tmp_path: Path) -> None:
    for size in SIZES:
        async with opened(job_file(tmp_path / "loft.toml"), size) as pilot:
            job(pilot).cutting.roll()
            await until(pilot, lambda: focused(pilot) == "roll-view")
            await sees(pilot, "nearer shows more")
            for action in actions_in("roll"):
                if action.context == "roll":
                    assert wholly_visible(job(pilot).query_one(f"#do-{action.id}")), (size, action.id)


async def test_in_every_width_and_after_every_change_of_it_no_button_of_the_roll_is_cut_off(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml"), (80, 24)) as pilot:
        job(pilot).cutting.roll()
        await until(pilot, lambda: focused(pilot) == "roll-view")
        buttons = list(job(pilot).query("#roll-buttons Button").results(Button))
        assert sorted(NEEDED) == sorted((each.id or "").removeprefix("do-") for each in buttons)
        for columns in (60, 40, 120, 50, 80, 60):
            await pilot.resize_terminal(columns, 20)
            await until(pilot, lambda columns=columns: pilot.app.size.width == columns)
            await pilot.pause()
            shown = [each for each in buttons if each.display]
            await until(pilot, lambda shown=shown: all(wholly_visible(each) for each in shown))
            assert len(shown) >= (len(buttons) if columns >= 60 else 8)


async def test_ways_asked_for_before_they_are_worked_out_come_by_themselves(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml"), (80, 24)) as pilot:
        screen = job(pilot)
        await until(pilot, lambda: screen.job.view == "work")
        assert not screen.cutting.found
        await pilot.press("f11")
        await over(pilot)
        await until(pilot, lambda: focused(pilot) == "ways")
        await pilot.press("escape")
        await until(pilot, lambda: pilot.app.screen is screen and screen.job.view == "work")


async def test_ways_that_took_long_are_told_of_and_do_not_come_over_what_one_does(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(cutting_controller, "SOON", 0.0)
    async with opened(job_file(tmp_path / "loft.toml"), (80, 24)) as pilot:
        screen = job(pilot)
        await until(pilot, lambda: screen.job.view == "work")
        await pilot.press("f11")
        await sees(pilot, "The ways are worked out: F11 shows them.")
        assert pilot.app.screen is screen


async def test_a_way_of_cutting_is_followed_from_the_list_of_ways_and_taken_back(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml")
    async with opened(path, (80, 24)) as pilot:
        screen = job(pilot)
        await pilot.press("f7")
        await until(pilot, lambda: len(screen.cutting.found) == len(screen.session.plan.layers))
        before = screen.session.plan
        await pilot.press("end")
        await sees(pilot, "By its area alone")
        await pilot.press("f11")
        await over(pilot)
        await sees(pilot, "along the roll")
        ways = [way.id for way in screen.cutting.found["face"].ways]
        await pilot.press(*["down"] * ways.index("along"), "enter")
        await until(pilot, lambda: screen.session.plan is not before)
        cutting = screen.session.plan.layers[0].cutting
        assert cutting is not None
        assert cutting.best.way == "along"
        assert 'lay = "along"' in path.read_text(encoding="utf-8")
        assert screen.job.view == "cutting"
        await pilot.press("f5")
        await until(pilot, lambda: screen.session.plan.job == before.job)


# The cutting plan of cloth laid along the roll says which way its lengths go.
def told(lay: str) -> list[str]:
    """The lines of the cutting plan of two sections."""
    sections = {"left": straight("left", "76", "12"), "right": straight("right", "70", "11")}
    plan = make_plan(plain_job(sections, fullness="2", cloth=cloth("60", lay=lay)))
    return [line.plain for line in cutting_lines(plan, {}, "", 110)]


def test_lengths_at_the_left_of_lanes_are_said_to_go_across_the_cloth() -> None:
    lines = told("along")
    at = lines.index("The roll: measure along it from the squared end")
    assert lines[at + 1] == LANES
    assert "74 3/4 in along the roll, 13 1/2 in across it" in " ".join(" ".join(lines).split())


@pytest.mark.parametrize("words", [LANES, "along the roll", "across it"])
def test_cloth_cut_across_says_nothing_of_lanes(words: str) -> None:
    assert words not in "\n".join(told("across"))
