"""Exact lengths: what they may be made of, how they add up, how they round, and how they are written."""

from __future__ import annotations

import copy
import json
import pickle
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wizard.project.parse import read_length, read_number
from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project, put_many
from wizard.trade.formatting import How, Ruler, both, exact, how_shown, length_json, mixed, money, number, shown
from wizard.trade.lengths import UNITS, ZERO, Length, ceiling, exact_number, round_down, round_nearest, round_up, total
from wizard.trade.plan_records import Plan

NUMBERS = st.fractions(min_value=-(10**6), max_value=10**6, max_denominator=10**6)
LENGTHS = NUMBERS.map(Length)
STEPS = st.fractions(min_value=Fraction(1, 1000), max_value=1000, max_denominator=1000).map(Length)
SIXTEENTH = Length(Fraction(1, 16))
ONE: Any = Length(1)


@pytest.mark.parametrize("value", [1.0, 0.5, True, "1", Decimal(1)])
def test_a_length_is_made_of_exact_numbers_and_scaled_by_them_only(value: Any) -> None:
    makers = (Length, exact_number, lambda it: Length.of(it, "cm"), lambda it: ONE * it, lambda it: ONE / it)
    for made in makers:
        with pytest.raises(TypeError, match=f"exact numbers only, not {type(value).__name__}"):
            made(value)


@pytest.mark.parametrize("sum_of", [lambda: ONE + 1, lambda: 1 - ONE, lambda: ONE < 2])
def test_a_length_and_a_bare_number_do_not_add_up_or_compare(sum_of: Callable[[], object]) -> None:
    with pytest.raises(TypeError, match=r"unsupported operand|not supported between"):
        sum_of()


def test_a_length_is_no_number_cannot_be_changed_and_knows_its_units() -> None:
    assert ONE != 1
    assert Length(Fraction(2, 2)) == ONE
    with pytest.raises(AttributeError, match="a Length cannot be changed"):
        ONE.inches = Fraction(2)
    with pytest.raises(KeyError, match="furlong"):
        Length.of(1, "furlong")
    assert Length(54) / Length.of(3, "ft") == Fraction(3, 2), "a length by a length is a plain number"
    assert total([]) == ZERO


@given(LENGTHS)
def test_a_length_survives_copying_and_pickling(length: Length) -> None:
    assert pickle.loads(pickle.dumps(length)) == copy.deepcopy(length) == length
    assert hash(copy.copy(length)) == hash(length)
    assert length.mm == length.in_unit("mm")


@given(NUMBERS, st.sampled_from(list(UNITS)))
def test_a_length_gives_back_its_amount_in_the_unit_it_was_made_in(amount: Fraction, unit: str) -> None:
    assert Length.of(amount, unit).in_unit(unit) == amount


@given(LENGTHS, LENGTHS, NUMBERS.filter(bool))
def test_lengths_add_scale_and_compare_as_their_inches_do(one: Length, other: Length, number: Fraction) -> None:
    assert (one + other).inches == one.inches + other.inches
    assert one - other == one + -other
    assert (one * number).inches == one.inches * number
    assert number * one / number == one
    assert total([one, other, -one]) == other
    assert abs(one) == max(one, -one)
    assert (one < other) == (one.inches < other.inches)
    assert (one <= other) == (not one > other)
    assert (one >= other) == (not one < other)
    assert bool(one) == (one != ZERO)
    assert number <= ceiling(number) < number + 1


@given(LENGTHS, STEPS)
def test_cuts_round_up_usable_lengths_down_by_less_than_a_step_and_marks_to_the_nearest(
    length: Length, step: Length
) -> None:
    up, down, near = round_up(length, step), round_down(length, step), round_nearest(length, step)
    assert down <= length <= up
    assert up - length < step
    assert length - down < step
    assert (up / step).denominator == (down / step).denominator == 1
    assert abs(near - length) <= step / 2
    assert near in (up, down)


