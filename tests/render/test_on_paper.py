"""How sheets are drawn and set on paper: every piece labelled once, lines that begin alike side by side."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from itertools import combinations, pairwise

import pytest
from wizard.render.drawings.running_measure import places_for

from tests.render.jobs import WHOLE, project_of, whole_plan
from tests.render.test_drawings import assert_inside
from wizard.project.plan_of_project import plan_of
from wizard.project.project import put_many
from wizard.render.document import Block, Drawing, Heading, Pairs, Para, Steps, Table
from wizard.render.drawings.lettering import lettering_width
from wizard.render.drawings.roll_on_paper import rolls_on_paper
from wizard.render.drawings.scene import Box, Label, Scene, Stroke
from wizard.render.drawings.scene_svg import INNER, MARGIN, SIZES, to_svg
from wizard.render.figure_text import unitless
from wizard.render.formats import Request, render
from wizard.render.html_sheet import LEAST_ALIKE, LONGEST_ALIKE, alike, by_headings, stays_whole
from wizard.render.sheet_kinds import sheets_of
from wizard.render.svg_sheet import drawings_svg
from wizard.trade.formatting import ruler_of
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan_records import Plan
from wizard.trade.steps.cut_order import cut_stretches, in_cutting_order


def along() -> Plan:
    """The bed with both cloths laid along the roll."""
    return plan_of(put_many(project_of(WHOLE), {"cloth.face.lay": "along", "cloth.interlining.lay": "along"}))


@pytest.mark.parametrize("plan", [whole_plan(), along()], ids=["across", "along"])
def test_every_piece_is_drawn_once_with_its_number_and_its_size_in_it(plan: Plan) -> None:
    ruler, names = ruler_of(plan.job), {part.id: part.name for part in plan.parts}
    for layer in plan.layers:
        assert layer.cutting is not None
        best = layer.cutting.best
        scenes = [scene for drawn in rolls_on_paper(layer, best, names, ruler) for scene in drawn]
        labels: list[str] = []
        for scene in scenes:
            assert_inside(scene)
            words = [shape for shape in scene.shapes if isinstance(shape, Label)]
            for box in (each for each in scene.shapes if isinstance(each, Box) and each.fill == "none"):
                inside = [each.text for each in words if _in(each, box)]
                labels.append(" ".join(inside))
        pieces = in_cutting_order(layer, best)
        assert len(labels) == len(pieces)
        for each, label in zip(pieces, labels, strict=True):
            assert label.startswith(str(each.number))
            if len(label) > 2:
                assert f"{unitless(each.piece.width, ruler)} × {unitless(each.piece.cut, ruler)}" in label


def _in(words: Label, box: Box) -> bool:
    return box.x < words.x < box.x + box.width and box.y < words.y < box.y + box.height


def test_lanes_show_where_to_chalk_and_where_to_rip() -> None:
    plan = along()
    ruler, layer = ruler_of(plan.job), plan.layers[1]
    assert layer.cutting is not None
    assert layer.cutting.best.way == "along"
    (scene,) = rolls_on_paper(layer, layer.cutting.best, {}, ruler)[0]
    words = [shape.text for shape in scene.shapes if isinstance(shape, Label)]
    pieces = in_cutting_order(layer, layer.cutting.best)
    assert unitless(max(each.end for each in pieces), ruler) in words
    edges = {edge for each in pieces for edge in (each.piece.across, each.piece.across + each.wide)}
    assert unitless(max(edges), ruler) in words
    beside = min(shape.x1 for shape in scene.shapes if isinstance(shape, Stroke))
    assert {shape.y2 for shape in scene.shapes if isinstance(shape, Stroke) and shape.x1 == beside} == edges


LONG = "the long side along the bench under the eastern window"


def long_names(**cloth: str) -> Plan:
    """The bed with a long name wherever one may stand, and a pattern whose cuts lie at lengths with a long fraction."""
    named = {f"survey.section.{each}.name": f"{LONG}, {each}" for each in ("left", "foot", "right")}
    pattern = {"repeat": "9 2/3 in", "repeat_kind": "half-drop", "match": True, **cloth}
    keys = {f"cloth.face.{leaf}": value for leaf, value in pattern.items()}
    return plan_of(put_many(project_of(WHOLE), {"name": LONG * 3, "cloth.face.name": LONG * 2, **named, **keys}))


def drawn(plan: Plan) -> list[Scene]:
    """The drawings of the cloth, as the cutting sheet has them."""
    (sheet,) = sheets_of(plan, ["cutting"])
    return [scene for each in sheet.blocks if isinstance(each, Drawing) for scene in each.on_paper]


def pieces_of(scene: Scene) -> list[Box]:
    return [each for each in scene.shapes if isinstance(each, Box) and each.fill == "none"]


def arrows_of(scene: Scene) -> list[Stroke]:
    return [each for each in scene.shapes if isinstance(each, Stroke) and each.tips == "end"]


def long_lanes() -> Plan:
    """The bed laid along the roll, so full that its lanes are many times as long as the cloth is wide."""
    return plan_of(put_many(project_of(WHOLE), {"cloth.face.lay": "along", "fullness.want": "4"}))


@pytest.mark.parametrize("plan", [whole_plan, along, long_names, long_lanes])
def test_no_lettering_runs_off_the_paper_or_over_other_lettering(plan: Callable[[], Plan]) -> None:
    for scene in drawn(plan()):
        pixel = scene.width / INNER
        places = []
        for each in (shape for shape in scene.shapes if isinstance(shape, Label)):
            height = SIZES[each.size]
            wide = lettering_width(each.text, height, bold=each.pen == "picked")
            before: dict[str, Fraction | int] = {"start": 0, "middle": wide / 2, "end": wide}
            left = each.x / pixel - before[each.anchor]
            assert left >= -MARGIN, (scene.title, each.text)
            assert left + wide <= INNER + MARGIN, (scene.title, each.text)
            places.append((left, left + wide, each.y / pixel - height / 2, each.y / pixel + height / 2, each.text))
        for one, other in combinations(places, 2):
            aside = one[1] <= other[0] or other[1] <= one[0] or one[3] <= other[2] or other[3] <= one[2]
            assert aside, (scene.title, one, other)


def test_a_measure_with_a_long_fraction_has_room_beside_the_cloth() -> None:
    measures = [
        each.text
        for scene in drawn(long_names())
        for each in scene.shapes
        if isinstance(each, Label) and each.anchor == "end"
    ]
    assert max(map(len, measures)) >= len("≈ 127 15/16")


@pytest.mark.parametrize("plan", [whole_plan(), long_names()], ids=["plain", "matched"])
def test_every_cut_right_across_the_squared_end_and_the_end_of_the_cloth_have_their_figures(plan: Plan) -> None:
    ruler = ruler_of(plan.job)
    for layer in plan.layers:
        assert layer.cutting is not None
        best = layer.cutting.best
        for cloth, parts in zip(cut_stretches(layer, best), rolls_on_paper(layer, best, {}, ruler), strict=True):
            here = cloth.pieces
            ends = {at for each in here for at in (each.piece.start, each.end)}
            across = {at for at in ends if not any(each.piece.start < at < each.end for each in here)}
            words = {each.text for scene in parts for each in scene.shapes if isinstance(each, Label)}
            assert {unitless(at, ruler) for at in (*across, ZERO, max(*ends, cloth.end))} <= words


def test_figures_too_close_are_moved_apart_and_those_of_part_cuts_give_way() -> None:
    first, rest, line, height = {Length(0), Length(20)}, {Length(19), Length(10)}, Length(2), Length(20)
    assert places_for(first, rest, line, height) == {
        Length(0): Length(0), Length(10): Length(10), Length(19): Length(18), Length(20): Length(20),
    }  # fmt: skip
    crowded = places_for({Length(number) for number in range(9, 21)}, {Length(12)}, line, height)
    ordered = [crowded[at] for at in sorted(crowded)]
    assert all(later - sooner >= line for sooner, later in pairwise(ordered))
    assert (ordered[0], ordered[-1]) == (ZERO, height)
    assert Length(20) in places_for({Length(number) for number in range(21)}, set(), line, height)


@pytest.mark.parametrize(("level", "down"), [("hem", True), ("top", False)])
def test_an_arrow_in_every_piece_with_room_points_where_its_top_lies(level: str, down: bool) -> None:
    plan = long_names(match_from=level)
    scenes = [scene for scene in drawn(plan) if scene.title.startswith(LONG)]
    assert scenes
    for scene in scenes:
        arrows = arrows_of(scene)
        assert len(arrows) == len(pieces_of(scene))
        assert {each.y1 < each.y2 for each in arrows} == {down}
        assert all(each.x1 == each.x2 for each in arrows)
    text = render(plan, Request("text", ["cutting"], "2026-03-02", 80))
    assert ("↑" in text) is not down


def test_a_long_measure_stands_beside_the_roll_in_characters_too() -> None:
    text = render(long_names(repeat="9 2/3 in"), Request("text", ["cutting"], "2026-03-02", 80))
    longest = max((each for each in measures_beside(text) if re.fullmatch(r"≈ \d+ \d+/16", each)), key=len)
    assert len(longest) == len("≈ 127 15/16")


def measures_beside(text: str) -> list[str]:
    """The measures beside the drawings of a text sheet."""
    beside = (re.split("[┏├└│┊┗]", line)[0].strip() for line in text.splitlines() if re.search("[┏├└┗]", line))
    return [each for texts in beside for each in texts.split(", ")]


def test_beside_the_roll_stands_where_every_width_begins_also_past_a_little_cloth_that_is_lost() -> None:
    plan = plan_of(put_many(project_of(WHOLE), {"cloth.face.repeat": "5 in", "cloth.face.match": True}))
    face, ruler = plan.layers[0], ruler_of(plan.job)
    assert face.cutting is not None
    assert any(each.kind == "repeat" for each in face.cutting.best.offcuts)
    beside = measures_beside(render(plan, Request("text", ["cutting"], "2026-03-02", 80)))
    assert {unitless(each.start, ruler) for each in face.cutting.best.pieces} <= set(beside)


def test_the_arrow_of_a_piece_along_the_roll_points_across_it() -> None:
    (scene,) = [each for each in drawn(along()) if each.width > each.height and len(arrows_of(each)) > 1][:1]
    assert all(each.x1 == each.x2 and each.y1 < each.y2 for each in arrows_of(scene))


def test_long_lanes_are_drawn_in_parts_and_a_piece_goes_on_in_the_next_with_its_number() -> None:
    plan = long_lanes()
    layer = plan.layers[0]
    assert layer.cutting is not None
    best = layer.cutting.best
    assert best.way == "along"
    parts = rolls_on_paper(layer, best, {}, ruler_of(plan.job))[-1]
    assert len(parts) > 1
    assert len({scene.width for scene in parts}) == 1
    labels = [each.text for scene in parts for each in scene.shapes if isinstance(each, Label)]
    numbers = [int(found[0]) for text in labels if (found := re.match(r"\d+(?=: )|\d+$", text))]
    assert {each.number for each in cut_stretches(layer, best)[-1].pieces} <= set(numbers)
    for scene in parts:
        assert_inside(scene)
        # Broken edges, where a piece of cloth goes on.
        assert any(isinstance(each, Stroke) and each.pen == "fine" for each in scene.shapes)


def test_the_legend_says_once_what_an_arrow_means() -> None:
    picture = drawings_svg(whole_plan(), date="2026-03-02")
    assert picture.count("way up") == 1
    (sheet,) = sheets_of(whole_plan(), ["cutting"])
    paragraphs = [each.text for each in sheet.blocks if isinstance(each, Para)]
    said = [each for each in paragraphs if "way up on every piece: in the drawing it points to" in each]
    assert len(said) == len(whole_plan().layers)


def test_a_long_name_is_shortened_on_its_piece_and_keeps_which_piece_it_is() -> None:
    for scene in drawn(long_names()):
        for box in pieces_of(scene):
            inside = [each.text for each in scene.shapes if isinstance(each, Label) and _in(each, box)]
            assert any(re.search(r"the .*… \d/\d$|, (left|foot|right) \d/\d$", text) for text in inside), inside


def test_the_parts_of_one_drawing_have_one_scale() -> None:
    layer = whole_plan().layers[0]
    assert layer.cutting is not None
    for parts in rolls_on_paper(layer, layer.cutting.best, {}, ruler_of(whole_plan().job)):
        assert len({scene.width for scene in parts}) == 1
        assert all('viewBox="0 0 720 ' in to_svg(scene) for scene in parts)


def test_short_lines_that_begin_alike_stand_together_and_nothing_is_lost() -> None:
    run = tuple(f"At {number} in: so much." for number in range(LEAST_ALIKE))
    lines = ("Fold it.", *run, "Stitch.", *run[1:], "At " + "x" * LONGEST_ALIKE, "", "", "", "")
    groups = list(alike(lines))
    assert tuple(line for group in groups for line in group) == lines
    assert [group for group in groups if len(group) > 1] == [run]


def test_what_stands_under_a_smaller_heading_stays_on_a_page_unless_it_is_long() -> None:
    scene = Scene("a roll", Length(1), Length(1), (), to_scale=True)
    large, small = Heading("Face"), Heading("Cut list", 2)
    matter: list[Block] = [
        large,
        Pairs(()),
        small,
        Para("one"),
        Table(("a",), ()),
        small,
        Drawing(scene, 1, paper=(scene, scene)),
    ]
    groups = list(by_headings([*matter, small, Steps(())]))
    assert [each for group in groups for each in group] == [*matter, small, Steps(())]
    assert [stays_whole(group) for group in groups] == [False, True, False, False]
