"""Parts: a section whole or split at what is in the way, its drops, its gathered length and flat width, its marks."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.trade.sample_jobs import inches, known, section, small, surveyed, with_section
from wizard.trade.drops_and_cut_lengths import Line
from wizard.trade.job_fields import Fullness, Job, Obstacle
from wizard.trade.lengths import ZERO, Length
from wizard.trade.make_plan import make_plan
from wizard.trade.parts import LONGEST_PART, marks_of, parts_in
from wizard.trade.plan_records import Part, Plan

LEG = Obstacle(kind="centre leg", at=inches(30), width=inches(3), do="split here", overlap=inches(2))
DROPS = (inches(11), inches("11 3/4"), inches(12))


def part(job: Job, part_id: str = "left") -> Part:
    return next(each for each in make_plan(job).parts if each.id == part_id)


def left(**more: object) -> Part:
    return part(with_section(small(), "left", **more))


# Drops: from readings to the finished drop, level or along the floor.
def uneven(**more: object) -> Job:
    """The left floor falls by an inch towards the foot, 1/8 in of daylight is wanted."""
    return surveyed(with_section(small(), "left", drop=DROPS, **more), floor_gap=inches("1/8"))


def test_a_level_hem_is_the_least_reading_plus_raise_less_daylight_and_shows_what_the_others_exceed_it_by() -> None:
    assert part(uneven(hem_line="level", raised=inches("1/4"))).drop.value == inches("11 1/8")
    # A rug laid after the drops were read raises the hem by its thickness.
    for rug, under in ((None, ZERO), (inches("3/8"), inches("3/8"))):
        plan = make_plan(uneven(hem_line="level", rug=rug))
        readings = plan.parts[0].readings
        assert {each.finished for each in readings} == {plan.parts[0].drop.value} == {inches("10 7/8") - under}
        assert [each.gap - under for each in readings] == [inches("1/8"), inches("7/8"), inches("1 1/8")]
        gap = plan.figures.get("section.left.gap")
        assert (gap and gap.value) == (rug and inches("1/2"))


def test_a_hem_that_follows_the_floor_is_cut_at_the_greatest_drop_and_shows_the_same_daylight_everywhere() -> None:
    found = part(uneven(hem_line="follow the floor"))
    assert found.drop.value == inches("11 7/8")
    assert [each.finished for each in found.readings] == [inches("10 7/8"), inches("11 5/8"), inches("11 7/8")]
    assert {each.gap for each in found.readings} == {inches("1/8")}


def test_readings_lie_where_they_are_said_to_and_the_others_equally_spaced_from_end_to_end() -> None:
    five, stated = left(drop=(inches(12),) * 5), left(drop_at=(None, inches(30)))
    assert [each.at for each in five.readings] == [inches(0), inches(19), inches(38), inches(57), inches(76)]
    assert [each.at for each in stated.readings] == [inches(0), inches(30), inches(76)]


@pytest.mark.parametrize(
    ("standard", "highest", "level"),
    [("inches", inches("12 1/4"), True), ("inches", inches("12 5/16"), False),
     ("metric", inches(12) + Length.of(6, "mm"), True), ("metric", inches(12) + Length.of(7, "mm"), False)],
)  # fmt: skip
def test_a_floor_within_tolerance_takes_a_level_hem_unasked_and_one_over_it_wants_a_choice(
    standard: str, highest: Length, level: bool
) -> None:
    plan = make_plan(with_section(small(standard=standard), "left", drop=(inches(12), highest, inches("12 1/16"))))
    assert plan.parts[0].drop.value == (inches(12) if level else None)
    assert [need.key for need in plan.missing] == ([] if level else ["survey.section.left.hem_line"])
    assert level == ("floor-uneven:left" not in {each.id for each in plan.findings})


@pytest.mark.parametrize(("drops", "holes"), [((12, None, 12), "2"), ((12,), "23")])
def test_a_drop_that_is_not_read_yet_is_named_and_leaves_the_drop_open(
    drops: tuple[int | None, ...], holes: str
) -> None:
    plan = make_plan(with_section(small(), "left", drop=tuple(each and inches(each) for each in drops)))
    assert plan.parts[0].drop.value is None
    assert [need.key for need in plan.missing] == [f"survey.section.left.drop.{hole}" for hole in holes]
    assert [each.drop.value for each in plan.parts if each.id == "foot"] == [inches(10)]


def test_a_line_is_straight_between_its_points_and_level_beyond_them_and_greatest_anywhere_on_a_stretch() -> None:
    line = Line(((inches(10), inches(11)), (inches(30), inches(13))))
    at = [line.at(inches(x)) for x in (0, 10, 15, 30, 50)]
    assert at == [inches(11), inches(11), inches("11 1/2"), inches(13), inches(13)]
    line = Line(((inches(0), inches(10)), (inches(20), inches(14)), (inches(40), inches(9))))
    assert [line.greatest(inches(a), inches(b)) for a, b in ((10, 30), (0, 10))] == [inches(14), inches(12)]


def test_the_drop_at_a_mark_is_measured_along_the_run_behind_the_return() -> None:
    fallen = section(76, 11, 12, 13, hem_line="follow the floor", left_end="returns", left_return=inches(4))
    marks = {mark.tape: mark.drop for mark in part(surveyed(small(), section={"left": fallen})).marks}
    # G = 80 in in 8 parts of 10 in; the mark at 40 in lies 36 in along a run that falls 2 in over 76 in.
    assert marks[inches(40)] == inches(11) + Length(Fraction(2 * 36, 76))
    assert (marks[inches(0)], marks[inches(80)]) == (inches(11), inches(13))


# Gathers: gathered length, flat width, tape, and the fullness as made.
@pytest.mark.parametrize(
    ("ends", "figure", "length"),
    [
        ({"left_end": "returns", "left_return": inches(1), "right_end": "overlaps", "right_return": inches(2)},
         "gathered", "79"),
        ({"left_end": "returns", "left_return": inches(2)}, "flat", "195"),
        ({"left_end": "returns", "left_return": inches(2), "returns_flat": True}, "flat", "192"),
        ({"left_end": "overlaps", "left_return": inches(2), "returns_flat": True}, "flat", "195"),
        ({"run": (inches("80 1/2"),) * 2}, "tape", "82 1/2"),
        ({"run": (inches(76), inches(75))}, "run", "76"),
    ],
)  # fmt: skip
def test_what_ends_and_readings_make_of_a_section(ends: dict[str, object], figure: str, length: str) -> None:
    """Returns gather too, unless they are left flat; an overlap always does. A tape takes a turn under at each end."""
    assert getattr(left(**ends), figure).value == inches(length)


def test_a_flat_section_takes_the_shorter_reading_and_what_is_not_known_leaves_lengths_open() -> None:
    job = replace(small(), fullness=Fullness(want=Fraction(1)))
    for other, run in ((75, 75), (77, 76)):
        assert part(with_section(job, "left", run=(inches(76), inches(other)))).run.value == inches(run)
    unsaid = left(left_end=None)
    assert unsaid.run.value == inches(76)
    assert [need.key for need in unsaid.gathered.needs] == ["survey.section.left.left_end"]
    assert part(replace(small(), fullness=Fullness(want=Fraction(1, 2)))).flat.value is None


def test_the_fullness_as_made_is_what_the_pieces_give() -> None:
    job = replace(small(), fullness=Fullness(want=Fraction(2), joins="part widths"), ruler=inches(1))
    made = part(with_section(job, "left", run=(inches("76 1/4"),) * 2))
    # W = 152 1/2, A = 154 1/2 goes up to 155 on a ruler of whole inches: the flat width as made is 153
    assert (made.flat.value, made.flat_made.value) == (inches("152 1/2"), inches(153))
    assert made.fullness.value == Fraction(153) / Fraction("76.25")


@settings(max_examples=20, deadline=None)
@given(
    runs=st.lists(st.integers(20 * 16, 120 * 16), min_size=1, max_size=3),
    fullness=st.fractions(Fraction(1), Fraction(3), max_denominator=40),
)
def test_rounded_pieces_still_make_the_section(runs: list[int], fullness: Fraction) -> None:
    sides = zip(("left", "foot", "right"), runs, strict=False)
    sections = {side: section(str(Fraction(run, 16)), 12) for side, run in sides}
    for each in make_plan(replace(surveyed(small(), section=sections), fullness=Fullness(want=fullness))).parts:
        assert known(each.flat.value) <= known(each.flat_made.value) < known(each.flat.value) + inches("1/16")
        assert each.fullness.value is not None
        assert each.fullness.value >= fullness


# A section split at something in the way.
def split(side: str, **more: object) -> Plan:
    one = replace(section(76, 12, in_the_way={"leg": LEG}), **more)
    return make_plan(surveyed(small(), section={side: one}))


@pytest.mark.parametrize(("side", "first"), [("left", 31), ("right", 47), ("foot", 31), ("head", 47)])
def test_a_split_is_read_from_the_head_or_the_beds_left_and_its_parts_overlap(side: str, first: int) -> None:
    plan = split(side)
    assert [each.id for each in plan.parts] == [f"{side}/1", f"{side}/2"]
    assert [each.run.value for each in plan.parts] == [inches(first), inches(78 - first)]


def test_a_part_has_the_readings_that_lie_on_it_from_its_own_end() -> None:
    # By hand: 11, 11 3/4 and 12 in at 0, 38 and 76 in; the parts run from 0 to 31 and from 29 to 76 in. At 31 in the
    # floor lies 11 + 3/4 x 31/38 in below the rail, at 29 in 11 + 3/4 x 29/38 in.
    first, second = split("left", drop=DROPS, hem_line="follow the floor").parts
    at_31, at_29 = (inches(11) + inches("3/4") * Fraction(place, 38) for place in (31, 29))
    read = [[(each.at, each.reading, each.between) for each in part.readings] for part in (first, second)]
    assert read == [
        [(inches(0), inches(11), False), (inches(31), at_31, True)],
        [(inches(0), at_29, True), (inches(9), inches("11 3/4"), False), (inches(47), inches(12), False)],
    ]
    for part in (first, second):
        assert part.drop.value == max(each.finished for each in part.readings)
    level, _ = split("left", drop=DROPS, hem_line="level").parts
    assert {each.finished for each in level.readings} == {level.drop.value}
    assert level.readings[-1].gap - level.readings[0].gap == inches("3/4") * Fraction(31, 38)


def test_a_part_that_follows_the_floor_is_cut_at_its_own_greatest_drop() -> None:
    drops = (inches(10), inches(11), inches(12))
    leg = {"leg": replace(LEG, at=inches(38))}
    first, second = split("left", drop=drops, hem_line="follow the floor", in_the_way=leg).parts
    # the first part ends at 39 in, one inch beyond the middle reading: 11 in + 1 in over 38 in
    assert (first.drop.value, second.drop.value) == (inches(11) + inches(1) / 38, inches(12))


def test_a_split_keeps_the_returns_at_the_ends_of_the_section() -> None:
    plan = split("left", left_end="returns", left_return=inches(1), right_end="overlaps", right_return=inches(3))
    assert [each.gathered.value for each in plan.parts] == [inches(32), inches(50)]
    assert [(each.left_is, each.right_is) for each in plan.parts] == [("head end", "split"), ("split", "foot end")]


@pytest.mark.parametrize("leaf", ["at", "overlap"])
def test_a_split_that_is_not_all_known_names_what_it_waits_for(leaf: str) -> None:
    plan = make_plan(with_section(small(), "left", in_the_way={"leg": replace(LEG, **{leaf: None})}))
    assert [need.key for need in plan.missing] == [f"survey.section.left.in_the_way.leg.{leaf}"]


def test_parts_come_in_the_order_left_foot_right_head_then_as_entered_without_those_switched_off() -> None:
    sides = {"bay": None, "head": "head", "a": "right", "foot": "foot", "b": "left"}
    plan = make_plan(surveyed(small(), section={each: section(50, 12, side=side) for each, side in sides.items()}))
    assert [each.id for each in plan.parts] == ["b", "foot", "a", "head", "bay"]
    assert [need.key for need in plan.missing] == ["survey.section.bay.side"]
    job = with_section(small(), "foot", on=False)
    assert [each.id for each in make_plan(job).parts] == ["left", "right"]
    none = with_section(with_section(job, "left", on=False), "right", on=False)
    assert "survey.section" in {need.key for need in make_plan(none).missing}


# Marks divide the gathered part equally, each measured from one end.
lengths = st.fractions(min_value=Fraction(1, 16), max_value=400, max_denominator=64).map(Length)
ends = st.fractions(min_value=0, max_value=6, max_denominator=16).map(Length)


@given(lengths)
def test_parts_are_the_least_power_of_two_with_a_part_of_twelve_inches_or_less(gathered: Length) -> None:
    parts = parts_in(gathered)
    assert parts.bit_count() == 1
    assert gathered / parts <= LONGEST_PART
    assert parts == 1 or gathered / (parts // 2) > LONGEST_PART
    assert (parts_in(inches("24")), parts_in(inches("24 1/16"))) == (2, 4)


@given(lengths, st.fractions(min_value=1, max_value=4, max_denominator=20), ends, ends)
def test_every_mark_lies_inside_its_section_and_the_spaces_are_equal(
    gathers: Length, fullness: Fraction, left: Length, right: Length
) -> None:
    gathered = gathers + left + right
    flat = gathers * fullness + left + right
    marks = marks_of(gathered, flat, left, right)
    assert [each.number for each in marks] == list(range(len(marks)))
    assert (marks[0].tape, marks[0].flat) == (ZERO, ZERO)
    assert (marks[-1].tape, marks[-1].flat) == (gathered, flat)
    inner = [each for each in marks if left <= each.tape <= gathered - right]
    pairs = list(pairwise(inner))
    assert {after.tape - before.tape for before, after in pairs} == {gathers / parts_in(gathers)}
    assert {after.flat - before.flat for before, after in pairs} == {gathers * fullness / parts_in(gathers)}


def test_a_return_left_flat_is_not_divided_and_has_a_mark_where_gathering_begins() -> None:
    marks = marks_of(inches("25"), inches("61"), left_flat=inches("1"))
    assert [(each.tape, each.flat) for each in marks] == [
        (inches(tape), inches(flat)) for tape, flat in ((0, 0), (1, 1), (13, 31), (25, 61))
    ]
    assert marks_of(inches("2"), inches("2"), inches("1"), inches("1")) == (), "nothing is left to gather"


def test_marks_are_worked_from_the_end_each_with_its_drop_on_a_hem_along_the_floor() -> None:
    marks = marks_of(inches("80 1/2"), inches("201 1/4"))
    assert marks[7].flat == Length(Fraction(201 * 4 + 1, 4) * Fraction(7, 8)), "no rounded spacing is added up"
    marks = marks_of(inches("24"), inches("60"), drop_at=lambda at: inches("10") + at / 24)
    assert [each.drop for each in marks] == [inches(at) for at in ("10", "10 1/2", "11")]
    long = Length(10**30)
    assert parts_in(long) > 10**20
    assert marks_of(long, long * 2) == (), "a mistyped length is counted, and not written out mark by mark"
