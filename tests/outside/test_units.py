"""Units against published values, and against the stock registry of Pint, a general-purpose library of units."""

from __future__ import annotations

import unicodedata
from fractions import Fraction
from typing import Any

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wizard.project.parse import Misread, read_length
from wizard.trade.formatting import Ruler, exact, shown
from wizard.trade.lengths import UNITS, Length, round_nearest

STOCK: pint.UnitRegistry[Any] = pint.UnitRegistry(non_int_type=Fraction)
IN_PINT = dict(zip(UNITS, ("inch", "foot", "yard", "millimeter", "centimeter", "decimeter", "meter"), strict=True))
NUMBERS = st.fractions(min_value=Fraction(1, 10**4), max_value=10**4, max_denominator=10**4)


def test_a_yard_is_09144_m_and_an_inch_25_4_mm_exactly() -> None:
    # US National Bureau of Standards, Circular 572 addendum (1960): 1 yard = 0.9144 metre.
    assert Length.of(1, "yd") == Length.of(Fraction("0.9144"), "m")
    # NIST Special Publication 811, appendix B, which sets exact factors in bold: 1 inch = 2.54 E+00 cm.
    assert Length.of(1, "in").mm == Fraction("25.4")
    assert Length.of(1, "in") == read_length("2.54 cm", "in")
    # A class slide on sewing prints "24 mm = 1 inch"; that is a slip.
    assert Length.of(24, "mm") < Length.of(1, "in")
    # NIST on the history of its units: before 1 July 1959 the US yard was 3600/3937 m, two millionths longer.
    assert read_length("1 yd", "in") / Length.of(Fraction(3600, 3937), "m") == Fraction(999_998, 1_000_000)


@pytest.mark.parametrize("typed", ["1 survey foot", "1 survey_foot", "3 US survey feet", "1 US_survey_yard"])
def test_the_survey_foot_does_not_pass_for_a_foot(typed: str) -> None:
    # NIST and NOAA, US Federal Register 85 FR 62698: superseded from 2023 by the foot of 0.3048 m.
    with pytest.raises(Misread, match=r"is not accepted here|is not a known unit"):
        read_length(typed, "ft")


@settings(deadline=None)
@given(NUMBERS, st.sampled_from(list(UNITS)), st.sampled_from(list(UNITS)))
def test_conversions_and_lengths_that_are_typed_agree_with_pints_stock_registry(
    number: Fraction, unit: str, other: str
) -> None:
    length = Length.of(number, unit)
    assert length.in_unit(other) == STOCK.Quantity(number, IN_PINT[unit]).to(IN_PINT[other]).magnitude
    assert read_length(exact(length, unit), None).inches == STOCK.Quantity(number, IN_PINT[unit]).to("inch").magnitude


OTHERS = [
    "kilometer", "micron", "angstrom", "thou", "pica", "point", "hand", "rod", "chain", "furlong", "fathom", "mile",
    "nautical_mile", "parsec", "light_year", "bohr", "femtometer", "megameter",
]  # fmt: skip


@pytest.mark.parametrize("name", OTHERS)
def test_every_other_length_pint_knows_is_refused_by_name_and_opens_in_a_file(name: str) -> None:
    assert STOCK.Quantity(1, name).check("[length]")
    with pytest.raises(Misread) as caught:
        read_length(f"3 {name.replace('_', ' ')}", "in")
    assert "is not accepted here: use in, ft, yd, mm, cm, dm or m." in caught.value.sentence
    assert caught.value.once_taken


@pytest.mark.parametrize(("typed", "inches"), [("1/3 yd", 12), ("2/3 yd", 24), ("4 1/3 yd", 156), ("4⅔ yd", 168)])
def test_thirds_of_a_yard_are_read_and_printed(typed: str, inches: Fraction) -> None:
    # NIST Handbook 44, section 5.52: a retail measure of cloth may show 1/3 and 2/3 of a yard.
    assert read_length(typed, "in") == Length(inches)
    assert read_length(exact(Length(inches), "yd"), None) == Length(inches)
    assert exact(Length(inches), "yd") == typed.replace("⅔", " 2/3")


VULGAR = [chr(code) for code in (*range(0xBC, 0xBF), *range(0x2150, 0x215F), 0x2189)]


@pytest.mark.parametrize("character", VULGAR)
def test_every_ready_made_fraction_has_the_value_of_the_unicode_standard(character: str) -> None:
    # Unicode Character Database, numeric values; given as decimals, so brought back to small fractions.
    value = Fraction(unicodedata.numeric(character)).limit_denominator(10)
    assert read_length(character, "in", zero=True) == Length(value)
    assert read_length(f"80{character}", "in") == Length(80 + value)
    assert [each for each in map(chr, range(0x3000)) if "VULGAR FRACTION" in unicodedata.name(each, "")] == VULGAR


# Rounding to the ruler mark against published rules.
@pytest.mark.parametrize(("read", "reported"), [("45.75", "45.8"), ("45.45", "45.4"), ("45.45001", "45.5")])
def test_an_exact_half_goes_to_the_even_mark_and_anything_over_goes_up(read: str, reported: str) -> None:
    # ASTM E29, rounding an exact 5 to the even figure, with the worked values of a test manual that quotes it; the rule
    # knows no unit.
    tenths = Ruler("cm", Length.of(Fraction("0.1"), "cm"))
    assert shown(Length.of(Fraction(read), "cm"), tenths) == f"≈ {reported} cm"
    assert round_nearest(Length(Fraction(read)), Length(Fraction(1, 10))) == Length(Fraction(reported))
