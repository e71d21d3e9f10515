"""Sections that share a side: run, rail and drawing mean the same lengths, whichever posts the ends stop short of."""

from __future__ import annotations

from typing import Any

import pytest

from tests.trade.finding_texts import assert_says
from tests.trade.sample_jobs import inches, section, small, with_section
from tests.trade.test_bed_findings import surveyed
from wizard.project.file_schema import meanings
from wizard.render.drawings.bed_plan import bed_plan
from wizard.render.drawings.scene import Stroke
from wizard.trade.make_plan import make_plan
from wizard.trade.model import Job, Section
from wizard.trade.plan import Finding
from wizard.trade.sections import along_side, goes_on, post_at

FOOT_PART = section(54, 12, side="right", right_end="stops short", right_short=inches(22))
HEAD_PART = section(8, 12, side="right", left_end="stops short", left_short=inches(68))
"""76 in of rail, 14 in of it bare between them."""


def ladder(**more: Section) -> Job:
    """A bed whose right side is made of two sections, a ladder between them."""
    job = small()
    left = {"left": job.survey.section["left"]}
    return surveyed(job, section={**left, "foot-part": FOOT_PART, "head-part": HEAD_PART, **more})


def found(job: Job) -> dict[str, Finding]:
    return {each.id: each for each in make_plan(job).findings}


def test_sections_read_past_one_another_to_the_corner_posts_are_not_added_up() -> None:
    assert "run-differs:left:right" not in found(ladder())
    assert "size:survey.section.head-part.left_short" not in found(ladder())


def test_the_one_that_was_misread_is_named_with_what_its_side_is_reckoned_from() -> None:
    finding = found(with_section(ladder(), "head-part", left_short=inches(78)))["run-differs:left:right"]
    assert_says(finding, "run-differs, past others")
    assert finding.key == "survey.section.head-part.run.1"


@pytest.mark.parametrize(
    ("halves", "rail"),
    [
        ({}, 76),
        ({"right_end": "stops short", "right_short": inches(6)}, 82),
    ],
)
def test_sections_that_begin_where_the_one_before_ends_are_added_up(halves: dict[str, Any], rail: int) -> None:
    """A post stands between them, up to which both go."""
    both = {"a": section(38, 12, side="right"), "b": section(38, 12, side="right", **halves)}
    job = surveyed(small(), section={"left": small().survey.section["left"], **both})
    raised = found(job).get("run-differs:left:right")
    assert (raised is None) == (rail == 76)
    if raised:
        assert f"the right {rail} in (a section and b section: runs of 76 in together, and 6 in" in raised.sentence


def test_a_side_that_is_far_from_the_bed_size_is_told_by_its_rail() -> None:
    queen = surveyed(ladder(), bed_size="US queen", section=with_section(
        ladder(), "foot-part", right_short=inches(42)).survey.section)  # fmt: skip
    assert found(queen)["run-nominal:right"].sentence.startswith(
        "From post to post the right side is 96 in (foot-part section: a run of 54 in, and 42 in that it stops short"
    )


def test_they_lie_where_they_say_whatever_the_order_they_were_entered_in() -> None:
    survey = ladder().survey
    assert [each for each, _ in along_side(survey, "right")] == ["head-part", "foot-part"]
    assert (goes_on(survey, "foot-part", "left"), post_at(survey, "foot-part", "left")) == (False, "foot-right")
    assert post_at(survey, "head-part", "right") == "head-right"
    assert goes_on(survey, "foot-part", "right")


def test_the_drawing_shows_the_side_as_long_as_it_is() -> None:
    scene, alone = bed_plan(ladder()), bed_plan(surveyed(small(), section={"left": section(76, 12)}))
    assert scene.height == alone.height
    lines = [each for each in scene.shapes if isinstance(each, Stroke) and each.pen == "line" and each.x1 == each.x2]
    runs = sorted(abs(each.y2 - each.y1) for each in lines)
    assert runs == [inches(8), inches(54), inches(76)]


def test_the_schema_says_what_a_run_is_and_where_it_stops_short() -> None:
    says = {key: " ".join(words.split()) for key, words in meanings(Section).items()}
    assert says["run"].startswith("How far the skirt goes along the rail, which is what is seen: post to post, unless")
    assert "bed's corner post" in says["right_short"]
