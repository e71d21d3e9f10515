"""What the drawings of a job show, on its pages and of its cloth; its slots for lengths; many sections."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from functools import cached_property
from itertools import combinations, product, zip_longest
from random import Random
from typing import Final

import pytest
from msgspec.structs import replace

from tests.render.jobs import WHOLE, growing_plans, project_of, random_file, whole_plan
from tests.trade.sample_jobs import everything, inches, known, section, small, surveyed, with_face
from wizard.interview.job_state import work_out
from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project, Unfit, put_many
from wizard.render.drawings.bed_view import bed_view
from wizard.render.drawings.fixings_view import FIGURES, rail_inside
from wizard.render.drawings.page_drawing import PICTURES, PageDrawing, Slot, draw_page
from wizard.render.drawings.roll_view import rolls
from wizard.render.drawings.scene import Box, Label, Scene, Shape, Stroke
from wizard.render.drawings.sketch import PageSketch
from wizard.render.plain_text import cell_len
from wizard.trade.formatting import SIXTEENTHS, readable
from wizard.trade.job_fields import Fullness, Job, Obstacle, Owned, Section, Side, Survey
from wizard.trade.lengths import ZERO, Length, total
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Plan
from wizard.trade.sections import CORNERS, ENDS, SIDES, section_name
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
    assert not any(each.isdigit() for each in text(picture, "", plan_of(Project()))), "a stand-in is no figure"


def test_a_scene_has_a_place_for_each_length_that_is_typed_on_it() -> None:
    keys = (f"{LEFT}.run.1", f"{LEFT}.drop.2", f"{LEFT}.drop.3")
    shapes = scene_of("side", "left", whole_plan(), *keys).shapes
    assert sorted(each.key for each in shapes if isinstance(each, Label) and each.key) == sorted(keys)
    drawn = text("side", "left", whole_plan())
    assert all(words in drawn for words in ("head end", "foot end", "centre leg", "floor", "rail"))
    assert scene_of("side", "left", plan_of(Project()), keys[0]).shapes[-1:] != ()


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
    pens = [each.pen for each in scene.shapes if isinstance(each, Stroke) and each.tips]
    assert (pens.count("picked"), len(pens)) == (1, len(keys))


def test_one_more_drop_moves_none_of_those_that_were_read() -> None:
    keys = tuple(f"{LEFT}.drop.{number}" for number in range(1, 5))
    slots = [draw_page("side", "left", keys, whole_plan(), in_hand, 78, 12).slots for in_hand in keys[2:]]
    assert slots[0] == slots[1]
    assert [slot.key for slot in slots[0]] == list(keys[:3])
    assert "║" in text("side", "left", whole_plan(), *keys, in_hand=keys[3])


def test_lengths_of_cloth_are_drawn_to_scale_with_their_cuts_and_what_is_left() -> None:
    key = "cloth.face.owned.first.length"
    number, bar, *_ = draw_page("owned", "face", (key,), whole_plan(), key, 78, 12).lines
    lot = draw_page("owned", "face", (key,), whole_plan(), "cloth.face.owned.first.lot", 78, 12)
    assert lot.lines[1] == bar, "its dye lot shows which length is meant"
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


def test_flat_cloth_is_as_many_times_as_long_as_the_rail_as_it_is_full_or_the_fullness_in_use() -> None:
    owned = with_face(small(), owned={"chest": Owned(length=inches(190))})
    owning = make_plan(replace(owned, fullness=Fullness(aim="all the cloth I own", want=Fraction(2))))
    used = owning.figures["fullness"].value
    assert used is not None
    assert used > 3
    for plan, subject, full in (
        *((whole_plan(), each, Fraction(each)) for each in ("3/2", "2.5", "4")),
        (owning, "", used),
    ):
        rail, flat = (
            each.x2 - each.x1 for each in scene_of("fullness", subject, plan).shapes if isinstance(each, Stroke)
        )
        assert abs(flat / rail - full) < Fraction(1, 8)
    drawn = text("fullness", "", owning)
    assert f"fullness {readable(used)}" in drawn
    # Between the gathered and the flat cloth: the rail itself is shorter where an end turns in.
    assert "76 in" in drawn[drawn.index("cloth, gathered") : drawn.index("cloth, flat")]


def test_the_roll_shows_every_piece_once_to_scale_and_every_offcut_hatched_and_nothing_else() -> None:
    for layer in (plan := whole_plan()).layers:
        best, scenes = known(layer.cutting).best, rolls(plan, layer, known(layer.cutting).best)
        boxes = [shape for scene in scenes for shape in scene.shapes if isinstance(shape, Box)]
        drawn = [(shape.width, shape.height) for shape in boxes if shape.fill == "none"]
        assert sorted(drawn) == sorted((piece.width, piece.cut) for piece in best.pieces)
        assert len([shape for shape in boxes if shape.fill == "hatched"]) == len(best.offcuts)
        assert all(scene.to_scale for scene in scenes)
        area = total(each.width * each.height.inches for each in boxes)
        assert area == total(scene.width * scene.height.inches for scene in scenes)


def test_a_lane_lies_along_the_roll() -> None:
    layer = (plan := whole_plan()).layers[0]
    best = known(layer.cutting).best
    one = replace(best.pieces[0], start=ZERO, across=ZERO)
    uses = tuple(each for each in best.uses if each.stretch == one.stretch)
    lanes = replace(best, way="along", pieces=(one,), offcuts=(), uses=uses)
    box = next(each for each in rolls(plan, layer, lanes)[0].shapes if isinstance(each, Box))
    assert (box.width, box.height) == (one.cut, one.width)
    assert in_cutting_order(layer, lanes)[0].end == one.width


@pytest.mark.parametrize(
    ("side", "start", "at_left"),
    [("left", "the head", False), ("right", "the head", True), ("foot", "the bed's left", False),
     ("head", "the bed's left", True)],
)  # fmt: skip
def test_a_rail_is_drawn_as_it_is_seen_from_inside_the_bed(side: Side, start: str, at_left: bool) -> None:
    """From the room the drops rise from the left end to the right one; from inside they rise the other way."""
    thing = Obstacle(at=inches(10), width=inches(4), height=inches(4), do="no fixing")
    drops = (inches(12), inches("12 1/2"), inches(13))
    fallen = section(60, 12, drop=drops, hem_line="follow the floor", in_the_way={"leg": thing})
    (part,) = make_plan(surveyed(small(), section={side: fallen})).parts
    scene = rail_inside(part, known(part.fixings), SIXTEENTHS)
    assert scene is not None
    assert known(part.fixings).measured_from == start
    labels = [each for each in scene.shapes if isinstance(each, Label)]
    (skipped,) = {each.x < scene.width / 2 for each in labels if each.text == "×"}
    (first,) = (each.x for each in labels if each.text == "1")
    (named,) = (each for each in labels if each.text == f"measured from {start}")
    assert skipped is (first < scene.width / 2) is (named.x == ZERO) is (named.anchor == "start") is at_left
    shown = [Fraction(each.text[:2]) for each in sorted(labels, key=lambda each: each.x) if each.y in FIGURES]
    assert shown[0] > shown[-1]


SIZES: Final = ((56, 8), (78, 12), (98, 16))
DOUBLE: Final = frozenset("║═╔╗╚╝╠╣╦╩╬")
ASKS: Final = {"progress.usual_allowances": False, "progress.rails_alike": False, "progress.turned_posts": True}


class Drawn:
    """What a page hands to its drawing."""

    def __init__(self, picture: str, subject: str, keys: tuple[str, ...], project: Project) -> None:
        self.picture, self.subject, self.keys, self.project = picture, subject, keys, project

    @cached_property
    def plan(self) -> Plan:
        return plan_of(self.project)

    def typed(self, key: str, text: str) -> Drawn:
        """The same once that is typed; Unfit where it does not suit."""
        return Drawn(self.picture, self.subject, self.keys, put_many(self.project, {key: text}))

    def at(self, columns: int, rows: int, in_hand: str = "") -> PageDrawing:
        return draw_page(self.picture, self.subject, self.keys, self.plan, in_hand, columns, rows)

    def places(self, in_hand: str = "") -> list[str]:
        """The lengths that the drawing shows, however little space there is."""
        scene = PICTURES[self.picture](PageSketch(self.plan, self.keys, in_hand, 78, 12), self.subject)
        return [each.key for each in scene.shapes if isinstance(each, Label) and each.key]

    def has_a_place(self, key: str) -> bool:
        return key in self.places(key)


def bed(name: str) -> Project:
    """An empty one, a whole one, or a random one by its number; all with everything asked."""
    text = {"empty": "format = 1", "whole": WHOLE}.get(name) or random_file(int(name))
    return put_many(project_of(text), ASKS)


BEDS: Final = ("empty", "whole", *map(str, range(2)))


def drawings_of(name: str) -> Iterator[Drawn]:
    """Every drawing of a job, and those of its corners."""
    project = bed(name)
    for page in work_out(project).pages:
        if page.picture in PICTURES:
            lengths = tuple(each.key for each in page.questions if each.kind in ("length", "length or zero"))
            yield Drawn(page.picture, page.subject, lengths, project)
    yield from extreme(project)


def extreme(project: Project) -> Iterator[Drawn]:
    """Drawings with more lengths than usual."""
    for post in CORNERS:
        leaves = ("along_side", "along_end", "side_set_in", "end_set_in")
        keys = (*(f"survey.post.{post}.{leaf}" for leaf in leaves), "survey.section.left.right_return")
        yield Drawn("corner", post, keys, project)
    for id, count in (("left", 4), ("right", 12)):
        drops = [f"survey.section.{id}.drop.{number}" for number in range(1, count + 1)]
        project = put_many(project, dict.fromkeys(drops, "12 in"))
        runs = (f"survey.section.{id}.run.{number}" for number in (1, 2))
        yield Drawn("side", id, (*runs, *drops), project)
        thing = (f"survey.section.{id}.in_the_way.leg.{leaf}" for leaf in ("at", "width", "height", "overlap"))
        yield Drawn("thing", f"{id}.leg", tuple(thing), project)
    for id, end in product(("left", "foot", "right"), ENDS):
        ends = tuple(f"survey.section.{id}.{end}_{leaf}" for leaf in ("return", "hook", "short"))
        yield Drawn("bed", "", ends, project)
    yield Drawn("owned", "face", tuple(f"cloth.face.owned.n{number}.length" for number in range(9)), project)
    fixing = ("cloth.fixing.spacing", "cloth.fixing.inset", "cloth.tape.turn_under", "cloth.tape.width")
    yield Drawn("fixing", "", fixing, project)


def cells(slot: Slot) -> range:
    """The columns of a slot with its brackets."""
    return range(slot.column - 1, slot.column + slot.width + 1)


@pytest.mark.parametrize("name", BEDS)
def test_every_slot_is_inside_the_drawing_between_its_brackets_and_apart_from_the_others(name: str) -> None:
    for drawn in drawings_of(name):
        for columns, rows in SIZES:
            for in_hand in ("", *drawn.keys):
                drawing = drawn.at(columns, rows, in_hand)
                assert len(drawing.lines) in (0, rows)
                assert all(cell_len(line) <= columns for line in drawing.lines)
                for slot in drawing.slots:
                    assert slot.key in drawn.keys
                    assert 0 <= slot.row < rows
                    assert 0 <= cells(slot).start < cells(slot).stop <= columns
                    assert as_cells(drawing.lines[slot.row])[slot.column - 1 : slot.column + slot.width + 1] == [
                        "[", *" " * slot.width, "]",
                    ]  # fmt: skip
                for one, other in combinations(drawing.slots, 2):
                    assert one.row != other.row or not set(cells(one)) & set(cells(other)), drawn


def as_cells(line: str) -> list[str]:
    """What is in each cell; a wide letter takes two."""
    return [part for each in line for part in (each, *[""] * (cell_len(each) - 1))]


@pytest.mark.parametrize("name", BEDS)
def test_no_measure_is_so_short_that_its_tips_hide_its_line(name: str) -> None:
    for drawn in drawings_of(name):
        for columns, rows in ((78, 7), *SIZES):
            lines = drawn.at(columns, rows).lines
            columns_of = ["".join(each) for each in zip_longest(*lines, fillvalue=" ")]
            assert not any("▲▼" in each for each in columns_of), "\n".join(lines)
            assert not any("◄►" in each for each in lines), "\n".join(lines)


@pytest.mark.parametrize("name", BEDS)
def test_the_length_in_hand_has_its_slot_and_a_double_line_and_what_is_typed_moves_none(name: str) -> None:
    random = Random(name)
    for drawn in drawings_of(name):
        placed = drawn.places()
        for key in filter(drawn.has_a_place, drawn.keys):
            try:
                after = drawn.typed(key, f"{random.choice((1, 3, 12, 77, 200))} in")
            except Unfit:
                after = drawn
            for columns, rows in SIZES:
                drawing, bare = drawn.at(columns, rows, key), drawn.at(columns, rows)
                assert key in {slot.key for slot in drawing.slots}, (drawn.picture, key, columns, rows)
                assert DOUBLE & set("".join(drawing.lines)), (drawn.picture, key, columns, rows)
                assert not DOUBLE & set("".join(bare.lines)), drawn.picture
                assert after.at(columns, rows, key).slots == drawing.slots, key
        # The usual pages have all their slots whichever is in hand.
        for columns, rows in SIZES[1:] if len(placed) <= 5 else ():
            slots = {drawn.at(columns, rows, key).slots for key in placed}
            assert len(slots) <= 1, (drawn.picture, placed)
            assert {slot.key for each in slots for slot in each} == set(placed)


def test_pictures_of_other_pages_and_no_space_at_all_are_no_drawing() -> None:
    assert draw_page("none", "", (), whole_plan(), "", 80, 12) == PageDrawing()
    assert draw_page("side", "left", (), whole_plan(), "", 0, 12) == PageDrawing()
    assert draw_page("side", "left", ("survey.section.left.run.1",), whole_plan(), "", 3, 1).slots == ()


@pytest.mark.parametrize("picture", PICTURES)
def test_every_picture_is_drawn_of_a_job_with_nothing_in_it_and_of_one_with_everything(picture: str) -> None:
    for plan in (plan_of(Project()), make_plan(everything())):
        for subject in ("", "left", "foot-left", "face", "left.centre-leg", "not.there"):
            for columns, rows in (*SIZES, (20, 4), (1, 1)):
                assert len(draw_page(picture, subject, (), plan, "", columns, rows).lines) == rows


def test_what_people_typed_is_shown_literally() -> None:
    names = {"one": "[bold]\x1b[31m", "two": "壁の\u202e暖房"}
    things = {id: Obstacle(name=name, at=Length(20 * at)) for at, (id, name) in enumerate(names.items(), start=1)}
    job = Job(survey=Survey(section={"left": Section(run=(Length(76),), in_the_way=things)}))
    drawing = draw_page("side", "left", (), make_plan(job), "", 98, 14)
    text = "\n".join(drawing.lines)
    assert r"[bold]\x1b[31m" in text
    assert r"壁の\u202e暖房" in text


SPACES = ((56, 8), (56, 9), (76, 8), (78, 12), (72, 16))


def drawn_bed(job: Job, in_hand: str, columns: int, rows: int) -> tuple[str, ...]:
    """The bed in characters."""
    return draw_page("bed", "", (), make_plan(job), in_hand, columns, rows).lines


def bed_scene(job: Job, in_hand: str = "", *keys: str, cells: int = 401) -> Scene:
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


@pytest.mark.parametrize("size", SPACES)
@pytest.mark.parametrize("each_side", [1, 2, 3, 5, 8])
def test_of_many_sections_the_one_in_hand_is_named_in_the_drawing_and_of_twelve_every_one_in_it_or_beneath(
    size: tuple[int, int], each_side: int
) -> None:
    job = bed_of(each_side)
    for picked in job.survey.section:
        lines = drawn_bed(job, on(picked), *size)
        told = "\n".join(lines)
        assert section_name(job, picked) in told
        assert len(lines) == size[1]
        assert all(len(each) <= size[0] for each in lines)
        if each_side == 3:
            assert all(re.search(rf"(?<![\w-]){each}(?![\w-])", told) for each in job.survey.section), told
            # A number is on the rail, and beneath with its name.
            assert {told.count(number) for number in re.findall(r"\(\d+\)", told)} <= {2}, told
        assert each_side > 1 or "(" not in told, "a usual bed has no key beneath it"
        assert each_side > 1 or "not to scale" in told, "its sides may be drawn shorter than its foot"


def test_a_section_of_the_foot_is_named_on_its_own_rail() -> None:
    lines = drawn_bed(bed_of(3), on("left"), 76, 10)
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
    (post,) = picked(bed_scene(bed_of(1), f"survey.section.{section}.{end}_end"))
    assert isinstance(post, Box)
    assert (post.x == ZERO, post.y == ZERO) == (not at_the_right, not at_the_foot)
    posts = {each for each in picked(bed_scene(bed_of(1), "corners.foot")) if isinstance(each, Box)}
    assert [each.y > Length(200) for each in posts] == [True, True], "those of all foot corners together"


def test_the_end_at_which_the_next_section_goes_on_is_drawn_between_the_two_and_not_at_the_corner() -> None:
    job = bed_of(2)
    for (one, end), (other, far) in (
        (("foot", "right"), ("foot-2", "left")),
        (("right-2", "right"), ("right", "left")),
    ):
        joints = [picked(bed_scene(job, f"survey.section.{id}.{at}_end")) for id, at in ((one, end), (other, far))]
        assert len(joints[0]) == len(joints[1]) == 1
        assert all(isinstance(each, Stroke) for joint in joints for each in joint)
        assert joints[0] == joints[1]


def test_a_section_that_stops_short_is_drawn_as_long_as_it_is_with_a_bare_rail_up_to_the_post() -> None:
    """30 of 40 in at the foot end of the right side: the run begins a quarter of the way down from the head."""
    right = Section(on=True, side="right", run=(Length(30),), right_end="stops short", right_short=Length(10))
    job, key = Job(survey=Survey(section={"right": right})), "survey.section.right.right_short"
    (asked,) = picked(bed_scene(job, key, key))
    (rail,) = picked(bed_scene(job, on("right")))
    assert isinstance(asked, Stroke)
    assert isinstance(rail, Stroke)
    assert asked.tips
    assert rail.y1 == asked.y2
    assert (rail.y2 - rail.y1) / (asked.y2 - asked.y1) == 3


def test_a_return_is_drawn_behind_the_post_along_the_other_rail() -> None:
    left = Section(on=True, side="left", run=(Length(76),), right_end="returns")
    key = "survey.section.left.right_return"
    (line,) = picked(bed_scene(Job(survey=Survey(section={"left": left})), key, key))
    assert isinstance(line, Stroke)
    assert line.y1 == line.y2 > Length(200)
