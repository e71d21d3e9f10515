"""What the drawings of a job show: on its pages, and of its cloth."""

from __future__ import annotations

from fractions import Fraction

import pytest
from msgspec.structs import replace

from tests.render.jobs import growing_plans, whole_plan
from tests.trade.sample_jobs import inches, small, with_face
from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project
from wizard.render.drawings.fixings_view import FIGURES, rail_inside
from wizard.render.drawings.page_drawing import PICTURES, draw_page
from wizard.render.drawings.roll_view import rolls
from wizard.render.drawings.scene import Box, Label, Scene, Shape, Stroke
from wizard.render.drawings.sketch import PageSketch
from wizard.trade.formatting import SIXTEENTHS, readable
from wizard.trade.job_fields import Fullness, Job, Obstacle, Owned, Section, Side, Survey
from wizard.trade.lengths import ZERO, Length, total
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Plan
from wizard.trade.steps.cut_order import in_cutting_order

LEFT = "survey.section.left"
LEAVES = ("along_side", "along_end", "side_set_in", "end_set_in")
"""The lengths of a post."""


def scene_of(picture: str, subject: str, plan: Plan, *keys: str, in_hand: str = "") -> Scene:
    return PICTURES[picture](PageSketch(plan, keys, in_hand, 78, 12), subject)


def text(picture: str, subject: str, plan: Plan, *keys: str, in_hand: str = "") -> str:
    return "\n".join(draw_page(picture, subject, keys, plan, in_hand, 78, 12).lines)


def corners_of(shape: Shape) -> list[tuple[Length, Length]]:
    if isinstance(shape, Box):
        return [(shape.x, shape.y), (shape.x + shape.width, shape.y + shape.height)]
    return [(shape.x1, shape.y1), (shape.x2, shape.y2)] if isinstance(shape, Stroke) else [(shape.x, shape.y)]


def assert_inside(scene: Scene) -> None:
    for shape in scene.shapes:
        for x, y in corners_of(shape):
            assert ZERO <= x <= scene.width, (scene.title, shape)
            assert ZERO <= y <= scene.height, (scene.title, shape)


@pytest.mark.parametrize("picture", PICTURES)
def test_every_drawing_stays_inside_its_frame_at_every_stage_of_filling(picture: str) -> None:
    # The survey fills the drawings: two lines of it more each time, then the rest at once.
    for plan in (plan_of(Project()), *growing_plans()[8:50:2], whole_plan()):
        for subject in ("left", "right", "foot-left", "left.centre-leg", "face", "not-there", ""):
            assert_inside(scene_of(picture, subject, plan))


def test_no_stand_in_is_ever_shown_as_a_figure() -> None:
    for picture in PICTURES:
        assert not any(each.isdigit() for each in text(picture, "", plan_of(Project())))


def test_a_scene_tells_the_lengths_that_are_typed_on_it() -> None:
    keys = (f"{LEFT}.run.1", f"{LEFT}.drop.2", f"{LEFT}.drop.3")
    labels = {
        each.key: each.text for each in scene_of("side", "left", whole_plan(), *keys).shapes if isinstance(each, Label)
    }
    assert [labels[key] for key in keys] == ["76 5/8", "12", "12 1/4"]
    assert scene_of("side", "left", plan_of(Project()), keys[0]).shapes[-1:] != ()


def test_a_section_shows_its_ends_and_what_is_in_the_way() -> None:
    drawn = text("side", "left", whole_plan())
    for words in ("head end", "foot end", "centre leg", "floor", "rail"):
        assert words in drawn


def test_the_hem_is_drawn_on_the_most_uneven_section_level_and_along_the_floor() -> None:
    even = Section(run=(Length(76),), drop=(Length(8), Length(8)))
    steep = Section(run=(Length(76),), drop=(Length(8), Length(12), Length(16)), hem_line="follow the floor")
    job = Job(survey=Survey(section={"left": even, "right": steep}))
    scene = scene_of("hem", "", make_plan(job), in_hand="hem.line")
    assert scene.title == "right section: the hem level, or along the floor"
    floor = [each for each in scene.shapes if isinstance(each, Stroke) and each.pen == "heavy" and each.y1 > Length(2)]
    assert all(each.y1 < each.y2 for each in floor)
    picked = [each for each in scene.shapes if isinstance(each, Stroke) and each.pen == "picked"]
    assert [each.y2 - each.y1 for each in picked] == [each.y2 - each.y1 for each in floor[: len(picked)]]


