"""Sheets are written from the wizard: the very ones the shell writes, asked about before another file is replaced."""

from __future__ import annotations

from functools import partial
from pathlib import Path

import pytest
from textual.widgets import Input, Static

from tests.commands.message_texts import text_of
from tests.commands.running import within
from tests.project.test_better_plans import many_sections
from tests.screens.jobs import job_file
from tests.screens.pilots import at, clear_field, focused, opened, over, sees, typed, until
from tests.screens.screen_texts import worded
from wizard.project.encode import encode
from wizard.project.plan_of_project import can_improve, plan_of
from wizard.render.sheet_names import Format, SheetId
from wizard.screens.cutting_controller import CuttingController
from wizard.screens.dialogs.sheets_dialog import SheetsDialog

LONG = "x" * 300
"""No name of a file may be so long."""


def says(dialog: SheetsDialog, sentence: str) -> bool:
    return sentence in str(dialog.query_one("#sheets-said", Static).content)


def from_the_shell(path: Path, form: Format, only: tuple[SheetId, ...] | None = None) -> str:
    sheets = ("--only", ",".join(only)) if only else ()
    return within("sheet", path.name, "--as", form, *sheets, folder=path.parent).stdout


async def test_the_sheets_written_are_those_of_the_shell_and_nothing_is_replaced_unasked(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml")
    page, text = tmp_path / "loft.html", tmp_path / "loft.txt"
    text.write_text("mine")
    async with opened(path, (60, 20)) as pilot:
        await pilot.press("ctrl+s")
        await over(pilot)
        await pilot.press("enter")
        await sees(pilot, "Written")
        await sees(pilot, "loft.html")
        assert page.read_text() == from_the_shell(path, "html")
        await pilot.press("escape", "ctrl+s")
        await over(pilot)
        await pilot.press("down", "tab", "space", "enter")
        await sees(pilot, worded("file there", "loft.txt"))
        assert text.read_text() == "mine"
        await pilot.press("enter")
        await sees(pilot, text_of("text written"))
    wanted: tuple[SheetId, ...] = ("shop", "table", "making-up", "marks", "hanging", "care")
    assert text.read_text() == from_the_shell(path, "text", wanted)


async def test_a_plan_not_proven_at_once_is_written_as_the_shell_writes_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # The search beside the screen is still on its way.
    monkeypatch.setattr(CuttingController, "_improving", lambda *_: iter(()))
    path, project = tmp_path / "many.toml", many_sections(tmp_path, longer=9)
    path.write_bytes(encode(project))
    assert can_improve(plan_of(project))
    async with opened(path, (60, 20)) as pilot:
        await pilot.press("ctrl+s")
        await over(pilot)
        await pilot.press("down", "enter")
        await sees(pilot, text_of("text written"))
    assert (tmp_path / "many.txt").read_text() == from_the_shell(path, "text")


async def test_trouble_is_said_in_the_dialog_and_nothing_typed_is_lost(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", "fullness.how")
    before = path.read_text()
    async with opened(path) as pilot:
        await at(pilot, "fullness.how", "page-body")
        await pilot.press("ctrl+s")
        dialog = await over(pilot)
        assert isinstance(dialog, SheetsDialog)
        field = dialog.query_one("#target", Input)
        field.focus()
        await until(pilot, lambda: focused(pilot) == "target")
        for name, said in (
            ("", worded("no name of a file", "loft.html")),
            ("loft.toml", text_of("the project itself", tmp_path / "loft.toml")),
            ("~gone/sheet.html", worded("no such folder")),
            (LONG, text_of("no file name", f"{LONG[:39]}…", "File name too long", "loft.html")),
            (".", worded("a folder given")),
        ):
            await clear_field(pilot)
            # A long name is pasted: typing it takes half a minute.
            await typed(pilot, name[:20])
            field.value = name
            await pilot.press("enter", *(["enter"] if name == "loft.toml" else []))
            # As it was said, not as it is broken into lines: the folder's name is longer on some days.
            await until(pilot, partial(says, dialog, said))
        assert field.value == str(tmp_path / "loft.html")
        await pilot.press("enter")
        await sees(pilot, worded("unfinished", "fullness"))
        await pilot.press("escape")
        await at(pilot, "fullness.how", "page-body")
    assert path.read_text() == before
    assert (tmp_path / "loft.html").exists()
