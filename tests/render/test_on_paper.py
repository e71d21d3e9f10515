"""How a cloth is drawn on paper: every piece once, to scale, numbered; what stays on a page; matched cloth."""

from __future__ import annotations

import csv
import re
from itertools import combinations, pairwise

import pytest

from tests.render.jobs import WHOLE, loft, loft_plan, project_of, random_plan, whole_plan
from tests.render.test_drawings import assert_inside
from tests.trade.sample_jobs import inches, known, small, with_face
from wizard.project.plan_of_project import plan_of
from wizard.project.project import put_many
from wizard.render.csv_sheet import cut_list_csv
from wizard.render.document import Block, Drawing, Heading, Pairs, Para, Table, Work
from wizard.render.drawings.roll_view import rolls, rolls_on_paper, squared_end
from wizard.render.drawings.scene import Box, Label, Scene, Stroke
from wizard.render.drawings.scene_svg import MARGIN, ROLL, SIZES, lettering_width
from wizard.render.html_sheet import by_headings, stays_whole
from wizard.render.json_sheet import plan_json
from wizard.render.sheet_kinds import sheets_of
from wizard.render.svg_sheet import drawings_svg
from wizard.trade.formatting import ruler_of
from wizard.trade.job_fields import Owned
from wizard.trade.lengths import ZERO, Length
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Plan
from wizard.trade.steps.cut_order import CutStretch, cut_stretches, first_number, in_cutting_order
from wizard.trade.steps.pattern_matching import matched_lines
from wizard.trade.stock import cloth_in_words


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
    assert face[-1].legend[-1].endswith("Arrows point to the top of a piece, the edge at the rail.")
    assert drawings_svg(plan).count("Arrows point") == 1


def test_what_stands_under_a_smaller_heading_stays_on_a_page_and_cut_lists_with_their_drawing() -> None:
    scene = Scene("a roll", Length(1), Length(1), (), to_scale=True)
    large, small = Heading("Face"), Heading("Cut list", 2)
    ticked = Table(("a",), (("1",),), boxes=("piece:1",))
    matter: list[Block] = [large, Pairs(()), small, Para("one"), Table(("a",), ()), small, Drawing(scene, 1)]
    lists: list[Block] = [small, ticked, small, ticked, Drawing(scene, 1)]
    groups = by_headings([*matter, small, Work(()), *lists, large])
    assert [each for group in groups for each in group] == [*matter, small, Work(()), *lists, large]
    assert [stays_whole(group) for group in groups] == [False, True, True, False, True, False]
    assert groups[4] == lists


OWNED = {"one": Owned(length=inches(81)), "two": Owned(length=inches("64 1/2"))}


def test_the_drawn_roll_counts_from_the_squared_end_where_cloth_is_lost_before_the_first_piece() -> None:
    plan = make_plan(with_face(small(), repeat=inches(24), match=True, owned=OWNED))
    layer = plan.layers[0]
    layout = known(layer.cutting).best
    starts = []
    for use, scene in zip(layout.uses, rolls(plan, layer, layout), strict=True):
        drawn = {each.y - squared_end(scene) for each in scene.shapes if isinstance(each, Box) and each.fill == "none"}
        assert drawn == {each.start for each in layout.pieces if each.stretch == use.stretch}
        starts.append(min(drawn))
    assert sorted(starts)[-1] == inches(24), "a repeat is lost on all lengths but one"
    assert {each.begins for each in in_cutting_order(layer, layout)} == {None}, "no half-drop, no rows to tell"
    said = " ".join(matched_lines(layer, "hem", ruler_of(plan.job)))
    assert "first find the row of the pattern that runs along every hem: it is within 24 in of the squared end" in said


def test_a_half_drop_on_several_lengths_says_which_row_each_piece_begins_with_and_which_is_found_first() -> None:
    """At every join, also of pieces from two lengths, the rows differ; the words on the lengths say the same."""
    owned = {"one": Owned(length=inches(70)), "two": Owned(length=inches(45))}
    plan = make_plan(with_face(small(), repeat=inches(13), repeat_kind="half-drop", match=True, owned=owned))
    layer, ruler = plan.layers[0], ruler_of(plan.job)
    numbered = in_cutting_order(layer, known(layer.cutting).best)
    across_lengths = 0
    for part in plan.parts:
        own = sorted((each for each in numbered if each.piece.strip == part.id), key=lambda each: each.piece.order)
        for one, other in pairwise(own):
            assert {one.begins, other.begins} == {"A", "B"}
            across_lengths += one.piece.stretch != other.piece.stretch
    assert across_lengths, "no join of two lengths: the case says nothing"
    lines = list(matched_lines(layer, "hem", ruler))
    for stretch in layer.stock:
        here = [each for each in numbered if each.piece.stretch == stretch.id]
        if here:
            (told,) = [each for each in lines if each.lower().startswith(f"{cloth_in_words(stretch)}: ")]
            rows = {row: {each.piece.row for each in here if each.begins == row} for row in ("A", "B")}
            for row, widths in rows.items():
                said = re.search(rf"{row} for widths? ([^;.]*)", told)
                assert {int(each) for each in re.findall(r"\d+", said[1] if said else "")} == widths
            first = min(here, key=lambda each: each.piece.start)
            looked_for = [each for each in lines if "first find row" in each and cloth_in_words(stretch) in each]
            assert looked_for == ([] if first.piece.start == ZERO else looked_for)
            assert all(f"first find row {first.begins}:" in each for each in looked_for)
            assert first.begins == "A" or first.piece.start > ZERO
    data = plan_json(plan)["layers"][0]["cutting"]["pieces"]
    assert [each["pattern_row"] for each in data] == [each.begins for each in numbered]
    cells = csv.DictReader(cut_list_csv(plan).splitlines())
    assert [each["pattern row"] for each in cells] == [each.begins for each in numbered]
