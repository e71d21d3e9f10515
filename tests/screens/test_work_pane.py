"""The checklist: ticks, notes and minutes by keys, in the file at once; what an answer upset stays in sight."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
from textual.widgets import Static

from tests.screens.jobs import NOON
from tests.screens.pilots import loft, opened
from tests.screens.screen_texts import worded
from wizard.interview.job_state import place_of


async def test_a_step_is_ticked_unticked_noted_and_left_for_a_glance_at_the_cutting_plan(tmp_path: Path) -> None:
    async with loft(tmp_path, None, (120, 40)) as it:
        await it.press("f9", focus="steps")
        first, second = it.session.plan.work[:2]
        await it.press("enter")
        await it.at(place_of(second), "steps")
        assert it.saved("work")[first.id]["done"].tzinfo is not None
        await it.press("f7", sees="Cut list")
        await it.press("escape")
        await it.at(place_of(second), "steps")
        await it.press("space")
        await it.until(lambda: "done" in it.saved("work").get(second.id, {}))
        await it.sees("Untick ")
        await it.press("space")
        await it.until(lambda: "done" not in it.saved("work").get(second.id, {}))
        await it.over("ctrl+o")
        await it.typed("slub in the second width", "enter")
        await it.on_the_job()
        assert it.saved("work")[second.id]["note"] == "slub in the second width"
        await it.sees("Note      slub in the second width")


@pytest.mark.long
async def test_every_step_ticked_one_after_the_other_ends_with_the_skirt_hung(tmp_path: Path) -> None:
    async with loft(tmp_path) as it:
        await it.press("f9", focus="steps")
        steps = it.session.plan.work
        await it.press(*["enter"] * len(steps), sees=worded("steps done", len(steps)))
        assert set(it.saved("work")) == {each.id for each in it.session.plan.work}


async def test_the_timer_is_started_stopped_and_mended_and_each_stage_is_summed(tmp_path: Path) -> None:
    async with loft(tmp_path, None, (120, 40)) as it:
        await it.press("f9", focus="steps")
        now, first = NOON, it.session.plan.work[0].id
        it.session.now = lambda: now
        await it.press("ctrl+d", sees="Stop timer")
        assert "minutes" not in (it.saved("work") or {}).get(first, {})
        now = NOON + timedelta(minutes=30)
        it.job.work.look_at_clock()
        await it.sees(worded("timer running"))
        await it.click("#timer")
        await it.sees(worded("time of cloth", "30 min"))
        assert it.saved("work")[first]["minutes"] == 30
        for minutes, said in (
            ("an hour", worded("no minutes")),
            ("75", worded("time of cloth", "1 h 15 min")),
        ):
            await it.over("shift+f9")
            await it.anew(minutes, "enter", sees=said)
        await it.press("ctrl+d", sees="timer running")
        now += timedelta(minutes=5)
        assert worded("to go on", "") in it.job.close_job()
        assert it.saved("work")[first]["minutes"] == 80


async def test_a_ticked_step_that_is_timed_is_timed_no_more_when_one_goes_on(tmp_path: Path) -> None:
    async with loft(tmp_path) as it:
        await it.press("f9", focus="steps")
        first, second = it.session.plan.work[:2]
        it.session.tick(first.id)
        await it.press("ctrl+d")
        await it.until(lambda: it.job.timing.step == first.id)
        await it.press("enter")
        await it.at(place_of(second), "steps")
        assert it.job.timing.step is None
        assert it.saved("work")[first.id]["minutes"] == 1


async def test_that_every_step_is_ticked_is_said_no_more_once_one_is_not(tmp_path: Path) -> None:
    async with loft(tmp_path) as it:
        *before, last = it.session.plan.work
        for each in before:
            it.session.tick(each.id)
        await it.shows(place_of(last), "steps")
        await it.press("enter", sees=f"{worded('all ticked')} {worded('it hangs')}.")
        await it.press("space")
        await it.sees_no(worded("it hangs"))


async def test_what_an_answer_upset_stays_in_sight_and_coming_back_tells_what_was_edited_by_hand(
    tmp_path: Path,
) -> None:
    step = "join:face:left"
    async with loft(tmp_path, None, (60, 20)) as it:
        it.session.tick(step)
        await it.shows("survey.section.left.run.1")
        await it.anew("70 5/8", "enter", sees=worded("look again", 1))
        await it.search("look at again", sees=worded("ticked as it was"))
        await it.press("enter")
        await it.at(f"work.{step}", "steps")
        await it.sees_no(worded("look again, any"))
        it.session.leave()
        path = it.path
    path.write_text(path.read_text().replace('"58 in"', '"57 1/2 in"'))
    async with opened(path) as it:
        await it.at(f"work.{step}", "steps")
        await it.sees(worded("done so far, seen"))
        assert worded("edited by hand", "foot section") in str(it.job.query_one("#work-resumed", Static).render())
        await it.press("down")
        await it.sees_no(worded("done so far, seen"))
