"""The bed from above with many sections: each is named in it or beneath it, the one in hand always in it."""

from __future__ import annotations

import re
from textwrap import wrap

import pytest

from wizard.render.drawings.bed_plan import bed_plan, unlabelled_sections
from wizard.render.drawings.scene import Box, Label, Scene, Stroke
from wizard.render.drawings.scene_text import to_cells
from wizard.render.plain_text import NO_BREAK_SPACE, clipped
from wizard.trade.job_fields import Job, Section, Survey
from wizard.trade.lengths import ZERO, Length
from wizard.trade.sections import SIDES, End, section_name

# In the first there is not room for all of twelve.
SIZES = ((44, 5), (44, 6), (44, 7), (56, 5), (70, 6), (76, 5), (76, 9), (72, 16))


def drawn_with_key(scene: Scene, columns: int, rows: int, under: int = 0) -> list[str]:
    """The scene in that space; its last lines name the sections that it has no space to name."""
    lines = to_cells(scene, columns, rows - under)
    key = [each.replace(NO_BREAK_SPACE, " ") for each in wrap("; ".join(unlabelled_sections(scene, lines)), columns)]
    if len(key) > under and rows - under > 4:
        return drawn_with_key(scene, columns, rows, under + 1)
    if len(key) > under > 0:
        key[under - 1] = clipped(" ".join(key[under - 1 :]), columns)
    return [*lines, *key[:under]]


def bed_of(each_side: int) -> Job:
    """A bed with so many sections along every side."""
    sections = {
        side if number == 1 else f"{side}-{number}": Section(on=True, side=side, run=(Length(20),))
        for side in SIDES
        for number in range(1, each_side + 1)
    }
    return Job(survey=Survey(section=sections))


@pytest.mark.parametrize("size", SIZES[1:])
def test_of_twelve_sections_every_one_is_named_in_the_drawing_or_beneath_it(size: tuple[int, int]) -> None:
    job = bed_of(3)
    for picked in job.survey.section:
        lines = drawn_with_key(bed_plan(job, picked), *size)
        told = "\n".join(lines)
        assert len(lines) <= size[1]
        assert all(len(each) <= size[0] for each in lines)
        for each in job.survey.section:
            assert re.search(rf"(?<![\w-]){each}(?![\w-])", told), (picked, each, told)
        for number in re.findall(r"\(\d+\)", told):
            # On the rail, and beneath with its name.
            assert told.count(number) == 2, told


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("each_side", [1, 2, 3, 5, 8])
def test_the_section_one_stands_at_is_always_named_in_the_drawing(size: tuple[int, int], each_side: int) -> None:
    job = bed_of(each_side)
    for picked in job.survey.section:
        assert section_name(job, picked) in "\n".join(drawn_with_key(bed_plan(job, picked), *size))


def test_a_section_of_the_foot_is_named_on_its_own_rail() -> None:
    job = bed_of(3)
    lines = drawn_with_key(bed_plan(job, "left"), 76, 5)
    assert all(f"{each} section" in lines[-1] for each in ("foot", "foot-2", "foot-3"))
    assert not any("left" in each or "right" in each for each in (lines[0], lines[-1]))


def test_a_usual_bed_has_no_key_beneath_it() -> None:
    job = bed_of(1)
    for size in SIZES:
        assert "(" not in "\n".join(drawn_with_key(bed_plan(job, "left"), *size))


def test_the_end_at_which_the_next_section_goes_on_is_drawn_between_the_two_and_not_at_the_corner() -> None:
    foot, side = Section(on=True, side="foot", run=(Length(20),)), Section(on=True, side="right", run=(Length(30),))
    job = Job(survey=Survey(section={"foot": foot, "foot-2": foot, "right": side, "right-2": side}))
    corners = {"left-foot": bed_plan(job, "foot", "left"), "right-foot": bed_plan(job, "foot-2", "right")}
    for corner, scene in corners.items():
        (post,) = [each for each in scene.shapes if isinstance(each, Box) and each.pen == "picked"]
        assert post.x == (ZERO if corner == "left-foot" else scene.width - post.width)
        assert post.y == scene.height - post.height
    pairs: tuple[tuple[tuple[str, End], tuple[str, End]], ...] = (
        (("foot", "right"), ("foot-2", "left")),
        (("right", "left"), ("right-2", "right")),
    )
    for pair in pairs:
        boxes = [
            next(each for each in bed_plan(job, *at).shapes if isinstance(each, Box) and each.pen == "picked")
            for at in pair
        ]
        assert boxes[0] == boxes[1]
        assert boxes[0].width < (boxes[0].x if pair is pairs[0] else boxes[0].y) < Length(60)


def test_a_section_that_stops_short_is_drawn_as_long_as_it_is_with_a_bare_rail_up_to_the_post() -> None:
    """30 of 40 in at the foot end of the right side: the run begins a quarter of the way down from the head."""
    right = Section(on=True, side="right", run=(Length(30),), right_end="stops short", right_short=Length(10))
    job = Job(survey=Survey(section={"right": right}))
    scene = bed_plan(job, "right", "right", "short")
    (asked,) = [each for each in scene.shapes if isinstance(each, Stroke) and each.pen == "picked"]
    assert asked.tips == "both"
    assert asked.y2 - asked.y1 == Length(10)
    assert [
        each.text for each in scene.shapes if isinstance(each, Label) and each.pen == "picked" and each.text == "10"
    ]
    (rail,) = [each for each in bed_plan(job, "right").shapes if isinstance(each, Stroke) and each.pen == "picked"]
    assert (rail.y1, rail.y2 - rail.y1) == (asked.y2, Length(30))
