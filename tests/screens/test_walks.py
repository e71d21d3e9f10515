"""A sample of the random walks, in this process: the same steps, without a terminal. All of them run by themselves
(tests/endurance/walks.py)."""

from __future__ import annotations

import asyncio
from collections.abc import Iterator
from pathlib import Path

import pytest
from textual import events
from textual.events import Key
from textual.keys import _character_to_key

from tests.endurance.walk_steps import STARTS, Step, walk_of
from tests.endurance.walks import furnish
from tests.screens.pilots import Screens, survived
from wizard.project.folder import find_projects
from wizard.project.project import Project
from wizard.screens.app import SkirtApp
from wizard.screens.dialogs.base_dialogs import MessageDialog

KEYS = 100


def events_of(step: Step, size: tuple[int, int]) -> Iterator[events.Event]:
    """What the terminal's driver would send."""
    for each in step.keys:
        letter = " " if each == "space" else each
        yield Key(_character_to_key(letter), letter) if len(letter) == 1 else Key(each, None)
    if step.paste:
        yield events.Paste(step.paste)
    if step.click:
        x, y = (int(part * cells) for part, cells in zip(step.click, size, strict=True))
        kinds = {0: (events.MouseMove, events.MouseDown, events.MouseUp), -1: (events.MouseScrollUp,)}
        for kind in kinds.get(step.wheel, (events.MouseScrollDown,)):
            yield kind(None, x, y, 0, 0, 1, False, False, False, x, y)


async def walk(it: Screens, steps: Iterator[Step]) -> None:
    """Walk until nothing is left to do, or the wizard is left by choice."""
    app = it.app
    for step in steps:
        if step.size:
            await it.pilot.resize_terminal(*step.size)
        for event in events_of(step, app.size):
            app.post_message(event)
        await asyncio.sleep(step.pause)
        if not app.is_running or app._exit:
            return


async def help_opens(it: Screens) -> None:
    """Whatever lies over it, something is on the screen, once it is painted, and the help opens in a usual window."""
    await it.until(lambda: bool(it.seen.strip()))
    await it.pilot.resize_terminal(80, 24)
    await it.until(lambda: it.app.size.width == 80)
    await it.press("escape", "f1")
    await it.until(lambda: isinstance(it.top, MessageDialog) and it.top.heading == "Help")


@pytest.mark.parametrize("seed", range(2 * len(STARTS)))
async def test_no_key_ends_the_wizard_and_no_file_is_lost(tmp_path: Path, seed: int) -> None:
    way = walk_of(seed, KEYS)
    furnish(tmp_path, way.start)
    file = None if way.start == "the list of projects" else tmp_path / "loft.toml"
    steps = iter(way.steps)
    while await left_by_choice(SkirtApp(tmp_path, file), steps, way.size):
        pass
    assert all(isinstance(each.project, Project) for each in find_projects(tmp_path))


async def left_by_choice(app: SkirtApp, steps: Iterator[Step], size: tuple[int, int]) -> bool:
    """Walk on; false when no step is left, and then the help opens."""
    async with app.run_test(size=size, notifications=True) as pilot:
        it = Screens(pilot, app.folder)
        await walk(it, steps)
        await it.until(lambda: app._exit or not app.input.held.at_work)
        left = app._exit
        if not left:
            await help_opens(it)
    assert survived(app) == []
    assert app.fault is None
    return left
