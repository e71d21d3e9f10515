"""The work: timing a step, where only what has run is in the file; what sheets tell of it; a job in a list's line."""

from __future__ import annotations

import json
import re
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from msgspec.structs import replace

from tests.interview.interview_texts import worded
from tests.render.jobs import WHOLE, project_of
from tests.screens.jobs import job_file
from wizard.interview.job_state import times
from wizard.interview.project_summary import Summary, summary_of
from wizard.interview.session import Session
from wizard.interview.step_timer import StepTimer
from wizard.project.finished_steps import as_done
from wizard.project.plan_of_project import plan_of
from wizard.project.project import FinishedStep, Progress, Project
from wizard.project.store import Store
from wizard.render.formats import Request, render
from wizard.trade.job_fields import Section, Survey


class Hands:
    """A clock that goes on when it is told to."""

    def __init__(self) -> None:
        self.now = datetime(2026, 3, 2, 10, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.now

    def on(self, minutes: float) -> None:
        self.now += timedelta(minutes=minutes)


@pytest.fixture
def hands() -> Hands:
    return Hands()


@pytest.fixture
def session(tmp_path: Path, hands: Hands) -> Session:
    session = Session.resume(Store(job_file(tmp_path / "loft.toml")), hands)
    assert isinstance(session, Session)
    return session


def test_minutes_are_added_up_and_what_runs_is_not_in_the_file(session: Session, hands: Hands, tmp_path: Path) -> None:
    timing, (first, second) = StepTimer(session), session.plan.work[:2]
    with pytest.raises(KeyError):
        timing.begin("hem:roof")
    assert timing.end() is None
    before = (tmp_path / "loft.toml").read_bytes()
    timing.begin(first.id)
    hands.on(7.5)
    assert timing.running(first.id) == 8
    assert (tmp_path / "loft.toml").read_bytes() == before
    assert timing.end() is None
    timing.begin(first.id)
    hands.on(2)
    assert (timing.running(first.id), timing.taken(first.id), timing.running(second.id)) == (2, 10, None)
    timing.begin(second.id)
    assert session.project.work[first.id].minutes == 10
    assert timing.step == second.id


def test_a_tick_takes_the_minutes_that_run_or_those_that_are_said(session: Session, hands: Hands) -> None:
    timing, steps = StepTimer(session), session.plan.work[:3]
    for step, said in zip(steps, (None, 25, None), strict=True):
        if step is not steps[2]:
            timing.begin(step.id)
        hands.on(12)
        timing.tick(step.id, said)
    assert [session.project.work[each.id].minutes for each in steps] == [12, 25, None]
    assert timing.step is None


def test_stages_are_summed_and_the_sheets_show_ticks_minutes_and_notes_as_typed(session: Session) -> None:
    made = [each for each in session.plan.work if each.stage == "Making up"]
    session.spend(made[0].id, 31)
    session.spend(made[1].id, 9)
    found = times(session.project, session.steps)
    assert found["Making up"] == (sum(each.minutes for each in made), 40)
    assert found["Hanging"][1] is None
    session.tick(made[0].id)
    session.note(made[0].id, "left foot <b>loose</b>")
    plan = as_done(session.plan, session.project)
    assert [each.taken for each in plan.work if each.taken] == [31, 9]
    lines = render(plan, Request("text", ["making-up"])).splitlines()
    (ticked,) = (number for number, line in enumerate(lines) if "[x]" in line)
    assert made[0].title.partition(",")[0] in lines[ticked - 1]
    assert lines[ticked].split("[")[1].split() == ["x]", "left"]
    assert [line for line in lines if line.startswith("    note: ")] == ["    note: left foot <b>loose</b>"]
    page = render(plan, Request("html", ["making-up"]))
    assert re.findall(r'data-tick="([^"]*)" autocomplete="off" checked=""', page) == [made[0].id]
    assert "note: left foot &lt;b&gt;loose&lt;/b&gt;" in page
    assert ("took 31)" in "\n".join(lines), "took 31)" in page) == (True, True)
    told = {each["id"]: each for each in json.loads(render(plan, Request("json")))["work"]}
    first, second = (told[each.id] for each in made[:2])
    assert (first["done"], first["note"], first["taken"]) == (True, "left foot <b>loose</b>", 31)
    assert not second["done"]
    session.spend(made[0].id, None)
    assert times(session.project, session.steps)["Making up"][1] == 9


# A job in a line of a list.
DONE = FinishedStep(done=datetime(2026, 3, 2, tzinfo=UTC))


def test_what_is_missing_is_next_the_question_in_hand_first_and_then_the_work() -> None:
    assert summary_of(Project()) == Summary("Survey", worded("sides asked") + ".")
    project = project_of(WHOLE.replace('width = "55 in"', ""))
    assert summary_of(project) == Summary("Cloth", worded("width asked") + ".")
    # Though usual answers were not confirmed.
    assert summary_of(project_of(WHOLE)) == Summary("Cloth", worded("start the work"))
    begun = Project(survey=Survey(section={"left": Section()}), show="in")
    for at, asked in (
        ("survey.section.left.run.2", "run near the floor asked"),
        ("show", "rail asked"),
        ("made.up", "rail asked"),
        ("corners.foot", "corners asked"),
    ):
        assert summary_of(replace(begun, progress=Progress(at=at))) == Summary("Survey", worded(asked) + ".")


@pytest.mark.parametrize("count", range(1, 60, 5))
def test_the_stage_is_that_of_the_furthest_step_that_is_done(count: int) -> None:
    project = project_of(WHOLE)
    steps = plan_of(project).work[:count]
    worked = replace(project, work={each.id: DONE for each in steps})
    words = f"{len(steps)} step{' is' if count == 1 else 's are'} done"
    begins = "last step" if steps[-1].id == "care" else "go on with the work"
    assert summary_of(worked) == Summary(steps[-1].stage, worded(begins, words))
