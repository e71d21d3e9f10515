"""Published sums of widths, cut lengths and cloth, each put into a whole job and read off its plan; and sums printed
wrong elsewhere, of which ours is the right one."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from tests.trade.sample_jobs import cloth, inches, known, plain_job, planned, straight, value
from wizard.trade.cutting import Repeat
from wizard.trade.cutting.pattern_match import Pattern, printed_rules
from wizard.trade.lengths import Length
from wizard.trade.plan_records import Plan

NOTHING_LOST: Any = {"end_hem": "0", "join": "0"}
"""Pages that count widths as strip over cloth width lose nothing in joins or end hems."""


def plan_of(run: str, drop: str, fullness: str, usable: str = "54", hem: str = "1/2", **more: Any) -> Plan:
    """One straight section on plain cloth."""
    return planned(
        plain_job({"left": straight("left", run, drop)}, fullness=fullness, cloth=cloth(usable, hem=hem), **more)
    )[0]


def widths_of(plan: Plan) -> int:
    return sum(use.rows for use in known(plan.layers[0].cutting).best.uses)


@pytest.mark.parametrize(
    ("plan", "widths", "figures", "yards"),
    [
        # homeguides.sfgate.com: 60 + 80 + 80 = 220, x 2.5, + 4 in end seams = 554 in
        (plan_of("220", "10", "2.5", end_hem="2", join="0"), 11, {"face.width.left": "554"}, None),
        # The same page: 16 + 3 = 19 in; worked from its inputs: 11 widths (5.81 yd) of 54 in cloth, 13 (6.86 yd) of 45
        (plan_of("220", "16", "2.5", hem="5/4", end_hem="2", join="0"), 11, {"face.cut.left": "19", "face.used": "209"},
         "5.81"),
        (plan_of("220", "16", "2.5", "45", hem="5/4", end_hem="2", join="0"), 13, {"face.used": "247"}, "6.86"),
        # oocities.org: 220 x 3 = 660 in; cut 20 + 2 1/2 + 1/2 = 23 in; 54 in cloth: 12.22 -> 13, 8.31 yd
        (plan_of("220", "20", "3", hem="5/4", **NOTHING_LOST), 13,
         {"flat": "660", "face.cut.left": "23", "face.used": "299"}, "8.31"),
        # ehow.co.uk: 84 x 2.5 + 15 = 225 in; 54 in cloth; cut 78 + 10 = 88 in: 5 widths, 440 in, 12.22 yd
        (plan_of("84", "78", "2.5", hem="19/4", end_hem="15/2", join="0"), 5,
         {"face.width.left": "225", "face.cut.left": "88", "face.used": "440"}, "12.22"),
        # homesteady.com: 65 x 2.25 = 146.25 in; 54 in cloth; cut 80 + 16 = 96 in: 2.708 -> 3 widths, 288 in, 8 yd
        (plan_of("65", "80", "2.25", hem="31/4", **NOTHING_LOST), 3,
         {"flat": "146 1/4", "face.cut.left": "96", "face.used": "288", "face.buy": "288"}, "8"),
        # barkclothhawaii.com: (48 + 12) x 2.5 = 150 over 54 in = 2.78 (printed cut short as 2.77) -> 3 widths
        (plan_of("60", "10", "2.5", **NOTHING_LOST), 3, {"flat": "150", "face.width.left": "150"}, None),
        # barkclothhawaii.com, another job on the page: cut 92 + 16 = 108 in, five widths: 540 in, 15 yd
        (plan_of("100", "92", "2.5", hem="31/4", **NOTHING_LOST), 5,
         {"face.cut.left": "108", "face.used": "540", "face.buy": "540"}, "15"),
        # hubpages.com (2013): 214 in x 2 1/2 = 535 in. It calls 535 in / 36 the yards of fabric: the run of the ruffle,
        # not widths x cut length.
        (plan_of("214", "16", "2.5"), 11, {"flat": "535", "face.cut.left": "17 1/2", "face.used": "192 1/2"}, None),
        # artandhome.blogspot.com (2011): 220 in run, eight 44 in widths: a join every 27.5 in; fullness 1.6
        (plan_of("220", "10", "1.6", "44", **NOTHING_LOST), 8, {"flat": "352"}, None),
        # docslib.org, a class handout: a 10 in base at 1.5, 2, 2.5, 3 gives 15, 20, 25, 30 in
        *((plan_of("10", "10", full), 1, {"flat": flat}, None)
          for full, flat in (("1.5", "15"), ("2", "20"), ("2.5", "25"), ("3", "30"))),
        # Given as 90 in print: 60 + 28 + 12; here the cut length of a drop of 60 in, 28 in of hem and 12 in of top
        (plan_of("20", "60", "2", hem="14", top="12"), 1, {"face.cut.left": "100"}, None),
        # 36 in gathered from 72 in: called one and a half times in print
        (plan_of("36", "10", "2"), 2, {"flat_made": "72"}, None),
    ],
)  # fmt: skip
def test_a_published_sum_is_that_of_the_plan(
    plan: Plan, widths: int, figures: dict[str, str], yards: str | None
) -> None:
    assert widths_of(plan) == widths
    keys = {key: f"layer.{key}" if key.startswith("face") else f"part.left.{key}" for key in figures}
    assert {key: value(plan, keys[key]) for key in figures} == {key: inches(each) for key, each in figures.items()}
    assert yards is None or round(value(plan, "layer.face.used") / Length(36), 2) == Fraction(yards)


def test_a_join_comes_every_width_over_the_fullness() -> None:
    """artandhome.blogspot.com (2011): eight 44 in widths over 220 in join every 27.5 in."""
    plan = plan_of("220", "10", "1.6", "44", **NOTHING_LOST)
    assert [piece.width for piece in known(plan.layers[0].cutting).best.pieces] == [inches(44)] * 8
    assert inches(44) / value(plan, "part.left.fullness") == inches("27 1/2")
    assert value(plan_of("36", "10", "2"), "part.left.fullness") == 2


def test_usable_width_is_the_width_less_1_5_cm_each_side() -> None:
    """Merrick & Day handbook, pp. 116-117: usable width = width - 1.5 cm each side; widths round up, never down."""
    trimmed = cloth("54", width=Length.of(140, "cm"), trim=Length.of(Fraction(3, 2), "cm"))
    plan, _ = planned(plain_job({"left": straight("left", "56", "10")}, fullness="2", cloth=trimmed))
    exact = Length.of(137, "cm")
    assert exact - Length(Fraction(1, 16)) < value(plan, "layer.face.usable") <= exact


# Published repeat sums, and the handbook rule for a half-drop that differs from ours.
def used(repeat: str, cut: str, count: int) -> Length:
    """Cloth used by `count` widths of a cut length on a repeat."""
    patterned = cloth("54", repeat=inches(repeat), match=True, repeat_kind="straight")
    section = straight("left", str(Fraction(53 * count - 1, 2)), str(inches(cut).inches - Fraction(3, 2)))
    plan, _ = planned(plain_job({"left": section}, fullness="2", cloth=patterned))
    assert widths_of(plan) == count
    length: Length = value(plan, "layer.face.used")
    return length


def spacing(cut: int, repeat: Repeat, change: bool = False) -> Length:
    """From the start of a width to where the next may start, at the same phase or at the other."""
    return Length(Pattern(repeat.length.inches, repeat.phase == "half-drop").step(Fraction(cut), change))


@pytest.mark.parametrize(
    ("cut", "repeat", "apart"),
    [
        (96, 27, 108),  # diyideas.com: 3.6 repeats, so 4; waste 12 in
        (90, 27, 108),  # patemeadows.com, which leaves hems out: 3.33 repeats, so 4
        (25, 23, 46),  # printed elsewhere as 25: by whole repeats the second width starts 46 in on
    ],
)
def test_whole_repeats_are_taken_for_every_cut(cut: int, repeat: int, apart: int) -> None:
    assert used(str(repeat), str(cut), 2) - used(str(repeat), str(cut), 1) == Length(apart)
    assert spacing(cut, Repeat(Length(repeat))) == Length(apart)


def test_the_handbook_half_drop_adds_half_a_repeat_a_cut_and_a_repeat_when_the_widths_are_odd() -> None:
    """Merrick & Day handbook, p. 119. Ours can be shorter than no half-drop at all."""
    rule = "half a repeat a width, and a repeat if they are odd"
    assert printed_rules([Length(96)] * 4, Length(27))[rule] == Length(4 * (96 + Fraction(27, 2)))
    assert printed_rules([Length(96)] * 3, Length(27))[rule] == Length(3 * (96 + Fraction(27, 2)) + 27)
    for cut, apart in ((90, Fraction(189, 2)), (96, Fraction(243, 2))):
        assert spacing(cut, Repeat(Length(27), "half-drop"), change=True) == Length(apart)
