"""What a maker cannot know yet may wait: it is kept as that, asked again by name, and never called missing."""

from __future__ import annotations

import tomllib
from pathlib import Path

from tests.interview.interview_texts import worded
from tests.interview.maker import finished, give
from wizard.project.encode import encode

HEIGHT = "rails.free_height"
KEYS = ["survey.section.left.free_height", "survey.section.right.free_height"]


def test_an_empty_answer_to_what_may_wait_is_found_out_later_and_is_not_missing(tmp_path: Path) -> None:
    session = finished(tmp_path)
    give(session, "survey.slatted", "yes")
    assert session.state(HEIGHT) == "missing"
    assert give(session, HEIGHT, "").echo.text == "to find out later"
    assert session.state(HEIGHT) == "later"
    assert session.missing() == ()
    assert tomllib.loads(encode(session.project).decode())["progress"]["later"] == KEYS
    assert [each.key for each in session.plan.later] == KEYS


def test_it_is_asked_again_before_the_step_it_matters_for(tmp_path: Path) -> None:
    session = finished(tmp_path)
    give(session, "survey.slatted", "yes")
    give(session, HEIGHT, "")
    for step in session.plan.work:
        asked = session.next_action().startswith(worded("find out first", "left section: free height"))
        assert asked == (step.stage == "Hanging"), step
        session.tick(step.id)


def test_once_it_is_found_out_it_waits_no_more(tmp_path: Path) -> None:
    session = finished(tmp_path)
    give(session, "survey.slatted", "yes")
    give(session, HEIGHT, "")
    give(session, HEIGHT, "2 1/2")
    assert session.project.progress.later == ()
    assert session.state(HEIGHT) == "answered"
    assert session.undo()
    assert session.state(HEIGHT) == "later"


def test_a_post_that_cannot_be_measured_yet_may_wait_too(tmp_path: Path) -> None:
    session = finished(tmp_path)
    give(session, "corners.foot", "sides")
    session.go("posts.along_side")
    assert session.postpone() is None
    assert session.state("posts.along_side") == "later"
    session.go("survey.rail")
    assert session.postpone() is None
    assert session.state("survey.rail") == "answered"
