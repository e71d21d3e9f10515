"""Advice where it is due: cloth with nothing to spare, drops in the wrong order, dear cloth, and what was left open."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from msgspec.structs import replace

from tests.trade.finding_texts import assert_says
from tests.trade.sample_jobs import inches, section, small, with_face, with_section
from tests.trade.worked_bed import BED, FACE, bed, steps
from wizard.project.project import Project, put_many
from wizard.trade.job_fields import Allowances, Cloth, Job, Obstacle, Owned, Post
from wizard.trade.lengths import Length
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Finding


def found(job: Job) -> dict[str, Finding]:
    return {each.id: each for each in make_plan(job).findings}


def spare_of(job: Job) -> Length:
    layer = make_plan(job).layers[0]
    assert layer.buy.value is not None
    assert layer.roll.value is not None
    return layer.buy.value - layer.roll.value


def with_spare(spare: str, **more: Any) -> Job:
    """A job whose squaring takes what is left of the last step but so much."""
    job = with_face(small(), **more)
    squaring = inches(1) + spare_of(job) - inches(spare)
    return replace(job, allowances=Allowances(squaring=squaring))


def test_cloth_that_is_just_enough_offers_one_step_more() -> None:
    tight = with_spare("1/2")
    assert spare_of(tight) == inches("1/2")
    finding = found(tight)["nothing-spare:face"]
    assert finding.level == "note"
    assert_says(finding, "nothing-spare")
    assert "nothing-spare:face" not in found(with_spare("1"))


def test_a_price_says_what_a_step_more_costs() -> None:
    # 3 3/4 yd at 18.50 is 69.375, so 69.38; 3 7/8 yd is 71.6875, so 71.69.
    job = replace(with_spare("1/2", price=Decimal("18.50")), currency="£")
    assert_says(found(job)["nothing-spare:face"], "nothing-spare, priced")


def test_cloth_that_is_not_bought_has_nothing_to_spare() -> None:
    assert "nothing-spare:face" not in found(with_face(small(), owned={"chest": Owned(length=inches(400))}))


@pytest.mark.parametrize(
    ("face", "fine"),
    [({"kind": "lawn"}, True), ({"kind": "fine silk"}, True), ({"weight": "sheer"}, True), ({}, False)],
)
def test_an_inner_layer_behind_fine_cloth_is_better_washed_first(face: dict[str, Any], fine: bool) -> None:
    job = with_face(small(), **face)
    lined = replace(job, cloth=replace(job.cloth, lining=Cloth(use=True, width=inches(55), weight="light")))
    finding = found(lined)["not-washed:lining"]
    assert [each.entries for each in finding.offers] == ([{"cloth.lining.wash": "washed first"}] if fine else [])
    if fine:
        assert_says(finding, "not-washed, behind fine cloth")
    assert "puckers" not in found(lined)["not-washed:face"].sentence


def test_a_dye_lot_is_wanted_of_every_length_or_of_none() -> None:
    lengths = {"length": inches(100), "length-2": inches(100), "scrap": inches(20)}
    none = {id: Owned(length=each) for id, each in lengths.items()}
    assert "lots-missing:face" not in found(with_face(small(), owned=none))
    one = {**none, "length": replace(none["length"], lot="A")}
    finding = found(with_face(small(), owned=one))["lots-missing:face"]
    assert finding.key == "cloth.face.owned.length-2.lot"
    assert_says(finding, "lots-missing")
    every = {id: replace(each, lot="A") for id, each in none.items()}
    assert "lots-missing:face" not in found(with_face(small(), owned=every))


def test_a_pattern_whose_repeat_is_left_for_later_is_spoken_of() -> None:
    assert_says(found(with_face(small(), repeat_kind="straight"))["repeat-unread:face"], "repeat-unread")
    assert "repeat-unread:face" not in found(with_face(small(), repeat_kind="straight", repeat=inches(8)))
    assert "repeat-unread:face" not in found(small())


SQUARE = Post(inches(3), inches(3), inches("1/2"), inches("1/2"))


def returning(post: Post) -> Job:
    job = with_section(small(), "left", right_end="returns", right_return=inches(1))
    return replace(job, survey=replace(job.survey, post={"foot-left": post}))


def test_a_return_needs_to_know_whether_its_post_may_be_fixed_into() -> None:
    finding = found(returning(SQUARE))["return-fixing:left:right"]
    assert finding.key == "survey.post.foot-left.may_fix"
    assert_says(finding, "return-fixing")
    for said in (True, False):
        assert "return-fixing:left:right" not in found(returning(replace(SQUARE, may_fix=said)))


@pytest.mark.parametrize(("at", "case"), [(72, "edge-outside, end"), (5, "edge-outside, start"), (70, None), (6, None)])
def test_a_thing_whose_edge_lies_beyond_the_run_is_measured_again(at: int, case: str | None) -> None:
    thing = Obstacle(kind="heater", at=inches(at), width=inches(12), do="no fixing")
    finding = found(with_section(small(), "left", in_the_way={"heater": thing})).get("edge-outside:left:heater")
    assert (finding is not None) == (case is not None)
    if finding is not None and case is not None:
        assert_says(finding, case)


FALLS = {"left": ("12", "12 1/4", "12 1/2"), "right": ("12", "12 1/4", "12 1/2"), "foot": ("10", "10", "10")}
"""Both sides as if read from head to foot: the floor then falls to the foot on the left, to the head on the right."""


def sloped(**drops: tuple[str, str, str]) -> Job:
    job = small()
    for side, readings in {**FALLS, **drops}.items():
        job = with_section(job, side, drop=tuple(inches(each) for each in readings))
    return job


def turned(finding: Finding) -> list[str]:
    return [next(iter(each.entries)).split(".")[2] for each in finding.offers]


def test_drops_in_the_wrong_order_come_first_and_offer_to_be_turned_round() -> None:
    # At the foot the left side reads 12 1/2; the right 12, or 12 1/2 once turned round. A level foot fits the second.
    plan = make_plan(sloped())
    finding = plan.findings[0]
    assert finding.id == "floor-slopes:left:right"
    assert turned(finding) == ["right", "left"]
    first = finding.offers[0]
    assert first.label == "Turn the drops round: right section"
    key = "survey.section.right.drop"
    assert first.entries == {f"{key}.1": "25/2 in", f"{key}.2": "49/4 in", f"{key}.3": "12 in"}


def test_the_foot_says_which_side_was_read_the_wrong_way() -> None:
    # Left 12 to 12 3/4, right 12 1/2 to 13 1/2. Turned round, the right side leaves 3/4 along the foot, the left 1/2.
    sides = {"left": ("12", "12 3/8", "12 3/4"), "right": ("12 1/2", "13", "13 1/2")}
    for foot, first in ((("10", "10 3/8", "10 3/4"), "right"), (("10", "10 1/4", "10 1/2"), "left")):
        assert turned(found(sloped(**sides, foot=foot))["floor-slopes:left:right"])[0] == first


def test_taking_the_offer_settles_it() -> None:
    finding = found(sloped())["floor-slopes:left:right"]
    drops = {f"survey.section.{side}.drop": [f"{each} in" for each in readings] for side, readings in FALLS.items()}
    project = put_many(Project(), {**drops, **finding.offers[0].entries})
    assert [str(each.inches) for each in project.survey.section["right"].drop if each] == ["25/2", "49/4", "12"]
    right = section(76, "12 1/2", "12 1/4", "12")
    assert "floor-slopes:left:right" not in found(with_section(sloped(), "right", drop=right.drop))


def test_drops_with_places_of_their_own_are_not_turned_round() -> None:
    places = (inches(0), inches(30), inches(76))
    finding = found(with_section(sloped(), "right", drop_at=places))["floor-slopes:left:right"]
    assert turned(finding) == ["left"]


# The work: measured once more before dear cloth is cut, tried on the rail before the tape is stitched.
@pytest.mark.parametrize(
    ("face", "why"),
    [
        ({"kind": "fine silk"}, "is silk"),
        ({"price": Decimal(40)}, "costs 40.00 a yd"),
        ({"price": Decimal("39.99")}, None),
        ({"price": Decimal(40), "sold_by": "m"}, "costs 40.00 a m"),
        ({"owned": {"chest": Owned(length=inches(400))}}, "is all you have"),
        ({"owned": {"chest": Owned(length=inches(400))}, "price": Decimal(5)}, None),
        ({"owned": {"chest": Owned(length=inches(20))}}, None),
        ({}, None),
    ],
)  # fmt: skip
def test_dear_cloth_is_measured_for_once_more_before_it_is_cut(face: dict[str, Any], why: str | None) -> None:
    found = steps(bed(face=replace(FACE, **face)))
    assert ("measure" in found) == (why is not None)
    if why is not None:
        step = found["measure"]
        assert step.lines[0] == f"The reed cloth {why}: measure once more before you cut it."
        assert step.lines[1] == "Left section: run 40 in; drops 12 in, 12 in, 12 in."
        assert step.stage == "Cutting"
        assert list(found).index("measure") == list(found).index("look-over:face") + 1


def test_it_is_measured_once_however_many_layers_are_dear() -> None:
    silk = replace(FACE, kind="fine silk", use=True)
    order = list(steps(bed(face=silk, lining=silk)))
    assert order.count("measure") == 1
    assert order.index("look-over:face") < order.index("measure") < order.index("cut:face")


def test_one_section_is_tried_on_the_rail_before_its_tape_is_stitched() -> None:
    job = replace(small(), fullness=replace(small().fullness, want=Fraction(2)))
    order = [each.id for each in make_plan(job).work]
    assert [each for each in order if each.startswith("try")] == ["try:left"]
    assert order.index("try:left") == order.index("tape:left") - 1
    assert steps(BED)["try:left"].lines[1] == (
        "From the room, check that the hem just touches the floor and that both ends are where they belong."
    )
