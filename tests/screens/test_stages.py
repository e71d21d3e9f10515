"""The marks of the stages, and the key to the work: they lead where one can get on, and say why it is elsewhere."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from textual.pilot import Pilot

from tests.screens.jobs import job_file
from tests.screens.pilots import job, opened, seen, sees, until, wholly_visible
from tests.screens.screen_texts import worded
from wizard.interview.outcome import Accepted


async def test_the_key_to_the_work_leads_there_too_while_there_are_no_steps(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "survey.raised")) as pilot:
        screen = job(pilot)
        await pilot.app.run_action("work", screen)
        assert await notice(pilot) == worded("not complete", worded("more to come"))


async def notice(pilot: Pilot[int]) -> str:
    """What is being said in passing, once it is."""
    await until(pilot, lambda: len(pilot.app._notifications) == 1)
    (only,) = pilot.app._notifications
    return str(only.message)


# The top of the job's screen says what there is to do, as much of it as there is room for beside the name.
LONG = "Juniper loft with a bed"


@pytest.mark.parametrize("columns", [40, 60, 120])
async def test_ticked_steps_that_read_otherwise_are_said_as_something_to_do(tmp_path: Path, columns: int) -> None:
    async with opened(job_file(tmp_path / "loft.toml"), (columns, 20)) as pilot:
        session = job(pilot).session
        for each in session.plan.work[1:]:
            session.tick(each.id)
        assert isinstance(session.answer("name", LONG), Accepted)
        assert isinstance(session.answer("fullness.want", "2"), Accepted)
        job(pilot).show()
        again = worded("look again", len(session.upset_places))
        await sees(pilot, again)
        await until(pilot, lambda: wholly_visible(job(pilot).query_one("#job-state")))
        first = seen(pilot).splitlines()[0]
        assert again in first
        assert first.strip().startswith(LONG[:7])
        assert ("saved " in first) == (columns == 120)


async def test_that_it_is_not_saved_is_never_left_out(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml")
    async with opened(path, (60, 20)) as pilot:
        session = job(pilot).session
        for each in session.plan.work:
            session.tick(each.id)
        session.answer("fullness.want", "2")
        path.write_text(path.read_text().replace("Juniper loft", "Larch attic"))
        session.answer("fullness.want", "2.25")
        job(pilot).show()
        await sees(pilot, "NOT SAVED · ")
        await sees(pilot, worded("look again, any"))


async def test_a_name_too_long_for_the_line_keeps_clear_of_what_is_said_beside_it(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml"), (60, 20)) as pilot:
        assert isinstance(job(pilot).session.answer("name", LONG * 4), Accepted)
        job(pilot).show()
        await sees(pilot, "… ")
        assert re.search(r"… \S", seen(pilot).splitlines()[0])
