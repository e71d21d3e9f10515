"""How lengths, numbers and money are written."""

import json
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wizard.project.parse import read_length, read_number
from wizard.trade.formatting import (
    How,
    Ruler,
    both,
    exact,
    how_shown,
    length_json,
    mixed,
    money,
    number,
    shown,
)
from wizard.trade.lengths import UNITS, Length

INCH_JOB = Ruler("in", Length(Fraction(1, 16)))
FEET_JOB = Ruler("ft", Length(Fraction(1, 8)))
CM_JOB = Ruler("cm", Length.of(1, "mm"))
MM_JOB = Ruler("mm", Length.of(1, "mm"))
NUMBERS = st.fractions(min_value=0, max_value=9999, max_denominator=10**4)
"""At most fifteen figures, as many as are read."""
LENGTHS = NUMBERS.map(Length)
RULERS = st.sampled_from([INCH_JOB, FEET_JOB, CM_JOB, MM_JOB])


@pytest.mark.parametrize(
    ("inches", "unit", "text"),
    [
        ("25/2", "in", "12 1/2 in"),
        ("12", "in", "12 in"),
        ("1/16", "in", "1/16 in"),
        ("0", "in", "0 in"),
        ("37/3", "in", "12 1/3 in"),
        ("-25/2", "in", "-12 1/2 in"),
        ("161/2", "ft", "6 ft 8 1/2 in"),
        ("72", "ft", "6 ft"),
        ("17/2", "ft", "8 1/2 in"),
        ("0", "ft", "0 ft"),
        ("-161/2", "ft", "-6 ft 8 1/2 in"),
        ("156", "yd", "4 1/3 yd"),
        ("81", "yd", "2 1/4 yd"),
        ("144", "yd", "4 yd"),
        ("9/2", "yd", "1/8 yd"),
        ("161/2", "yd", "2 yd 8 1/2 in"),
        ("1/2", "yd", "1/2 in"),
        ("0", "yd", "0 yd"),
        ("25/2", "mm", "317.5 mm"),
        ("25/2", "cm", "31.75 cm"),
        ("25/2", "m", "0.3175 m"),
        ("1/3", "cm", "127/150 cm"),
        ("0", "m", "0 m"),
        ("-1/16", "mm", "-1.5875 mm"),
    ],
)
def test_exact_writes_the_value_in_the_way_of_the_unit(inches: str, unit: str, text: str) -> None:
    assert exact(Length(Fraction(inches)), unit) == text


@pytest.mark.parametrize(("amount", "text"), [("29.2", "29.2 cm"), ("88/3", "29 1/3 cm"), ("30", "30 cm")])
def test_exact_writes_centimetres_as_a_decimal_where_it_ends(amount: Fraction, text: str) -> None:
    assert exact(Length.of(Fraction(amount), "cm"), "cm") == text


def test_a_decimal_that_would_run_on_is_written_as_a_fraction_instead() -> None:
    assert exact(Length.of(Fraction(1, 2**12), "mm"), "mm") == "0.000244140625 mm"
    assert exact(Length.of(Fraction(1, 2**13), "mm"), "mm") == "1/8192 mm"


@given(NUMBERS)
def test_a_plain_number_reads_back(value: Any) -> None:
    assert read_number(number(value)) == read_number(mixed(value)) == value


@pytest.mark.parametrize(
    ("inches", "how", "text"),
    [
        ("201/16", "nearest", "12 9/16 in"),
        ("12.53", "nearest", "≈ 12 1/2 in"),
        ("12.53", "up", "≈ 12 9/16 in"),
        ("12.53", "down", "≈ 12 1/2 in"),
        ("1/32", "nearest", "≈ 0 in"),
        ("3/32", "nearest", "≈ 1/8 in"),
        ("5/32", "nearest", "≈ 1/8 in"),
        ("1/1000", "up", "≈ 1/16 in"),
        ("-12.53", "nearest", "≈ -12 1/2 in"),
        ("0", "up", "0 in"),
    ],
)
def test_shown_goes_to_the_ruler_mark_and_says_when_it_rounded(inches: str, how: How, text: str) -> None:
    assert shown(Length(Fraction(inches)), INCH_JOB, how) == text


@given(LENGTHS, RULERS)
def test_shown_has_its_sign_only_when_it_rounded(length: Length, ruler: Ruler) -> None:
    text = shown(length, ruler)
    printed = read_length(text.removeprefix("≈ "), None, zero=True)

    assert text.startswith("≈ ") == (printed != length)
    assert abs(printed - length) <= ruler.mark / 2


