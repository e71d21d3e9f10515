"""The cloth and its layers: usable width, washing, lengths in hand, cut lengths and widths, joins kept apart."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from itertools import permutations
from random import Random
from typing import Any

import pytest
from msgspec.structs import replace

from tests.trade.cutting.geometry import faults
from tests.trade.finding_texts import assert_says
from tests.trade.sample_jobs import inches, known, section, small, surveyed, with_face, with_section
from wizard.trade import cut_plans
from wizard.trade.cutting import Layout, Repeat, Rules, Stretch, lay_out
from wizard.trade.job_fields import Allowances, Cloth, Cloths, Fullness, Job, Owned
from wizard.trade.layers import APART, joins_at, least_apart
from wizard.trade.lengths import ZERO, Length
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Layer, Plan
from wizard.trade.stock import price_for

WASHED: dict[str, Any] = {"wash": "washed first", "warp_shrink": Fraction(4, 100), "weft_shrink": Fraction(2, 100)}


def layer(job: Job, number: int = 0) -> Layer:
    return make_plan(job).layers[number]


def rules(job: Job) -> Rules:
    return known(layer(job).rules)


def owned(face: dict[str, Any], **bolt: Any) -> Stretch:
    """The length in hand of a job, as it can be cut."""
    job = with_face(small(), owned={"bolt": Owned(**bolt)}, **face)
    return next(each for each in layer(job).stock if each.id == "bolt")


def test_usable_width_is_trimmed_after_washing_never_rounded_up_and_the_roll_divided_by_what_washing_leaves() -> None:
    # 55 in less 2 % is 53.9 in; on a ruler of sixteenths 53 7/8 is there and 53 15/16 is not
    assert layer(with_face(small(), trim=ZERO, **WASHED)).usable.value == inches("53 7/8")
    for wash in ({}, WASHED | {"wash": "not washed"}, WASHED | {"wash": "already washed"}):
        job = with_face(small(), **wash)
        assert (layer(job).usable.value, rules(job).keeps) == (inches(54), Fraction(1))
    washed = layer(with_face(small(), **WASHED))
    assert washed.roll.value == inches(1) + known(washed.used.value) / Fraction(96, 100)
    for nothing_left in (
        {"width": inches(1)},
        WASHED | {"weft_shrink": Fraction(1)},
        WASHED | {"warp_shrink": Fraction(1)},
    ):
        assert layer(with_face(small(), **nothing_left)).cutting is None


@pytest.mark.parametrize(
    ("face", "bolt", "length", "usable"),
    [
        # One that has still to be washed gives what the same length bought would; one washed already shrinks no more.
        (WASHED, {"length": inches(101), "washed": False}, "97", "52 7/8"),
        (WASHED, {"length": inches(101), "washed": True}, "101", "54"),
        ({}, {"length": Length.of(Fraction("2.3"), "yd")}, "82 3/4", "54"),
        ({}, {"length": inches(90), "width": inches(45)}, "90", "44"),
    ],
)
def test_a_length_in_hand_goes_down_to_the_ruler_mark(
    face: dict[str, Any], bolt: dict[str, Any], length: str, usable: str
) -> None:
    stretch = owned(face, **bolt)
    assert (stretch.length, stretch.usable) == (inches(length), inches(usable))


@pytest.mark.parametrize(
    ("start", "end", "kept_off"), [("20 1/32", "24 1/32", ("20", "24 1/16")), ("24", "20", ("20", "24"))]
)
def test_damage_is_widened_to_the_ruler_mark_and_kept_clear_of_whichever_way_round_it_is_given(
    start: str, end: str, kept_off: tuple[str, str]
) -> None:
    stretch = owned({}, length=inches(90), damage_from=inches(start), damage_to=inches(end))
    assert stretch.damage == ((inches(kept_off[0]), inches(kept_off[1])),)


@pytest.mark.parametrize(
    ("face", "bolt", "hole"),
    [(WASHED, {}, "washed"), ({}, {"damage_from": ZERO}, "damage_to"), ({}, {"damage_to": inches(20)}, "damage_from")],
)
def test_what_is_needed_of_a_length_in_hand_is_asked_for_before_anything_is_cut(
    face: dict[str, Any], bolt: dict[str, Any], hole: str
) -> None:
    plan = make_plan(with_face(small(), owned={"bolt": Owned(length=inches(101), **bolt)}, **face))
    assert [need.key for need in plan.missing] == [f"cloth.face.owned.bolt.{hole}"]
    assert (plan.complete, plan.layers[0].cutting) == (False, None)
    assert make_plan(with_face(small(), owned={"bolt": Owned(length=inches(101))})).missing == ()


PATTERNED: dict[str, Any] = {"repeat": inches(10), "repeat_kind": "half-drop"}


@pytest.mark.parametrize(
    ("job", "rule", "value"),
    [
        # A seam takes two allowances and a lap takes itself once; no piece is under an end hem and a join.
        (small(), "join_cost", inches(1)),
        (with_face(small(), join="lap", lap=inches("3/8")), "join_cost", inches("3/8")),
        (replace(small(), allowances=Allowances(least_piece=inches(1))), "least_piece", inches(2)),
        # A repeat is matched unless the gathers are to hide it, and shrinks with the cloth.
        (with_face(small(), **PATTERNED), "repeat", Repeat(inches(10), "half-drop")),
        (with_face(small(), **PATTERNED, **WASHED), "repeat", Repeat(inches("9 3/5"), "half-drop")),
        (with_face(small(), **PATTERNED, match=False), "repeat", None),
        (small(), "repeat", None),
        # One-way cloth may lie along the roll only where it may lie sideways.
        (with_face(small(), one_way=True, lay="along"), "one_way", True),
        (with_face(small(), one_way=True, sideways=True, lay="along"), "one_way", False),
        (with_face(small(), one_way=True, sideways=True, lay="across"), "one_way", True),
    ],
)
def test_the_answers_about_the_cloth_are_the_rules_of_cutting(job: Job, rule: str, value: object) -> None:
    assert getattr(rules(job), rule) == value


# Layers: cut lengths, cut widths, strips, and what is bought.
def interlined(**more: object) -> Job:
    job = small()
    inner = Cloth(use=True, width=inches(45), wash="already washed", weight="light")
    return replace(job, cloth=replace(job.cloth, interlining=replace(inner, **more)))


@pytest.mark.parametrize(
    ("job", "number", "length", "width"),
    [
        (with_section(small(), "left", drop=(inches(11),) * 3), 0, "12 1/2", "192"),
        (with_face(small(), hem_kind="single", hem=inches(2), hem_turn=inches("1/4")), 0, "14 3/4", "192"),
        # 1/2 in top + (12 in - 1/2 in) + 2 x 1 1/2 in; 2.5 x 76 = 190 in of face, less 1 in, with two end hems of 1 in
        (interlined(), 1, "15", "191"),
        (with_section(small(), "left", drop=(inches("12 1/32"),) * 3, run=(inches("76 1/64"),) * 2), 0, "13 9/16",
         "192 1/16"),
    ],
)  # fmt: skip
def test_a_layer_is_cut_to_top_drop_and_hem_up_to_the_mark_and_an_inner_one_set_back(
    job: Job, number: int, length: str, width: str
) -> None:
    made = layer(job, number)
    assert (made.cut_lengths["left"].value, made.cut_widths["left"].value) == (inches(length), inches(width))


def test_a_kept_surplus_widens_the_inner_layer_with_the_face() -> None:
    plan = make_plan(
        replace(interlined(), fullness=Fullness(want=Fraction(5, 2), joins="whole widths", surplus="keep"))
    )
    made = plan.parts[0].flat_made.value
    assert made is not None
    assert plan.layers[1].cut_widths["left"].value == made - inches(1) + inches(2)


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


def test_cloth_used_is_the_sum_of_the_cuts_and_the_roll_gives_that_and_the_squaring() -> None:
    face = layer(small())
    best = known(face.cutting).best
    assert (face.used.value, face.roll.value, face.buy.value) == (best.used, best.used + inches(1), best.buy)
    # The larger part width goes to the foot end.
    assert {strip.id: strip.larger_end for strip in face.strips} == {"left": "right", "right": "left", "foot": "either"}


def test_a_layer_is_laid_out_again_only_when_something_of_it_changes(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[object] = []
    make_plan(small())
    monkeypatch.setattr(cut_plans, "lay_out", lambda *given: asked.append(given) or lay_out(*given))  # type: ignore
    make_plan(replace(small(), name="renamed"))
    assert not asked
    make_plan(with_section(small(), "left", run=(inches("71 3/16"),) * 2))
    assert asked


@pytest.mark.parametrize(
    ("buy", "price", "sold_by", "cost"),
    [
        (Length(144), "18.50", "yd", "74.00"), (Length.of(Fraction(10, 3), "yd"), "18.50", "yd", "61.67"),
        (Length.of(Fraction("3.1"), "m"), "9.95", "m", "30.85"), (Length(18), "0.01", "yd", "0.01"),
        (Length(30), "2", "ft", "5.00"),
    ],
)  # fmt: skip
def test_cost_is_the_length_bought_at_its_price_to_the_nearest_cent(
    buy: Length, price: str, sold_by: str, cost: str
) -> None:
    assert price_for(buy, Decimal(price), sold_by) == Decimal(cost)
    plan = make_plan(small())
    assert (plan.layers[0].cost.value, plan.missing) == (None, ()), "a price is nobody's need"


# Joins of an inner layer: kept away from the face's by the order of the pieces, where that costs nothing.
def test_joins_stand_where_the_pieces_meet_along_the_joined_up_flat() -> None:
    face = layer(small())
    pieces = sorted(
        (each for each in known(face.cutting).best.pieces if each.strip == "left"), key=lambda each: each.order
    )
    joins = joins_at(known(face.cutting).best, "left", inches(1))
    assert len(joins) == len(pieces) - 1
    assert joins[0] == pieces[0].width - inches("1/2")
    # after the last join there is the last piece less its seam allowance
    assert joins[-1] + pieces[-1].width - inches("1/2") == inches(192)


@pytest.mark.parametrize("width", [44, 50, 55, 56, 60])
def test_joins_of_two_layers_lie_two_inches_apart_or_a_finding_says_so(width: int) -> None:
    plan = make_plan(interlined(width=inches(width)))
    for part in plan.parts:
        pair = [joins_at(each.cutting.best, part.id, inches(1)) for each in plan.layers if each.cutting]
        near = least_apart(pair[0], pair[1], inches("1/2"))
        assert (part.id in close(plan)) == (near is not None and near < inches(2))
    if width == 55:
        assert any(strip.no_join for strip in plan.layers[1].strips), "shifted, where that takes no more cloth"
        assert not close(plan)


def lined(runs: dict[str, str], widths: tuple[str, str], joins: str) -> Job:
    """A bed with these runs in three times its length, face and lining of these usable widths."""
    job = surveyed(small(), section={side: section(run, 12) for side, run in runs.items()})
    face = Cloth(width=inches(widths[0]), trim=ZERO, weight="medium")
    lining = Cloth(use=True, width=inches(widths[1]), trim=ZERO, weight="light", wash="already washed")
    cloths = Cloths(face=face, lining=lining, fixing=job.cloth.fixing)
    return replace(job, cloth=cloths, fullness=Fullness(want=Fraction(3), joins=joins))  # type: ignore[arg-type]


def close(plan: Plan) -> set[str]:
    """The parts of which `check` says that joins lie close."""
    return {each.id.rpartition(":")[2] for each in plan.findings if each.id.startswith("joins-close")}


def could_be_cleared(plan: Plan, part: str) -> bool:
    """True where some order of a part's lining pieces keeps every join off the face's."""
    face, lining = (each.cutting.best for each in plan.layers if each.cutting)
    there, setback = joins_at(face, part, Length(1)), inches("1/2")
    pieces = [each for each in lining.pieces if each.strip == part]
    return any(
        (near := least_apart(there, joins_at(as_ordered(lining, part, order), part, Length(1)), setback)) is None
        or near >= APART
        for order in permutations(range(1, len(pieces) + 1))
    )


def as_ordered(layout: Layout, part: str, order: tuple[int, ...]) -> Layout:
    """A layout with the pieces of one part in another order."""
    orders = iter(order)
    pieces = (replace(each, order=next(orders)) if each.strip == part else each for each in layout.pieces)
    return replace(layout, pieces=tuple(pieces))


@pytest.mark.parametrize("joins", ["part widths", "half widths", "whole widths"])
def test_check_never_advises_what_an_order_of_the_pieces_would_do(joins: str) -> None:
    random = Random(f"joins apart {joins}")
    # The first: the lining of a foot in half widths, as a maker turned it by hand.
    beds = [({"left": "75 1/8", "foot": "41 3/16", "right": "20 3/16", "head": "87 3/8"}, ("57 1/8", "56 1/16"))]
    for _ in range(25):
        runs = {side: f"{random.randint(25, 90)} {random.randint(0, 15)}/16" for side in ("left", "foot", "right")}
        beds.append((runs, (f"{random.randint(42, 60)}", f"{random.randint(42, 60)}")))
    for runs, widths in beds:
        plan = make_plan(lined(runs, widths, joins))
        assert not [part for part in close(plan) if could_be_cleared(plan, part)], (runs, widths)
        assert "head" not in runs or joins != "half widths" or len(close(plan)) <= 1
        assert all("end for end" not in each.way_out for each in plan.findings)
        lining = plan.layers[1]
        assert faults(known(lining.cutting).best, lining.strips, lining.stock, known(lining.rules)) == []
