"""The bed from above with many sections: each is named in it or beneath it, the one in hand always in it."""

from __future__ import annotations

import re

import pytest

from wizard.render.drawings.bed_view import bed_view
from wizard.render.drawings.page_drawing import draw_page
from wizard.render.drawings.scene import Box, Scene, Stroke
from wizard.render.drawings.sketch import PageSketch
from wizard.trade.job_fields import Job, Section, Survey
from wizard.trade.lengths import ZERO, Length
from wizard.trade.make_plan import make_plan
from wizard.trade.sections import SIDES, section_name

SIZES = ((56, 8), (56, 9), (76, 8), (78, 12), (72, 16))


def drawn(job: Job, in_hand: str, columns: int, rows: int) -> tuple[str, ...]:
    """The bed in characters."""
    return draw_page("bed", "", (), make_plan(job), in_hand, columns, rows).lines


def scene_of(job: Job, in_hand: str = "", *keys: str, cells: int = 401) -> Scene:
    """The bed on so many cells each way."""
    return bed_view(PageSketch(make_plan(job), keys, in_hand, cells, cells), "")


def on(section: str) -> str:
    """What is in hand while one chooses whether to make a section."""
    return f"survey.section.{section}.on"


def bed_of(each_side: int) -> Job:
    """A bed with so many sections along every side."""
    sections = {
        side if number == 1 else f"{side}-{number}": Section(on=True, side=side, run=(Length(20),))
        for side in SIDES
        for number in range(1, each_side + 1)
    }
    return Job(survey=Survey(section=sections))


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("each_side", [1, 2, 3, 5, 8])
def test_of_many_sections_the_one_in_hand_is_named_in_the_drawing_and_of_twelve_every_one_in_it_or_beneath(
    size: tuple[int, int], each_side: int
) -> None:
    job = bed_of(each_side)
    for picked in job.survey.section:
        lines = drawn(job, on(picked), *size)
        told = "\n".join(lines)
        assert section_name(job, picked) in told
        assert len(lines) == size[1]
        assert all(len(each) <= size[0] for each in lines)
        if each_side == 3:
            assert all(re.search(rf"(?<![\w-]){each}(?![\w-])", told) for each in job.survey.section), told
            # A number is on the rail, and beneath with its name.
            assert {told.count(number) for number in re.findall(r"\(\d+\)", told)} <= {2}, told
        assert each_side > 1 or "(" not in told, "a usual bed has no key beneath it"


def test_a_section_of_the_foot_is_named_on_its_own_rail() -> None:
    lines = drawn(bed_of(3), on("left"), 76, 10)
    assert all(f"{each} section" in lines[-1] for each in ("foot", "foot-2", "foot-3"))
    assert not any("left" in each or "right" in each for each in (lines[0], lines[-1]))


def picked(scene: Scene) -> list[Box | Stroke]:
    return [each for each in scene.shapes if isinstance(each, Box | Stroke) and each.pen == "picked"]


@pytest.mark.parametrize(
    ("section", "end", "at_the_right", "at_the_foot"),
    [
        ("left", "left", False, False), ("left", "right", False, True), ("foot", "left", False, True),
        ("foot", "right", True, True), ("right", "left", True, True), ("head", "left", True, False),
    ],
)  # fmt: skip
def test_the_post_in_hand_is_the_one_on_that_hand_seen_from_the_room(
    section: str, end: str, at_the_right: bool, at_the_foot: bool
) -> None:
    (post,) = picked(scene_of(bed_of(1), f"survey.section.{section}.{end}_end"))
    assert isinstance(post, Box)
    assert (post.x == ZERO, post.y == ZERO) == (not at_the_right, not at_the_foot)
    posts = {each for each in picked(scene_of(bed_of(1), "corners.foot")) if isinstance(each, Box)}
    assert [each.y > Length(200) for each in posts] == [True, True], "those of all foot corners together"


def test_the_end_at_which_the_next_section_goes_on_is_drawn_between_the_two_and_not_at_the_corner() -> None:
    job = bed_of(2)
    for (one, end), (other, far) in (
        (("foot", "right"), ("foot-2", "left")),
        (("right-2", "right"), ("right", "left")),
    ):
        joints = [picked(scene_of(job, f"survey.section.{id}.{at}_end")) for id, at in ((one, end), (other, far))]
        assert len(joints[0]) == len(joints[1]) == 1
        assert all(isinstance(each, Stroke) for joint in joints for each in joint)
        assert joints[0] == joints[1]


def test_a_section_that_stops_short_is_drawn_as_long_as_it_is_with_a_bare_rail_up_to_the_post() -> None:
    """30 of 40 in at the foot end of the right side: the run begins a quarter of the way down from the head."""
    right = Section(on=True, side="right", run=(Length(30),), right_end="stops short", right_short=Length(10))
    job, key = Job(survey=Survey(section={"right": right})), "survey.section.right.right_short"
    (asked,) = picked(scene_of(job, key, key))
    (rail,) = picked(scene_of(job, on("right")))
    assert isinstance(asked, Stroke)
    assert isinstance(rail, Stroke)
    assert asked.tips == "both"
    assert rail.y1 == asked.y2
    assert (rail.y2 - rail.y1) / (asked.y2 - asked.y1) == 3


def test_a_return_is_drawn_behind_the_post_along_the_other_rail() -> None:
    left = Section(on=True, side="left", run=(Length(76),), right_end="returns")
    key = "survey.section.left.right_return"
    (line,) = picked(scene_of(Job(survey=Survey(section={"left": left})), key, key))
    assert isinstance(line, Stroke)
    assert line.y1 == line.y2 > Length(200)