@pytest.mark.parametrize(("thirty_seconds", "sixteenths"), [(1, 0), (3, 2), (5, 2), (7, 4), (-1, 0), (-3, -2)])
def test_a_mark_half_way_goes_to_the_even_one(thirty_seconds: int, sixteenths: int) -> None:
    assert round_nearest(Length(Fraction(thirty_seconds, 32)), SIXTEENTH) == SIXTEENTH * sixteenths
    for rounded in (round_up, round_down, round_nearest):
        assert rounded(Length(Fraction(201, 16)), SIXTEENTH) == Length(Fraction(201, 16)), "on a mark it stays there"
    assert round_down(Length(55) * Fraction(98, 100), SIXTEENTH) == Length(53 + Fraction(14, 16))


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


def measured(plan: Plan) -> tuple[object, ...]:
    """Everything but the unit itself."""
    figures = {id: figure.value for id, figure in plan.figures.items() if id != "show"}
    parts = [(part.marks, part.fixings) for part in plan.parts]
    layers, findings = [layer.cutting for layer in plan.layers], [each.id for each in plan.findings]
    return figures, layers, parts, set(plan.basis.nearest_steps()), findings, plan.missing


@settings(max_examples=15, deadline=None)
@given(
    sides=st.dictionaries(
        st.sampled_from(("left", "foot", "right")), st.tuples(st.integers(400, 1400), st.integers(100, 260)), min_size=1
    ),
    fullness=st.sampled_from(("2", "2.25", "2 1/3", "2.5", "3")),
)
def test_inches_and_millimetres_give_the_same_plan(sides: dict[str, tuple[int, int]], fullness: str) -> None:
    inch, metric = planned("in", sides, fullness), planned("mm", sides, fullness)
    assert inch.missing == ()
    assert measured(inch) == measured(metric)


# How lengths, numbers and money are written.
INCH_JOB = Ruler("in", Length(Fraction(1, 16)))
FEET_JOB = Ruler("ft", Length(Fraction(1, 8)))
CM_JOB = Ruler("cm", Length.of(1, "mm"))
MM_JOB = Ruler("mm", Length.of(1, "mm"))
READABLE = st.fractions(min_value=0, max_value=9999, max_denominator=10**4)
"""At most fifteen figures, as many as are read."""
RULERS = st.sampled_from([INCH_JOB, FEET_JOB, CM_JOB, MM_JOB])


@pytest.mark.parametrize(
    ("inches", "unit", "text"),
    [
        ("25/2", "in", "12 1/2 in"), ("12", "in", "12 in"), ("1/16", "in", "1/16 in"), ("37/3", "in", "12 1/3 in"),
        ("-25/2", "in", "-12 1/2 in"), ("161/2", "ft", "6 ft 8 1/2 in"), ("72", "ft", "6 ft"),
        ("17/2", "ft", "8 1/2 in"), ("-161/2", "ft", "-6 ft 8 1/2 in"), ("156", "yd", "4 1/3 yd"),
        ("81", "yd", "2 1/4 yd"), ("144", "yd", "4 yd"), ("9/2", "yd", "1/8 yd"), ("161/2", "yd", "2 yd 8 1/2 in"),
        ("1/2", "yd", "1/2 in"), ("25/2", "mm", "317.5 mm"), ("25/2", "cm", "31.75 cm"), ("25/2", "m", "0.3175 m"),
        ("1/3", "cm", "127/150 cm"), ("-1/16", "mm", "-1.5875 mm"), *(("0", unit, f"0 {unit}") for unit in UNITS),
        # A decimal that would run on is written as a fraction instead.
        (Fraction(5, 127 * 2**12), "mm", "0.000244140625 mm"), (Fraction(5, 127 * 2**13), "mm", "1/8192 mm"),
    ],
)  # fmt: skip
def test_exact_writes_the_value_in_the_way_of_the_unit(inches: str, unit: str, text: str) -> None:
    assert exact(Length(Fraction(inches)), unit) == text


@given(READABLE)
def test_a_plain_number_reads_back(value: Any) -> None:
    assert read_number(number(value)) == read_number(mixed(value)) == value


@pytest.mark.parametrize(
    ("inches", "how", "text"),
    [
        ("201/16", "nearest", "12 9/16 in"), ("12.53", "nearest", "≈ 12 1/2 in"), ("12.53", "up", "≈ 12 9/16 in"),
        ("12.53", "down", "≈ 12 1/2 in"), ("1/32", "nearest", "≈ 0 in"), ("3/32", "nearest", "≈ 1/8 in"),
        ("5/32", "nearest", "≈ 1/8 in"), ("1/1000", "up", "≈ 1/16 in"), ("-12.53", "nearest", "≈ -12 1/2 in"),
        ("0", "up", "0 in"),
    ],
)  # fmt: skip
def test_shown_goes_to_the_ruler_mark_and_says_when_it_rounded(inches: str, how: How, text: str) -> None:
    assert shown(Length(Fraction(inches)), INCH_JOB, how) == text


