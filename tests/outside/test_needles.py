"""Needles and stitch lengths against a needle maker's tables, a sewing magazine and the exact inch."""

from __future__ import annotations

from fractions import Fraction

import pytest

from wizard.trade.figures import Ledger
from wizard.trade.lengths import Length
from wizard.trade.model import Cloth, ClothKind, Cloths, Job
from wizard.trade.notions import BY_KIND, BY_WEIGHT, PAIRS, STITCHES, needle_of, size, stitches_an_inch


@pytest.mark.parametrize("pair", ["60/8", "70/10", "75/11", "80/12", "90/14", "100/16", "110/18", "120/19"])
def test_the_two_numbers_of_a_needle_pair_up(pair: str) -> None:
    """A needle maker's tables."""
    assert size(int(pair.partition("/")[0])) == pair


def test_every_needle_we_give_is_in_the_tables() -> None:
    """A needle maker's tables."""
    assert {*BY_KIND.values(), *BY_WEIGHT.values()} <= set(PAIRS)


@pytest.mark.parametrize(("kind", "nm"), [("fine silk", 70), ("flannel", 90)])
def test_needle_70_for_silk_and_90_for_flannel(kind: ClothKind, nm: int) -> None:
    """Common practice, no source."""
    assert needle_of(Ledger(Job(cloth=Cloths(face=Cloth(kind=kind)))), "face").value == nm


@pytest.mark.parametrize("length", ["2.5", "4", "1", "25.4", "12.7"])
def test_stitches_an_inch_come_from_the_exact_inch(length: str) -> None:
    """NIST SP 811: 1 in = 25.4 mm exactly; so many stitches of that length make an inch and no more."""
    assert Length.of(Fraction(length), "mm") * stitches_an_inch(Fraction(length)) == Length(1)


def test_gathering_rows_have_about_six_stitches_an_inch() -> None:
    """Sew News, questions and answers."""
    assert round(stitches_an_inch(STITCHES["gathering"])) == 6
