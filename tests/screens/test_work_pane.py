"""The checklist: ticking is in the file with its time."""

from __future__ import annotations

import tomllib
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot
from textual.widgets import Static

from tests.screens.jobs import NOON, job_file
from tests.screens.pilots import at, clear_field, focused, job, opened, over, seen, sees, typed, until
from tests.screens.screen_texts import worded


def work_in(path: Path) -> dict[str, Any]:
    return dict(tomllib.loads(path.read_text()).get("work", {}))


async def to_the_work(pilot: Pilot[int]) -> None:
    await pilot.press("f9")
    await until(pilot, lambda: focused(pilot) == "steps")


async def test_enter_ticks_the_step_and_goes_to_the_next(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml")
    async with opened(path) as pilot:
        await to_the_work(pilot)
        first, second = job(pilot).session.plan.work[:2]
        await pilot.press("enter")
        await at(pilot, f"work.{second.id}", "steps")
        assert work_in(path)[first.id]["done"].tzinfo is not None


async def test_space_unticks_again(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml")
    async with opened(path) as pilot:
        await to_the_work(pilot)
        await pilot.press("space")
        await until(pilot, lambda: len(work_in(path)) == 1)
        await sees(pilot, "Untick ")
        await pilot.press("space")
        await until(pilot, lambda: not any("done" in each for each in work_in(path).values()))


async def test_a_glance_at_the_cutting_plan_leads_back_to_the_step(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml")) as pilot:
        await to_the_work(pilot)
        place = job(pilot).session.at
        await pilot.press("f7")
        await sees(pilot, "Cut list")
        await pilot.press("escape")
        await at(pilot, place, "steps")


async def test_a_note_is_kept_with_the_step_and_shown(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml")
    async with opened(path, (120, 40)) as pilot:
        await to_the_work(pilot)
        await pilot.press("ctrl+o")
        await over(pilot)
        await typed(pilot, "slub in the second width")
        await pilot.press("enter")
        await until(pilot, lambda: pilot.app.screen is job(pilot))
        assert [each["note"] for each in work_in(path).values()] == ["slub in the second width"]
        await sees(pilot, "Note      slub in the second width")


@pytest.mark.long
async def test_every_step_ticked_one_after_the_other_ends_with_the_skirt_hung(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml")
    async with opened(path) as pilot:
        await to_the_work(pilot)
        await pilot.press(*["enter"] * len(job(pilot).session.plan.work))
        steps = len(job(pilot).session.plan.work)
        await sees(pilot, worded("steps done", steps))
        assert set(work_in(path)) == {each.id for each in job(pilot).session.plan.work}


async def test_the_work_without_a_complete_plan_says_that_steps_are_wanting(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "survey.rail")) as pilot:
        await pilot.press("f9")
        await sees(pilot, worded("more to come"))


async def test_the_timer_is_started_stopped_and_mended_and_each_stage_is_summed(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml")
    async with opened(path, (120, 40)) as pilot:
        await to_the_work(pilot)
        screen, now = job(pilot), NOON
        first = screen.session.plan.work[0]
        screen.session.now = lambda: now
        await pilot.press("ctrl+d")
        await sees(pilot, "Stop timer")
        assert "minutes" not in work_in(path).get(first.id, {})
        now = NOON + timedelta(minutes=30)
        screen.work.look_at_clock()
        await sees(pilot, worded("timer running"))
        await pilot.click("#timer")
        await sees(pilot, worded("time of cloth", "30 min"))
        assert work_in(path)[first.id]["minutes"] == 30
        for minutes, said in (
            ("an hour", worded("no minutes")),
            ("75", worded("time of cloth", "1 h 15 min")),
        ):
            await pilot.press("shift+f9")
            await over(pilot)
            await clear_field(pilot)
            await typed(pilot, minutes)
            await pilot.press("enter")
            await sees(pilot, said)
        await pilot.press("ctrl+d")
        await sees(pilot, "timer running")
        now += timedelta(minutes=5)
        assert worded("to go on", "") in screen.close_job()
        assert work_in(path)[first.id]["minutes"] == 80


async def test_what_an_answer_upset_stays_in_sight_and_coming_back_tells_what_was_edited_by_hand(
    tmp_path: Path,
) -> None:
    path, step = job_file(tmp_path / "loft.toml"), "join:face:left"
    async with opened(path, (60, 20)) as pilot:
        session = job(pilot).session
        session.tick(step)
        session.go("survey.section.left.run.1")
        job(pilot).show()
        await clear_field(pilot)
        await typed(pilot, "70 5/8")
        await pilot.press("enter")
        await sees(pilot, worded("look again", 1))
        await pilot.press("f3")
        await over(pilot)
        await typed(pilot, "look at again")
        await sees(pilot, worded("ticked as it was"))
        await pilot.press("enter")
        await at(pilot, f"work.{step}", "steps")
        await until(pilot, lambda: worded("look again, any") not in seen(pilot))
        session.leave()
    path.write_text(path.read_text().replace('"58 in"', '"57 1/2 in"'))
    async with opened(path, (80, 24)) as pilot:
        await at(pilot, f"work.{step}", "steps")
        await sees(pilot, worded("done so far, seen"))
        assert worded("edited by hand", "foot section") in str(job(pilot).query_one("#work-resumed", Static).render())
        await pilot.press("down")
        await until(pilot, lambda: worded("done so far, seen") not in seen(pilot))
