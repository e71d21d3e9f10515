"""Each dialog opens by its key, shows its buttons at every size, and is left by Esc with nothing changed."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Button, Input

from tests.project.refusal_texts import refusal_text
from tests.screens.jobs import job_file
from tests.screens.pilots import EVERY_SIZE, at, focused, job, opened, over, seen, sees, typed, until, wholly_visible
from tests.screens.screen_texts import worded
from wizard.screens.app import SkirtApp
from wizard.screens.dialogs.base_dialogs import ConflictDialog
from wizard.screens.dialogs.search_dialog import NOTHING
from wizard.screens.dialogs.why_dialog import SoFarDialog, WhyDialog
from wizard.screens.help_text import help_for
from wizard.screens.list_screen import ListScreen
from wizard.screens.screen_text import BEGUN

KEYS = ("f1", "f2", "f3", "f4", "ctrl+p", "ctrl+s", "ctrl+t", "ctrl+q", "ctrl+c")


def kept(pilot: Pilot[int]) -> set[str]:
    return {each.id for each in job(pilot).session.plan.findings if each.kept}


@pytest.mark.parametrize("size", [(40, 12), *EVERY_SIZE])
async def test_a_dialog_shows_its_buttons_and_is_left_by_esc(tmp_path: Path, size: tuple[int, int]) -> None:
    path = job_file(tmp_path / "loft.toml", "fullness.how")
    before = path.read_text()
    async with opened(path, size) as pilot:
        for key in KEYS:
            await at(pilot, "fullness.how", "page-body")
            await pilot.press(key)
            dialog = await over(pilot)
            await pilot.pause()
            buttons = [each for each in dialog.query(Button) if each.display]
            assert buttons, key
            assert all(wholly_visible(each) for each in buttons), key
            await pilot.press("escape")
        await at(pilot, "fullness.how", "page-body")
    assert path.read_text() == before


@pytest.mark.parametrize("size", EVERY_SIZE)
async def test_why_goes_down_to_what_was_measured_and_back(tmp_path: Path, size: tuple[int, int]) -> None:
    async with opened(job_file(tmp_path / "loft.toml"), size) as pilot:
        await pilot.press("f2")
        await over(pilot)
        await pilot.press("down", "enter")
        await sees(pilot, "Why?")
        dialog = pilot.app.screen
        assert isinstance(dialog, WhyDialog)
        assert focused(pilot) == "inputs"
        for key, depth in (("enter", 2), ("escape", 1)):
            await pilot.press(key)
            await until(pilot, lambda wanted=depth: len(dialog.path) == wanted)
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(pilot.app.screen, SoFarDialog))
        await pilot.press("escape")
        await until(pilot, lambda: pilot.app.screen is job(pilot))


async def test_why_can_lead_to_the_question(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml"), (120, 40)) as pilot:
        await pilot.press("f2")
        await over(pilot)
        await pilot.press("enter")
        await sees(pilot, "Why?")
        dialog = pilot.app.screen
        assert isinstance(dialog, WhyDialog)
        while dialog.path[-1].inputs:
            depth = len(dialog.path)
            await pilot.press("enter")
            await until(pilot, lambda wanted=depth + 1: len(dialog.path) == wanted)
        await sees(pilot, worded("go to the question"))
        await pilot.click("#go")
        await at(pilot, "survey.section.left.run.1", "field")


async def test_going_somewhere_is_a_few_letters_and_enter(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml")) as pilot:
        await pilot.press("f3")
        await over(pilot)
        await typed(pilot, "foot drop bed's right")
        await pilot.press("enter")
        await at(pilot, "survey.section.foot.drop.3", "field")


async def test_of_a_job_begun_from_a_template_the_pages_that_are_joined_are_found_by_their_titles(
    tmp_path: Path,
) -> None:
    path = job_file(tmp_path / "loft.toml")
    path.write_text(path.read_text().replace("\nname =", '\nbegan_from = "Usual"\nname =', 1))
    async with opened(path) as pilot:
        for wanted, found in (("washing", "washed first or not"), ("ways", "Way of cutting"), ("own gap", "own gap")):
            await pilot.press("f3")
            await over(pilot)
            await typed(pilot, wanted)
            await sees(pilot, found)
            await pilot.press("escape")


@pytest.mark.parametrize("key", ["f3", "ctrl+p"])
async def test_a_search_without_a_find_says_so_and_stays_until_it_is_closed(tmp_path: Path, key: str) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "fullness.how")) as pilot:
        await pilot.press(key)
        dialog = await over(pilot)
        await typed(pilot, "zebra")
        await sees(pilot, NOTHING)
        await pilot.press("enter", "s")
        await pilot.click("#take")
        await until(pilot, lambda: dialog.query_one("#search", Input).value == "zebras")
        assert (pilot.app.screen, focused(pilot)) == (dialog, "search")
        await pilot.press("end", "ctrl+u")
        await until(pilot, lambda: NOTHING not in seen(pilot))
        await typed(pilot, "zebra")
        await pilot.press("escape")
        await at(pilot, "fullness.how", "page-body")
        assert job(pilot).pages.text == ""


async def test_enter_closes_what_only_tells(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "fullness.how")) as pilot:
        for keys in (("enter",), ("tab", "enter")):
            await pilot.press("f1")
            await over(pilot)
            await pilot.press("down", *keys)
            await at(pilot, "fullness.how", "page-body")
        await pilot.press("ctrl+s")
        await over(pilot)
        await pilot.press("enter")
        await sees(pilot, "Written")
        await pilot.press("enter")
        await at(pilot, "fullness.how", "page-body")


async def test_a_plan_with_nothing_to_ask_about_is_closed_by_enter(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "survey.rail")) as pilot:
        await pilot.press("f2")
        await over(pilot)
        assert focused(pilot) == "close"
        await pilot.press("enter")
        await until(pilot, lambda: pilot.app.screen is job(pilot))


def test_the_help_of_what_is_over_buttons_says_how_to_get_to_them() -> None:
    lists = ["entries", "findings", "figures", "inputs"]
    texts = ["cutting", "roll-view", "step-body", "large-body"]
    assert [each for each in (*lists, *texts) if worded("tab goes") not in help_for(each)] == []


async def test_a_finding_is_kept_and_asked_again(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml")) as pilot:
        first = job(pilot).session.plan.findings[0].id
        await pilot.press("f4")
        await over(pilot)
        await pilot.press("space")
        await until(pilot, lambda: first in kept(pilot))
        await sees(pilot, "Ask again")
        place = [each.id for each in job(pilot).session.plan.findings].index(first)
        await pilot.press(*["down"] * place, "space")
        await until(pilot, lambda: first not in kept(pilot))


async def test_what_stops_the_plan_is_not_kept_and_says_why(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml")
    path.write_text(path.read_text().replace('width = "55 in"', 'width = "2 in"'))
    async with opened(path, (120, 40)) as pilot:
        findings = job(pilot).session.plan.findings
        assert findings[0].level == "stop"
        await pilot.press("f4")
        dialog = await over(pilot)
        await until(pilot, lambda: not dialog.query_one("#keep").display)
        await pilot.press("space")
        await sees(pilot, worded("stays"))
        assert pilot.app.screen is dialog
        await pilot.press(*["down"] * next(place for place, each in enumerate(findings) if each.level != "stop"))
        await until(pilot, lambda: dialog.query_one("#keep").display)
        assert kept(pilot) == set()


async def test_the_list_of_actions_does_what_is_chosen(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml")) as pilot:
        theme = pilot.app.theme
        await pilot.press("ctrl+p")
        await over(pilot)
        await typed(pilot, "light or dark")
        await pilot.press("enter")
        await until(pilot, lambda: pilot.app.theme != theme)


async def test_leaving_says_where_the_file_is(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", "fullness.how")
    async with opened(path, (120, 40)) as pilot:
        await typed(pilot, "2.")
        await pilot.press("ctrl+q")
        await sees(pilot, worded("not entered", "2"))
        assert "loft.toml" in seen(pilot)
        await pilot.press("enter")
        await pilot.pause()
        app = pilot.app
    assert isinstance(app, SkirtApp)
    assert app.return_value == 0
    assert ["loft.toml" in each for each in app.parting] == [True]


async def test_what_could_not_be_saved_is_said_where_one_takes_back_goes_to_the_list_and_leaves(
    tmp_path: Path,
) -> None:
    path = job_file(tmp_path / "loft.toml", "survey.section.left.drop.2")
    async with opened(path, (120, 40)) as pilot:
        screen = job(pilot)
        await typed(pilot, "12")
        await pilot.press("enter")
        await at(pilot, "survey.section.left.drop.3", "field")
        path.write_text(theirs := path.read_text().replace("Juniper loft", "Larch attic"))
        for key in ("f5", "f5"):
            await pilot.press(key)
            await over(pilot)
            await sees(pilot, worded("changed by another"))
            await pilot.press("escape")
            await sees(pilot, "NOT SAVED")
        await pilot.press("ctrl+q")
        await over(pilot)
        await sees(pilot, worded("saved before"))
        await pilot.press("escape")
        said = worded("not saved", screen.session.file.conflict.sentence if screen.session.file.conflict else "")
        assert screen.close_job().splitlines() == [
            said,
            f"{worded('saved before')} {path}. {worded('to go on', path)}",
        ]
        await pilot.press("ctrl+l")
        await until(pilot, lambda: isinstance(pilot.app.screen, ListScreen))
        await sees(pilot, worded("not saved", ""))
    assert path.read_text() == theirs


async def test_a_name_that_will_not_do_is_refused_under_the_field_and_stays_there(tmp_path: Path) -> None:
    async with opened(tmp_path) as pilot:
        await pilot.press("f8")
        dialog = await over(pilot)
        field = dialog.query_one("#new-name", Input)
        for name, why in (("", worded("no name")), ("b" * 201, refusal_text("long name", "", 201))):
            field.value = name
            await pilot.press("enter")
            await sees(pilot, why)
            assert (pilot.app.screen, field.value) == (dialog, name)
        field.value = "b"
        await until(pilot, lambda: refusal_text("long name", "", 201) not in seen(pilot))
        assert list(tmp_path.iterdir()) == []


async def test_an_answer_that_cannot_be_written_is_tried_again_once_that_is_put_right(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = job_file(tmp_path / "loft.toml", "survey.section.left.drop.2")
    async with opened(path) as pilot:
        before = path.read_bytes()
        with monkeypatch.context() as patch:
            patch.setattr(os, "access", lambda *_: False)
            await typed(pilot, "12 1/8")
            await pilot.press("enter")
            dialog = await over(pilot)
            await sees(pilot, worded("no right"))
            assert [each.id for each in dialog.query(Button)] == ["mine", "close"]
            await pilot.press("enter")
            await until(pilot, lambda: pilot.app.screen is not dialog and isinstance(pilot.app.screen, ConflictDialog))
            assert path.read_bytes() == before
        await pilot.press("enter")
        await until(pilot, lambda: "12 1/8 in" in path.read_text())


async def test_what_is_found_out_later_has_its_own_mark_where_one_goes_to(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml")) as pilot:
        session = job(pilot).session
        later = next(each.key for each in session.questions if each.later and session.state(each.key) != "answered")
        session.go(later)
        session.postpone()
        assert session.state(later) == "later"
        await pilot.press("f3")
        await over(pilot)
        await typed(pilot, "to find out later")
        await sees(pilot, f"{BEGUN} {session.question(later).title}")  # type: ignore[union-attr]
