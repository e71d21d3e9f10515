"""The first cutting plan is shown at once; a better one takes its place by itself, and one stays where one looks."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from pathlib import Path

import pytest

from tests.project.test_better_plans import many_sections
from tests.screens.pilots import Screens, opened
from wizard.interview.job_state import placed
from wizard.project.encode import encode
from wizard.project.plan_of_project import best_plan_of, can_improve, plan_of
from wizard.render.plan_rows import figure_words
from wizard.screens import cutting_controller
from wizard.screens.panes.cutting_pane import CuttingPane
from wizard.screens.panes.large_view import LargePane
from wizard.screens.panes.roll_pane import RollView
from wizard.trade.plan_records import Plan

Searched = Callable[[Callable[[], None]], Awaitable[None]]
BODY = "#step-body"


async def test_a_plan_that_is_not_proven_is_improved_beside_the_screen_and_writes_nothing(tmp_path: Path) -> None:
    path = tmp_path / "many.toml"
    path.write_bytes(encode(many_sections(tmp_path, longer=9)))
    before = path.read_bytes()
    async with opened(path) as it:
        screen = it.job
        await it.until(lambda: screen.cutting.improved is not None and not can_improve(screen.session.plan))
        cutting = screen.session.plan.layers[0].cutting
        assert cutting is not None
        assert cutting.best.proof.fewest_joins
        assert screen.cutting.improved is screen.session.plan
    assert path.read_bytes() == before


def to_buy(plan: Plan) -> str:
    """How much of the cloth is to be bought, as the checklist has it."""
    return next(step.lines[0] for step in plan.work if step.id == "buy").partition(": ")[2].partition(",")[0]


def used(plan: Plan) -> str:
    """How much of the cloth is used, as the cutting plan has it."""
    return figure_words(plan.layers[0].used, plan)


async def test_a_better_plan_is_seen_wherever_one_looks_and_one_stays_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    project = many_sections(tmp_path, longer=9)
    first, best = plan_of(project), best_plan_of(project)
    bought, now_bought = to_buy(first), to_buy(best)
    assert bought != now_bought
    assert used(first) != used(best)
    path = tmp_path / "many.toml"
    path.write_bytes(encode(placed(project, "work.buy")))
    monkeypatch.setattr(cutting_controller, "can_improve", lambda plan: False)
    async with opened(path, (80, 20)) as it:
        screen = it.job

        async def searched(look: Callable[[], None]) -> None:
            """The first plan again, looked at as `look` does it; then the search, to its end."""
            screen.session.take(first)
            screen.show()
            await it.settled()
            look()
            await it.settled()
            assert screen.session.plan is first
            with monkeypatch.context() as search:
                search.setattr(cutting_controller, "can_improve", can_improve)
                screen.cutting.improved = None
                screen.show_around()
                await it.settled()
            assert to_buy(screen.session.plan) == now_bought

        await it.until(lambda: it.focused == "steps")
        await it.sees(bought)

        def at_the_note() -> None:
            screen.query_one("#note").focus()
            screen.query_one(BODY).scroll_to(y=2, animate=False)

        await searched(at_the_note)
        await it.sees(now_bought)
        assert bought not in it.seen
        assert (it.focused, screen.query_one(BODY).scroll_y) == ("note", 2)
        await in_large_figures(it, searched)
        await on_the_cutting_plan(it, searched, (used(first), used(best)))
        await on_the_roll(it, searched)


async def in_large_figures(it: Screens, searched: Searched) -> None:
    """The leaf in hand stays in hand, with the better figure."""
    screen = it.job
    screen.action_large()
    await it.until(lambda: it.focused == "large-body")
    shown = []

    def at_the_second_leaf() -> None:
        screen.query_one(LargePane).turn(2 - screen.query_one(LargePane).at)
        screen.query_one("#large-tick").focus()
        shown.append(screen.query_one(LargePane).leaves)

    await searched(at_the_second_leaf)
    assert screen.query_one(LargePane).leaves != shown[0]
    assert (it.focused, screen.query_one(LargePane).at) == ("large-tick", 2)
    screen.action_large()


async def on_the_cutting_plan(it: Screens, searched: Searched, used: tuple[str, str]) -> None:
    """What was scrolled to stays in sight, and the button in hand in hand."""
    screen = it.job
    await it.press("f7", focus="cutting")

    def scrolled() -> None:
        assert used[0] in it.seen
        screen.query_one(CuttingPane).scroll_to(y=4, animate=False)
        screen.query_one("#to-ways").focus()

    await searched(scrolled)
    assert (it.focused, screen.query_one(CuttingPane).scroll_y) == ("to-ways", 4)
    screen.query_one(CuttingPane).scroll_to(y=0, animate=False)
    await it.sees(used[1])
    assert used[0] not in it.seen


async def on_the_roll(it: Screens, searched: Searched) -> None:
    """One stays as near, and where one was."""
    screen = it.job
    await it.press("shift+f7", focus="roll-view")
    roll = screen.query_one(RollView)
    await it.press("end", "plus")
    await it.settled()
    await it.press("right", "down")
    looked = []

    def nearer() -> None:
        looked.append((roll.zoom, roll.scroll_y, roll.query_one("#roll-across").scroll_x, roll.scenes))
        screen.query_one("#do-zoom_in").focus()

    await searched(nearer)
    zoom, down, across, scenes = looked[0]
    assert down > 0
    assert across > 0
    assert it.focused == "do-zoom_in"
    assert (roll.zoom, roll.scroll_y, roll.query_one("#roll-across").scroll_x) == (zoom, down, across)
    assert roll.scenes != scenes
    assert roll.plan is screen.session.plan
