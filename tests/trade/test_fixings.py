"""Fixings: the count, the places, the order, and what is skipped."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.trade.finding_texts import assert_says
from tests.trade.sample_jobs import inches, small, with_face, with_section
from wizard.trade.figures import GIVEN, Figure, Ledger
from wizard.trade.findings.checker import Checker
from wizard.trade.findings.cloth_findings import SUITS, fixing_findings
from wizard.trade.fixings import Closed, fixings_for, in_order, leg_figure, measured_from, set_out, shortest
from wizard.trade.formatting import Ruler
from wizard.trade.job_fields import (
    Cloth,
    Cloths,
    Fixing,
    FixingKind,
    Fullness,
    Job,
    Obstacle,
    Owned,
    Post,
    RailMaterial,
    Section,
    Survey,
    Weight,
)
from wizard.trade.lengths import ZERO, Length
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import FixingPlan, Gathered


def figure(id: str, value: Length | None) -> Figure[Length]:
    return Figure(id, id, value, (), GIVEN)


def ledger(section: Section, **survey: Any) -> Ledger:
    kind = survey.pop("kind", "magnets")
    return Ledger(Job(survey=Survey(section={"a": section}, **survey), cloth=Cloths(fixing=Fixing(kind=kind))))


def fixed(book: Ledger, run: Length, left: Length = ZERO, gathered: Length | None = None) -> FixingPlan | None:
    """The fixings of the whole section `a`, whose ends take nothing but `left` at the left one."""
    section = book.job.survey.section["a"]
    extras, whole = (figure("left", left), figure("right", ZERO)), figure("gathered", gathered or run)
    part = Gathered("a", "a", "a", section.side, figure("run", run), None, *extras, "", "", whole, *extras, whole)
    return fixings_for(book, part)


def plan(section: Section, run: str, gathered: str, left: str = "0", **more: Any) -> FixingPlan:
    found = fixed(ledger(section, **more), inches(run), inches(left), inches(gathered))
    assert found is not None
    return found


def plan_of_part(section: Section, part: str, begins: str, whole: str, **more: Any) -> FixingPlan:
    """The fixings of a part of a left section of which 16 in begin at a place of the whole run."""
    start, run = figure("start", inches(begins)), figure("run", inches("16"))
    split = (start, figure("end", inches(begins) + inches("16")))
    extras = figure("left", ZERO), figure("right", ZERO)
    part_of = Gathered(part, "a", "a", "left", run, split, *extras, "", "", run, *extras, run)
    found = fixings_for(ledger(replace(section, run=(inches(whole), inches(whole))), **more), part_of)
    assert found is not None
    return found


def places(found: FixingPlan) -> list[Length]:
    return [each.at for each in found.positions]


def test_the_count_rounds_up_and_the_spaces_are_equal() -> None:
    found = plan(Section(side="left"), "11", "11")
    assert places(found) == [inches(at) for at in ("1/2", "3", "5 1/2", "8", "10 1/2")]
    assert found.spacing == inches("2 1/2")


def test_a_spacing_that_fits_exactly_is_not_made_smaller() -> None:
    assert plan(Section(side="left"), "10", "10").spacing == inches("3")


def test_a_tape_shorter_than_two_insets_takes_one_fixing_in_its_middle() -> None:
    found = plan(Section(side="left"), "3/4", "3/4")
    assert (places(found), found.spacing) == ([inches("3/8")], None)


@pytest.mark.parametrize(
    ("count", "turns"),
    [(0, []), (1, [1]), (2, [1, 2]), (3, [1, 3, 2]), (5, [1, 4, 3, 5, 2]), (6, [1, 5, 3, 4, 6, 2])],
)
def test_one_end_the_other_the_middle_then_outwards(count: int, turns: list[int]) -> None:
    found = in_order(tuple(Length(at) for at in range(count)))
    assert [each.order for each in found] == turns


@given(st.integers(min_value=1, max_value=60))
def test_every_fixing_has_a_turn_of_its_own(count: int) -> None:
    turns = sorted(each.order for each in in_order(tuple(Length(at) for at in range(count))))
    assert turns == list(range(1, count + 1))


def test_a_fixing_in_the_way_is_skipped_with_one_close_on_either_side() -> None:
    leg = Obstacle(at=inches("9"), width=inches("3"), do="no fixing")
    found = plan(Section(side="left", in_the_way={"leg": leg}), "16", "16")
    assert found.skipped == (inches("9 1/2"),)
    assert places(found) == [inches(at) for at in ("1/2", "3 1/2", "6 1/2", "11", "12 1/2", "15 1/2")]


def test_none_is_added_where_one_is_close_already() -> None:
    leg = Obstacle(at=inches("9 1/2"), width=inches("5 1/2"), do="no fixing")
    found = plan(Section(side="left", in_the_way={"leg": leg}), "16", "16")
    assert places(found) == [inches(at) for at in ("1/2", "3 1/2", "6 1/2", "12 1/2", "15 1/2")]


def test_something_between_two_fixings_moves_none() -> None:
    leg = Obstacle(at=inches("8"), width=inches("3"), do="no fixing")
    found = plan(Section(side="left", in_the_way={"leg": leg}), "16", "16")
    assert (found.skipped, len(found.positions)) == ((), 6)


@pytest.mark.parametrize("do", [None, "split here"])
def test_only_what_may_take_no_fixing_is_skipped(do: Any) -> None:
    leg = Obstacle(at=inches("9"), width=inches("3"), do=do)
    assert plan(Section(side="left", in_the_way={"leg": leg}), "16", "16").skipped == ()


def test_something_in_the_way_is_measured_from_the_head_past_the_return_there() -> None:
    leg = Obstacle(at=inches("8 1/2"), width=inches("1"), do="no fixing")
    left = plan(Section(side="left", in_the_way={"leg": leg}), "15", "16", left="1")
    right = plan(Section(side="right", in_the_way={"leg": leg}), "15", "16", left="0")
    elsewhere = plan(Section(side="right", in_the_way={"leg": leg}), "15", "16", left="1")
    assert (left.skipped, right.skipped, elsewhere.skipped) == ((inches("9 1/2"),), (inches("9 1/2"),), ())


def test_a_hook_plate_keeps_fixings_off_the_end_of_the_run() -> None:
    found = plan(Section(side="left", left_hook=inches("2")), "16", "16")
    assert found.skipped == (inches("1/2"),)
    assert places(found)[0] == inches("2 1/2")


def test_a_hook_at_the_foot_of_the_right_section_is_at_the_far_end_from_the_head() -> None:
    found = plan(Section(side="right", left_hook=inches("2")), "16", "16")
    assert (found.skipped, places(found)[-1]) == ((inches("15 1/2"),), inches("13 1/2"))


def test_a_return_behind_a_post_that_may_not_be_fixed_into_takes_no_fixing() -> None:
    section = Section(side="left", left_end="returns")
    free = plan(section, "16", "18", left="2", post={"head-left": Post(may_fix=True)})
    shut = plan(section, "16", "18", left="2", post={"head-left": Post(may_fix=False)})
    assert places(free)[0] == inches("1/2")
    assert (shut.skipped, places(shut)[0]) == ((inches("1/2"),), inches("2 1/2"))


def test_a_split_section_meets_what_is_in_the_way_in_the_part_it_lies_in() -> None:
    leg = Obstacle(at=inches("25 1/2"), width=inches("3"), do="no fixing")
    section = Section(side="left", in_the_way={"leg": leg})
    first, second = (plan_of_part(section, part, begins, "32") for part, begins in (("a/1", "0"), ("a/2", "16")))
    assert (first.skipped, second.skipped) == ((), (inches("9 1/2"),))


def test_hook_and_loop_runs_the_whole_length() -> None:
    found = plan(Section(side="foot"), "16", "16", kind="adhesive hook-and-loop")
    assert (found.spacing, found.positions, found.measured_from) == (None, (), "the bed's left")


def test_hook_and_loop_is_left_out_where_no_fixing_may_go() -> None:
    # By hand: 3 in about 25 1/2 in of the whole run are 24 to 27 in, 8 to 11 in past the split at 16 in.
    heater = Obstacle(at=inches("25 1/2"), width=inches("3"), do="keep clear")
    section = Section(side="left", in_the_way={"heater": heater})
    first, second = (
        plan_of_part(section, part, begins, "32", kind="hook-and-loop")
        for part, begins in (("a/1", "0"), ("a/2", "16"))
    )
    assert (first.gaps, second.gaps) == ((), ((inches("8"), inches("11")),))
    assert (first.covers, second.covers) == ((inches("0"), inches("16")), (inches("16"), inches("32")))


def test_sides_are_measured_from_the_head_and_ends_from_the_left_of_the_bed() -> None:
    assert [measured_from(side) for side in ("left", "right")] == ["the head", "the head"]
    assert [measured_from(side) for side in ("foot", "head")] == ["the bed's left", "the bed's left"]


def test_no_fixings_are_planned_while_the_kind_or_the_side_is_not_known() -> None:
    bare = Ledger(Job(survey=Survey(section={"a": Section(side="left")})))
    assert fixed(bare, inches("16")) is None
    assert [each.key for each in bare.figures["part.a.fixings"].needs] == ["cloth.fixing.kind"]
    assert fixed(ledger(Section()), inches("16")) is None


def test_the_figures_know_the_count_and_the_true_spacing() -> None:
    book = ledger(Section(side="left"))
    fixed(book, inches("16"))
    assert book.figures["part.a.fixings"].value == 6
    assert book.figures["part.a.fixing_spacing"].value == inches("3")


def test_an_own_spacing_stands_before_the_usual_one() -> None:
    job = Job(
        survey=Survey(section={"a": Section(side="left")}),
        cloth=Cloths(fixing=Fixing(kind="magnets", spacing=inches("5"))),
    )
    found = fixed(Ledger(job), inches("16"))
    assert found is not None
    assert found.spacing == inches("5")
    stapled = replace(job, standard="metric", cloth=Cloths(fixing=Fixing(kind="staples")))
    metric = fixed(Ledger(stapled), Length.of(53, "cm"))
    assert metric is not None
    assert metric.spacing == Length.of(5, "cm")


stretches = st.lists(
    st.tuples(st.integers(min_value=-40, max_value=1600), st.integers(min_value=1, max_value=160)), max_size=4
)


@given(
    st.integers(min_value=1, max_value=1600),
    st.integers(min_value=0, max_value=32),
    st.integers(min_value=1, max_value=60),
    stretches,
)
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


def test_a_mistyped_length_is_counted_and_not_set_out_one_by_one() -> None:
    long = Length(10**30)
    book = ledger(Section(side="left"))
    assert fixed(book, long) is None
    fixings = book.figures["part.a.fixings"].value
    assert fixings is not None
    assert fixings > 10**20


def test_an_inset_longer_than_the_tape_leaves_one_fixing_in_its_middle() -> None:
    job = Job(
        survey=Survey(section={"a": Section(side="left")}),
        cloth=Cloths(fixing=Fixing(kind="magnets", inset=inches("100"))),
    )
    found = fixed(Ledger(job), inches("16"))
    assert found is not None
    assert places(found) == [inches("8")]


# Staple and tack legs, and what looks wrong about the fixings.
RULER = Ruler("in", Length(Fraction(1, 16)))


def job(rail: str | None = "1 1/8", weight: Weight | None = "light", legs: tuple[str, ...] = (), **cloth: Any) -> Job:
    survey = Survey(rail_thickness=inches(rail) if rail else None, section={"left": Section(side="left")})
    fixing = Fixing(kind="staples", legs=tuple(inches(each) for each in legs))
    return Job(
        survey=survey,
        cloth=Cloths(face=Cloth(weight=weight), fixing=fixing, **cloth),
        fullness=Fullness(want=Fraction(5, 2)),
    )


def test_the_leg_goes_from_tape_layers_and_a_quarter_inch_to_the_rail_less_an_eighth() -> None:
    ledger = Ledger(job())
    assert leg_figure(ledger).value == inches("3/8")
    assert ledger.figures["fixing.leg_least"].value == inches("1/16") + inches("3/64") + inches("1/4")
    assert ledger.figures["fixing.leg_most"].value == inches("1")


def test_more_layers_take_a_longer_leg() -> None:
    inner: Any = {"interlining": Cloth(use=True, weight="medium"), "lining": Cloth(use=True, weight="light")}
    assert leg_figure(Ledger(job(**inner))).value == inches("1/2")


def folds(given: Job) -> tuple[Any, Any]:
    """(fullness, thickness of gathers) of the plan."""
    figures = make_plan(given).figures
    return figures["fullness"].value, figures["fixing.folds"].value


def test_gathers_are_as_thick_as_the_fullness_the_cloth_in_hand_gives_whatever_was_wanted_before() -> None:
    owned = with_face(small(), owned={"bolt": Owned(length=inches("182"))})
    assert folds(owned) == (Fraction(5, 2), 3)
    full, layers = folds(replace(owned, fullness=Fullness("all the cloth I own", Fraction(3, 2))))
    assert 3 < full < 4
    assert layers == 4


def test_gathers_are_taken_as_usual_ones_while_the_cloth_in_hand_makes_no_skirt() -> None:
    scrap = with_face(small(), owned={"bolt": Owned(length=inches("20"))})
    assert folds(replace(scrap, fullness=Fullness("all the cloth I own", Fraction(6)))) == (None, 3)


def test_a_surplus_that_is_kept_lies_under_the_fixings_with_the_rest() -> None:
    # whole widths: 152 and 116 in at fullness 2 come out as 161 and 161 in on 76 and 58 in
    kept = Fullness(want=Fraction(2), joins="whole widths", surplus="keep")
    assert folds(replace(small(), fullness=kept)) == (2, 3)
    assert folds(replace(small(), fullness=replace(kept, surplus="trim"))) == (2, 2)


def test_rounding_to_the_ruler_mark_is_no_surplus() -> None:
    thirds = with_section(small(), "foot", run=(inches("58 1/48"),) * 2)
    assert folds(replace(thirds, fullness=Fullness(want=Fraction(2), surplus="keep"))) == (2, 2)


def test_a_leg_at_either_bound_will_do() -> None:
    legs = tuple(inches(each) for each in ("1/4", "3/8", "1/2"))
    assert shortest(legs, inches("3/8"), inches("1")) == inches("3/8")
    assert shortest(legs, inches("7/16"), inches("1/2")) == inches("1/2")
    assert shortest(legs, inches("7/16"), inches("15/32")) is None


def test_the_thinnest_rail_decides_for_the_whole_bed() -> None:
    survey = Survey(
        rail_thickness=inches("1 1/8"),
        section={
            "left": Section(side="left"),
            "foot": Section(side="foot", rail_thickness=inches("1/2")),
            "head": Section(side="head", on=False, rail_thickness=inches("1/4")),
        },
    )
    ledger = Ledger(Job(survey=survey, cloth=Cloths(face=Cloth(weight="light"), fixing=Fixing(kind="staples"))))
    leg_figure(ledger)
    assert ledger.figures["fixing.leg_most"].value == inches("3/8")


def test_what_the_leg_waits_for_is_named() -> None:
    needs = leg_figure(Ledger(job(rail=None, weight=None))).needs
    assert {each.key for each in needs} == {"survey.rail_thickness", "cloth.face.weight"}


def _leg_finding(given: Job) -> Any:
    ledger = Ledger(given)
    leg_figure(ledger)
    return next(fixing_findings(Checker(ledger, RULER)), None)


def test_no_leg_that_can_be_had_is_a_finding_with_the_way_out() -> None:
    found = _leg_finding(job(legs=("1/4", "5/16")))
    assert found.key == "cloth.fixing.legs"
    assert_says(found, "fixing-leg")
    assert found.values == "23/64 in | 1 in | 1/4 in | 5/16 in"


def test_a_rail_too_thin_for_any_leg_sends_to_another_fixing() -> None:
    found = _leg_finding(job(rail="1/16"))
    assert found.key == "cloth.fixing.kind"
    assert found.sentence.endswith("but only 0 in stays inside this rail.")


def test_a_leg_that_lies_between_is_no_finding_and_neither_is_a_leg_still_waited_for() -> None:
    assert _leg_finding(job()) is None
    assert _leg_finding(job(rail=None)) is None


def _rail(material: RailMaterial, kind: FixingKind, **survey: Any) -> list[str]:
    given = Job(
        survey=Survey(rail=material, section={"left": Section(side="left")}, **survey),
        cloth=Cloths(fixing=Fixing(kind=kind)),
    )
    return [each.id for each in fixing_findings(Checker(Ledger(given), RULER))]


@pytest.mark.parametrize(
    ("material", "good", "bad"),
    [
        ("solid wood", "tacks", "upholstery pins"),
        ("veneered board", "staples", "tacks"),
        ("metal", "magnets", "staples"),
        ("upholstered", "upholstery pins", "glue"),
        ("heirloom", "hook-and-loop", "adhesive hook-and-loop"),
    ],
)
def test_a_fixing_that_does_not_suit_the_rail_is_a_finding(
    material: RailMaterial, good: FixingKind, bad: FixingKind
) -> None:
    assert _rail(material, good) == []
    assert _rail(material, bad) == ["fixing-unsuited:left"]
    assert good in SUITS[material]


def test_a_section_of_another_material_is_looked_at_by_itself() -> None:
    survey = Survey(rail="solid wood", section={"left": Section(), "foot": Section(rail="metal", name="end")})
    given = Job(survey=survey, cloth=Cloths(fixing=Fixing(kind="staples")))
    (found,) = fixing_findings(Checker(Ledger(given), RULER))
    assert found.id == "fixing-unsuited:foot"
    assert_says(found, "fixing-unsuited")


def test_a_skirt_that_comes_off_often_is_asked_about_before_it_is_stapled() -> None:
    assert _rail("solid wood", "staples", taken_off="often") == ["fixing-cleaning"]
    assert _rail("solid wood", "staples", taken_off="stays on") == []
    assert _rail("solid wood", "adhesive hook-and-loop", taken_off="often") == []


def test_nothing_is_found_while_the_fixing_is_not_chosen() -> None:
    bare = Job(survey=Survey(rail="metal", section={"left": Section()}))
    assert list(fixing_findings(Checker(Ledger(bare), RULER))) == []
