"""Exact lengths: what they may be made of, how they add up and how they round."""

from __future__ import annotations

import copy
import pickle
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project, put_many
from wizard.trade.formatting import exact
from wizard.trade.lengths import (
    UNITS,
    ZERO,
    Length,
    ceiling,
    exact_number,
    round_down,
    round_nearest,
    round_up,
    total,
)
from wizard.trade.plan_records import Plan

NUMBERS = st.fractions(min_value=-(10**6), max_value=10**6, max_denominator=10**6)
LENGTHS = NUMBERS.map(Length)
STEPS = st.fractions(min_value=Fraction(1, 1000), max_value=1000, max_denominator=1000).map(Length)
SIXTEENTH = Length(Fraction(1, 16))
ONE: Any = Length(1)


@pytest.mark.parametrize("value", [1.0, True, "1", Decimal(1), None, 1j])
def test_a_length_is_made_of_exact_numbers_only(value: Any) -> None:
    with pytest.raises(TypeError, match=f"exact numbers only, not {type(value).__name__}"):
        Length(value)
    with pytest.raises(TypeError, match="exact numbers only"):
        Length.of(value, "cm")
    with pytest.raises(TypeError, match="exact numbers only"):
        exact_number(value)


@pytest.mark.parametrize("value", [0.5, True, "2", Decimal(2)])
def test_a_length_is_scaled_by_exact_numbers_only(value: Any) -> None:
    with pytest.raises(TypeError, match="exact numbers only"):
        Length(1) * value
    with pytest.raises(TypeError, match="exact numbers only"):
        Length(1) / value


@pytest.mark.parametrize("sum_of", [lambda: ONE + 1, lambda: 1 - ONE, lambda: ONE < 2])
def test_a_length_and_a_bare_number_do_not_add_up_or_compare(sum_of: Callable[[], object]) -> None:
    with pytest.raises(TypeError, match=r"unsupported operand|not supported between"):
        sum_of()


def test_a_length_is_no_number() -> None:
    assert Length(1) != 1
    assert Length(1) == Length(Fraction(2, 2))


def test_a_length_cannot_be_changed() -> None:
    with pytest.raises(AttributeError, match="a Length cannot be changed"):
        Length(1).inches = Fraction(2)  # type: ignore[misc]


def test_a_unit_that_is_none_of_ours_is_a_key_error() -> None:
    with pytest.raises(KeyError, match="furlong"):
        Length.of(1, "furlong")


@given(LENGTHS)
def test_a_length_survives_copying_and_pickling(length: Length) -> None:
    assert pickle.loads(pickle.dumps(length)) == copy.deepcopy(length) == length
    assert hash(copy.copy(length)) == hash(length)


@given(NUMBERS, st.sampled_from(list(UNITS)))
def test_a_length_gives_back_its_amount_in_the_unit_it_was_made_in(amount: Fraction, unit: str) -> None:
    assert Length.of(amount, unit).in_unit(unit) == amount


@given(LENGTHS)
def test_millimetres_are_the_same_either_way(length: Length) -> None:
    assert length.mm == length.in_unit("mm")


@given(LENGTHS, LENGTHS, NUMBERS.filter(bool))
def test_lengths_add_and_scale_as_their_inches_do(one: Length, other: Length, number: Fraction) -> None:
    assert (one + other).inches == one.inches + other.inches
    assert one - other == one + -other
    assert (one * number).inches == one.inches * number
    assert number * one / number == one
    assert total([one, other, -one]) == other
    assert abs(one) == max(one, -one)


@given(LENGTHS, LENGTHS)
def test_lengths_stand_in_the_order_of_their_inches(one: Length, other: Length) -> None:
    assert (one < other) == (one.inches < other.inches)
    assert (one <= other) == (not one > other)
    assert (one >= other) == (not one < other)
    assert bool(one) == (one != ZERO)


def test_a_length_by_a_length_is_a_plain_number() -> None:
    assert Length(54) / Length.of(3, "ft") == Fraction(3, 2)


def test_no_lengths_add_up_to_nothing() -> None:
    assert total([]) == ZERO


@given(NUMBERS)
def test_the_ceiling_is_the_least_whole_number_not_below(number: Fraction) -> None:
    assert number <= ceiling(number) < number + 1


