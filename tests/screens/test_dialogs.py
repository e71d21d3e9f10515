"""Each dialog opens by its key, shows its buttons at every size, and is left by Esc; sheets and copies go by some."""

from __future__ import annotations

from functools import partial
from pathlib import Path

import pytest
from textual.widgets import Button, Input, Static

from tests.commands.message_texts import text_of
from tests.commands.running import within
from tests.project.refusal_texts import refusal_text
from tests.project.test_better_plans import many_sections
from tests.screens.jobs import NOON, job_file
from tests.screens.pilots import EVERY_SIZE, Screens, Size, loft, opened, wholly_visible
from tests.screens.screen_texts import worded
from wizard.project.encode import encode
from wizard.project.plan_of_project import can_improve, plan_of
from wizard.project.store import Opened, Store
from wizard.render.sheet_names import TITLES, Format, SheetId
from wizard.screens import cutting_controller
from wizard.screens.clipboard import LONG, copies, said
from wizard.screens.dialogs.search_dialog import NOTHING
from wizard.screens.dialogs.sheets_dialog import SheetsDialog
from wizard.screens.dialogs.why_dialog import SoFarDialog, WhyDialog
from wizard.screens.help_text import help_for
from wizard.screens.screen_text import BEGUN

KEYS = ("f1", "f2", "f3", "f4", "ctrl+p", "ctrl+s", "ctrl+t", "ctrl+q", "ctrl+c")


def kept(it: Screens) -> set[str]:
    return {each.id for each in it.session.plan.findings if each.kept}


def why(it: Screens) -> WhyDialog:
    assert isinstance(it.top, WhyDialog)
    return it.top


@pytest.mark.parametrize("size", [(40, 12), *EVERY_SIZE])
async def test_a_dialog_shows_its_buttons_and_is_left_by_esc(tmp_path: Path, size: Size) -> None:
    async with loft(tmp_path, "fullness.how", size) as it:
        before = it.path.read_text()
        for key in KEYS:
            await it.at("fullness.how", "page-body")
            dialog = await it.over(key)
            await it.pilot.pause()
            buttons = [each for each in dialog.query(Button) if each.display]
            assert buttons, key
            assert all(wholly_visible(each) for each in buttons), key
            await it.press("escape")
        await it.at("fullness.how", "page-body")
    assert it.path.read_text() == before


@pytest.mark.parametrize("size", EVERY_SIZE)
async def test_why_goes_down_to_what_was_measured_and_to_its_question(tmp_path: Path, size: Size) -> None:
    async with loft(tmp_path, None, size) as it:
        await it.over("f2")
        await it.press("down", "enter", sees="Why?")
        assert it.focused == "inputs"
        for key, depth in (("enter", 2), ("escape", 1)):
            await it.press(key)
            await it.until(lambda wanted=depth: len(why(it).path) == wanted)
        await it.press("escape")
        await it.until(lambda: isinstance(it.top, SoFarDialog))
        await it.press("home", "enter", sees="Why?")
        while why(it).path[-1].inputs:
            depth = len(why(it).path)
            await it.press("enter")
            await it.until(lambda wanted=depth + 1: len(why(it).path) == wanted)
        await it.sees(worded("go to the question"))
        await it.click("#go")
        await it.at("survey.section.left.run.1", "field")


async def test_a_few_letters_go_anywhere_and_what_is_found_out_later_is_marked(tmp_path: Path) -> None:
    async with loft(tmp_path) as it:
        await it.search("foot drop", "enter", at="survey.section.foot.drop.1")
        await it.search("foot drop bed's right", "enter", at="survey.section.foot.drop.3")
        await it.search("no such page", sees="Nothing matches. Sides")
        await it.press("escape", at="survey.section.foot.drop.3")
        session = it.session
        later = next(each for each in session.questions if each.later and session.state(each.key) != "answered")
        session.go(later.key)
        session.postpone()
        assert session.state(later.key) == "later"
        await it.search("to find out later", sees=f"{BEGUN} {later.title}")


