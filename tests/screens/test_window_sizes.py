"""What is to be seen at each size of window and where the focus is, from the list of projects to the last stage."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from textual.events import Key
from textual.widgets import Button

from tests.screens.jobs import job_file
from tests.screens.pilots import EVERY_SIZE, Size, loft, opened, wholly_visible
from tests.screens.screen_texts import worded
from wizard.interview.job_state import place_of
from wizard.interview.outcome import Accepted
from wizard.screens.list_screen import ListScreen
from wizard.trade.plan_records import STAGES, Stage

MIDDLE = "survey.section.left.drop.2"


# From stage to stage.
async def test_every_stage_is_reached_by_going_on(tmp_path: Path) -> None:
    async with loft(tmp_path) as it:
        it.session.go(it.session.questions[0].key)
        reached: set[Stage] = set()
        been: set[tuple[str, str]] = set()
        while (here := (it.job.job.view, it.session.at)) not in been:
            been.add(here)
            it.job.show()
            reached.add("Cutting" if it.job.job.view == "cutting" else it.session.stage())
            it.job.action_step_next()
        assert reached == set(STAGES)


@pytest.mark.parametrize("size", EVERY_SIZE)
async def test_the_work_is_left_as_it_was_come_to_and_its_buttons_are_seen(tmp_path: Path, size: Size) -> None:
    """From the work one goes back past the cutting plan to the questions, and on the same way."""
    async with loft(tmp_path, None, size) as it:
        await it.shows(place_of(it.session.plan.work[0]))
        await it.until(lambda: (it.job.job.view, it.focused) == ("work", "steps"))
        await it.press("escape")
        await it.until(lambda: (it.job.job.view, it.focused) == ("cutting", "cutting"))
        await it.press("escape")
        await it.until(lambda: it.job.job.view == "page" and it.focused in ("field", "page-body"))
        for view, focus in (("cutting", "cutting"), ("work", "steps")):
            await it.press("f8", focus=focus)
            assert it.job.job.view == view
        for step in it.session.plan.work:
            await it.shows(place_of(step), "steps")
            await it.until(lambda: wholly_visible(it.job.query_one("#tick", Button)))
            assert wholly_visible(it.job.query_one("#note", Button))
            await it.sees(step.title.split(":")[0])


async def test_what_is_done_before_a_pane_is_there_or_a_question_shown_does_no_harm(tmp_path: Path) -> None:
    async with loft(tmp_path) as it:
        for key in ("f10", "shift+f7", "f7", "f9", "ctrl+f"):
            for each in (key, "f8", "pagedown", "ctrl+f"):
                it.app.post_message(Key(each, None))
            await it.until(lambda: not it.job.coming)
        assert it.job.is_running
        await it.idle()
        it.job.show()
        it.job.action_show_list()
        await it.until(lambda: isinstance(it.top, ListScreen))
        await it.settled()
        assert not it.app._exception


async def test_the_key_to_the_work_leads_there_too_while_there_are_no_steps(tmp_path: Path) -> None:
    async with loft(tmp_path, "survey.raised", (120, 24)) as it:
        await it.press("f9", sees=worded("not complete", worded("more to come")))


async def test_on_resuming_elsewhere_than_at_what_is_next_that_is_said_in_a_low_window_too(tmp_path: Path) -> None:
    async with loft(tmp_path, MIDDLE, edit=(f'at = "{MIDDLE}"', 'at = "survey.floor"')) as it:
        await it.sees(worded("stopped at", worded("floor asked")))


@pytest.mark.parametrize("size", [(39, 20), (60, 11), (20, 5)])
async def test_too_small_a_window_says_so_and_nothing_is_lost_or_answered(tmp_path: Path, size: Size) -> None:
    async with loft(tmp_path, MIDDLE) as it:
        before = it.path.read_text()
        await it.typed("12 1/")
        await it.pilot.resize_terminal(*size)
        sign = it.top.query_one("#too-small")
        await it.until(lambda: sign.display and wholly_visible(sign))
        await it.sees(worded("too small"))
        await it.press(*"8", "enter")
        await it.pilot.resize_terminal(60, 20)
        await it.until(lambda: not sign.display)
        await it.at(MIDDLE, "field")
        assert (it.job.pages.text, it.path.read_text()) == ("12 1/", before)
        await it.until(lambda: wholly_visible(it.top.query_one("#field")))
        assert wholly_visible(it.top.query_one("#do-step_next"))
        assert worded("too small") not in it.seen


# The list of projects.
@pytest.mark.parametrize("size", EVERY_SIZE)
async def test_an_empty_folder_stands_on_the_button_that_begins_a_project(tmp_path: Path, size: Size) -> None:
    async with opened(tmp_path, size) as it:
        await it.sees(worded("no project"))
        assert it.focused == "do-new_project"
        await it.press("enter", focus="new-name")
        await it.typed("Juniper loft", "enter")
        await it.until(lambda: it.focused in ("field", "page-body"))
        assert 'name = "Juniper loft"' in (tmp_path / "juniper-loft.toml").read_text()
        assert it.job.job.view == "page"


async def test_the_list_tells_what_is_next_or_wrong_and_opens_with_enter(tmp_path: Path) -> None:
    job_file(tmp_path / "loft.toml", MIDDLE)
    (tmp_path / "other.toml").write_text('title = "no project"\n')
    (tmp_path / "zebra.toml").write_text('format = 1\n[survey]\nrial = "metal"\n')
    async with opened(tmp_path) as it:
        await it.sees("Juniper loft   Survey", worded("next drop"), worded("unreadable"))
        assert "no project" not in it.seen
        await it.press("home", "enter", sees="Line 3: survey.rial")
        await it.press("escape", focus="projects")
        await it.press("end", "enter", at=MIDDLE)


async def test_a_project_begun_from_a_template_has_its_choices(tmp_path: Path) -> None:
    async with loft(tmp_path) as it:
        await it.over("ctrl+t")
        await it.press("enter")
        await it.until(lambda: (tmp_path / "juniper-loft-template.toml").exists())
        await it.on_the_job()
        await it.press("ctrl+l", focus="projects")
        await it.over("f8")
        # From the field: the arrow keys choose, and the key that opened the dialog takes it.
        await it.typed("Larch", "down", "down", sees="(•) the template")
        await it.press("f8")
        await it.until(lambda: it.focused in ("field", "page-body"))
        assert it.session.project.cloth.face.weight == "medium"
        assert it.session.project.survey.section == {}


# The top of the job's screen says what there is to do, as much of it as there is room for beside the name.
LONG = "Juniper loft with a bed"


@pytest.mark.parametrize("columns", [40, 60, 120])
async def test_what_changed_and_what_is_not_saved_is_never_left_out(tmp_path: Path, columns: int) -> None:
    async with loft(tmp_path, None, (columns, 20)) as it:
        for each in it.session.plan.work[1:]:
            it.session.tick(each.id)
        assert isinstance(it.session.answer("name", LONG), Accepted)
        assert isinstance(it.session.answer("fullness.want", "2"), Accepted)
        it.job.show()
        again = worded("look again", len(it.session.upset_places))
        await it.sees(again)
        await it.until(lambda: wholly_visible(it.job.query_one("#job-state")))
        first = it.seen.splitlines()[0]
        assert again in first
        assert first.strip().startswith(LONG[:7])
        assert ("saved " in first) == (columns == 120)
        if columns == 60:
            assert isinstance(it.session.answer("name", LONG * 4), Accepted)
            it.job.show()
            await it.until(lambda: bool(re.search(r"… \S", it.seen.splitlines()[0])))
        it.path.write_text(it.path.read_text().replace(LONG, "Larch attic"))
        it.session.answer("fullness.want", "2.25")
        it.job.show()
        await it.sees("NOT SAVED", *([worded("look again, any")] if columns > 40 else []))
