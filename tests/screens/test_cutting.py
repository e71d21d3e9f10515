"""The cutting plan and the roll to scale: one moves over them, and a better plan takes its place where one looks."""

from __future__ import annotations

import re
from collections.abc import Awaitable, Callable
from pathlib import Path

import pytest
from textual.events import MouseScrollDown
from textual.widgets import Button, Static

from tests.project.test_better_plans import many_sections
from tests.screens.pilots import Screens, loft, opened, wholly_visible
from tests.screens.screen_texts import worded
from tests.trade.sample_jobs import cloth, plain_job, planned, straight
from wizard.interview.job_state import place_of, placed
from wizard.project.encode import encode
from wizard.project.plan_of_project import at_best, can_improve, plan_of
from wizard.render.drawings.character_grid import HATCH
from wizard.render.drawings.scene import Box
from wizard.render.plan_rows import figure_words
from wizard.render.workings_sheet import LANES
from wizard.screens import cutting_controller
from wizard.screens.panes.cutting_pane import CuttingPane, cutting_lines
from wizard.screens.panes.large_view import LargePane
from wizard.screens.panes.roll_pane import BUTTONS, MARGIN, NEAREST, WHOLE, WIDTH, RollView, drawn, scenes_of
from wizard.trade.formatting import SIXTEENTHS
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Plan

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
    # Where no line is free inside a piece its number is beside the roll, never on a cut.
    whole = [line for _, line in drawn(SCENE, SIXTEENTHS, columns, rows, WHOLE)]
    numbers = [each for line in whole for each in re.findall(r"[^\w─](\d+)", line)]
    assert numbers == [str(number) for number in range(1, len(numbers) + 1)]
    assert len(numbers) == sum(isinstance(each, Box) and each.fill == "none" for each in SCENE.shapes)


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
    assert all(len(measure) < MARGIN and "in" not in measure for measure, _ in lines)


async def test_keys_buttons_the_wheel_and_the_list_of_actions_move_over_the_roll(tmp_path: Path) -> None:
    async with loft(tmp_path) as it:
        await it.press("shift+f7", focus="roll-view")
        assert it.job.job.view == "roll"
        await it.press("escape", "f7", focus="cutting")
        await it.press("f7", focus="roll-view", sees="whole roll")
        roll = it.job.query_one(RollView)
        await it.press("plus", "plus", "down", "right")
        await it.until(lambda: roll.zoom == WIDTH + 1 and roll.scroll_y > 0)
        assert "(in)" in it.seen
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
        await it.press("f11", at="ways.face", sees="Recommended: ")
        rows = [line for line in it.seen.split("\n") if "across, part widths" in line or "along the roll " in line]
        assert "»" in rows[0]
        await it.press("down", "down", "down", "down", "enter")
        await it.until(lambda: it.session.plan.job != before.job)
        cutting = it.session.plan.layers[0].cutting
        assert cutting is not None
        assert (cutting.best.way, it.saved("cloth.face.lay")) == ("along", "along")
        await it.press("f5")
        await it.until(lambda: it.session.plan.job == before.job)


