"""How sheets are drawn and set on paper: every piece labelled once, lines that begin alike side by side."""

from __future__ import annotations

import pytest

from tests.sheets.jobs import WHOLE, draft_of, whole_plan
from tests.sheets.test_drawings import assert_inside
from wizard.project.draft import put_many
from wizard.project.jobs import plan_of
from wizard.sheets.cut_order import in_cutting_order
from wizard.sheets.drawings.roll_on_paper import rolls_on_paper
from wizard.sheets.figure_text import bare
from wizard.sheets.matter import Drawing, Heading, Matter, Pairs, Para, Steps, Table
from wizard.sheets.paper.alike import LEAST, LONGEST, alike
from wizard.sheets.paper.together import by_smaller_headings, stays_whole
from wizard.sheets.scene import Box, Scene, Stroke, Words
from wizard.sheets.svg import to_svg
from wizard.trade.lengths import Length
from wizard.trade.plan import Plan
from wizard.trade.rulers import ruler_of


def along() -> Plan:
    """The bed with both cloths laid along the roll."""
    return plan_of(put_many(draft_of(WHOLE), {"cloth.face.lay": "along", "cloth.interlining.lay": "along"}))


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
            words = [shape for shape in scene.shapes if isinstance(shape, Words)]
            for box in (each for each in scene.shapes if isinstance(each, Box) and each.fill == "none"):
                inside = [each.text for each in words if _in(each, box)]
                labels.append(" ".join(inside))
        pieces = in_cutting_order(layer, best)
        assert len(labels) == len(pieces)
        for each, label in zip(pieces, labels, strict=True):
            assert label.startswith(str(each.number))
            if len(label) > 2:
                assert f"{bare(each.piece.width, ruler)} × {bare(each.piece.cut, ruler)}" in label


def _in(words: Words, box: Box) -> bool:
    return box.x < words.x < box.x + box.width and box.y < words.y < box.y + box.height


def test_lanes_show_where_to_chalk_and_where_to_rip() -> None:
    plan = along()
    ruler, layer = ruler_of(plan.job), plan.layers[1]
    assert layer.cutting is not None
    assert layer.cutting.best.way == "along"
    (scene,) = rolls_on_paper(layer, layer.cutting.best, {}, ruler)[0]
    words = [shape.text for shape in scene.shapes if isinstance(shape, Words)]
    pieces = in_cutting_order(layer, layer.cutting.best)
    assert bare(max(each.end for each in pieces), ruler) in words
    edges = {edge for each in pieces for edge in (each.piece.across, each.piece.across + each.wide)}
    assert bare(max(edges), ruler) in words
    level = {shape.y1 for shape in scene.shapes if isinstance(shape, Stroke) and shape.y1 == shape.y2}
    assert level == edges


def test_the_parts_of_one_drawing_have_one_scale() -> None:
    layer = whole_plan().layers[0]
    assert layer.cutting is not None
    for parts in rolls_on_paper(layer, layer.cutting.best, {}, ruler_of(whole_plan().job)):
        assert len({scene.width for scene in parts}) == 1
        assert all('viewBox="0 0 720 ' in to_svg(scene) for scene in parts)


def test_short_lines_that_begin_alike_stand_together_and_nothing_is_lost() -> None:
    run = tuple(f"At {number} in: so much." for number in range(LEAST))
    lines = ("Fold it.", *run, "Stitch.", *run[1:], "At " + "x" * LONGEST, "", "", "", "")
    groups = list(alike(lines))
    assert tuple(line for group in groups for line in group) == lines
    assert [group for group in groups if len(group) > 1] == [run]


def test_what_stands_under_a_smaller_heading_stays_on_a_page_unless_it_is_long() -> None:
    scene = Scene("a roll", Length(1), Length(1), (), to_scale=True)
    large, small = Heading("Face"), Heading("Cut list", 2)
    matter: list[Matter] = [
        large,
        Pairs(()),
        small,
        Para("one"),
        Table(("a",), ()),
        small,
        Drawing(scene, 1, paper=(scene, scene)),
    ]
    groups = list(by_smaller_headings([*matter, small, Steps(())]))
    assert [each for group in groups for each in group] == [*matter, small, Steps(())]
    assert [stays_whole(group) for group in groups] == [False, True, False, False]
