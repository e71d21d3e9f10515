"""Layers: cut lengths, cut widths, strips, and what is bought."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

import pytest
from msgspec.structs import replace

from tests.trade.finding_texts import assert_says
from tests.trade.sample_jobs import inches, small, with_face, with_section
from wizard.trade import cut_plans
from wizard.trade.cutting import Cutting, Refusal, Rules, Stretch, Strip, lay_out
from wizard.trade.job_fields import Cloth, Fullness, Job
from wizard.trade.layers import joins_at, keep_off, least_apart
from wizard.trade.lengths import Length
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Layer
from wizard.trade.stock import price_for


def interlined(**more: object) -> Job:
    job = small()
    inner = Cloth(use=True, width=inches(45), wash="already washed", weight="light")
    return replace(job, cloth=replace(job.cloth, interlining=replace(inner, **more)))


def layer(job: Job, number: int = 0) -> Layer:
    return make_plan(job).layers[number]


def test_a_face_is_cut_to_top_drop_and_twice_the_depth_of_a_double_hem() -> None:
    assert layer(with_section(small(), "left", drop=(inches(11),) * 3)).cut_lengths["left"].value == inches("12 1/2")


def test_a_single_hem_takes_its_depth_and_its_turn_under() -> None:
    job = with_face(small(), hem_kind="single", hem=inches(2), hem_turn=inches("1/4"))
    assert layer(job).cut_lengths["left"].value == inches("14 3/4")


def test_an_inner_layer_is_cut_shorter_by_its_setback_with_a_hem_of_its_own() -> None:
    inner = layer(interlined(), 1)
    # 1/2 in top + (12 in - 1/2 in) + 2 x 1 1/2 in
    assert inner.cut_lengths["left"].value == inches(15)


def test_an_inner_layer_is_narrower_by_a_setback_at_each_end() -> None:
    inner = layer(interlined(), 1)
    # 2.5 x 76 = 190 in of face, less 1 in, with two end hems of 1 in
    assert inner.cut_widths["left"].value == inches(191)


def test_a_kept_surplus_widens_the_inner_layer_with_the_face() -> None:
    job = replace(interlined(), fullness=Fullness(want=Fraction(5, 2), joins="whole widths", surplus="keep"))
    plan = make_plan(job)
    made = plan.parts[0].flat_made.value
    assert made is not None
    assert plan.layers[1].cut_widths["left"].value == made - inches(1) + inches(2)


def test_cut_lengths_and_cut_widths_go_up_to_the_ruler_mark() -> None:
    job = with_section(small(), "left", drop=(inches("12 1/32"),) * 3, run=(inches("76 1/64"),) * 2)
    assert layer(job).cut_lengths["left"].value == inches("13 9/16")
    assert layer(job).cut_widths["left"].value == inches("192 1/16")


def test_a_layer_waits_for_what_is_missing_and_names_it() -> None:
    waiting = layer(with_face(small(), width=None))
    assert waiting.cutting is None
    assert [need.key for need in waiting.needs] == ["cloth.face.width"]
    assert waiting.cut_widths["left"].value == inches(192)
    assert waiting.buy.needs == waiting.needs


def test_a_setback_as_deep_as_the_drop_stops_the_plan_and_says_so() -> None:
    plan = make_plan(interlined(setback=inches(10)))
    (finding,) = [each for each in plan.findings if each.level == "stop"]
    assert finding.id == "setback-deep:interlining:foot"
    assert_says(finding, "setback-deep")
    assert plan.layers[1].cutting is None


def test_the_larger_part_width_goes_to_the_foot_end() -> None:
    ends = {strip.id: strip.larger_end for strip in layer(small()).strips}
    assert ends == {"left": "right", "right": "left", "foot": "either"}


def test_cloth_used_is_the_sum_of_the_cuts_and_the_roll_gives_that_and_the_squaring() -> None:
    face = layer(small())
    assert face.cutting is not None
    assert face.used.value == face.cutting.best.used
    assert face.roll.value == face.cutting.best.used + inches(1)
    assert face.buy.value == face.cutting.best.buy


def test_a_layer_is_laid_out_again_only_when_something_of_it_changes(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[object] = []

    def laid_out(strips: Sequence[Strip], stock: Sequence[Stretch], rules: Rules) -> Cutting | Refusal:
        asked.append(strips)
        return lay_out(strips, stock, rules)

    make_plan(small())
    monkeypatch.setattr(cut_plans, "lay_out", laid_out)
    make_plan(replace(small(), name="renamed"))
    assert not asked
    make_plan(with_section(small(), "left", run=(inches("71 3/16"),) * 2))
    assert asked


@pytest.mark.parametrize(
    ("buy", "price", "sold_by", "cost"),
    [
        (Length(144), "18.50", "yd", "74.00"),
        (Length.of(Fraction(10, 3), "yd"), "18.50", "yd", "61.67"),
        (Length.of(Fraction("3.1"), "m"), "9.95", "m", "30.85"),
        (Length(18), "0.01", "yd", "0.01"),
        (Length(30), "2", "ft", "5.00"),
    ],
)
def test_cost_is_the_length_bought_at_its_price_to_the_nearest_cent(
    buy: Length, price: str, sold_by: str, cost: str
) -> None:
    assert price_for(buy, Decimal(price), sold_by) == Decimal(cost)


def test_a_price_is_nobodys_need() -> None:
    plan = make_plan(small())
    assert plan.layers[0].cost.value is None
    assert plan.missing == ()


def test_joins_stand_where_the_pieces_meet_along_the_joined_up_flat() -> None:
    plan = make_plan(small())
    face = plan.layers[0]
    assert face.cutting is not None
    assert face.rules is not None
    pieces = sorted((each for each in face.cutting.best.pieces if each.strip == "left"), key=lambda each: each.order)
    joins = joins_at(face.cutting.best, "left", face.rules.join_cost)
    assert len(joins) == len(pieces) - 1
    assert joins[0] == pieces[0].width - inches("1/2")
    # after the last join there is the last piece less its seam allowance
    assert joins[-1] + pieces[-1].width - inches("1/2") == inches(192)


@pytest.mark.parametrize("width", [44, 50, 55, 56, 60])
def test_joins_of_two_layers_lie_two_inches_apart_or_a_finding_says_so(width: int) -> None:
    plan = make_plan(interlined(width=inches(width)))
    face, inner = plan.layers
    said = {each.id for each in plan.findings}
    assert face.cutting is not None
    assert inner.cutting is not None
    assert inner.rules is not None
    for part in plan.parts:
        pair = [joins_at(each.cutting.best, part.id, inches(1)) for each in (face, inner) if each.cutting]
        near = least_apart(pair[0], pair[1], inches("1/2"))
        assert (f"joins-close:interlining:{part.id}" in said) == (near is not None and near < inches(2))


def test_joins_that_would_meet_are_shifted_where_that_takes_no_more_cloth() -> None:
    plan = make_plan(interlined(width=inches(55)))
    assert any(strip.no_join for strip in plan.layers[1].strips)
    assert not [each.id for each in plan.findings if each.id.startswith("joins-close")]


def test_an_inner_join_is_kept_two_inches_off_the_faces() -> None:
    assert keep_off((inches(53), inches(1)), inches("1/2"), inches(100)) == (
        (inches("50 1/2"), inches("54 1/2")), (inches(0), inches("2 1/2")),
    )  # fmt: skip
    assert least_apart((inches(53),), (inches(53), inches(80)), inches("1/2")) == inches("1/2")
    assert least_apart((), (inches(53),), inches("1/2")) is None
