"""A job in a line of a list."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from msgspec.structs import replace

from tests.render.jobs import WHOLE, draft_of
from wizard.project.plans import plan_of
from wizard.project.project import FinishedStep, Progress, Project
from wizard.questions.project_summary import Summary, summary_of

DONE = FinishedStep(done=datetime(2026, 3, 2, tzinfo=UTC))


def test_what_is_missing_is_next() -> None:
    assert summary_of(Project()) == Summary("Survey", "Answer: What the floor is.")
    draft = draft_of(WHOLE.replace('width = "55 in"', ""))
    assert summary_of(draft) == Summary("Cloth", "Answer: Face cloth: width.")


def test_the_question_in_hand_is_next_while_answers_are_missing() -> None:
    begun = Project(progress=Progress(at="survey.section.left.run.2"))
    assert summary_of(begun) == Summary("Survey", "Answer: Left section: run near the floor.")
    answered = replace(begun, progress=Progress(at="show"), show="in")
    assert summary_of(answered).next_action == "Answer: What the floor is."
    assert summary_of(replace(begun, progress=Progress(at="made.up"))).next_action == "Answer: What the floor is."


def test_a_job_with_nothing_missing_goes_on_to_the_work_though_usual_answers_were_not_confirmed() -> None:
    assert summary_of(draft_of(WHOLE)) == Summary("Cloth", "Nothing is left to answer: start the work.")


@pytest.mark.parametrize("count", range(1, 60, 5))
def test_the_stage_is_that_of_the_furthest_step_that_is_done(count: int) -> None:
    draft = draft_of(WHOLE)
    steps = plan_of(draft).work[:count]
    worked = replace(draft, work={each.id: DONE for each in steps})
    words = f"{len(steps)} step{' is' if count == 1 else 's are'} done"
    begins = "The last step is done" if steps[-1].id == "care" else "Continue the work"
    assert summary_of(worked) == Summary(steps[-1].stage, f"{begins}: {words}.")


def test_a_job_whose_every_step_is_done_has_nothing_to_go_on_with() -> None:
    draft = draft_of(WHOLE)
    steps = plan_of(draft).work
    worked = replace(draft, work={each.id: DONE for each in steps})
    assert summary_of(worked) == Summary("Hanging", f"The last step is done: {len(steps)} steps are done.")
