"""Answers that look wrong, cannot be saved or are not entered: never a trap, nothing typed is lost, and nothing of
another hand is written over unasked."""

from __future__ import annotations

import asyncio
import errno
import os
from pathlib import Path

import pytest
from textual.widgets import Button

from tests.project.refusal_texts import refusal_text
from tests.project.stores import failing
from tests.project.test_store import is_folder
from tests.screens.jobs import job_file
from tests.screens.pilots import PATIENCE, Screens, kept_beside, loft, opened
from tests.screens.screen_texts import worded
from wizard.screens.app import SkirtApp
from wizard.screens.dialogs.base_dialogs import ConflictDialog
from wizard.screens.list_screen import ListScreen
from wizard.screens.pages import page_controller, page_hand

LEFT, RIGHT = "survey.section.left", "survey.section.right"
MIDDLE, LAST = f"{LEFT}.drop.2", f"{LEFT}.drop.3"


async def test_both_readings_of_a_doubtful_number_are_offered_as_buttons(tmp_path: Path) -> None:
    async with loft(tmp_path, MIDDLE) as it:
        await it.typed("9,800 mm", "enter", sees="[ 9800 mm ]")
        await it.click("[ 9.8 mm ]")
        await it.until(lambda: it.job.pages.text == "9.8 mm")
        assert it.focused == "field"


# What looks wrong.
async def looks_wrong(it: Screens, length: str = "79 1/2") -> None:
    """Answer the run in hand so that it is asked about."""
    await it.typed(length, "enter", sees=worded("keep"))
    await it.at(f"{RIGHT}.run.1", "field")
    assert it.saved(f"{RIGHT}.run") == [f"{length} in"]


@pytest.mark.parametrize(("again", "stands"), [("", "79 1/2 in"), ("76 1/2", "76 1/2 in")])
async def test_what_looks_wrong_is_asked_about_once_and_read_again(tmp_path: Path, again: str, stands: str) -> None:
    async with loft(tmp_path, f"{RIGHT}.run.1") as it:
        await looks_wrong(it)
        await it.heeded()
        await it.typed(again, "enter", at=f"{RIGHT}.run.2")
        assert it.saved(f"{RIGHT}.run") == [stands]


async def test_a_reading_is_asked_about_before_what_follows_and_the_drawing_stands(tmp_path: Path) -> None:
    async with loft(tmp_path, LAST) as it:
        row = next(row for row, line in enumerate(it.seen.splitlines()) if "floor ━" in line)
        await it.typed("20", "enter", sees=worded("keep"))
        await it.sees(worded("measure both"))
        assert "floor ━" in it.seen.splitlines()[row]
        await it.at(LAST)