@pytest.mark.parametrize(("section_id", "quarters"), [("left", 1), ("right", 3), ("foot", 1), ("head", 3)])
def test_a_thing_in_the_way_is_drawn_where_it_was_read_from_the_head_or_the_beds_left(
    section_id: str, quarters: int
) -> None:
    thing = Obstacle(at=Length(19), width=Length(2), height=Length(4))
    job = Job(survey=Survey(section={section_id: Section(run=(Length(76),), in_the_way={"leg": thing})}))
    scene = PICTURES["side"](PageSketch(make_plan(job), (), "", 401, 101), section_id)
    box = next(each for each in scene.shapes if isinstance(each, Box) and each.pen == "fine")
    rail = next(each for each in scene.shapes if isinstance(each, Stroke) and each.pen == "heavy")
    part = (box.x + box.width / 2 - rail.x1) / (rail.x2 - rail.x1)
    assert abs(part * 4 - quarters) * 10 < 1


def test_a_corner_is_drawn_as_it_is_turned() -> None:
    foot_left, head_right = (scene_of("corner", each, plan_of(Project())) for each in ("foot-left", "head-right"))
    boxes = [next(shape for shape in scene.shapes if isinstance(shape, Box)) for scene in (foot_left, head_right)]
    assert boxes[0].x + boxes[1].x + boxes[0].width == foot_left.width
    assert boxes[0].x < boxes[1].x
    assert boxes[1].y < boxes[0].y


@pytest.mark.parametrize("leaf", LEAVES)
def test_each_length_of_a_post_is_picked_out_alone(leaf: str) -> None:
    keys = [f"survey.post.foot-left.{each}" for each in LEAVES]
    scene = scene_of("corner", "foot-left", plan_of(Project()), *keys, in_hand=f"survey.post.foot-left.{leaf}")
    strokes = [each for each in scene.shapes if isinstance(each, Stroke) and each.tips == "both"]
    assert [each.pen for each in strokes].count("picked") == 1
    assert len(strokes) == len(keys)


def test_one_more_drop_moves_none_of_those_that_were_read() -> None:
    keys = tuple(f"{LEFT}.drop.{number}" for number in range(1, 5))
    slots = [draw_page("side", "left", keys, whole_plan(), in_hand, 78, 12).slots for in_hand in keys[2:]]
    assert slots[0] == slots[1]
    assert [slot.key for slot in slots[0]] == list(keys[:3])
    assert "║" in text("side", "left", whole_plan(), *keys, in_hand=keys[3])


def test_lengths_of_cloth_are_drawn_to_scale_with_their_cuts_and_what_is_left() -> None:
    key = "cloth.face.owned.first.length"
    number, bar, *_ = draw_page("owned", "face", (key,), whole_plan(), key, 78, 12).lines
    cutting = whole_plan().layers[0].cutting
    assert cutting is not None
    ends = {piece.start + piece.cut for piece in cutting.best.pieces if piece.stretch == "first"}
    assert bar.count("╤") == len(ends)
    assert number.endswith("left over")


def test_every_allowance_has_its_letter_at_its_place() -> None:
    keys = ("allowances.join", "allowances.top", "cloth.face.hem", "allowances.run_tolerance", "cloth.interlining.hem")
    drawing = draw_page("pieces", "", keys, whole_plan(), "allowances.top", 78, 12)
    assert drawing.slots == ()
    assert drawing.letters == dict(zip((*keys[:3], keys[4]), "abcd", strict=True))
    assert "║" in "\n".join(drawing.lines)
    for letters in (" a", " b", " c d"):
        assert any(line.endswith(letters) for line in drawing.lines)


@pytest.mark.parametrize("full", ["3/2", "2.5", "4"])
def test_flat_cloth_is_as_many_times_as_long_as_the_rail_as_it_is_full(full: str) -> None:
    scene = scene_of("fullness", full, whole_plan())
    rail, flat = (each.x2 - each.x1 for each in scene.shapes if isinstance(each, Stroke))
    assert abs(flat / rail - Fraction(full)) < Fraction(1, 8)


