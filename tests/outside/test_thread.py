"""Thread against published ratios."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from wizard.trade.lengths import Length
from wizard.trade.model import usual_of
from wizard.trade.notions import STITCHES, stitches_an_inch, thread_for

RATIO: Any = usual_of("cloth.thread.ratio", "inches")
WASTE: Any = usual_of("cloth.thread.waste", "inches")
NONE = Fraction(0)


def by_thickness(thickness: Fraction, stitches: Fraction) -> Fraction:
    """Thread in an inch of lockstitch seam: 2 + 2TS (textilecalculations.com)."""
    return 2 + 2 * thickness * stitches


def test_a_lockstitch_seam_takes_two_and_a_half_times_its_length() -> None:
    """Coats technical guide: stitch 301, seam to thread 1 : 2.5."""
    assert Fraction(5, 2) == RATIO
    assert usual_of("cloth.thread.ratio", "metric") == RATIO


def test_220_cm_of_seam_take_550_cm_of_thread() -> None:
    """melgeecrafts.com: 220 cm x 2.5 = 550 cm."""
    assert thread_for(Length.of(220, "cm"), Fraction(5, 2), NONE) == Length.of(550, "cm")


def test_an_inch_of_thin_seam_takes_2_2_inches() -> None:
    """textilecalculations.com: 2 + 2TS with T = 0.01 in and S = 10 stitches an inch."""
    assert thread_for(Length(1), by_thickness(Fraction(1, 100), Fraction(10)), NONE) == Length(Fraction(11, 5))


def test_the_ratio_is_enough_at_our_own_stitch_length() -> None:
    """The same formula at the stitch length we give for joins stays below the ratio we allow."""
    assert Fraction(11, 5) < by_thickness(Fraction(1, 100), stitches_an_inch(STITCHES["join"])) < RATIO


def test_the_waste_allowed_lies_where_both_printings_agree() -> None:
    """A&E technical bulletin: 10 to 15 % in one printing, 15 to 20 % in another; only 15 % is in both."""
    assert Fraction(10, 100) <= WASTE <= Fraction(15, 100)
    assert Fraction(15, 100) <= WASTE <= Fraction(20, 100)
