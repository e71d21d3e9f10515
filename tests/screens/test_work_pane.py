"""The checklist: ticking is in the file with its time."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from textual.pilot import Pilot

from tests.screens.jobs import job_file
from tests.screens.pilots import at, focused, job, opened, over, seen, sees, typed, until


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
        await sees(pilot, "The roll")
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


async def test_the_caution_stands_before_what_to_do(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml"), (120, 40)) as pilot:
        step = next(each for each in job(pilot).session.plan.work if each.cautions and each.lines)
        job(pilot).session.go(f"work.{step.id}")
        job(pilot).show()
        await sees(pilot, step.lines[0][:20])
        text = " ".join(seen(pilot).split())
        assert 0 < text.find(step.cautions[0].sentence[:20]) < text.find(step.lines[0][:20])


async def test_every_step_ticked_one_after_the_other_ends_with_the_skirt_hung(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml")
    async with opened(path) as pilot:
        await to_the_work(pilot)
        await pilot.press(*["enter"] * len(job(pilot).session.plan.work))
        await sees(pilot, "every step is ticked")
        assert set(work_in(path)) == {each.id for each in job(pilot).session.plan.work}


async def test_the_work_without_a_complete_plan_says_that_steps_are_wanting(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "survey.rail")) as pilot:
        await pilot.press("f9")
        await sees(pilot, "The plan is not complete")
