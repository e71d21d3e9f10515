"""The cloth: usable width, washing, lengths in hand, joins and least pieces."""

from __future__ import annotations

from fractions import Fraction

import pytest
from msgspec.structs import replace

from tests.trade.sample_jobs import inches, small, with_face
from wizard.trade.cutting import Repeat, Rules, Stretch
from wizard.trade.job_fields import Allowances, Job, Owned
from wizard.trade.lengths import Length
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Layer


def face(job: Job) -> Layer:
    return make_plan(job).layers[0]


def rules(job: Job) -> Rules:
    known = face(job).rules
    assert known is not None
    return known


def owned(job: Job, owned_id: str = "bolt") -> Stretch:
    return next(each for each in face(job).stock if each.id == owned_id)


WASHED = {"wash": "washed first", "warp_shrink": Fraction(4, 100), "weft_shrink": Fraction(2, 100)}


def test_usable_width_is_what_is_left_between_the_selvedges() -> None:
    assert face(small()).usable.value == inches(54)


def test_cloth_that_is_washed_first_is_trimmed_after_it_has_shrunk_and_never_rounded_up() -> None:
    # 55 in less 2 % is 53.9 in; on a ruler of sixteenths 53 7/8 is there and 53 15/16 is not
    job = with_face(small(), width=inches(55), trim=inches(0), **WASHED)
    assert face(job).usable.value == inches("53 7/8")


def test_cloth_that_is_not_washed_or_is_washed_already_loses_nothing() -> None:
    for wash in ("not washed", "already washed"):
        job = with_face(small(), **(WASHED | {"wash": wash}))
        assert face(job).usable.value == inches(54)
        assert rules(job).keeps == 1


def test_what_the_roll_must_give_is_divided_by_what_washing_leaves() -> None:
    layer = face(with_face(small(), **WASHED))
    assert layer.used.value is not None
    assert layer.roll.value == inches(1) + layer.used.value / Fraction(96, 100)


def test_a_length_in_hand_that_has_still_to_be_washed_gives_what_the_same_length_bought_would() -> None:
    job = with_face(small(), owned={"bolt": Owned(length=inches(101), washed=False)}, **WASHED)
    assert owned(job).length == inches(1) + inches(96)
    assert owned(job).usable == inches("52 7/8")


def test_a_length_in_hand_that_is_washed_already_shrinks_no_more() -> None:
    job = with_face(small(), owned={"bolt": Owned(length=inches(101), washed=True)}, **WASHED)
    assert owned(job).length == inches(101)
    assert owned(job).usable == inches(54)


def test_whether_a_length_is_washed_is_asked_only_where_the_layer_is_washed_first() -> None:
    asks = make_plan(with_face(small(), owned={"bolt": Owned(length=inches(101))}, **WASHED))
    assert [need.key for need in asks.missing] == ["cloth.face.owned.bolt.washed"]
    assert make_plan(with_face(small(), owned={"bolt": Owned(length=inches(101))})).missing == ()


def test_a_length_in_hand_goes_down_to_the_ruler_mark() -> None:
    job = with_face(small(), owned={"bolt": Owned(length=Length.of(Fraction("2.3"), "yd"))})
    assert owned(job).length == inches("82 3/4")


def test_damage_is_widened_to_the_ruler_mark() -> None:
    hurt = Owned(length=inches(90), damage_from=inches("20 1/32"), damage_to=inches("24 1/32"))
    assert owned(with_face(small(), owned={"bolt": hurt})).damage == ((inches(20), inches("24 1/16")),)


def test_damage_given_the_wrong_way_round_is_kept_clear_of_all_the_same() -> None:
    hurt = Owned(length=inches(90), damage_from=inches(24), damage_to=inches(20))
    assert owned(with_face(small(), owned={"bolt": hurt})).damage == ((inches(20), inches(24)),)


@pytest.mark.parametrize(("given", "hole"), [("damage_from", "damage_to"), ("damage_to", "damage_from")])
def test_damage_of_which_one_end_is_given_waits_for_the_other_so_that_no_piece_lies_over_it(
    given: str, hole: str
) -> None:
    bolt = replace(Owned(length=inches(90)), **{given: inches(20)})
    plan = make_plan(with_face(small(), owned={"bolt": bolt}))
    assert [need.key for need in plan.missing] == [f"cloth.face.owned.bolt.{hole}"]
    assert not plan.complete
    assert plan.layers[0].cutting is None


def test_a_length_of_another_width_has_its_own_usable_width() -> None:
    job = with_face(small(), owned={"bolt": Owned(length=inches(90), width=inches(45))})
    assert owned(job).usable == inches(44)


def test_a_seam_takes_two_allowances_and_a_lap_takes_itself_once() -> None:
    assert rules(small()).join_cost == inches(1)
    assert rules(with_face(small(), join="lap", lap=inches("3/8"))).join_cost == inches("3/8")


def test_the_least_piece_is_never_under_an_end_hem_and_a_join() -> None:
    job = replace(small(), allowances=Allowances(least_piece=inches(1)))
    assert rules(job).least_piece == inches(2)
    assert "least-piece" in {each.id for each in make_plan(job).findings}


def test_a_repeat_is_matched_unless_the_gathers_are_to_hide_it_and_shrinks_with_the_cloth() -> None:
    patterned = {"repeat": inches(10), "repeat_kind": "half-drop"}
    assert rules(with_face(small(), **patterned)).repeat == Repeat(inches(10), "half-drop")
    assert rules(with_face(small(), **patterned, **WASHED)).repeat == Repeat(inches("9 3/5"), "half-drop")
    assert rules(with_face(small(), **patterned, match=False)).repeat is None
    assert rules(small()).repeat is None


def test_one_way_cloth_may_lie_along_the_roll_only_where_it_may_lie_sideways() -> None:
    assert rules(with_face(small(), one_way=True, lay="along")).one_way
    assert not rules(with_face(small(), one_way=True, sideways=True, lay="along")).one_way
    assert rules(with_face(small(), one_way=True, sideways=True, lay="across")).one_way


def test_cloth_of_which_nothing_is_left_stops_the_plan_and_says_so() -> None:
    for more in ({"width": inches(1)}, WASHED | {"weft_shrink": Fraction(1)}, WASHED | {"warp_shrink": Fraction(1)}):
        plan = make_plan(with_face(small(), **more))
        assert plan.layers[0].cutting is None
        assert "usable-none:face" in {each.id for each in plan.findings if each.level == "stop"}
