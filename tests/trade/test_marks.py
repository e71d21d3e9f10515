"""Marks divide the gathered part equally, each measured from one end."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from wizard.trade.figures import GIVEN, Figure, Ledger
from wizard.trade.lengths import ZERO, Length
from wizard.trade.model import Job
from wizard.trade.parts import LONGEST_PART, mark_figures, marks_of, parts_in

lengths = st.fractions(min_value=Fraction(1, 16), max_value=400, max_denominator=64).map(Length)
ends = st.fractions(min_value=0, max_value=6, max_denominator=16).map(Length)


def inches(text: str) -> Length:
    return Length(sum(Fraction(each) for each in text.split()))


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
