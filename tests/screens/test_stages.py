"""The marks of the stages, and the key to the work: they lead where one can get on, and say why it is elsewhere."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot

from tests.screens.jobs import job_file
from tests.screens.pilots import at, job, opened, sees, until
from wizard.project.project import put_many
from wizard.project.store import Store
from wizard.screens.job_screen import JobScreen
from wizard.screens.widgets.header import StageMark
from wizard.trade.plan import Stage

WHAT_FIRST = "has no steps yet: the plan is not complete."


def mark(screen: JobScreen, stage: Stage) -> StageMark:
    return next(each for each in screen.query(StageMark) if each.stage == stage)


@pytest.mark.parametrize("stage", ["Making up", "Hanging"])
async def test_the_mark_of_a_stage_without_steps_leads_to_what_is_missing_first_and_says_so(
    tmp_path: Path, stage: Stage
) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "survey.raised")) as pilot:
        screen = job(pilot)
        first = screen.session.missing()[0].key
        assert screen.session.at != first
        await pilot.click(mark(screen, stage))
        await at(pilot, first)
        assert screen.view == "question"
        await sees(pilot, f"{stage} has no steps yet")
        assert await notice(pilot) == f"{stage} {WHAT_FIRST} Here is what is missing first."


async def test_the_key_to_the_work_leads_there_too_while_there_are_no_steps(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "survey.raised")) as pilot:
        screen = job(pilot)
        await pilot.app.run_action("work", screen)
        await at(pilot, screen.session.missing()[0].key)
        assert await notice(pilot) == f"The work {WHAT_FIRST} Here is what is missing first."


async def test_where_nothing_is_missing_and_the_plan_is_stopped_the_mark_leads_to_what_stops_it(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml")
    store = Store(path)
    opened_file = store.open()
    store.save(put_many(opened_file.draft, {"cloth.face.width": "1 in"}))  # type: ignore[union-attr]
    async with opened(path) as pilot:
        screen = job(pilot)
        stop = next(each for each in screen.session.plan.findings if each.level == "stop")
        assert not screen.session.missing()
        assert not [each for each in screen.session.plan.work if each.stage == "Making up"]
        await pilot.click(mark(screen, "Making up"))
        await at(pilot, stop.key)
        assert await notice(pilot) == f"Making up {WHAT_FIRST} {stop.way_out}"


async def test_the_mark_of_the_cutting_leads_to_its_plan_which_says_itself_what_it_waits_for(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "survey.raised")) as pilot:
        screen = job(pilot)
        await pilot.click(mark(screen, "Cutting"))
        await until(pilot, lambda: screen.view == "cutting")


async def notice(pilot: Pilot[int]) -> str:
    """What is being said in passing, once it is."""
    await until(pilot, lambda: len(pilot.app._notifications) == 1)
    (only,) = pilot.app._notifications
    return str(only.message)
