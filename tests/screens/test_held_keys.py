"""Keys that come faster than a screen opens or closes, and walks at random: none ends the wizard or loses anything."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from textual import events
from textual.events import Key
from textual.keys import _character_to_key
from textual.widgets import Input

from tests.endurance.walk_steps import STARTS, Step, walk_of
from tests.endurance.walks import furnish
from tests.screens.jobs import job_file
from tests.screens.pilots import Screens, Size, opened, survived
from wizard.project.folder import find_projects
from wizard.project.project import Project
from wizard.screens.app import REBUILT, SkirtApp
from wizard.screens.dialog_host import LEAST_COLUMNS, LEAST_ROWS
from wizard.screens.dialogs.base_dialogs import MessageDialog
from wizard.screens.dialogs.search_dialog import SearchDialog
from wizard.screens.dialogs.why_dialog import WhyDialog
from wizard.screens.job_screen import JobScreen
from wizard.screens.list_screen import ListScreen

OPENING = ("f1", "f2", "f3", "f4", "ctrl+p", "ctrl+s", "ctrl+t", "ctrl+q")


async def at_once(it: Screens, *keys: str) -> None:
    """Press keys faster than anything is done with them, then wait until all are done with."""
    for each in keys:
        letter = len(each) == 1
        it.app.post_message(Key(_character_to_key(each) if letter else each, each if letter else None))
    await it.idle()


@pytest.mark.parametrize("key", OPENING)
async def test_a_dialog_answers_once_however_often_it_is_closed(tmp_path: Path, key: str) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "survey.rail")) as it:
        await at_once(it, key, "escape", key, "escape", key)
        assert it.top is not it.job
        for _ in range(2):
            await it.top.run_action("close")
        await it.on_the_job()


async def test_letters_typed_while_a_dialog_opens_are_its_own_and_in_order(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "fullness.how")) as it:
        await at_once(it, "1", "f3", *"foot", "escape", "2", "f3", *"drop")
        assert isinstance(it.top, SearchDialog)
        assert it.top.query_one("#search", Input).value == "drop"
        await at_once(it, "escape")
        assert it.job.pages.text == "12"


async def test_enter_held_takes_one_line_and_stays_where_there_is_nothing_deeper(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml")) as it:
        await at_once(it, "f3", *"drop", *["enter"] * 12)
        assert isinstance(it.top, JobScreen)
        await at_once(it, "f2", *["enter"] * 3)
        dialog = it.top
        assert isinstance(dialog, WhyDialog)
        assert len(dialog.path) == 3
        await at_once(it, *["enter"] * 20)


@pytest.mark.parametrize("keys", [("f9", "pagedown"), ("f3", "pageup"), ("f4", "pagedown", "pageup"), ("f11",) * 5])
async def test_a_list_without_a_line_to_show_has_no_pages(tmp_path: Path, keys: tuple[str, ...]) -> None:
    async with opened(job_file(tmp_path / "loft.toml"), (LEAST_COLUMNS, LEAST_ROWS)) as it:
        await at_once(it, *keys)
        await at_once(it, "escape", "f1")
        assert isinstance(it.top, MessageDialog)


async def test_a_job_left_and_opened_again_at_once_is_on_the_screen(tmp_path: Path) -> None:
    job_file(tmp_path / "loft.toml", "fullness.how")
    async with opened(tmp_path) as it:
        await at_once(it, "enter", "ctrl+l", "enter", "ctrl+l", "enter", "2")
        await it.at("fullness.how", "page-body")
        assert it.job.pages.text == "2"
        await at_once(it, "ctrl+l", "f1", "escape")
        assert isinstance(it.top, ListScreen)
        await it.sees("Juniper loft")
        assert it.focused == "projects"


def boom(*_: object) -> None:
    raise RuntimeError("never meant to be")


class Broken(MessageDialog):
    def on_mount(self) -> None:
        boom()


def in_the_app(it: Screens) -> None:
    it.app.call_later(boom)


def in_the_answer_of_a_dialog(it: Screens) -> None:
    dialog = MessageDialog("Told", "Told")
    it.app.dialogs.open(dialog, boom)
    it.app.dialogs.close(dialog, None)


FAULTS: dict[str, Callable[[Screens], object]] = {
    "in a timer": lambda it: it.job.set_timer(0.001, boom),
    "in a worker": lambda it: it.job.run_worker(boom, thread=True),
    "in the app": in_the_app,
    "in a widget": lambda it: it.job.query_one("#field").call_later(boom),
    "after a refresh": lambda it: it.job.call_after_refresh(boom),
    "in the answer of a dialog": in_the_answer_of_a_dialog,
    "in a dialog that opens": lambda it: it.app.dialogs.open(Broken("Told", "Told")),
}


def told(it: Screens) -> bool:
    """True once the fault is told, and the screen is built."""
    dialogs = it.app.dialogs
    return not dialogs.changes.at_work and getattr(it.top, "heading", "") == REBUILT


async def comes(wanted: Callable[[], bool]) -> None:
    """Wait for `wanted` without the pilot, which waits for widgets that a fault has stopped."""
    for _ in range(3000):
        if wanted():
            return
        await asyncio.sleep(0.02)
    pytest.fail("it never came")


@pytest.mark.parametrize("fault", FAULTS.values(), ids=FAULTS)
async def test_a_fault_anywhere_is_told_and_the_job_goes_on(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fault: Callable[[Screens], object]
) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    async with opened(job_file(tmp_path / "loft.toml", "fullness.how"), faults=1) as it:
        await at_once(it, "2")
        fault(it)
        await comes(lambda: told(it))
        [details] = tmp_path.glob("railskirt-fault-*.txt")
        assert "never meant to be" in details.read_text()
        assert details.name[:16] in it.seen
        await at_once(it, "enter")
        await it.at("fullness.how", "page-body")
        assert it.job.pages.text == "2"
        await at_once(it, ".", "5", "f1")
        assert isinstance(it.top, MessageDialog)
        await at_once(it, "escape", "enter")
        await it.until(lambda: 'want = "2.5"' in (tmp_path / "loft.toml").read_text())


async def test_the_same_fault_again_ends_the_wizard(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    async with opened(job_file(tmp_path / "loft.toml", "fullness.how"), faults=1) as it:
        in_the_app(it)
        await comes(lambda: told(it))
        assert it.app.fault is None
        in_the_app(it)
        await comes(lambda: it.app.fault is not None)


# A sample of the random walks, in this process: the same steps, without a terminal. All of them run by themselves
# (tests/endurance/walks.py).
KEYS = 100


def events_of(step: Step, size: Size) -> Iterator[events.Event]:
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


async def left_by_choice(app: SkirtApp, steps: Iterator[Step], size: Size) -> bool:
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
