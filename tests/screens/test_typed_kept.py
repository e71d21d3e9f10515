"""What is typed and not entered outlasts the program, whatever ends it; what to know of a save is told."""

from __future__ import annotations

import asyncio
import errno
import os
import signal
import stat
from contextlib import closing
from pathlib import Path

import pytest
from textual.pilot import Pilot

from tests.screens.jobs import job_file
from tests.screens.pilots import PATIENCE, job, opened, sees, typed, until
from tests.screens.screen_texts import worded
from tests.screens.terminals import Terminal
from wizard.screens.app import SkirtApp

DROP = "survey.section.left.drop.2"
LENGTH = "12 3/16"


def kept(path: Path) -> str:
    """What is kept beside the project of what was typed."""
    beside = path.with_name(f".{path.name}.typed")
    return beside.read_text(encoding="utf-8") if beside.exists() else ""


def field(pilot: Pilot[int]) -> str:
    return job(pilot).pages.text


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return job_file(tmp_path / "loft.toml", DROP)


@pytest.mark.parametrize("which", [signal.SIGKILL, signal.SIGHUP, signal.SIGTERM])
def test_a_length_typed_when_the_terminal_dies_is_in_the_field_again(path: Path, which: signal.Signals) -> None:
    project = path.read_bytes()
    with closing(Terminal(path.name, cwd=path.parent)) as terminal:
        terminal.sees(worded("drop in the middle"))
        terminal.type(LENGTH)
        terminal.sees("= 12 3/16 in")
        if which == signal.SIGKILL:
            terminal.until(lambda: LENGTH in kept(path), "what is typed, kept")
        terminal.kill(which)
    assert LENGTH in kept(path)
    assert path.read_bytes() == project
    with closing(Terminal(path.name, cwd=path.parent)) as terminal:
        terminal.sees(worded("typed here", LENGTH))
        terminal.press("Enter")
        terminal.until(lambda: LENGTH in path.read_text(encoding="utf-8"), "the answer in the file")
        terminal.press("C-q")
        terminal.sees("Leave?")
        terminal.press("Enter")
        assert terminal.ended() == 0
    assert kept(path) == ""


async def test_what_is_typed_is_kept_soon_and_not_at_every_key(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    written: list[str] = []
    replace = os.replace

    def replaced(source: str, target: str) -> None:
        written.append(str(target))
        replace(source, target)

    monkeypatch.setattr(os, "replace", replaced)
    async with opened(path) as pilot:
        await typed(pilot, LENGTH)
        await until(pilot, lambda: LENGTH in kept(path))
        assert len(written) < len(LENGTH)


async def test_a_fault_that_ends_the_screens_keeps_what_is_typed(path: Path) -> None:
    app = SkirtApp(path.parent, path)
    async with app.run_test() as pilot:
        await pilot.pause()
        await typed(pilot, LENGTH)
        for _ in range(2):
            app.call_later(lambda: 1 // 0)
        # The second one ends the app: there is nothing left that could be waited for.
        async with asyncio.timeout(PATIENCE):
            while app.fault is None:
                await asyncio.sleep(0.01)
    assert isinstance(app.fault, ZeroDivisionError)
    assert LENGTH in kept(path)


async def test_a_reading_taken_again_takes_the_place_of_what_was_left(path: Path) -> None:
    async with opened(path) as pilot:
        await typed(pilot, LENGTH)
    async with opened(path) as pilot:
        await sees(pilot, worded("typed here", LENGTH))
        assert field(pilot) == LENGTH
        await typed(pilot, "12")
        assert field(pilot) == "12"


async def test_what_to_know_of_a_save_is_told_once(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    sync = os.fsync

    def fsync(handle: int) -> None:
        if stat.S_ISDIR(os.fstat(handle).st_mode):
            raise OSError(errno.EIO, os.strerror(errno.EIO))
        sync(handle)

    monkeypatch.setattr(os, "fsync", fsync)
    async with opened(path, (120, 40)) as pilot:
        await typed(pilot, "12")
        await pilot.press("enter")
        await sees(pilot, worded("not confirmed"))
        assert job(pilot).session.file.remarks() == ()


async def test_a_reading_half_typed_goes_on_where_it_stopped(path: Path) -> None:
    async with opened(path) as pilot:
        await typed(pilot, "11 7/")
    async with opened(path) as pilot:
        await sees(pilot, worded("typed here", "11 7/"))
        await typed(pilot, "16")
        assert field(pilot) == "11 7/16"
