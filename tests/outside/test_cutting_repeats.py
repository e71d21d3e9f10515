"""Published repeat sums, and the handbook rule for a half-drop that differs from ours."""

from __future__ import annotations

from fractions import Fraction

import pytest

from wizard.trade.cutting import Repeat
from wizard.trade.cutting.pattern_match import printed_rules, spacing
from wizard.trade.lengths import Length


@pytest.mark.parametrize(
    ("cut", "repeat", "apart"),
    [
        (96, 27, 108),  # diyideas.com: 3.6 repeats, so 4; waste 12 in
        (90, 27, 108),  # patemeadows.com: 3.33 repeats, so 4
        (25, 23, 46),  # printed elsewhere as 25: whole repeats give 46
    ],
)
def test_whole_repeats_are_taken_for_every_cut(cut: int, repeat: int, apart: int) -> None:
    assert spacing(Length(cut), Repeat(Length(repeat))) == Length(apart)


def test_the_handbook_half_drop_adds_half_a_repeat_a_cut_and_a_repeat_when_the_widths_are_odd() -> None:
    """Merrick & Day handbook, p. 119."""
    rule = "half a repeat a width, and a repeat if they are odd"
    assert printed_rules([Length(96)] * 4, Length(27))[rule] == Length(4 * (96 + Fraction(27, 2)))
    assert printed_rules([Length(96)] * 3, Length(27))[rule] == Length(3 * (96 + Fraction(27, 2)) + 27)


def test_our_half_drop_can_be_shorter_than_no_half_drop_at_all() -> None:
    assert spacing(Length(90), Repeat(Length(27), "half-drop"), change=True) == Length(Fraction(189, 2))
    assert spacing(Length(96), Repeat(Length(27), "half-drop"), change=True) == Length(Fraction(243, 2))
