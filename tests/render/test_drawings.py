"""The drawings of a job, from nothing filled in to all of it."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from tests.render.jobs import WHOLE, growing_plans, project_of, whole_plan
from wizard.interview.pages.all_pages import pages_of
from wizard.interview.question import Question
from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project, put_many
from wizard.render.cut_order import in_cutting_order
from wizard.render.drawings.bed_plan import bed_plan
from wizard.render.drawings.corner import LEAVES, corner
from wizard.render.drawings.elevation import elevation
from wizard.render.drawings.rail_sketches import rail_end, tape_run, top_edge
from wizard.render.drawings.roll_on_screen import rolls
from wizard.render.drawings.scene import Box, Label, Scene, Shape, Stroke
from wizard.render.drawings.scene_for_question import scene_for
from wizard.render.drawings.scene_text import to_cells
from wizard.render.drawings.sketch import value_label
from wizard.trade.formatting import ruler_of
from wizard.trade.job_fields import Job, Obstacle, Post, Section, Survey
from wizard.trade.lengths import ZERO, Length, total
from wizard.trade.plan_records import Plan
from wizard.trade.sections import End

NAMES = ("plan", "elevation", "top", "cloth", "roll")
PICKED = (
    "run.1", "run.2", "drop.1", "drop.2", "drop.3", "drop.7", "drop_at.2", "left_return", "right_return", "left_hook",
    "right_daylight_top", "left_daylight_floor", "in_the_way.centre-leg.at", "in_the_way.centre-leg.width",
    "in_the_way.centre-leg.height", "width", "trim", "repeat", "length", "top", "raised", "free_height", *LEAVES, None,
)  # fmt: skip


def text(scene: Scene, columns: int = 62, rows: int = 10) -> str:
    return "\n".join(to_cells(scene, columns, rows))


def corners_of(shape: Shape) -> list[tuple[Length, Length]]:
    if isinstance(shape, Box):
        return [(shape.x, shape.y), (shape.x + shape.width, shape.y + shape.height)]
    return [(shape.x1, shape.y1), (shape.x2, shape.y2)] if isinstance(shape, Stroke) else [(shape.x, shape.y)]


def assert_inside(scene: Scene) -> None:
    for shape in scene.shapes:
        for x, y in corners_of(shape):
            assert ZERO <= x <= scene.width, (scene.title, shape)
            assert ZERO <= y <= scene.height, (scene.title, shape)


@pytest.mark.parametrize("name", NAMES)
def test_every_drawing_stays_inside_its_frame_at_every_stage_of_filling(name: str) -> None:
    # The survey fills the drawings: two lines of it more each time, then the rest at once.
    for plan in (plan_of(Project()), *growing_plans()[8:50:2], whole_plan()):
        for section in ("left", "right", "not-there"):
            for picked in PICKED:
                scene = scene_for(plan, name, section, picked, "")
                if scene is not None:
                    assert_inside(scene)


LENGTHS = ("length", "length or zero")
SAYS_NOTHING_OF_A_PLACE = ("allowances.floor_tolerance", "allowances.run_tolerance")


def questions_of(plan: Plan, project: Project) -> list[Question]:
    asked = [each for page in pages_of(project, plan) for each in page.questions]
    return [each for each in asked if each.shows.drawing != "none"]


def drawn_for(plan: Plan, question: Question) -> Scene | None:
    shows = question.shows
    return scene_for(plan, shows.drawing, shows.section, shows.picked, question.key)


def test_every_question_of_a_length_has_a_drawing_with_that_length_picked_out() -> None:
    asking = {"progress.usual_allowances": False, "progress.rails_alike": False, "progress.turned_posts": True}
    more = {"survey.post.foot-left.turned": True, "cloth.lining.use": True, "cloth.face.hem_kind": "single"}
    for changes in ({}, asking, {**asking, **more}):
        project = put_many(project_of(WHOLE), changes)
        plan = plan_of(project)
        for question in questions_of(plan, project):
            scene = drawn_for(plan, question)
            if scene is not None:
                assert_inside(scene)
            if question.kind in LENGTHS and question.key not in SAYS_NOTHING_OF_A_PLACE:
                assert scene is not None, question.key
                assert any(shape.pen == "picked" for shape in scene.shapes), question.key


def test_questions_of_an_empty_job_have_their_drawings_too() -> None:
    plan = plan_of(Project())
    scenes = [drawn_for(plan, each) for each in questions_of(plan, Project())]
    assert len([scene for scene in scenes if scene is not None]) > 10
    for scene in scenes:
        if scene is not None:
            assert_inside(scene)


@pytest.mark.parametrize(
    ("drawing", "key", "title"),
    [
        ("plan", "survey.post.foot-left.along_side", "post foot-left from above"),
        ("plan", "survey.section.left.left_return", "the bed from above"),
        ("top", "survey.rail_thickness", "the rail cut through, seen from the foot"),
        ("top", "cloth.tape.turn_under", "the tape along the rail, from one end"),
        ("top", "allowances.top", "the top edge close up"),
        ("cloth", "allowances.join", "two pieces joined, flat, wrong side up"),
        ("cloth", "cloth.lining.width", "lining cloth laid flat"),
        ("roll", "cloth.face.owned.first.length", "a length of cloth in hand"),
        ("cloth", "fullness.want", "flat width against gathered length"),
        ("elevation", "survey.floor_gap", "the rail cut through, seen from the foot"),
        ("elevation", "survey.section.right.drop.1", "right section, seen from the room"),
        ("roll", "fullness.joins", "slate ticking: the roll to buy"),
    ],
)
def test_the_key_of_a_question_tells_which_drawing_it_is(drawing: str, key: str, title: str) -> None:
    scene = scene_for(whole_plan(), drawing, None, None, key)
    assert scene is not None
    if drawing != "roll" or "owned" in key:
        assert scene.title == title
    else:
        assert scene.title.startswith("slate ticking: ")


def test_the_picked_end_is_the_one_on_that_hand_seen_from_the_room() -> None:
    job = whole_plan().job
    places = {}
    ends: tuple[tuple[str, End], ...] = (
        ("left", "left"),
        ("left", "right"),
        ("foot", "left"),
        ("foot", "right"),
        ("right", "left"),
    )
    for section, end in ends:
        boxes = [each for each in bed_plan(job, section, end).shapes if isinstance(each, Box) and each.pen == "picked"]
        assert len(boxes) == 1
        places[section, end] = (boxes[0].x == ZERO, boxes[0].y == ZERO)
    # (on the bed's left, at the head)
    assert places == {
        ("left", "left"): (True, True),
        ("left", "right"): (True, False),
        ("foot", "left"): (True, False),
        ("foot", "right"): (False, False),
        ("right", "left"): (False, False),
    }


def test_an_empty_job_has_every_drawing_but_the_roll() -> None:
    plan = plan_of(Project())
    assert [name for name in NAMES if scene_for(plan, name, "left", None, "") is None] == ["roll"]
    assert scene_for(plan, "none", "left", None, "") is None


def test_a_length_not_read_yet_is_a_question_mark_in_a_picked_line() -> None:
    drawn = text(elevation(Job(), "left", "drop.2"))
    assert "?" in drawn
    assert "║" in drawn


def test_no_stand_in_is_ever_shown_as_a_figure() -> None:
    for scene in (elevation(Job(), "left"), bed_plan(Job()), corner(Job(), "foot-left")):
        assert not any(each.isdigit() for each in text(scene))


def test_a_section_shows_its_ends_readings_and_what_is_in_the_way() -> None:
    drawn = text(elevation(whole_plan().job, "left", "drop.2"))
    for words in ("head end", "foot end", "76 5/8", "11 7/8", "12 1/4", "centre leg", "floor"):
        assert words in drawn


def test_an_uneven_floor_is_drawn_uneven() -> None:
    section = Section(run=(Length(76),), drop=(Length(8), Length(12), Length(16)))
    scene = elevation(Job(survey=Survey(section={"left": section})), "left")
    floor = [shape for shape in scene.shapes if isinstance(shape, Stroke) and shape.pen == "heavy"]
    assert floor[0].y1 < floor[-1].y2


@pytest.mark.parametrize(("section_id", "part"), [("left", "1/4"), ("right", "3/4"), ("foot", "1/4"), ("head", "3/4")])
def test_a_thing_in_the_way_lies_where_it_was_read_from_the_head_or_the_beds_left(section_id: str, part: str) -> None:
    thing = Obstacle(at=Length(19), width=Length(2), height=Length(4))
    job = Job(survey=Survey(section={section_id: Section(run=(Length(76),), in_the_way={"leg": thing})}))
    scene = elevation(job, section_id)
    box = next(shape for shape in scene.shapes if isinstance(shape, Box) and shape.width == Length(2))
    top, bottom = part.split("/")
    post = (scene.width - Length(76)) / 2
    assert box.x + Length(1) - post == Length(76) * int(top) / int(bottom)


def test_the_bed_from_above_picks_one_section_out() -> None:
    drawn = bed_plan(whole_plan().job, "foot")
    picked = [shape for shape in drawn.shapes if isinstance(shape, Stroke) and shape.pen == "picked"]
    assert len(picked) == 1
    assert picked[0].y1 == picked[0].y2
    for words in ("left section 76 5/8", "foot section 58", "head of the bed", "foot of the bed"):
        assert words in text(drawn, 60, 14)


def test_a_corner_is_drawn_as_it_lies() -> None:
    post = Post(along_side=Length(3), along_end=Length(4))
    job = Job(survey=Survey(post={"foot-left": post, "head-right": post}))
    foot_left, head_right = corner(job, "foot-left"), corner(job, "head-right")
    boxes = [next(shape for shape in scene.shapes if isinstance(shape, Box)) for scene in (foot_left, head_right)]
    assert boxes[0].x < foot_left.width / 2
    assert boxes[0].y + boxes[0].height > foot_left.height / 2
    assert boxes[1].x + boxes[1].width > head_right.width / 2
    assert boxes[1].y < boxes[0].y


@pytest.mark.parametrize("leaf", LEAVES)
def test_each_length_of_a_post_is_picked_out_alone(leaf: str) -> None:
    scene = corner(Job(), "foot-left", leaf)
    assert [shape.pen for shape in scene.shapes if isinstance(shape, Stroke)].count("picked") == 1
    assert "?" in text(scene, 50, 14)


@pytest.mark.parametrize("leaf", ["top", "width", "raised", "free_height"])
def test_each_length_of_the_top_edge_is_picked_out(leaf: str) -> None:
    scene = top_edge(whole_plan().job, "left", leaf)
    assert any(shape.pen == "picked" for shape in scene.shapes)
    for words in ("fold of the tape", "raw edge of the cloth", "stay-stitching", "gathering row", "drop line"):
        assert words in text(scene, 60, 12)


def test_the_roll_shows_every_piece_once_to_scale_and_every_offcut_hatched() -> None:
    for layer in whole_plan().layers:
        assert layer.cutting is not None
        best = layer.cutting.best
        boxes = [shape for scene in rolls(layer, best) for shape in scene.shapes if isinstance(shape, Box)]
        drawn = [(shape.width, shape.height) for shape in boxes if shape.fill == "none"]
        assert sorted(drawn) == sorted((piece.width, piece.cut) for piece in best.pieces)
        assert len([shape for shape in boxes if shape.fill == "hatched"]) == len(best.offcuts)
        assert all(scene.to_scale for scene in rolls(layer, best))


def test_pieces_and_offcuts_fill_the_drawn_roll_exactly() -> None:
    for layer in whole_plan().layers:
        assert layer.cutting is not None
        for scene in rolls(layer, layer.cutting.best):
            boxes = [shape for shape in scene.shapes if isinstance(shape, Box)]
            area = total(each.width * each.height.inches for each in boxes)
            assert area == scene.width * scene.height.inches


def test_a_lane_lies_along_the_roll() -> None:
    layer = whole_plan().layers[0]
    assert layer.cutting is not None
    best = layer.cutting.best
    one = replace(best.pieces[0], start=ZERO, across=ZERO)
    uses = tuple(each for each in best.uses if each.stretch == one.stretch)
    lanes = replace(best, way="along", pieces=(one,), offcuts=(), uses=uses)
    box = next(each for each in rolls(layer, lanes)[0].shapes if isinstance(each, Box))
    assert (box.width, box.height) == (one.cut, one.width)
    assert in_cutting_order(layer, lanes)[0].end == one.width


def test_a_lying_roll_is_the_same_roll_with_right_and_down_changed_over() -> None:
    layer = whole_plan().layers[0]
    assert layer.cutting is not None
    for upright, lying in zip(
        rolls(layer, layer.cutting.best), rolls(layer, layer.cutting.best, lying=True), strict=True
    ):
        assert (lying.width, lying.height) == (upright.height, upright.width)
        assert_inside(lying)


def picked_signs(drawn: list[str]) -> list[str]:
    """What of a drawing in characters is in the double lines of what is asked for."""
    return [sign for line in drawn for sign in line if sign in "║═╔╗╚╝╠╣╦╩╬"]


@pytest.mark.parametrize("rows", [5, 6, 8, 16])
@pytest.mark.parametrize("leaf", LEAVES)
@pytest.mark.parametrize("post", ["foot-left", "head-right"])
def test_however_low_the_drawing_is_the_length_of_a_post_has_a_double_line(post: str, leaf: str, rows: int) -> None:
    asked, bare = (to_cells(corner(Job(), post, each), 43, rows) for each in (leaf, None))
    assert picked_signs(asked)
    assert not picked_signs(bare)


@pytest.mark.parametrize("rows", [5, 8, 16])
@pytest.mark.parametrize("leaf", ["floor_gap", "setback", "rail_thickness", "legs"])
def test_however_low_the_drawing_is_a_length_at_the_rail_has_a_double_line(leaf: str, rows: int) -> None:
    assert picked_signs(to_cells(rail_end(Job(), leaf), 43, rows))


def test_a_return_is_drawn_behind_the_post_along_the_other_rail_with_its_length() -> None:
    job = whole_plan().job
    scene = scene_for(whole_plan(), "plan", None, None, "survey.section.left.left_return")
    assert scene is not None
    (line,) = [each for each in scene.shapes if isinstance(each, Stroke) and each.pen == "picked"]
    assert line.y1 == line.y2
    value = job.survey.section["left"].left_return
    assert value is not None
    labels = [each.text for each in scene.shapes if isinstance(each, Label) and each.pen == "picked"]
    assert value_label(value, ruler_of(job)) in labels


def test_a_hook_plate_at_the_right_end_is_drawn_at_the_right() -> None:
    left, right = (tape_run(Job(), each) for each in ("left_hook", "right_hook"))
    (one,), (other,) = (
        [each for each in scene.shapes if isinstance(each, Stroke) and each.pen == "picked"] for scene in (left, right)
    )
    assert max(one.x1, one.x2) < left.width / 2 < min(other.x1, other.x2)


def test_one_more_drop_moves_none_of_those_that_were_read() -> None:
    job = whole_plan().job
    places = [
        {each.text: each.x for each in elevation(job, "left", leaf).shapes if isinstance(each, Label)}
        for leaf in ("drop.3", "drop.4")
    ]
    assert all(places[1][text] == place for text, place in places[0].items())
    assert "?" in places[1]