@given(LENGTHS, RULERS)
def test_a_cut_is_never_shown_short_nor_a_usable_width_long(length: Length, ruler: Ruler) -> None:
    up, down = (read_length(shown(length, ruler, how).removeprefix("≈ "), None, zero=True) for how in ("up", "down"))

    assert down <= length <= up


@pytest.mark.parametrize(
    ("inches", "ruler", "text"),
    [
        ("97/8", INCH_JOB, "12 1/8 in · ≈ 308 mm"),
        ("127/10", INCH_JOB, "≈ 12 11/16 in · ≈ 323 mm"),
        ("5", INCH_JOB, "5 in · 127 mm"),
        ("161/2", FEET_JOB, "6 ft 8 1/2 in · ≈ 2045 mm"),
        ("0", INCH_JOB, "0 in · 0 mm"),
    ],
)
def test_an_inch_job_echoes_whole_millimetres_too(inches: str, ruler: Ruler, text: str) -> None:
    assert both(Length(Fraction(inches)), ruler) == text


@pytest.mark.parametrize(
    ("cm", "ruler", "text"),
    [
        ("29.2", CM_JOB, "29.2 cm · ≈ 11 1/2 in"),
        ("29.2", MM_JOB, "292 mm · ≈ 11 1/2 in"),
        ("12.7", CM_JOB, "12.7 cm · 5 in"),
        ("29.25", CM_JOB, "≈ 29.2 cm · ≈ 11 1/2 in"),
    ],
)
def test_a_metric_job_echoes_sixteenths_of_an_inch_too(cm: str, ruler: Ruler, text: str) -> None:
    assert both(Length.of(Fraction(cm), "cm"), ruler) == text


def test_a_length_for_a_machine_is_exact_in_both_systems_with_its_text() -> None:
    assert length_json(Length(Fraction(25, 2)), INCH_JOB) == {"in": "25/2", "mm": "635/2", "text": "12 1/2 in"}
    assert length_json(Length(12), CM_JOB) == {"in": "12", "mm": "1524/5", "text": "≈ 30.5 cm"}


@given(LENGTHS, RULERS)
def test_what_a_machine_is_given_adds_up_to_the_length(length: Length, ruler: Ruler) -> None:
    given_out = json.loads(json.dumps(length_json(length, ruler)))

    assert Length(Fraction(given_out["in"])) == Length.of(Fraction(given_out["mm"]), "mm") == length


@pytest.mark.parametrize(
    ("value", "text"),
    [("5/2", "2.5"), ("7/3", "2 1/3"), ("2", "2"), ("1/3", "1/3"), ("1/40", "0.025"), ("-1/4", "-0.25"), ("0", "0")],
)
def test_a_plain_number_is_a_decimal_where_it_ends(value: Any, text: str) -> None:
    assert number(Fraction(value)) == text


@pytest.mark.parametrize(
    ("amount", "text"),
    [
        ("18.5", "18.50"),
        ("18", "18.00"),
        ("0.1250", "0.125"),
        ("0.1255", "0.1255"),
        ("1E+3", "1000.00"),
        ("-3", "-3.00"),
        ("0", "0.00"),
    ],
)
def test_money_has_two_decimals_or_as_many_as_it_needs(amount: str, text: str) -> None:
    assert money(Decimal(amount)) == text


@given(st.decimals(min_value=0, max_value=10**12, places=4))
def test_money_loses_nothing(amount: Decimal) -> None:
    assert Decimal(money(amount)) == amount


@pytest.mark.parametrize("unit", UNITS)
def test_every_unit_has_its_way_of_writing_nothing(unit: str) -> None:
    assert exact(Length(0), unit) == f"0 {unit}"


@pytest.mark.parametrize(
    ("figure", "how"),
    [
        ("layer.face.roll", "sum"),
        ("layer.face.on.roll", "nearest"),
        ("layer.face.cut.roll", "up"),
        ("allowances.squaring", "given"),
        ("layer.face.used", "up"),
        ("layer.face.cut.left/2", "up"),
        ("layer.interlining.width.left", "up"),
        ("part.left.tape", "up"),
        ("part.tape.drop", "nearest"),
        ("part.left.drop", "nearest"),
        ("layer.face.usable", "nearest"),
        ("survey.section.roll.run.1", "nearest"),
    ],
)
def test_what_is_cut_or_bought_is_shown_rounded_up_and_all_else_to_the_nearest(figure: str, how: str) -> None:
    assert how_shown(figure) == how