async def test_every_line_of_the_cutting_plan_is_seen_page_by_page_and_enter_goes_on(
    tmp_path: Path,
) -> None:
    async with loft(tmp_path, None, (80, 24)) as it:
        await it.press("f7", sees="Cut list: ")
        text = it.job.query_one("#cutting-text", Static)
        await it.until(lambda: "Recommended: " in str(text.render()))
        lines, seen = {each.strip() for each in str(text.render()).split("\n")}, set[str]()
        for _ in range(len(lines) // 15 + 1):
            seen |= {each[:77].strip() for each in it.seen.split("\n")}  # without the bar that scrolls
            await it.press("pagedown")
        assert lines <= seen
        await it.press("enter", focus="steps")


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


# The first cutting plan is shown at once; a better one takes its place by itself, and one stays where one looks.
Searched = Callable[[Callable[[], None]], Awaitable[None]]
BODY = "#step-body"


async def test_a_plan_that_is_not_proven_is_improved_beside_the_screen_and_writes_nothing(tmp_path: Path) -> None:
    path = tmp_path / "many.toml"
    path.write_bytes(before := encode(many_sections(tmp_path, longer=9)))
    async with opened(path) as it:
        await it.until(lambda: it.job.cutting.improved is not None and not can_improve(it.session.plan))
        cutting = it.session.plan.layers[0].cutting
        assert cutting is not None
        assert cutting.best.proof.fewest_joins
        assert it.job.cutting.improved is it.session.plan
    assert path.read_bytes() == before


def to_buy(plan: Plan) -> str:
    """How much of the cloth is to be bought, as the checklist has it."""
    return next(step.lines[0] for step in plan.work if step.id == "buy").partition(": ")[2].partition(",")[0]


async def test_a_better_plan_is_seen_where_one_looks_and_stays(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    project = many_sections(tmp_path, longer=9)
    first, best = plan_of(project), at_best(plan_of(project))
    bought, now_bought = to_buy(first), to_buy(best)
    used, now_used = (figure_words(plan.layers[0].used, plan) for plan in (first, best))
    assert (bought != now_bought, used != now_used) == (True, True)
    path = tmp_path / "many.toml"
    path.write_bytes(encode(placed(project, "work.buy")))
    monkeypatch.setattr(cutting_controller, "can_improve", lambda plan: False)
    async with opened(path, (80, 20)) as it:

        async def searched(look: Callable[[], None]) -> None:
            """The first plan again, looked at as `look` does it; then the search, to its end."""
            it.session.take(first)
            it.job.show()
            await it.settled()
            look()
            await it.settled()
            assert it.session.plan is first
            with monkeypatch.context() as search:
                search.setattr(cutting_controller, "can_improve", can_improve)
                it.job.cutting.improved = None
                it.job.show_around()
                await it.settled()
            assert to_buy(it.session.plan) == now_bought

        await it.until(lambda: it.focused == "steps")
        await it.sees(bought)

        def at_the_note() -> None:
            it.job.query_one("#note").focus()
            it.job.query_one(BODY).scroll_to(y=2, animate=False)

        await searched(at_the_note)
        await it.sees(now_bought)
        assert bought not in it.seen
        assert (it.focused, it.job.query_one(BODY).scroll_y) == ("note", 2)
        await in_large_figures(it, searched)
        await on_the_cutting_plan(it, searched, used, now_used)
        await on_the_roll(it, searched)


async def in_large_figures(it: Screens, searched: Searched) -> None:
    """The leaf in hand stays in hand, with the better figure."""
    it.job.action_large()
    await it.until(lambda: it.focused == "large-body")
    pane, shown = it.job.query_one(LargePane), []

    def at_the_second_leaf() -> None:
        pane.turn(2 - pane.at)
        it.job.query_one("#large-tick").focus()
        shown.append(pane.leaves)

    await searched(at_the_second_leaf)
    assert pane.leaves != shown[0]
    assert (it.focused, pane.at) == ("large-tick", 2)
    it.job.action_large()


async def on_the_cutting_plan(it: Screens, searched: Searched, used: str, now_used: str) -> None:
    """What was scrolled to stays in sight, and the button in hand in hand."""
    await it.press("f7", focus="cutting")
    pane = it.job.query_one(CuttingPane)

    def scrolled() -> None:
        assert used in it.seen
        pane.scroll_to(y=4, animate=False)
        it.job.query_one("#to-ways").focus()

    await searched(scrolled)
    assert (it.focused, pane.scroll_y) == ("to-ways", 4)
    pane.scroll_to(y=0, animate=False)
    await it.sees(now_used)
    assert used not in it.seen


async def on_the_roll(it: Screens, searched: Searched) -> None:
    """One stays as near, and where one was."""
    await it.press("shift+f7", focus="roll-view")
    roll = it.job.query_one(RollView)
    await it.press("end", "plus")
    await it.settled()
    await it.press("right", "down")
    looked, scenes = list[tuple[float, ...]](), []

    def place() -> tuple[float, ...]:
        return (roll.zoom, roll.scroll_y, roll.query_one("#roll-across").scroll_x)

    def nearer() -> None:
        looked.append(place())
        scenes.append(roll.scenes)
        it.job.query_one("#do-zoom_in").focus()

    await searched(nearer)
    assert min(looked[0][1:]) > 0
    assert (it.focused, place()) == ("do-zoom_in", looked[0])
    assert roll.scenes != scenes[0]
    assert roll.plan is it.session.plan
