"""Parts: a section is made whole, or split at something in the way."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.trade.sample_jobs import inches, section, small, with_section
from wizard.trade.figures import GIVEN, Figure, Ledger
from wizard.trade.job_fields import Job, Obstacle
from wizard.trade.lengths import ZERO, Length
from wizard.trade.make_plan import make_plan
from wizard.trade.parts import LONGEST_PART, mark_figures, marks_of, parts_in
from wizard.trade.plan_records import Plan

LEG = Obstacle(kind="centre leg", at=inches(30), width=inches(3), do="split here", overlap=inches(2))


def split(side: str, **more: object) -> Plan:
    job = small()
    one = replace(section(76, 12, in_the_way={"leg": LEG}), **more)
    return make_plan(replace(job, survey=replace(job.survey, section={side: one})))


def test_a_split_section_is_made_as_two_parts_that_lie_over_each_other() -> None:
    plan = split("left")
    assert [part.id for part in plan.parts] == ["left/1", "left/2"]
    assert [part.run.value for part in plan.parts] == [inches(31), inches(47)]


def test_a_part_has_the_readings_that_lie_on_it_from_its_own_end() -> None:
    # By hand: 11, 11 3/4 and 12 in at 0, 38 and 76 in; the parts run from 0 to 31 and from 29 to 76 in. At 31 in the
    # floor lies 11 + 3/4 x 31/38 in below the rail, at 29 in 11 + 3/4 x 29/38 in.
    drops = (inches(11), inches("11 3/4"), inches(12))
    first, second = split("left", drop=drops, hem_line="follow the floor").parts
    at_31, at_29 = (inches(11) + inches("3/4") * Fraction(place, 38) for place in (31, 29))
    assert [(each.at, each.reading, each.between) for each in first.readings] == [
        (inches(0), inches(11), False), (inches(31), at_31, True),
    ]  # fmt: skip
    assert [(each.at, each.reading, each.between) for each in second.readings] == [
        (inches(0), at_29, True), (inches(9), inches("11 3/4"), False), (inches(47), inches(12), False),
    ]  # fmt: skip
    assert [part.drop.value for part in (first, second)] == [max(each.finished for each in part.readings)
                                                            for part in (first, second)]  # fmt: skip


def test_a_level_hem_shows_at_the_end_of_a_part_the_daylight_of_the_floor_there() -> None:
    drops = (inches(11), inches("11 3/4"), inches(12))
    first, _ = split("left", drop=drops, hem_line="level").parts
    assert {each.finished for each in first.readings} == {first.drop.value}
    assert first.readings[-1].gap - first.readings[0].gap == inches("3/4") * Fraction(31, 38)


def test_a_split_is_read_from_the_head_so_on_the_right_it_counts_from_the_other_end() -> None:
    assert [part.run.value for part in split("right").parts] == [inches(47), inches(31)]


def test_a_split_on_the_foot_is_read_from_the_beds_left() -> None:
    assert [part.run.value for part in split("foot").parts] == [inches(31), inches(47)]
    assert [part.run.value for part in split("head").parts] == [inches(47), inches(31)]


def test_a_split_keeps_the_returns_at_the_ends_of_the_section() -> None:
    plan = split("left", left_end="returns", left_return=inches(1), right_end="overlaps", right_return=inches(3))
    assert [part.gathered.value for part in plan.parts] == [inches(32), inches(50)]
    assert [(part.left_is, part.right_is) for part in plan.parts] == [("head end", "split"), ("split", "foot end")]


def test_a_part_that_follows_the_floor_is_cut_at_its_own_greatest_drop() -> None:
    job = small()
    fallen = section(76, 10, 11, 12, hem_line="follow the floor", in_the_way={"leg": replace(LEG, at=inches(38))})
    plan = make_plan(replace(job, survey=replace(job.survey, section={"left": fallen})))
    # the first part ends at 39 in, one inch beyond the middle reading: 11 in + 1 in over 38 in
    assert plan.parts[0].drop.value == inches(11) + inches(1) / 38
    assert plan.parts[1].drop.value == inches(12)


def test_a_split_that_leaves_a_part_without_length_stops_the_plan_and_says_so() -> None:
    plan = make_plan(with_section(small(), "left", in_the_way={"leg": replace(LEG, at=inches("1/2"))}))
    assert "split-outside:left" in {each.id for each in plan.findings if each.level == "stop"}
    assert not plan.complete


@pytest.mark.parametrize("leaf", ["at", "overlap"])
def test_a_split_that_is_not_all_known_names_what_it_waits_for(leaf: str) -> None:
    plan = make_plan(with_section(small(), "left", in_the_way={"leg": replace(LEG, **{leaf: None})}))
    assert [need.key for need in plan.missing] == [f"survey.section.left.in_the_way.leg.{leaf}"]


def test_parts_come_in_the_order_left_foot_right_head_then_as_entered() -> None:
    job = small()
    sections = {each: section(50, 12, side=side) for each, side in
                {"bay": None, "head": "head", "a": "right", "foot": "foot", "b": "left"}.items()}  # fmt: skip
    plan = make_plan(replace(job, survey=replace(job.survey, section=sections)))
    assert [part.id for part in plan.parts] == ["b", "foot", "a", "head", "bay"]
    assert [need.key for need in plan.missing] == ["survey.section.bay.side"]


def test_a_section_switched_off_takes_no_part() -> None:
    plan = make_plan(with_section(small(), "foot", on=False))
    assert [part.id for part in plan.parts] == ["left", "right"]


def test_all_sections_switched_off_want_a_section() -> None:
    job = small()
    for each in job.survey.section:
        job = with_section(job, each, on=False)
    assert "survey.section" in {need.key for need in make_plan(job).missing}


# Marks divide the gathered part equally, each measured from one end.
lengths = st.fractions(min_value=Fraction(1, 16), max_value=400, max_denominator=64).map(Length)
ends = st.fractions(min_value=0, max_value=6, max_denominator=16).map(Length)


@given(lengths)
def test_parts_are_the_least_power_of_two_with_a_part_of_twelve_inches_or_less(gathered: Length) -> None:
    parts = parts_in(gathered)
    assert parts.bit_count() == 1
    assert gathered / parts <= LONGEST_PART
    assert parts == 1 or gathered / (parts // 2) > LONGEST_PART


def test_a_part_of_exactly_twelve_inches_is_not_halved_again() -> None:
    assert parts_in(inches("24")) == 2
    assert parts_in(inches("24 1/16")) == 4


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
    assert [each.tape for each in marks] == [inches(at) for at in ("0", "1", "13", "25")]
    assert [each.flat for each in marks] == [inches(at) for at in ("0", "1", "31", "61")]


def test_marks_are_worked_from_the_end_and_never_by_adding_up_a_rounded_spacing() -> None:
    marks = marks_of(inches("80 1/2"), inches("201 1/4"))
    assert marks[7].flat == Length(Fraction(201 * 4 + 1, 4) * Fraction(7, 8))


def test_a_hem_that_follows_the_floor_has_its_drop_at_each_place_on_the_tape() -> None:
    marks = marks_of(inches("24"), inches("60"), drop_at=lambda at: inches("10") + at / 24)
    assert [each.drop for each in marks] == [inches(at) for at in ("10", "10 1/2", "11")]


def test_nothing_is_marked_when_flat_ends_leave_nothing_to_gather() -> None:
    assert marks_of(inches("2"), inches("2"), inches("1"), inches("1")) == ()


def _figure(id: str, value: Length | None) -> Figure[Length]:
    return Figure(id, id, value, (), GIVEN)


def _figures(gathered: str, flat: str | None) -> Ledger:
    ledger = Ledger(Job())
    mark_figures(
        ledger,
        "left",
        _figure("gathered", inches(gathered)),
        _figure("flat", None if flat is None else inches(flat)),
        left_flat=_figure("left return", inches("1")),
        right_flat=_figure("right return", ZERO),
    )
    return ledger


def test_the_ledger_keeps_the_parts_and_both_spacings() -> None:
    figures = _figures("25", "61").figures
    assert figures["part.left.marks"].value == 2
    assert figures["part.left.mark_spacing_tape"].value == inches("12")
    assert figures["part.left.mark_spacing_flat"].value == inches("30")


def test_the_tape_can_be_marked_before_the_flat_width_is_known() -> None:
    figures = _figures("25", None).figures
    assert figures["part.left.mark_spacing_tape"].value == inches("12")
    assert figures["part.left.mark_spacing_flat"].value is None


def test_a_return_longer_than_the_tape_leaves_no_spacing() -> None:
    assert _figures("1", "1").figures["part.left.mark_spacing_tape"].value is None


def test_a_mistyped_length_is_counted_and_not_written_out_mark_by_mark() -> None:
    long = Length(10**30)
    assert parts_in(long) > 10**20
    assert marks_of(long, long * 2) == ()
