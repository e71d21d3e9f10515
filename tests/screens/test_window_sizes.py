"""What is to be seen at each size of window, and where the focus is."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.events import Key
from textual.widgets import Button

from tests.screens.jobs import job_file
from tests.screens.pilots import (
    EVERY_SIZE,
    at,
    focused,
    job,
    opened,
    over,
    seen,
    sees,
    settled,
    typed,
    until,
    wholly_visible,
)
from tests.screens.screen_texts import worded
from wizard.interview.job_state import place_of
from wizard.screens.list_screen import ListScreen
from wizard.trade.plan_records import STAGES, Stage


async def test_every_stage_is_reached_by_going_on(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml")) as pilot:
        screen = job(pilot)
        screen.session.go(screen.session.questions[0].key)
        reached: set[Stage] = set()
        been: set[tuple[str, str]] = set()
        while (here := (screen.job.view, screen.session.at)) not in been:
            been.add(here)
            screen.show()
            reached.add("Cutting" if screen.job.view == "cutting" else screen.session.stage())
            screen.action_step_next()
        assert reached == set(STAGES)


@pytest.mark.parametrize("size", EVERY_SIZE)
async def test_the_work_is_left_as_it_was_come_to(tmp_path: Path, size: tuple[int, int]) -> None:
    """From the work one goes back past the cutting plan to the questions, and on the same way."""
    async with opened(job_file(tmp_path / "loft.toml"), size) as pilot:
        screen = job(pilot)
        screen.session.go(place_of(screen.session.plan.work[0]))
        screen.show()
        await until(pilot, lambda: (screen.job.view, focused(pilot)) == ("work", "steps"))
        await pilot.press("escape")
        await until(pilot, lambda: (screen.job.view, focused(pilot)) == ("cutting", "cutting"))
        await pilot.press("escape")
        await until(pilot, lambda: screen.job.view == "page" and focused(pilot) in ("field", "page-body"))
        await pilot.press("f8")
        await until(pilot, lambda: (screen.job.view, focused(pilot)) == ("cutting", "cutting"))
        await pilot.press("f8")
        await until(pilot, lambda: (screen.job.view, focused(pilot)) == ("work", "steps"))


@pytest.mark.parametrize("size", EVERY_SIZE)
async def test_each_step_shows_its_text_and_both_its_buttons(tmp_path: Path, size: tuple[int, int]) -> None:
    async with opened(job_file(tmp_path / "loft.toml"), size) as pilot:
        screen = job(pilot)
        for step in screen.session.plan.work:
            screen.session.go(place_of(step))
            screen.show()
            await at(pilot, place_of(step), "steps")
            await until(pilot, lambda: wholly_visible(screen.query_one("#tick", Button)))
            assert wholly_visible(screen.query_one("#note", Button))
            await sees(pilot, step.title.split(":")[0])


async def test_what_is_done_before_a_pane_is_there_does_no_harm(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml")) as pilot:
        screen = job(pilot)
        for key in ("f10", "shift+f7", "f7", "f9", "ctrl+f"):
            for each in (key, "f8", "pagedown", "ctrl+f"):
                pilot.app.post_message(Key(each, None))
            await until(pilot, lambda: not screen.coming)
        assert screen.is_running


async def test_a_job_is_left_in_the_moment_its_next_question_is_shown(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml")) as pilot:
        job(pilot).show()
        job(pilot).action_show_list()
        await until(pilot, lambda: isinstance(pilot.app.screen, ListScreen))
        await settled(pilot)
        assert not pilot.app._exception


async def test_on_resuming_elsewhere_than_at_what_is_next_that_is_said_in_a_low_window_too(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", "survey.section.left.drop.2")
    path.write_text(path.read_text().replace('at = "survey.section.left.drop.2"', 'at = "survey.floor"'))
    async with opened(path, (80, 24)) as pilot:
        await sees(pilot, worded("stopped at", worded("floor asked")))


@pytest.mark.parametrize("size", [(39, 20), (60, 11), (20, 5)])
async def test_too_small_a_window_says_so_and_loses_nothing(tmp_path: Path, size: tuple[int, int]) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "survey.section.left.drop.2"), (80, 24)) as pilot:
        await typed(pilot, "12 1/")
        await pilot.resize_terminal(*size)
        sign = pilot.app.screen.query_one("#too-small")
        await until(pilot, lambda: sign.display and wholly_visible(sign))
        await sees(pilot, worded("too small"))
        await pilot.resize_terminal(80, 24)
        await until(pilot, lambda: not sign.display)
        await typed(pilot, "8")
        assert job(pilot).pages.text == "12 1/8"


async def test_the_least_window_still_asks(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "survey.section.left.drop.2"), (40, 12)) as pilot:
        await until(pilot, lambda: wholly_visible(pilot.app.screen.query_one("#field")))
        assert wholly_visible(pilot.app.screen.query_one("#do-step_next"))
        assert worded("too small") not in seen(pilot)


@pytest.mark.parametrize("size", EVERY_SIZE)
async def test_an_empty_folder_says_what_to_do_and_stands_on_the_button(tmp_path: Path, size: tuple[int, int]) -> None:
    async with opened(tmp_path, size) as pilot:
        await sees(pilot, worded("no project"))
        assert focused(pilot) == "do-new_project"
        await pilot.press("enter")
        await until(pilot, lambda: focused(pilot) == "new-name")


async def test_a_new_project_begins_with_its_name_in_a_file_of_its_own(tmp_path: Path) -> None:
    async with opened(tmp_path) as pilot:
        await pilot.press("f8")
        await over(pilot)
        await typed(pilot, "Juniper loft")
        await pilot.press("enter")
        await until(pilot, lambda: focused(pilot) in ("field", "page-body"))
        assert 'name = "Juniper loft"' in (tmp_path / "juniper-loft.toml").read_text()
        assert job(pilot).job.view == "page"


async def test_the_list_tells_stage_and_next_action_and_opens_with_enter(tmp_path: Path) -> None:
    job_file(tmp_path / "loft.toml", "survey.section.left.drop.2")
    (tmp_path / "other.toml").write_text('title = "no project"\n')
    async with opened(tmp_path) as pilot:
        await sees(pilot, "Juniper loft   Survey")
        assert worded("next drop") in seen(pilot)
        assert "no project" not in seen(pilot)
        await pilot.press("enter")
        await at(pilot, "survey.section.left.drop.2", "field")


async def test_a_broken_project_is_listed_and_says_what_is_wrong_with_it(tmp_path: Path) -> None:
    (tmp_path / "loft.toml").write_text('format = 1\n[survey]\nrial = "metal"\n')
    async with opened(tmp_path) as pilot:
        await sees(pilot, worded("unreadable"))
        await pilot.press("enter")
        await sees(pilot, "Line 3: survey.rial")
        await pilot.press("escape")
        await until(pilot, lambda: focused(pilot) == "projects")


async def test_a_project_begun_from_a_template_has_its_choices(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml")) as pilot:
        await pilot.press("ctrl+t")
        await over(pilot)
        await pilot.press("enter")
        await until(pilot, lambda: (tmp_path / "juniper-loft-template.toml").exists())
        await until(pilot, lambda: pilot.app.screen is job(pilot))
        await pilot.press("ctrl+l")
        await until(pilot, lambda: focused(pilot) == "projects")
        await pilot.press("f8")
        await over(pilot)
        await typed(pilot, "Larch")
        while focused(pilot) != "templates":
            await pilot.press("tab")
        await pilot.press("down", "down", "enter")
        await until(pilot, lambda: focused(pilot) in ("field", "page-body"))
        assert job(pilot).session.project.cloth.face.weight == "medium"
        assert job(pilot).session.project.survey.section == {}
