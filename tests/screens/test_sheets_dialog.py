"""Sheets are written from the wizard: the very ones the shell writes, asked about before another file is replaced.
Copies of them, and of what is in hand, go to the clipboard."""

from __future__ import annotations

from functools import partial
from pathlib import Path

import pytest
from textual.widgets import Input, Static

from tests.commands.message_texts import text_of
from tests.commands.running import within
from tests.project.test_better_plans import many_sections
from tests.screens.jobs import NOON, job_file
from tests.screens.pilots import loft, opened
from tests.screens.screen_texts import worded
from wizard.project.encode import encode
from wizard.project.plan_of_project import can_improve, plan_of
from wizard.project.store import Opened, Store
from wizard.render.sheet_names import TITLES, Format, SheetId
from wizard.screens.clipboard import LONG, copies, said
from wizard.screens.cutting_controller import CuttingController
from wizard.screens.dialogs.sheets_dialog import SheetsDialog

LONG_NAME = "x" * 300
"""No name of a file may be so long."""


def says(dialog: SheetsDialog, sentence: str) -> bool:
    return sentence in str(dialog.query_one("#sheets-said", Static).content)


def from_the_shell(path: Path, form: Format, only: tuple[SheetId, ...] | None = None) -> str:
    sheets = ("--only", ",".join(only)) if only else ()
    return within("sheet", path.name, "--as", form, *sheets, folder=path.parent).stdout


async def test_the_sheets_written_are_those_of_the_shell_and_nothing_is_replaced_unasked(tmp_path: Path) -> None:
    text = tmp_path / "loft.txt"
    text.write_text("mine")
    async with loft(tmp_path, None, (60, 20)) as it:
        await it.over("ctrl+s")
        await it.press("enter", sees="Written")
        await it.sees("loft.html")
        assert (tmp_path / "loft.html").read_text() == from_the_shell(it.path, "html")
        await it.over("escape", "ctrl+s")
        await it.press("down", "tab", "space", "enter", sees=worded("file there", "loft.txt"))
        assert text.read_text() == "mine"
        await it.press("enter", sees=text_of("text written"))
    wanted: tuple[SheetId, ...] = ("shop", "table", "making-up", "marks", "hanging", "care")
    assert text.read_text() == from_the_shell(it.path, "text", wanted)


async def test_a_plan_not_proven_at_once_is_written_as_the_shell_writes_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # The search beside the screen is still on its way.
    monkeypatch.setattr(CuttingController, "_improving", lambda *_: iter(()))
    path, project = tmp_path / "many.toml", many_sections(tmp_path, longer=9)
    path.write_bytes(encode(project))
    assert can_improve(plan_of(project))
    async with opened(path, (60, 20)) as it:
        await it.over("ctrl+s")
        await it.press("down", "enter", sees=text_of("text written"))
    assert (tmp_path / "many.txt").read_text() == from_the_shell(path, "text")


async def test_trouble_is_said_in_the_dialog_and_nothing_typed_is_lost(tmp_path: Path) -> None:
    async with loft(tmp_path, "fullness.how") as it:
        before = it.path.read_text()
        await it.at("fullness.how", "page-body")
        dialog = await it.over("ctrl+s")
        assert isinstance(dialog, SheetsDialog)
        field = dialog.query_one("#target", Input)
        field.focus()
        await it.until(lambda: it.focused == "target")
        for name, why in (
            ("", worded("no name of a file", "loft.html")),
            ("loft.toml", text_of("the project itself", tmp_path / "loft.toml")),
            ("~gone/sheet.html", worded("no such folder")),
            (LONG_NAME, text_of("no file name", f"{LONG_NAME[:39]}…", "File name too long", "loft.html")),
            (".", worded("a folder given")),
        ):
            # A long name is pasted: typing it takes half a minute.
            await it.anew(name[:20])
            field.value = name
            await it.press("enter", *(["enter"] if name == "loft.toml" else []))
            # As it was said, not as it is broken into lines: the folder's name is longer on some days.
            await it.until(partial(says, dialog, why))
        assert field.value == str(tmp_path / "loft.html")
        await it.press("enter", sees=worded("unfinished", "fullness"))
        await it.press("escape")
        await it.at("fullness.how", "page-body")
    assert it.path.read_text() == before
    assert (tmp_path / "loft.html").exists()


# Copies.
SAME = "railskirt sheet loft.toml --only shop"


def test_what_was_copied_is_said_with_what_to_do_where_it_cannot_be_pasted() -> None:
    assert said("Shop", "a\nb\nc\n", SAME, "xterm") == worded("copied", "Shop, 3 lines", SAME)
    assert said("Run", "76 5/8 in", SAME, "xterm") == worded("copied", "Run", SAME)
    assert said("Run", "76 5/8 in", SAME, "linux") == worded("no clipboard", SAME)
    assert worded("long to copy") in said("Workings", "x" * LONG, SAME, "xterm")


def test_what_is_in_hand_comes_first_then_lists_and_sheets(tmp_path: Path) -> None:
    file = Store(job_file(tmp_path / "loft.toml")).open()
    assert isinstance(file, Opened)
    plan = plan_of(file.project)
    found = {each.id: each for each in copies(file.project, plan, "part.left.run", plan.work[5], NOON.date())}
    assert list(found)[:3] == ["figure", "step", "cut-list"]
    assert set(TITLES) <= set(found)
    assert found["figure"].text() == "76 5/8 in"
    assert found["step"].text().startswith(f"{plan.work[5].title}\n! ")
    assert found["cut-list"].text().count("\n") > 5
    assert "Shop" in found["shop"].text()
    assert found["shop"].instead == "--only shop"


async def test_a_list_and_a_figure_are_copied_by_key_and_by_button(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TERM", "xterm-256color")
    async with loft(tmp_path, None, (120, 40)) as it:
        await it.press("f9", focus="steps")
        await it.search("shop", "enter", key="ctrl+y", sees=worded("copied, seen", "Shop"))
        assert it.app.clipboard.startswith("Juniper loft")
        await it.on_the_job()
        await it.over("f2")
        await it.press("enter", sees="Why?")
        await it.click("#copy")
        await it.until(lambda: it.app.clipboard == "76 5/8 in")
        it.app.copy_to_clipboard("")
        await it.press("ctrl+y")
        await it.until(lambda: it.app.clipboard == "76 5/8 in")