async def test_what_is_typed_ahead_of_a_finding_is_no_answer(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(page_hand, "HEED", PATIENCE)
    async with loft(tmp_path, f"{RIGHT}.run.1") as it:
        await it.typed("79 1/2")
        await it.press("enter", *"76", "enter", sees=page_controller.UNSEEN)
        await it.at(f"{RIGHT}.run.1", "field")
        assert (it.job.pages.text, it.saved(f"{RIGHT}.run")) == ("79 1/2 in", ["79 1/2 in"])


async def test_buttons_under_an_answer_and_in_the_findings_go_to_both_and_keep(tmp_path: Path) -> None:
    async with loft(tmp_path, f"{RIGHT}.run.1") as it:
        await looks_wrong(it)
        await it.click(f"[ {worded('go to the other')} ]")
        await it.at(f"{LEFT}.run.1", "field")
        for button, place in (("#go", f"{RIGHT}.run.1"), ("#other", f"{LEFT}.run.1")):
            await it.over("f4")
            await it.click(button)
            await it.at(place, "field")
        await it.shows(f"{RIGHT}.run.1")
        await it.anew("79 3/8", "enter", sees=worded("longer than the left", "2 3/4 in"))
        await it.click(f"[ {worded('keep')} ]")
        await it.at(f"{RIGHT}.run.2", "field")
        assert len(it.saved("kept")) == 1


# The file.
async def test_a_file_changed_by_another_hand_is_read_again_or_mine_written_over_it_and_kept(tmp_path: Path) -> None:
    async with loft(tmp_path, MIDDLE) as it:
        theirs = it.path.read_text().replace("Juniper loft", "Larch attic")
        it.path.write_text(theirs)
        await it.typed("12", "enter", sees="Not saved")
        assert it.path.read_text() == theirs
        await it.press("enter", at=MIDDLE, sees="Larch attic")
        assert it.session.file.conflict is None
        it.path.write_text('name = "Larch')
        await it.anew("12", "enter", sees="Not saved")
        await it.click("#mine")
        await it.sees("loft.toml.before")
        assert (tmp_path / "loft.toml.before").read_text() == 'name = "Larch'
        assert (it.saved("name"), len(it.saved(f"{LEFT}.drop"))) == ("Larch attic", 2)


async def test_what_is_not_saved_is_said_at_undo_in_the_list_and_when_leaving(tmp_path: Path) -> None:
    async with loft(tmp_path, MIDDLE, (120, 40)) as it:
        await it.typed("12", "enter", at=LAST)
        it.path.write_text(theirs := it.path.read_text().replace("Juniper loft", "Larch attic"))
        for key in ("f5", "f5"):
            await it.over(key)
            await it.sees(worded("changed by another"))
            await it.press("escape", sees="NOT SAVED")
        await it.over("ctrl+q")
        await it.sees(worded("saved before"))
        await it.press("escape")
        conflict = it.session.file.conflict
        assert it.job.close_job().splitlines() == [
            worded("not saved", conflict.sentence if conflict else ""),
            f"{worded('saved before')} {it.path}. {worded('to go on', it.path)}",
        ]
        await it.press("ctrl+l")
        await it.until(lambda: isinstance(it.top, ListScreen))
        await it.sees(worded("not saved", ""))
        assert it.path.read_text() == theirs


async def test_an_answer_that_cannot_be_written_is_tried_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with loft(tmp_path, MIDDLE) as it:
        before = it.path.read_bytes()
        with monkeypatch.context() as patch:
            patch.setattr(os, "access", lambda *_: False)
            await it.typed("12 1/8")
            dialog = await it.over("enter")
            await it.sees(worded("no right"))
            assert [each.id for each in dialog.query(Button)] == ["mine", "close"]
            await it.press("enter")
            await it.until(lambda: it.top is not dialog and isinstance(it.top, ConflictDialog))
            assert it.path.read_bytes() == before
        await it.press("enter")
        await it.until(lambda: "12 1/8 in" in it.path.read_text())


async def test_comments_are_spoken_of_first_and_the_file_is_left_alone_or_kept(tmp_path: Path) -> None:
    async with loft(tmp_path, MIDDLE, edit=("format", "# read twice, on the carpet\nformat")) as it:
        commented = it.path.read_text()
        await it.sees(worded("comments"))
        await it.press("escape", focus="projects")
    assert it.path.read_text() == commented
    async with opened(it.path) as it:
        await it.sees(worded("comments"))
        await it.press("enter", at=MIDDLE)
        await it.typed("12", "enter", at=LAST)
    assert (tmp_path / "loft.toml.before").read_text() == commented
    assert "#" not in it.path.read_text()


async def test_a_file_with_a_unit_that_is_no_longer_taken_opens_at_it_and_takes_another_length(tmp_path: Path) -> None:
    first = f"{LEFT}.drop.1"
    async with loft(
        tmp_path, first, edit=("[survey.section.left]", '[survey.section.left]\ndrop = ["5 parsec"]')
    ) as it:
        await it.at(first, "field")
        assert it.job.pages.text == "5 parsec"
        await it.press("enter", sees=refusal_text("not taken", "", "parsec").partition(":")[0])
        assert it.saved(f"{LEFT}.drop") == ["5 parsec"]
        await it.anew("11 7/8", "enter", at=MIDDLE)
        assert it.saved(f"{LEFT}.drop") == ["11 7/8 in"]


# What is typed and not entered outlasts the screens, whatever ends them; what to know of a save is told.
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
async def test_a_half_reading_goes_on_and_a_whole_one_is_taken_again(
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
    async with loft(tmp_path, DROP, (120, 40)) as it:
        failing(monkeypatch, errno.EIO, "fsync", is_folder)
        await it.typed("12", "enter", sees=worded("not confirmed"))
        assert it.session.file.remarks() == ()