@given(LENGTHS, STEPS)
def test_cuts_round_up_and_usable_lengths_down_by_less_than_a_step(length: Length, step: Length) -> None:
    up, down = round_up(length, step), round_down(length, step)

    assert down <= length <= up
    assert up - length < step
    assert length - down < step
    assert (up / step).denominator == (down / step).denominator == 1


@given(LENGTHS, STEPS)
def test_marks_round_to_the_nearest(length: Length, step: Length) -> None:
    near = round_nearest(length, step)

    assert abs(near - length) <= step / 2
    assert near in (round_up(length, step), round_down(length, step))


@pytest.mark.parametrize(("thirty_seconds", "sixteenths"), [(1, 0), (3, 2), (5, 2), (7, 4), (-1, 0), (-3, -2)])
def test_a_mark_half_way_goes_to_the_even_one(thirty_seconds: int, sixteenths: int) -> None:
    assert round_nearest(Length(Fraction(thirty_seconds, 32)), SIXTEENTH) == SIXTEENTH * sixteenths


@pytest.mark.parametrize("rounded", [round_up, round_down, round_nearest])
def test_what_stands_on_a_mark_stays_there(rounded: Callable[[Length, Length], Length]) -> None:
    assert rounded(Length(Fraction(201, 16)), SIXTEENTH) == Length(Fraction(201, 16))


def test_usable_width_after_shrinkage_is_never_rounded_up_to_a_width_that_is_not_there() -> None:
    shrunk = Length(55) * (1 - Fraction(2, 100))

    assert round_down(shrunk, SIXTEENTH) == Length(53 + Fraction(14, 16)) < shrunk < Length(54)


# A job in inches and the same job in millimetres: one plan, where ruler mark and shop step are the same lengths.
FIXED = {
    "survey.rail": "solid wood", "survey.floor": "carpet", "cloth.face.kind": "linen", "cloth.face.weight": "medium",
    "cloth.fixing.kind": "staples", "standard": "inches",
}  # fmt: skip
TYPED_LENGTHS = {
    "ruler": "1/16", "survey.rail_thickness": "1", "survey.floor_gap": "0", "cloth.face.width": "56",
    "cloth.face.step": "9/2", "cloth.fixing.spacing": "2", "cloth.tape.step": "36",
}  # fmt: skip


def planned(unit: str, sides: dict[str, tuple[int, int]], fullness: str) -> Plan:
    """A plan from typed text in one unit; runs and drops in sixteenths of an inch."""

    def typed(inches: Fraction) -> str:
        return exact(Length(inches), unit)

    values: dict[str, Any] = FIXED | {"show": unit, "fullness.want": fullness}
    values |= {key: typed(Fraction(text)) for key, text in TYPED_LENGTHS.items()}
    for side, (run, drop) in sides.items():
        key = f"survey.section.{side}"
        values |= {f"{key}.on": True, f"{key}.left_end": "stops", f"{key}.right_end": "stops"}
        values |= {f"{key}.run.{number}": typed(Fraction(run, 16)) for number in (1, 2)}
        values |= {f"{key}.drop.{number}": typed(Fraction(drop, 16)) for number in (1, 2, 3)}
    return plan_of(put_many(Project(), values))


def measured(plan: Plan) -> dict[str, Any]:
    """Every figure but the unit itself."""
    return {id: figure.value for id, figure in plan.figures.items() if id != "show"}


@settings(max_examples=15, deadline=None)
@given(
    sides=st.dictionaries(
        st.sampled_from(("left", "foot", "right")),
        st.tuples(st.integers(400, 1400), st.integers(100, 260)),
        min_size=1,
    ),
    fullness=st.sampled_from(("2", "2.25", "2 1/3", "2.5", "3")),
)
def test_inches_and_millimetres_give_the_same_plan(sides: dict[str, tuple[int, int]], fullness: str) -> None:
    inch, metric = planned("in", sides, fullness), planned("mm", sides, fullness)
    assert inch.missing == metric.missing == ()
    assert measured(inch) == measured(metric)
    assert [layer.cutting for layer in inch.layers] == [layer.cutting for layer in metric.layers]
    assert [part.marks for part in inch.parts] == [part.marks for part in metric.parts]
    assert [part.fixings for part in inch.parts] == [part.fixings for part in metric.parts]
    assert set(inch.basis.nearest_steps()) == set(metric.basis.nearest_steps())
    assert [each.id for each in inch.findings] == [each.id for each in metric.findings]
