"""Fixings: the count, the places, the order, what is skipped, and the leg of a staple."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.trade.sample_jobs import BED, INNER, SIDE, bed, inches, known, small, surveyed, with_face, with_section
from wizard.trade.figures import Ledger
from wizard.trade.fixings import Closed, in_order, leg_figure, set_out, shortest
from wizard.trade.job_fields import Cloth, Fixing, Fullness, Job, Obstacle, Owned, Post
from wizard.trade.lengths import ZERO, Length
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import FixingPlan, Plan

LEG = Obstacle(at=inches(9), width=inches(3), do="no fixing")


def plan(run: str | int = 16, section: str = "left", fixing: Fixing | None = None, **more: Any) -> Plan:
    """A bed of one section, so long, fixed with magnets unless said otherwise."""
    survey = {"post": {"head-left": more.pop("post", Post())}}
    one = replace(SIDE, run=(inches(run),) * 2, **more)
    return make_plan(bed(section={section: one}, survey=survey, fixing=fixing or Fixing(kind="magnets")))


def met(run: str | int = 16, section: str = "left", *things: Obstacle, **more: Any) -> FixingPlan:
    """The fixings of that section with things in the way."""
    in_the_way = {f"thing-{number}": thing for number, thing in enumerate(things)}
    return known(plan(run, section, in_the_way=in_the_way, **more).parts[0].fixings)


def places(found: FixingPlan) -> list[Length]:
    return [each.at for each in found.positions]


def at(*places: str | int) -> list[Length]:
    return [inches(each) for each in places]


@pytest.mark.parametrize(
    ("fixing", "run", "spacing", "where"),
    [
        (Fixing(kind="magnets"), "11", "2 1/2", at("1/2", "3", "5 1/2", "8", "10 1/2")),
        (Fixing(kind="magnets"), "10", "3", at("1/2", "3 1/2", "6 1/2", "9 1/2")),
        (Fixing(kind="magnets"), "3/4", None, at("3/8")),
        (Fixing(kind="magnets", spacing=inches(5)), "16", "5", at("1/2", "5 1/2", "10 1/2", "15 1/2")),
        (Fixing(kind="magnets", inset=inches(100)), "16", None, at(8)),
    ],
)
def test_the_count_rounds_up_and_the_spaces_are_equal(
    fixing: Fixing, run: str, spacing: str | None, where: list[Length]
) -> None:
    """A spacing that fits is not made smaller; a tape shorter than two insets takes one fixing in its middle."""
    found = met(run, fixing=fixing)
    assert (found.spacing, places(found)) == (None if spacing is None else inches(spacing), where)


def test_the_usual_spacing_goes_by_the_kind_and_the_units_and_the_figures_know_it() -> None:
    figures = plan().figures
    assert (figures["part.left.fixings"].value, figures["part.left.fixing_spacing"].value) == (6, inches("3"))
    stapled = replace(plan(fixing=Fixing(kind="staples")).job, standard="metric")
    metric = with_section(stapled, "left", run=(Length.of(53, "cm"),) * 2)
    assert known(make_plan(metric).parts[0].fixings).spacing == Length.of(5, "cm")


@given(st.integers(min_value=1, max_value=60))
def test_one_end_the_other_the_middle_then_outwards_each_with_a_turn_of_its_own(count: int) -> None:
    turns = [
        [each.order for each in in_order(tuple(Length(at) for at in range(many)))] for many in (count, 0, 1, 2, 5, 6)
    ]
    assert sorted(turns[0]) == list(range(1, count + 1))
    assert turns[1:] == [[], [1], [1, 2], [1, 4, 3, 5, 2], [1, 5, 3, 4, 6, 2]]


EVEN = at("1/2", "3 1/2", "6 1/2", "9 1/2", "12 1/2", "15 1/2")


@pytest.mark.parametrize(
    ("thing", "skipped", "where"),
    [
        (LEG, ["9 1/2"], [*EVEN[:3], *at("11", "12 1/2", "15 1/2")]),
        # None is added where one is close already.
        (replace(LEG, at=inches("9 1/2"), width=inches("5 1/2")), ["9 1/2"], [*EVEN[:3], *EVEN[4:]]),
        (replace(LEG, at=inches(8)), [], EVEN), (replace(LEG, do=None), [], EVEN),
    ],
)  # fmt: skip
def test_a_fixing_in_the_way_is_skipped_with_one_close_on_either_side(
    thing: Obstacle, skipped: list[str], where: list[Length]
) -> None:
    found = met(16, "left", thing)
    assert (list(found.skipped), places(found)) == (at(*skipped), where)


def test_something_in_the_way_is_measured_from_the_head_past_the_return_there() -> None:
    leg = replace(LEG, at=inches("8 1/2"), width=inches(1))
    turned: dict[str, Any] = {"left_end": "returns", "left_return": inches(1)}
    assert list(met(15, "left", leg, **turned).skipped) == at("9 1/2")
    assert list(met(15, "right", leg, right_end="returns", right_return=inches(1)).skipped) == at("9 1/2")
    assert list(met(15, "right", leg, **turned).skipped) == []


def test_a_hook_plate_keeps_fixings_off_its_end_of_the_run() -> None:
    left, right = (met(16, side, left_hook=inches(2)) for side in ("left", "right"))
    assert (list(left.skipped), places(left)[0]) == (at("1/2"), inches("2 1/2"))
    # That at the foot of the right section is at the far end from the head.
    assert (list(right.skipped), places(right)[-1]) == (at("15 1/2"), inches("13 1/2"))


def test_a_return_behind_a_post_that_may_not_be_fixed_into_takes_no_fixing() -> None:
    turned: dict[str, Any] = {"left_end": "returns", "left_return": inches(2)}
    free, shut = (met(16, **turned, post=Post(may_fix=may)) for may in (True, False))
    assert places(free)[0] == inches("1/2")
    assert (list(shut.skipped), places(shut)[0]) == (at("1/2"), inches("2 1/2"))


def test_a_split_section_meets_what_is_in_the_way_in_the_part_it_lies_in() -> None:
    # By hand: 3 in about 25 1/2 in of the whole run are 24 to 27 in, 8 to 11 in past the split at 16 in.
    split = Obstacle(kind="drawer", at=inches(16), width=inches(1), do="split here", overlap=ZERO)
    for do, kind in (("no fixing", "magnets"), ("keep clear", "hook-and-loop")):
        thing = replace(LEG, at=inches("25 1/2"), do=do)
        found = plan(32, in_the_way={"split": split, "thing": thing}, fixing=Fixing(kind=kind))  # type: ignore[arg-type]
        first, second = (known(part.fixings) for part in found.parts)
        if kind == "magnets":
            assert (first.skipped, list(second.skipped)) == ((), at("9 1/2"))
        else:
            assert (first.gaps, second.gaps) == ((), ((inches("8"), inches("11")),))
            assert (first.covers, second.covers) == ((inches("0"), inches("16")), (inches("16"), inches("32")))


@pytest.mark.parametrize(
    ("kind", "overlap", "last", "first"),
    [
        # 3 in about the middle of 32 in. Parts of 16 1/2 in end and begin within them, those of 18 in reach past them.
        ("centre leg", 1, "14", "2 1/2"), (None, 1, "14", "2 1/2"), ("centre leg", 4, "17 1/2", "1/2"),
        ("drawer", 1, "16", "1/2"),
    ],
)  # fmt: skip
def test_no_fixing_is_set_on_the_thing_that_a_section_is_split_at_unless_the_rail_is_free_there(
    kind: Any, overlap: int, last: str, first: str
) -> None:
    thing = replace(LEG, kind=kind, at=inches(16), width=inches(3), do="split here", overlap=inches(overlap))
    left, right = (places(known(part.fixings)) for part in plan(32, in_the_way={"thing": thing}).parts)
    assert (left[-1], right[0]) == (inches(last), inches(first))
    start = inches(16) - inches(overlap) / 2
    on_it = [each for each in (*left, *(start + each for each in right)) if abs(each - inches(16)) < inches("1 1/2")]
    assert bool(on_it) == (kind == "drawer")


def test_hook_and_loop_runs_the_whole_length_measured_as_all_fixings_of_its_side() -> None:
    found = met(16, "foot", fixing=Fixing(kind="adhesive hook-and-loop"))
    assert (found.spacing, found.positions, found.measured_from) == (None, (), "the bed's left")
    from_where = [met(16, side).measured_from for side in ("left", "right", "foot", "head")]
    assert from_where == ["the head", "the head", "the bed's left", "the bed's left"]


def test_no_fixings_are_planned_while_the_kind_or_the_side_is_not_known_nor_set_out_along_a_mistyped_length() -> None:
    bare, sideless, long = plan(fixing=Fixing()), plan(16, "desk"), plan("1" + "0" * 30)
    assert [each.parts[0].fixings for each in (bare, sideless, long)] == [None, None, None]
    assert [each.key for each in bare.figures["part.left.fixings"].needs] == ["cloth.fixing.kind"]
    assert known(long.figures["part.left.fixings"].value) > 10**20


stretches = st.lists(st.tuples(st.integers(-40, 1600), st.integers(1, 160)), max_size=4)


@given(st.integers(1, 1600), st.integers(0, 32), st.integers(1, 60), stretches)
def test_every_fixing_lies_inside_its_section_and_outside_what_is_closed(
    sixteenths: int, inset: int, count: int, found: list[tuple[int, int]]
) -> None:
    gathered = Length(Fraction(sixteenths, 16))
    edge = min(Length(Fraction(inset, 16)), gathered / 2)
    closed = tuple(Closed(Length(Fraction(at, 16)), Length(Fraction(at + wide, 16))) for at, wide in found)
    kept, skipped = set_out(gathered, edge, count, closed)
    assert all(ZERO <= each <= gathered for each in kept + skipped)
    assert not any(stretch.holds(each) for each in kept for stretch in closed)
    assert list(kept) == sorted(set(kept))


# Staple and tack legs.
def leg(**more: Any) -> tuple[Length | None, Ledger]:
    """The leg for a rail of 1 1/8 in and light cloth, both unless said otherwise, and the ledger."""
    rail = more.pop("rail", inches("1 1/8"))
    book = Ledger(bed(survey={"rail_thickness": rail}, **more))
    return leg_figure(book).value, book


def test_the_leg_goes_from_tape_layers_and_a_quarter_inch_to_the_rail_less_an_eighth() -> None:
    shortest_leg, book = leg()
    assert shortest_leg == inches("3/8")
    assert book.figures["fixing.leg_least"].value == inches("1/16") + inches("3/64") + inches("1/4")
    assert book.figures["fixing.leg_most"].value == inches("1")
    assert leg(interlining=INNER, lining=replace(INNER, weight="light"))[0] == inches("1/2")
    legs = tuple(at("1/4", "3/8", "1/2"))
    for least, most, found in (("3/8", "1", "3/8"), ("7/16", "1/2", "1/2"), ("7/16", "15/32", None)):
        assert shortest(legs, inches(least), inches(most)) == (found and inches(found))


def test_the_thinnest_rail_decides_for_the_whole_bed_and_what_the_leg_waits_for_is_named() -> None:
    thin = {"foot": replace(BED.survey.section["left"], rail_thickness=inches("1/2"))}
    off = {"head": replace(BED.survey.section["left"], on=False, rail_thickness=inches("1/4"))}
    book = Ledger(surveyed(BED, section={**BED.survey.section, **thin, **off}))
    leg_figure(book)
    assert book.figures["fixing.leg_most"].value == inches("3/8")
    needs = leg_figure(Ledger(bed(survey={"rail_thickness": None}, face=Cloth()))).needs
    assert {each.key for each in needs} == {"survey.rail_thickness", "cloth.face.weight"}


def folds(given: Job, fullness: Fullness) -> tuple[Any, Any]:
    """(fullness, thickness of gathers) of the plan."""
    figures = make_plan(replace(given, fullness=fullness)).figures
    return figures["fullness"].value, figures["fixing.folds"].value


def test_gathers_are_as_thick_as_the_fullness_the_cloth_in_hand_gives_whatever_was_wanted_before() -> None:
    bolt, scrap = (with_face(small(), owned={"bolt": Owned(length=inches(each))}) for each in (182, 20))
    assert folds(bolt, Fullness(want=Fraction(5, 2))) == (Fraction(5, 2), 3)
    full, layers = folds(bolt, Fullness("all the cloth I own", Fraction(3, 2)))
    assert (3 < full < 4, layers) == (True, 4)
    assert folds(scrap, Fullness("all the cloth I own", Fraction(6))) == (None, 3), "usual ones, while no skirt is made"


def test_a_surplus_that_is_kept_lies_under_the_fixings_with_the_rest_but_rounding_to_the_mark_is_none() -> None:
    # whole widths: 152 and 116 in at fullness 2 come out as 161 and 161 in on 76 and 58 in
    kept = Fullness(want=Fraction(2), joins="whole widths", surplus="keep")
    assert folds(small(), kept) == (2, 3)
    assert folds(small(), replace(kept, surplus="trim")) == (2, 2)
    thirds = with_section(small(), "foot", run=(inches("58 1/48"),) * 2)
    assert folds(thirds, Fullness(want=Fraction(2), surplus="keep")) == (2, 2)
