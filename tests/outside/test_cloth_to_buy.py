"""Published sums of widths, cut lengths and cloth, each put into a whole job and read off its plan."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from tests.trade.sample_jobs import cloth, inches, known, plain_job, planned, straight, value
from wizard.trade.lengths import Length

NOTHING_LOST: Any = {"end_hem": "0", "join": "0"}
"""Pages that count widths as strip over cloth width lose nothing in joins or end hems."""


def widths_of(run: str, fullness: str, usable: str, *, drop: str = "10", end_hem: str = "0") -> tuple[int, Length]:
    """Widths and flat cut strip of one straight section, nothing lost in joins."""
    job = plain_job(
        {"left": straight("left", run, drop)}, fullness=fullness, cloth=cloth(usable), end_hem=end_hem, join="0"
    )
    plan, face = planned(job)
    return sum(use.rows for use in known(face.cutting).best.uses), value(plan, "layer.face.width.left")


def test_three_sides_of_a_queen_bed_at_two_and_a_half_make_a_strip_of_554_in() -> None:
    """homeguides.sfgate.com: 60 + 80 + 80 = 220, x 2.5, + 4 in end seams."""
    assert widths_of("220", "2.5", "54", end_hem="2")[1] == inches(554)


def test_a_drop_of_16_in_with_3_in_of_allowances_is_cut_at_19_in() -> None:
    """The same page: 16 + 3 = 19 in."""
    plan, _ = planned(
        plain_job({"left": straight("left", "220", "16")}, fullness="2.5", cloth=cloth("54", hem="5/4"), top="1/2")
    )
    assert value(plan, "layer.face.cut.left") == inches(19)


@pytest.mark.parametrize(("usable", "widths", "yards"), [("54", 11, "5.81"), ("45", 13, "6.86")])
def test_the_554_in_strip_over_two_widths_of_cloth(usable: str, widths: int, yards: str) -> None:
    """The same page, worked from its inputs: 11 widths (5.81 yd) of 54 in cloth, 13 (6.86 yd) of 45 in cloth."""
    job = plain_job(
        {"left": straight("left", "220", "16")}, fullness="2.5", cloth=cloth(usable, hem="5/4"), end_hem="2", join="0"
    )
    plan, face = planned(job)
    assert [use.rows for use in known(face.cutting).best.uses] == [widths]
    assert value(plan, "layer.face.used") == inches(19) * widths
    assert round(value(plan, "layer.face.used") / Length(36), 2) == Fraction(yards)


def test_220_in_at_three_with_a_23_in_cut_takes_13_widths() -> None:
    """oocities.org: 220 x 3 = 660 in; cut 20 + 2 1/2 + 1/2 = 23 in; 54 in cloth: 12.22 -> 13, 8.31 yd."""
    job = plain_job({"left": straight("left", "220", "20")}, fullness="3", cloth=cloth("54", hem="5/4"), **NOTHING_LOST)
    plan, _ = planned(job)
    assert value(plan, "part.left.flat") == inches(660)
    assert value(plan, "layer.face.cut.left") == inches(23)
    assert value(plan, "layer.face.used") == inches(13 * 23)
    assert round(value(plan, "layer.face.used") / Length(36), 2) == Fraction("8.31")


def test_84_in_at_two_and_a_half_plus_15_in_takes_five_widths_of_88_in() -> None:
    """ehow.co.uk: 84 x 2.5 + 15 = 225 in; 54 in cloth; cut 78 + 10 = 88 in: 5 widths, 440 in, 12.22 yd."""
    job = plain_job(
        {"left": straight("left", "84", "78")}, fullness="2.5",
        cloth=cloth("54", hem="19/4"), end_hem="15/2", join="0", least="2",
    )  # fmt: skip
    plan, _ = planned(job)
    assert value(plan, "layer.face.width.left") == inches(225)
    assert value(plan, "layer.face.used") == inches(440)
    assert round(value(plan, "layer.face.used") / Length(36), 2) == Fraction("12.22")


def test_65_in_at_two_and_a_quarter_takes_three_widths_and_eight_yards() -> None:
    """homesteady.com: 65 x 2.25 = 146.25 in; 54 in cloth; cut 80 + 16 = 96 in: 2.708 -> 3 widths, 288 in, 8 yd."""
    job = plain_job(
        {"left": straight("left", "65", "80")}, fullness="2.25", cloth=cloth("54", hem="31/4"), **NOTHING_LOST
    )
    plan, _ = planned(job)
    assert value(plan, "part.left.flat") == inches("146 1/4")
    assert round(value(plan, "part.left.flat") / value(plan, "layer.face.usable"), 3) == Fraction("2.708")
    assert value(plan, "layer.face.used") == inches(288)
    assert value(plan, "layer.face.buy") == Length.of(8, "yd")


def test_48_and_12_in_at_two_and_a_half_take_three_widths() -> None:
    """barkclothhawaii.com: (48 + 12) x 2.5 = 150 over 54 in = 2.78 (printed cut short as 2.77) -> 3 widths."""
    assert widths_of("60", "2.5", "54") == (3, inches(150))


def test_five_widths_of_108_in_are_540_in_and_15_yards() -> None:
    """barkclothhawaii.com, another job on the page: cut 92 + 16 = 108 in, five widths: 540 in, 15 yd."""
    job = plain_job(
        {"left": straight("left", "100", "92")}, fullness="2.5", cloth=cloth("54", hem="31/4"), **NOTHING_LOST
    )
    plan, _ = planned(job)
    assert value(plan, "layer.face.cut.left") == inches(108)
    assert value(plan, "layer.face.used") == inches(540)
    assert value(plan, "layer.face.buy") == Length.of(15, "yd")


def test_214_in_at_two_and_a_half_is_535_in() -> None:
    """hubpages.com (2013): 214 in x 2 1/2 = 535 in."""
    plan, _ = planned(plain_job({"left": straight("left", "214", "10")}, fullness="2.5", cloth=cloth("54")))
    assert value(plan, "part.left.flat") == inches(535)


def test_eight_44_in_widths_over_220_in_join_every_27_and_a_half_in_at_a_fullness_of_1_6() -> None:
    """artandhome.blogspot.com (2011): 220 in run, eight 44 in widths: a join every 27.5 in; fullness 1.6."""
    job = plain_job({"left": straight("left", "220", "10")}, fullness="1.6", cloth=cloth("44"), **NOTHING_LOST)
    plan, face = planned(job)
    assert [piece.width for piece in known(face.cutting).best.pieces] == [inches(44)] * 8
    assert value(plan, "part.left.fullness") == Fraction(8, 5)
    assert inches(44) / value(plan, "part.left.fullness") == inches("27 1/2")


@pytest.mark.parametrize(("fullness", "flat"), [("1.5", 15), ("2", 20), ("2.5", 25), ("3", 30)])
def test_a_10_in_base_at_four_fullnesses(fullness: str, flat: int) -> None:
    """docslib.org, a class handout: a 10 in base at 1.5, 2, 2.5, 3 gives 15, 20, 25, 30 in."""
    plan, _ = planned(plain_job({"left": straight("left", "10", "10")}, fullness=fullness, cloth=cloth("54")))
    assert value(plan, "part.left.flat") == inches(flat)


def test_usable_width_is_the_width_less_1_5_cm_each_side() -> None:
    """Merrick & Day handbook, pp. 116-117: usable width = width - 1.5 cm each side; widths round up, never down."""
    trimmed = cloth("54", width=Length.of(140, "cm"), trim=Length.of(Fraction(3, 2), "cm"))
    job = plain_job({"left": straight("left", "56", "10")}, fullness="2", cloth=trimmed)
    plan, _ = planned(job)
    exact = Length.of(137, "cm")
    usable = value(plan, "layer.face.usable")
    assert exact - Length(Fraction(1, 16)) < usable <= exact
