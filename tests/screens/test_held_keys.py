"""Keys that come faster than a screen opens or closes: each reaches what it was meant for, and none ends the wizard."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from pathlib import Path

import pytest
from textual.events import Key
from textual.keys import _character_to_key
from textual.pilot import Pilot
from textual.widgets import Input

from tests.screens.jobs import job_file
from tests.screens.pilots import app_of, at, focused, job, opened, seen, sees, until
from wizard.screens.app import REBUILT
from wizard.screens.dialog_host import LEAST_COLUMNS, LEAST_ROWS
from wizard.screens.dialogs.base_dialogs import MessageDialog
from wizard.screens.dialogs.search_dialog import SearchDialog
from wizard.screens.dialogs.why_dialog import WhyDialog
from wizard.screens.job_screen import JobScreen
from wizard.screens.list_screen import ListScreen

OPENING = ("f1", "f2", "f3", "f4", "ctrl+p", "ctrl+s", "ctrl+t", "ctrl+q")


async def at_once(pilot: Pilot[int], *keys: str) -> None:
    """Press keys faster than anything is done with them, then wait until all are done with."""
    for each in keys:
        letter = len(each) == 1
        pilot.app.post_message(Key(_character_to_key(each) if letter else each, each if letter else None))
    await until(pilot, lambda: pilot.app.message_queue_size == 0 and not app_of(pilot).input.held.at_work)
    await pilot.pause()


@pytest.mark.parametrize("key", OPENING)
async def test_a_dialog_answers_once_however_often_it_is_closed(tmp_path: Path, key: str) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "survey.rail")) as pilot:
        await at_once(pilot, key, "escape", key, "escape", key)
        assert pilot.app.screen is not job(pilot)
        for _ in range(2):
            await pilot.app.screen.run_action("close")
        await until(pilot, lambda: pilot.app.screen is job(pilot))


async def test_letters_typed_while_a_dialog_opens_are_its_own_and_in_order(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "fullness.how")) as pilot:
        await at_once(pilot, "1", "f3", *"foot", "escape", "2", "f3", *"drop")
        assert isinstance(pilot.app.screen, SearchDialog)
        assert pilot.app.screen.query_one("#search", Input).value == "drop"
        await at_once(pilot, "escape")
        assert job(pilot).pages.text == "12"


async def test_enter_held_takes_one_line_and_the_next_question_gets_the_rest(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "survey.rail")) as pilot:
        await at_once(pilot, "f3", *"drop", *["enter"] * 12)
        assert isinstance(pilot.app.screen, JobScreen)


async def test_enter_held_on_a_figure_stays_where_there_is_nothing_deeper(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml")) as pilot:
        await at_once(pilot, "f2", *["enter"] * 3)
        dialog = pilot.app.screen
        assert isinstance(dialog, WhyDialog)
        assert len(dialog.path) == 3
        await at_once(pilot, *["enter"] * 20)


@pytest.mark.parametrize("keys", [("f9", "pagedown"), ("f3", "pageup"), ("f4", "pagedown", "pageup"), ("f11",) * 5])
async def test_a_list_without_a_line_to_show_has_no_pages(tmp_path: Path, keys: tuple[str, ...]) -> None:
    async with opened(job_file(tmp_path / "loft.toml"), (LEAST_COLUMNS, LEAST_ROWS)) as pilot:
        await at_once(pilot, *keys)
        await at_once(pilot, "escape", "f1")
        assert isinstance(pilot.app.screen, MessageDialog)


async def test_a_job_left_and_opened_again_at_once_is_on_the_screen(tmp_path: Path) -> None:
    job_file(tmp_path / "loft.toml", "fullness.how")
    async with opened(tmp_path) as pilot:
        await at_once(pilot, "enter", "ctrl+l", "enter", "ctrl+l", "enter", "2")
        await at(pilot, "fullness.how", "page-body")
        assert job(pilot).pages.text == "2"
        await at_once(pilot, "ctrl+l", "f1", "escape")
        assert isinstance(pilot.app.screen, ListScreen)
        await sees(pilot, "Juniper loft")
        assert focused(pilot) == "projects"


def boom(*_: object) -> None:
    raise RuntimeError("never meant to be")


def in_a_timer(pilot: Pilot[int]) -> None:
    job(pilot).set_timer(0.001, boom)


def in_a_worker(pilot: Pilot[int]) -> None:
    job(pilot).run_worker(boom, thread=True)


def in_the_app(pilot: Pilot[int]) -> None:
    pilot.app.call_later(boom)


def in_a_widget(pilot: Pilot[int]) -> None:
    job(pilot).query_one("#field").call_later(boom)


def after_a_refresh(pilot: Pilot[int]) -> None:
    job(pilot).call_after_refresh(boom)


def in_the_answer_of_a_dialog(pilot: Pilot[int]) -> None:
    dialog = MessageDialog("Told", "Told")
    app_of(pilot).dialogs.open(dialog, boom)
    app_of(pilot).dialogs.close(dialog, None)


class Broken(MessageDialog):
    def on_mount(self) -> None:
        boom()


def in_a_dialog_that_opens(pilot: Pilot[int]) -> None:
    app_of(pilot).dialogs.open(Broken("Told", "Told"))


def told(pilot: Pilot[int]) -> bool:
    """True once the fault is told, and the screen is built."""
    dialogs = app_of(pilot).dialogs
    return not dialogs.changes.at_work and getattr(pilot.app.screen, "heading", "") == REBUILT


async def comes(wanted: Callable[[], bool]) -> None:
    """Wait for `wanted` without the pilot, which waits for widgets that a fault has stopped."""
    for _ in range(3000):
        if wanted():
            return
        await asyncio.sleep(0.02)
    pytest.fail("it never came")


FAULTS = (
    in_a_timer, in_a_worker, in_the_app, in_a_widget, after_a_refresh, in_the_answer_of_a_dialog, in_a_dialog_that_opens
)  # fmt: skip


@pytest.mark.parametrize("fault", FAULTS)
async def test_a_fault_anywhere_is_told_and_the_job_goes_on(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fault: Callable[[Pilot[int]], None]
) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    async with opened(job_file(tmp_path / "loft.toml", "fullness.how"), faults=1) as pilot:
        await at_once(pilot, "2")
        fault(pilot)
        await comes(lambda: told(pilot))
        [details] = tmp_path.glob("railskirt-fault-*.txt")
        assert "never meant to be" in details.read_text()
        assert details.name[:16] in seen(pilot)
        await at_once(pilot, "enter")
        await at(pilot, "fullness.how", "page-body")
        assert job(pilot).pages.text == "2"
        await at_once(pilot, ".", "5", "f1")
        assert isinstance(pilot.app.screen, MessageDialog)
        await at_once(pilot, "escape", "enter")
        await until(pilot, lambda: 'want = "2.5"' in (tmp_path / "loft.toml").read_text())


async def test_the_same_fault_again_ends_the_wizard(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    async with opened(job_file(tmp_path / "loft.toml", "fullness.how"), faults=1) as pilot:
        in_the_app(pilot)
        await comes(lambda: told(pilot))
        assert app_of(pilot).fault is None
        in_the_app(pilot)
        await comes(lambda: app_of(pilot).fault is not None)