def test_cloth_drawn_flat_goes_by_the_fullness_in_use() -> None:
    owned = with_face(small(), owned={"chest": Owned(length=inches(190))})
    plan = make_plan(replace(owned, fullness=Fullness(aim="all the cloth I own", want=Fraction(2))))
    used = plan.figures["fullness"].value
    assert used is not None
    assert used > 3
    rail, flat = (each.x2 - each.x1 for each in scene_of("fullness", "", plan).shapes if isinstance(each, Stroke))
    assert abs(flat / rail - used) < Fraction(1, 4)
    assert f"fullness {readable(used)}" in text("fullness", "", plan)


def test_the_roll_shows_every_piece_once_to_scale_and_every_offcut_hatched() -> None:
    for layer in (plan := whole_plan()).layers:
        assert layer.cutting is not None
        best = layer.cutting.best
        boxes = [shape for scene in rolls(plan, layer, best) for shape in scene.shapes if isinstance(shape, Box)]
        drawn = [(shape.width, shape.height) for shape in boxes if shape.fill == "none"]
        assert sorted(drawn) == sorted((piece.width, piece.cut) for piece in best.pieces)
        assert len([shape for shape in boxes if shape.fill == "hatched"]) == len(best.offcuts)
        assert all(scene.to_scale for scene in rolls(plan, layer, best))


def test_pieces_and_offcuts_fill_the_drawn_roll_exactly() -> None:
    for layer in (plan := whole_plan()).layers:
        assert layer.cutting is not None
        for scene in rolls(plan, layer, layer.cutting.best):
            boxes = [shape for shape in scene.shapes if isinstance(shape, Box)]
            area = total(each.width * each.height.inches for each in boxes)
            assert area == scene.width * scene.height.inches


def test_a_lane_lies_along_the_roll() -> None:
    layer = (plan := whole_plan()).layers[0]
    assert layer.cutting is not None
    best = layer.cutting.best
    one = replace(best.pieces[0], start=ZERO, across=ZERO)
    uses = tuple(each for each in best.uses if each.stretch == one.stretch)
    lanes = replace(best, way="along", pieces=(one,), offcuts=(), uses=uses)
    box = next(each for each in rolls(plan, layer, lanes)[0].shapes if isinstance(each, Box))
    assert (box.width, box.height) == (one.cut, one.width)
    assert in_cutting_order(layer, lanes)[0].end == one.width


SIDES: tuple[tuple[Side, str, bool], ...] = (
    ("left", "the head", False),
    ("right", "the head", True),
    ("foot", "the bed's left", False),
    ("head", "the bed's left", True),
)
"""Each side, where it is measured from, and whether that is at the left when it is seen from inside the bed."""


@pytest.mark.parametrize(("side", "start", "at_left"), SIDES)
def test_a_rail_is_drawn_as_it_is_seen_from_inside_the_bed(side: Side, start: str, at_left: bool) -> None:
    """From the room the drops rise from the left end to the right one; from inside they rise the other way."""
    thing = Obstacle(at=inches(10), width=inches(4), height=inches(4), do="no fixing")
    drops = (inches(12), inches("12 1/2"), inches(13))
    section = Section(
        side=side, run=(inches(60), inches(60)), drop=drops, hem_line="follow the floor", left_end="stops",
        right_end="stops", in_the_way={"leg": thing},
    )  # fmt: skip
    job = small()
    (part,) = make_plan(replace(job, survey=replace(job.survey, section={side: section}))).parts
    assert part.fixings is not None
    scene = rail_inside(part, part.fixings, SIXTEENTHS)
    assert scene is not None
    assert part.fixings.measured_from == start
    labels = [each for each in scene.shapes if isinstance(each, Label)]
    (skipped,) = {each.x < scene.width / 2 for each in labels if each.text == "×"}
    (first,) = (each.x for each in labels if each.text == "1")
    (named,) = (each for each in labels if each.text == f"measured from {start}")
    assert skipped is (first < scene.width / 2) is (named.x == ZERO) is (named.anchor == "start") is at_left
    shown = [Fraction(each.text[:2]) for each in sorted(labels, key=lambda each: each.x) if each.y.inches in FIGURES]
    assert shown[0] > shown[-1]
