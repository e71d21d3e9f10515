"""Matched cloth on several lengths: one running measure everywhere, and words for what finding the level takes."""

from __future__ import annotations

from tests.trade.sample_jobs import inches, small, with_face
from wizard.screens.figure_words import running
from wizard.sheets.drawings.roll import rolls, squared_end
from wizard.sheets.scene import Box
from wizard.trade.job import Owned
from wizard.trade.make_plan import make_plan
from wizard.trade.patterns import matched_lines
from wizard.trade.printing import Ruler
from wizard.trade.rulers import ruler_of

OWNED = {"one": Owned(length=inches(81)), "two": Owned(length=inches("64 1/2"))}


def test_the_drawn_roll_counts_from_the_squared_end_where_cloth_is_lost_before_the_first_piece() -> None:
    plan = make_plan(with_face(small(), repeat=inches(24), match=True, owned=OWNED))
    layer = plan.layers[0]
    assert layer.cutting is not None
    layout = layer.cutting.best
    starts = []
    for use, scene in zip(layout.uses, rolls(layer, layout), strict=True):
        drawn = {each.y - squared_end(scene) for each in scene.shapes if isinstance(each, Box) and each.fill == "none"}
        assert drawn == {each.start for each in layout.pieces if each.stretch == use.stretch}
        starts.append(min(drawn))
    assert sorted(starts)[-1] == inches(24), "a repeat is lost on all lengths but one"
    said = " ".join(matched_lines(layer, "hem", ruler_of(plan.job)))
    assert (
        "first find the row of the pattern that lies along every hem: it comes within 24 in of the squared end" in said
    )


def test_a_running_measure_beside_the_roll_is_never_cut_off() -> None:
    ruler = Ruler("in", inches("1/16"))
    assert [running(inches(each), ruler, 10) for each in ("24", "183 11/16")] == ["24 in", "183 11/16"]
