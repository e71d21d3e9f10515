"""What is typed and not entered outlasts the screens, whatever ends them; what to know of a save is told."""

from __future__ import annotations

import asyncio
import errno
import os
import stat
from pathlib import Path

import pytest

from tests.screens.jobs import job_file
from tests.screens.pilots import PATIENCE, Screens, kept_beside, loft, opened
from tests.screens.screen_texts import worded
from wizard.screens.app import SkirtApp

DROP = "survey.section.left.drop.2"
LENGTH = "12 3/16"


async def test_what_is_typed_is_kept_soon_and_not_at_every_key(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    written: list[str] = []
    replace = os.replace

    def replaced(source: str, target: str) -> None:
        written.append(str(target))
        replace(source, target)

    monkeypatch.setattr(os, "replace", replaced)
    async with loft(tmp_path, DROP) as it:
        await it.typed(LENGTH)
        await it.until(lambda: LENGTH in kept_beside(it.path))
        assert len(written) < len(LENGTH)


async def test_a_fault_that_ends_the_screens_keeps_what_is_typed(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", DROP)
    app = SkirtApp(tmp_path, path)
    async with app.run_test() as pilot:
        await pilot.pause()
        await Screens(pilot, path).typed(LENGTH)
        for _ in range(2):
            app.call_later(lambda: 1 // 0)
        # The second one ends the app: there is nothing left that could be waited for.
        async with asyncio.timeout(PATIENCE):
            while app.fault is None:
                await asyncio.sleep(0.01)
    assert isinstance(app.fault, ZeroDivisionError)
    assert LENGTH in kept_beside(path)


@pytest.mark.parametrize(("typed", "then", "stands"), [(LENGTH, "12", "12"), ("11 7/", "16", "11 7/16")])
async def test_a_reading_half_typed_goes_on_where_it_stopped_and_a_whole_one_is_taken_again(
    tmp_path: Path, typed: str, then: str, stands: str
) -> None:
    async with loft(tmp_path, DROP) as it:
        await it.typed(typed)
    async with opened(it.path) as it:
        await it.sees(worded("typed here", typed))
        assert it.job.pages.text == typed
        await it.typed(then)
        assert it.job.pages.text == stands


async def test_what_to_know_of_a_save_is_told_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    sync = os.fsync

    def fsync(handle: int) -> None:
        if stat.S_ISDIR(os.fstat(handle).st_mode):
            raise OSError(errno.EIO, os.strerror(errno.EIO))
        sync(handle)

    async with loft(tmp_path, DROP, (120, 40)) as it:
        monkeypatch.setattr(os, "fsync", fsync)
        await it.typed("12", "enter", sees=worded("not confirmed"))
        assert it.session.file.remarks() == ()