@given(READABLE.map(Length), RULERS)
def test_shown_says_when_it_rounded_and_no_cut_is_short_nor_a_usable_width_long(length: Length, ruler: Ruler) -> None:
    texts = [shown(length, ruler, how) for how in ("nearest", "up", "down")]
    near, up, down = (read_length(text.removeprefix("≈ "), None, zero=True) for text in texts)
    assert texts[0].startswith("≈ ") == (near != length)
    assert abs(near - length) <= ruler.mark / 2
    assert down <= length <= up
    given_out = json.loads(json.dumps(length_json(length, ruler)))
    assert Length(Fraction(given_out["in"])) == Length.of(Fraction(given_out["mm"]), "mm") == length


@pytest.mark.parametrize(
    ("length", "ruler", "text"),
    [
        (Length(Fraction(97, 8)), INCH_JOB, "12 1/8 in · ≈ 308 mm"),
        (Length(Fraction(127, 10)), INCH_JOB, "≈ 12 11/16 in · ≈ 323 mm"),
        (Length(5), INCH_JOB, "5 in · 127 mm"),
        (Length(Fraction(161, 2)), FEET_JOB, "6 ft 8 1/2 in · ≈ 2045 mm"),
        (Length(0), INCH_JOB, "0 in · 0 mm"),
        (Length.of(292, "mm"), CM_JOB, "29.2 cm · ≈ 11 1/2 in"),
        (Length.of(292, "mm"), MM_JOB, "292 mm · ≈ 11 1/2 in"),
        (Length.of(127, "mm"), CM_JOB, "12.7 cm · 5 in"),
        (Length.of(Fraction("292.5"), "mm"), CM_JOB, "≈ 29.2 cm · ≈ 11 1/2 in"),
    ],
)
def test_an_inch_job_echoes_whole_millimetres_and_a_metric_one_sixteenths(
    length: Length, ruler: Ruler, text: str
) -> None:
    assert both(length, ruler) == text


def test_a_length_for_a_machine_is_exact_in_both_systems_with_its_text() -> None:
    assert length_json(Length(Fraction(25, 2)), INCH_JOB) == {"in": "25/2", "mm": "635/2", "text": "12 1/2 in"}
    assert length_json(Length(12), CM_JOB) == {"in": "12", "mm": "1524/5", "text": "≈ 30.5 cm"}


@given(st.decimals(min_value=0, max_value=10**12, places=4))
def test_a_number_is_a_decimal_where_it_ends_and_money_has_two_decimals_or_as_many_as_it_needs(amount: Decimal) -> None:
    numbers = {"5/2": "2.5", "7/3": "2 1/3", "2": "2", "1/3": "1/3", "1/40": "0.025", "-1/4": "-0.25", "0": "0"}
    assert {value: number(Fraction(value)) for value in numbers} == numbers
    sums = {"18.5": "18.50", "18": "18.00", "0.1250": "0.125", "0.1255": "0.1255", "1E+3": "1000.00", "-3": "-3.00"}
    assert {each: money(Decimal(each)) for each in sums} == sums
    assert money(Decimal(0)) == "0.00"
    assert Decimal(money(amount)) == amount


@pytest.mark.parametrize(
    ("how", "figures"),
    [
        ("sum", ["layer.face.roll"]),
        ("given", ["allowances.squaring"]),
        ("up", ["layer.face.cut.roll", "layer.face.used", "layer.face.cut.left/2", "layer.interlining.width.left",
                "part.left.tape"]),
        ("nearest", ["layer.face.on.roll", "part.tape.drop", "part.left.drop", "layer.face.usable",
                     "survey.section.roll.run.1"]),
    ],
)  # fmt: skip
def test_what_is_cut_or_bought_is_shown_rounded_up_and_all_else_to_the_nearest(how: str, figures: list[str]) -> None:
    assert {how_shown(figure) for figure in figures} == {how}
