"""Sums printed wrong elsewhere. Each check shows that ours is the right one, not the printed one."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from tests.trade.sample_jobs import cloth, inches, known, plain_job, planned, straight, value
from wizard.trade.cutting import Repeat
from wizard.trade.cutting.pattern_match import Pattern, printed_rules
from wizard.trade.job_fields import Cloth
from wizard.trade.lengths import Length


def test_60_28_12_is_100_and_not_90() -> None:
    """Given as 90 in print; here as the cut length of a drop of 60 in with 28 in of hem and 12 in of top."""
    job = plain_job({"left": straight("left", "20", "60")}, fullness="2", cloth=cloth("54", hem="14"), top="12")
    assert value(planned(job)[0], "layer.face.cut.left") == inches(100)


def test_ruffle_run_is_no_length_of_cloth() -> None:
    """hubpages.com (2013) calls 535 in / 36 the yards of fabric: the run of the ruffle, not widths x cut length."""
    job = plain_job({"left": straight("left", "214", "16")}, fullness="2.5", cloth=cloth("54"))
    plan, face = planned(job)
    assert value(plan, "part.left.flat") == inches(535)
    rows = sum(use.rows for use in known(face.cutting).best.uses)
    assert value(plan, "layer.face.used") == inches("17 1/2") * rows
    assert value(plan, "layer.face.used") != inches(535)


def repeated(repeat: str, cut: str, count: int, **more: Any) -> Length:
    """Cloth used by `count` widths of a cut length on a repeat."""
    patterned: Cloth = cloth("54", hem="1/2", repeat=inches(repeat), match=True, repeat_kind="straight", **more)
    drop = str(inches(cut).inches - Fraction(3, 2))
    run = str(Fraction(54 * count - (count - 1) - 2, 2))
    plan, face = planned(plain_job({"left": straight("left", run, drop)}, fullness="2", cloth=patterned))
    assert sum(use.rows for use in known(face.cutting).best.uses) == count
    used: Length = value(plan, "layer.face.used")
    return used


def test_a_25_in_cut_on_a_23_in_repeat_advances_by_46_in() -> None:
    """Left at 25 in in print. By whole repeats the second width starts 46 in on."""
    assert repeated("23", "25", 2) - repeated("23", "25", 1) == inches(46)


def test_a_96_in_cut_on_a_27_in_repeat_takes_four_repeats() -> None:
    """diyideas.com: 3.6 -> 4 repeats -> 108 in, 12 in of it waste."""
    step = repeated("27", "96", 2) - repeated("27", "96", 1)
    assert step == inches(108)
    assert step - inches(96) == inches(12)


def test_a_90_in_cut_on_a_27_in_repeat_takes_108_in() -> None:
    """patemeadows.com, which leaves hems out: 3.33 -> 4 -> 108 in."""
    assert repeated("27", "90", 2) - repeated("27", "90", 1) == inches(108)


def test_36_in_gathered_from_72_in_is_a_fullness_of_two() -> None:
    """Called one and a half times in print."""
    plan, _ = planned(plain_job({"left": straight("left", "36", "10")}, fullness="2", cloth=cloth("54")))
    assert value(plan, "part.left.flat_made") == inches(72)
    assert value(plan, "part.left.fullness") == 2


# Published repeat sums, and the handbook rule for a half-drop that differs from ours.
def spacing(cut: Length, repeat: Repeat, change: bool = False) -> Length:
    """From the start of a width to where the next may start, at the same phase or at the other."""
    return Length(Pattern(repeat.length.inches, repeat.phase == "half-drop").step(cut.inches, change))


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
