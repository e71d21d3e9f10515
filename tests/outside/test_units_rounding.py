"""Rounding to the ruler mark against published rules."""

from fractions import Fraction

import pytest

from wizard.trade.formatting import Ruler, shown
from wizard.trade.lengths import Length, round_nearest

TENTHS = Ruler("cm", Length.of(Fraction("0.1"), "cm"))


@pytest.mark.parametrize(("read", "reported"), [("45.75", "45.8"), ("45.45", "45.4"), ("45.45001", "45.5")])
def test_an_exact_half_goes_to_the_even_mark_and_anything_over_goes_up(read: str, reported: str) -> None:
    # ASTM E29, rounding an exact 5 to the even figure, with the worked values of a test manual that quotes it.
    assert shown(Length.of(Fraction(read), "cm"), TENTHS) == f"≈ {reported} cm"


@pytest.mark.parametrize(("read", "reported"), [("45.75", "45.8"), ("45.45", "45.4"), ("45.45001", "45.5")])
def test_the_same_holds_for_inches_on_a_ruler_in_tenths(read: str, reported: str) -> None:
    # The same values of ASTM E29: the rule knows no unit.
    tenth = Length(Fraction(1, 10))

    assert round_nearest(Length(Fraction(read)), tenth) == Length(Fraction(reported))
