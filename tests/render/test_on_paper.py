"""How a cloth is drawn on paper: every piece once, to scale, numbered as in the cut list; and what stays on a page."""

from __future__ import annotations

from itertools import combinations

import pytest

from tests.render.jobs import WHOLE, loft, loft_plan, project_of, whole_plan
from tests.render.random_beds import random_plan
from tests.render.test_drawings import assert_inside
from tests.trade.sample_jobs import known
from wizard.project.plan_of_project import plan_of
from wizard.project.project import put_many
from wizard.render.document import Block, Drawing, Heading, Pairs, Para, Table, Work
from wizard.render.drawings.roll_view import rolls_on_paper
from wizard.render.drawings.scene import Box, Label, Scene, Stroke
from wizard.render.drawings.scene_svg import MARGIN, ROLL, SIZES, lettering_width
from wizard.render.html_sheet import by_headings, stays_whole
from wizard.render.sheet_kinds import sheets_of
from wizard.render.svg_sheet import drawings_svg
from wizard.trade.lengths import Length
from wizard.trade.plan_records import Plan
from wizard.trade.steps.cut_order import CutStretch, cut_stretches, first_number


def bed(**keys: str | bool) -> Plan:
    """The whole job with other answers; double underscores stand for dots."""
    return plan_of(put_many(project_of(WHOLE), {key.replace("__", "."): value for key, value in keys.items()}))


# Along the roll a lane is so full that it is many times as long as the cloth is wide; the repeat has a long fraction.
PLANS = {
    "across": whole_plan(),
    "along": bed(cloth__face__lay="along", fullness__want="4"),
    "matched": bed(cloth__face__repeat="9 2/3 in", cloth__face__repeat_kind="half-drop", cloth__face__match=True),
    "five": loft_plan(5),
    "random": random_plan(4),
}


def drawn(plan: Plan) -> list[tuple[CutStretch, list[Scene]]]:
    """Each length of cloth with its drawings."""
    found: list[tuple[CutStretch, list[Scene]]] = []
    for layer in plan.layers:
        first = first_number(plan.layers, layer)
        scenes = rolls_on_paper(layer, known(layer.cutting).best, "hem", first)
        for each in cut_stretches(layer, known(layer.cutting).best, first):
            name = f"{layer.name}: {each.name}"
            found.append((each, [scene for scene in scenes if scene.title.partition(", part ")[0] == name]))
    return found


def boxes_of(scene: Scene, fill: str) -> list[Box]:
    return [each for each in scene.shapes if isinstance(each, Box) and each.fill == fill]


def numbers_in(scene: Scene, box: Box) -> list[str]:
    """What is written in a piece, but for the arrow."""
    words = [each for each in scene.shapes if isinstance(each, Label) and each.text[0].isdigit()]
    inside = [each for each in words if box.x < each.x < box.x + box.width and box.y < each.y < box.y + box.height]
    return [each.text.split()[0] for each in inside]


@pytest.mark.parametrize("plan", PLANS.values(), ids=PLANS)
def test_every_piece_is_drawn_once_to_scale_with_its_number_and_what_is_not_a_piece_is_hatched(plan: Plan) -> None:
    for cloth, scenes in drawn(plan):
        found: dict[str, tuple[Length, Length, Length]] = {}
        for scene in scenes:
            assert scene.to_scale
            assert scene.height == cloth.stretch.usable
            assert_inside(scene)
            for box in boxes_of(scene, "none"):
                (number,) = numbers_in(scene, box)
                assert number not in found
                found[number] = (box.width, box.y, box.height)
            for one, other in combinations([*boxes_of(scene, "none"), *boxes_of(scene, "hatched")], 2):
                aside = one.x + one.width <= other.x or other.x + other.width <= one.x
                assert aside or one.y + one.height <= other.y or other.y + other.height <= one.y, "drawn over"
        assert found == {str(each.number): (each.along, each.piece.across, each.wide) for each in cloth.pieces}
        hatched = sum(box.width.inches * box.height.inches for scene in scenes for box in boxes_of(scene, "hatched"))
        assert hatched == sum(each.along.inches * each.width.inches for each in cloth.offcuts)


@pytest.mark.parametrize("plan", PLANS.values(), ids=PLANS)
def test_a_number_fits_in_its_piece_and_is_not_written_over(plan: Plan) -> None:
    for _, scenes in drawn(plan):
        for scene in scenes:
            unit = scene.width / (ROLL - 2 * MARGIN)
            places = []
            for each in (shape for shape in scene.shapes if isinstance(shape, Label)):
                wide, high = lettering_width(each.text, SIZES[each.size]), SIZES[each.size]
                left = each.x / unit - wide / 2
                places.append((left, left + wide, each.y / unit - high / 3, each.y / unit + high / 3, each.text))
                if each.text[0].isdigit():
                    number = each.text.split()[0]
                    box = next(box for box in boxes_of(scene, "none") if number in numbers_in(scene, box))
                    assert wide <= box.width / unit
            for one, other in combinations(places, 2):
                aside = one[1] <= other[0] or other[1] <= one[0] or one[3] <= other[2] or other[3] <= one[2]
                assert aside, (scene.title, one, other)


def test_a_roll_too_long_for_one_drawing_breaks_after_a_width_and_keeps_its_scale() -> None:
    long = plan_of(put_many(loft(5), {"fullness.want": "4"}))
    several = [scenes for _, scenes in drawn(long) if len(scenes) > 1]
    assert several
    for scenes in several:
        assert len({scene.width for scene in scenes}) == 1
        parts = [scene.title.rpartition(", ")[2] for scene in scenes]
        assert parts == [f"part {number} of {len(scenes)}" for number in range(1, len(scenes) + 1)]
        # Only the first begins at the squared end.
        ends = [any(isinstance(each, Stroke) and each.pen == "heavy" for each in scene.shapes) for scene in scenes]
        assert ends == [True, *(False for _ in scenes[1:])]


@pytest.mark.parametrize(("level", "arrow"), [("hem", "→"), ("top", "←")])
def test_the_arrow_of_every_piece_points_to_its_top_and_the_legend_says_so_once(level: str, arrow: str) -> None:
    plan = bed(cloth__face__repeat="5 in", cloth__face__match=True, cloth__face__match_from=level)
    (sheet,) = sheets_of(plan, ["table"])
    face = [each for each in sheet.blocks if isinstance(each, Drawing) and each.scene.title.startswith("slate")]
    words = [each.text for drawing in face for each in drawing.scene.shapes if isinstance(each, Label)]
    assert {each.lstrip("0123456789 ") for each in words} - {""} == {arrow}
    assert [len(each.legend) > 0 for each in face] == [False] * (len(face) - 1) + [True]
    assert face[-1].legend[-1].endswith("The arrows point to the top of every piece, the edge that goes to the rail.")
    assert drawings_svg(plan).count("The arrows") == 1


def test_what_stands_under_a_smaller_heading_stays_on_a_page_unless_it_is_long() -> None:
    scene = Scene("a roll", Length(1), Length(1), (), to_scale=True)
    large, small = Heading("Face"), Heading("Cut list", 2)
    ticked = Table(("a",), (("1",),), boxes=("piece:1",))
    matter: list[Block] = [large, Pairs(()), small, Para("one"), Table(("a",), ()), small, Drawing(scene, 1)]
    groups = by_headings([*matter, small, Work(()), small, ticked])
    assert [each for group in groups for each in group] == [*matter, small, Work(()), small, ticked]
    assert [stays_whole(group) for group in groups] == [False, True, True, False, False]