@pytest.mark.parametrize("key", ["f3", "ctrl+p"])
async def test_a_search_without_a_find_says_so_and_stays_until_it_is_closed(tmp_path: Path, key: str) -> None:
    async with loft(tmp_path, "fullness.how") as it:
        dialog = await it.over(key)
        await it.typed("zebra", sees=NOTHING)
        await it.press("enter", "s")
        await it.click("#take")
        await it.until(lambda: dialog.query_one("#search", Input).value == "zebras")
        assert (it.top, it.focused) == (dialog, "search")
        await it.press("end", "ctrl+u")
        await it.sees_no(NOTHING)
        await it.typed("zebra", "escape")
        await it.at("fullness.how", "page-body")
        assert it.job.pages.text == ""


async def test_enter_closes_what_only_tells_and_a_plan_with_nothing_to_ask_about(tmp_path: Path) -> None:
    async with loft(tmp_path, "survey.rail") as it:
        for keys in (("enter",), ("tab", "enter")):
            await it.over("f1")
            await it.press("down", *keys, at="survey.rail")
        await it.over("ctrl+s")
        await it.press("enter", sees="Written")
        await it.press("enter", at="survey.rail")
        await it.over("f2")
        assert it.focused == "close"
        await it.press("enter")
        await it.on_the_job()


def test_the_help_of_what_is_over_buttons_says_how_to_get_to_them() -> None:
    over = ("entries", "findings", "figures", "inputs", "cutting", "roll-view", "step-body", "large-body")
    assert [each for each in over if worded("tab goes") not in help_for(each)] == []


async def test_a_finding_is_kept_and_asked_again_but_one_that_stops_the_plan_says_why(tmp_path: Path) -> None:
    async with loft(tmp_path, None, (120, 40), edit=('width = "55 in"', 'width = "2 in"')) as it:
        findings = it.session.plan.findings
        place = next(place for place, each in enumerate(findings) if each.level != "stop")
        assert place > 0
        dialog = await it.over("f4")
        await it.until(lambda: not dialog.query_one("#keep").display)
        await it.press("space", sees=worded("stays"))
        assert it.top is dialog
        await it.press(*["down"] * place)
        await it.until(lambda: dialog.query_one("#keep").display)
        assert kept(it) == set()
        await it.press("space")
        await it.until(lambda: kept(it) == {findings[place].id})
        now = [each.id for each in it.session.plan.findings].index(findings[place].id)
        await it.press("home", *["down"] * now, sees="Ask again")
        await it.press("space")
        await it.until(lambda: kept(it) == set())


async def test_the_list_of_actions_does_what_is_chosen(tmp_path: Path) -> None:
    async with loft(tmp_path) as it:
        theme = it.app.theme
        await it.search("light or dark", "enter", key="ctrl+p")
        await it.until(lambda: it.app.theme != theme)


async def test_leaving_says_where_the_file_is(tmp_path: Path) -> None:
    async with loft(tmp_path, "fullness.how", (120, 40)) as it:
        await it.typed("2.")
        await it.press("ctrl+q", sees=worded("not entered", "2"))
        assert "loft.toml" in it.seen
        await it.press("enter")
        await it.pilot.pause()
        app = it.app
    assert app.return_value == 0
    assert ["loft.toml" in each for each in app.parting] == [True]


async def test_a_name_that_will_not_do_is_refused_under_the_field_and_stays_there(tmp_path: Path) -> None:
    async with opened(tmp_path) as it:
        dialog = await it.over("f8")
        field = dialog.query_one("#new-name", Input)
        for name, why in (("", worded("no name")), ("b" * 201, refusal_text("long name", "", 201))):
            field.value = name
            await it.press("enter", sees=why)
            assert (it.top, field.value) == (dialog, name)
        field.value = "b"
        await it.sees_no(refusal_text("long name", "", 201))
        assert list(tmp_path.iterdir()) == []


# Sheets: the very ones the shell writes, asked about before another file is replaced.
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


async def test_an_unproven_plan_is_written_as_the_shell_does(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    # The search beside the screen is still on its way.
    monkeypatch.setattr(cutting_controller, "improvements", lambda _: iter(()))
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


async def test_lists_and_figures_are_copied_by_key_and_button(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
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
