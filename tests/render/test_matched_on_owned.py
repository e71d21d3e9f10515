"""Matched cloth on several lengths: one running measure everywhere, and words for what finding the level takes."""

from __future__ import annotations

import csv
import re
from itertools import pairwise

from tests.trade.sample_jobs import inches, known, small, with_face
from wizard.render.csv_sheet import cut_list_csv
from wizard.render.drawings.roll_view import rolls, squared_end
from wizard.render.drawings.scene import Box
from wizard.render.json_sheet import plan_json
from wizard.screens.panes.roll_pane import running
from wizard.trade.formatting import Ruler, ruler_of
from wizard.trade.job_fields import Owned
from wizard.trade.lengths import ZERO
from wizard.trade.make_plan import make_plan
from wizard.trade.steps.cut_order import in_cutting_order
from wizard.trade.steps.pattern_matching import matched_lines
from wizard.trade.stock import cloth_in_words

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


def test_a_running_measure_beside_the_roll_is_never_cut_off() -> None:
    ruler = Ruler("in", inches("1/16"))
    assert [running(inches(each), ruler, 10) for each in ("24", "183 11/16")] == ["24 in", "183 11/16"]


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
