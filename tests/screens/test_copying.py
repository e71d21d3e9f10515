"""Copying: what goes to the clipboard, and what is said of it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.screens.jobs import NOON, job_file
from tests.screens.pilots import job, opened, over, sees, typed, until
from tests.screens.screen_texts import worded
from tests.screens.test_work_pane import to_the_work
from wizard.project.plan_of_project import plan_of
from wizard.project.store import Opened, Store
from wizard.render.sheet_names import TITLES
from wizard.screens.clipboard import LONG, copies, said

SAME = "railskirt sheet loft.toml --only shop"


def test_what_was_copied_is_said_with_what_to_do_where_it_cannot_be_pasted() -> None:
    assert said("Shop", "a\nb\nc\n", SAME, "xterm") == worded("copied", "Shop, 3 lines", SAME)
    assert said("Run", "76 5/8 in", SAME, "xterm") == worded("copied", "Run", SAME)
    assert said("Run", "76 5/8 in", SAME, "linux") == worded("no clipboard", SAME)
    assert worded("long to copy") in said("Workings", "x" * LONG, SAME, "xterm")


def test_what_is_in_hand_comes_first_then_lists_and_sheets(tmp_path: Path) -> None:
    opened_file = Store(job_file(tmp_path / "loft.toml")).open()
    assert isinstance(opened_file, Opened)
    plan = plan_of(opened_file.project)
    found = {each.id: each for each in copies(opened_file.project, plan, "part.left.run", plan.work[5], NOON.date())}
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
    async with opened(job_file(tmp_path / "loft.toml"), (120, 40)) as pilot:
        await to_the_work(pilot)
        await pilot.press("ctrl+y")
        await over(pilot)
        await typed(pilot, "shop")
        await pilot.press("enter")
        await sees(pilot, worded("copied, seen", "Shop"))
        assert pilot.app.clipboard.startswith("Juniper loft")
        await until(pilot, lambda: pilot.app.screen is job(pilot))
        await pilot.press("f2")
        await over(pilot)
        await pilot.press("enter")
        await sees(pilot, "Why?")
        await pilot.click("#copy")
        await until(pilot, lambda: pilot.app.clipboard == "76 5/8 in")
        pilot.app.copy_to_clipboard("")
        await pilot.press("ctrl+y")
        await until(pilot, lambda: pilot.app.clipboard == "76 5/8 in")
