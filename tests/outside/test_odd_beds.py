"""Three odd beds worked by hand on paper, each step written down, and the plan held against them.

Nothing here is taken from the product: the sums are done with the rules of the trade alone (fullness is flat finished
width over gathered length; a join costs two seam allowances of cut width; cloth is cut selvedge to selvedge).
"""

from __future__ import annotations

from collections import defaultdict
from fractions import Fraction
from typing import Any

from msgspec.structs import replace

from tests.trade.sample_jobs import cloth, inches, known, plain_job
from wizard.trade.cutting import Layout
from wizard.trade.job_fields import Cloth, Fullness, Job, Owned, Section, Side
from wizard.trade.lengths import ZERO, Length
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Layer, Plan


def surveyed(side: Side, run: str, drops: tuple[str, str, str], **more: Any) -> Section:
    said: dict[str, Any] = {"left_end": "stops", "right_end": "stops", "hem_line": "level"} | more
    return Section(
        on=True, side=side, run=(inches(run), inches(run)), drop=tuple(inches(drop) for drop in drops), **said,
    )  # fmt: skip


def laid(plan: Plan) -> tuple[Layer, Layout]:
    face = plan.layers[0]
    return face, known(face.cutting).best


def rows(layout: Layout) -> dict[tuple[str, int], list[str]]:
    """Which strips each width on each stretch gives."""
    held: dict[tuple[str, int], list[str]] = defaultdict(list)
    for piece in layout.pieces:
        held[piece.stretch, piece.row].append(piece.strip)
    return held


def widths_joined(layout: Layout, strip: str) -> Length:
    """What a strip's pieces give when they are joined, each join taking an inch."""
    pieces = [piece.width for piece in layout.pieces if piece.strip == strip]
    return sum(pieces, ZERO) - Length(len(pieces) - 1)


# Bed 1: three unlike sides with a return at one end of each long one
# --------------------------------------------------------------------
#                              left            right           foot
# least reading                11 3/4          11 7/8          8 7/8
# + raised 1/4 - daylight 1/8
# finished drop D              11 7/8          12              9
# + top 1/2 + hem 2 x 1/2
# cut length C                 13 3/8          13 1/2          10 1/2
# run at the rail              76 5/8          76 1/2          58
# + return                     1               1               0
# gathered G                   77 5/8          77 1/2          58
# flat W = 2 1/2 G             194 1/16        193 3/4         145
# + two end hems of 1
# cut width A                  196 1/16        195 3/4         147
#
# Usable width U = 55 - 2 x 1/2 = 54; a join costs 2 x 1/2 = 1.
# k pieces of U give 54 k - (k - 1) = 53 k + 1, so a section on its own takes (A - 1)/53, up:
#   left 195 1/16 / 53 = 3.68 -> 4;  right 194 3/4 / 53 = 3.67 -> 4;  foot 146 / 53 = 2.75 -> 3;  11 widths in all.
# Sharing: all three as one group (538 13/16 - 1)/53 = 10.15 -> 11; left and right (390 13/16)/53 = 7.37 -> 8;
#   left and foot (342 1/16)/53 = 6.45 -> 7; right and foot (341 3/4)/53 = 6.45 -> 7. No group saves a width.
# Length: 4 x 13 3/8 + 4 x 13 1/2 + 3 x 10 1/2 = 53 1/2 + 54 + 31 1/2 = 139.
# Nothing shorter: 11 widths of at least 10 1/2; of these at least 8 (left and right together) of at least 13 3/8; of
#   these at least 4 (right) of 13 1/2: 11 x 10 1/2 + 8 x 2 7/8 + 4 x 1/8 = 115 1/2 + 23 + 1/2 = 139.
# Joins: 3 + 3 + 2 = 8. No fewer: 11 widths give at least 11 pieces, for three sections 8 joins.


def bed_one() -> Plan:
    sections = {
        "left": surveyed("left", "76 5/8", ("11 3/4", "11 13/16", "11 7/8"), right_end="returns",
                         right_return=inches("1")),
        "right": surveyed("right", "76 1/2", ("12", "11 7/8", "11 15/16"), left_end="returns",
                          left_return=inches("1")),
        "foot": surveyed("foot", "58", ("8 7/8", "8 7/8", "9")),
    }  # fmt: skip
    lifted = {each: replace(one, raised=inches("1/4"), floor_gap=inches("1/8")) for each, one in sections.items()}
    face = cloth("55", trim=inches("1/2"))
    return make_plan(plain_job(lifted, fullness="5/2", cloth=face, least="6", squaring="1"))


def test_bed_one_is_that_worked_by_hand() -> None:
    face, layout = laid(bed_one())
    long, wide = (("13 3/8", "10 1/2", "13 1/2"), ("196 1/16", "147", "195 3/4"))
    assert [figure.value for figure in face.cut_lengths.values()] == [*map(inches, long)]
    assert [figure.value for figure in face.cut_widths.values()] == [*map(inches, wide)]
    assert (face.usable.value, layout.used, face.roll.value) == (inches("54"), inches("139"), inches("140"))
    # No width is shared between sections, and nothing cut across the roll is shorter.
    assert [len(set(strips)) for strips in rows(layout).values()] == [1] * 11
    assert layout.joins == 8
    assert (layout.proof.least, layout.proof.bound) == (True, inches("139"))
    assert "across the roll" in layout.proof.among


# Bed 2: a day bed with a skirt at foot and head only, a half-drop pattern, washed first
# ---------------------------------------------------------------------------------------
# Both ends drop 11: C = 1/2 + 11 + 2 x 1/2 = 12 1/2.   Runs 58 and 40, fullness 2: W = 116 and 80, A = 118 and 82.
# The cloth is 56 wide and loses 2 % across, 4 % along, and is trimmed 1/2 a side once it is washed:
#   U = 56 x 0.98 - 1 = 53.88 -> 53 7/8 on a ruler of sixteenths (53 15/16 is not there).
# Pattern repeat 10, half-drop: washed it is V = 10 x 0.96 = 9.6.
# Widths: foot alone (118 - 1)/52 7/8 = 2.21 -> 3, head alone (82 - 1)/52 7/8 = 1.53 -> 2, together 5;
#   both as one group (200 - 1)/52 7/8 = 3.76 -> 4. Four widths do: the foot takes two and 12 1/4 of the third,
#   53 7/8 + 53 7/8 + 12 1/4 - 2 = 118; the head takes 29 1/8 of the third and the fourth, 29 1/8 + 53 7/8 - 1 = 82;
#   the third gives 12 1/4 + 29 1/8 = 41 3/8 of its 53 7/8, the foot's tail at its left, the head's head at its right.
# Phases: across a half-drop each next width of a section starts half a repeat lower. Foot 0, half, 0; the head begins
#   on the third width, so 0, half. Along the roll: 0, half, 0, half, a change every time.
#   A change starts the next width after V (ceil(C/V - 1/2) + 1/2) = 9.6 x (ceil(0.802) + 1/2) = 14.4;
#   at the same phase it would be V ceil(C/V) = 9.6 x 2 = 19.2. The last width takes C.
# Used: 3 x 14.4 + 12.5 = 55.7, in washed cloth.
# Bought: squaring 1 + 55.7 / 0.96 = 59.02; in steps of 1/8 yd (4 1/2 in) 14 steps, 63 in, 1 3/4 yd.


def bed_two() -> Plan:
    sections = {"foot": surveyed("foot", "58", ("11", "11", "11")), "head": surveyed("head", "40", ("11", "11", "11"))}
    face = cloth(
        "56", trim=inches("1/2"), repeat=inches("10"), repeat_kind="half-drop", match=True, wash="washed first",
        warp_shrink=Fraction(4, 100), weft_shrink=Fraction(2, 100),
    )  # fmt: skip
    return make_plan(plain_job(sections, fullness="2", cloth=face, least="6", squaring="1"))


def test_bed_two_is_that_worked_by_hand() -> None:
    face, layout = laid(bed_two())
    assert face.usable.value == inches("53 7/8")
    assert known(known(face.rules).repeat).length == Length(Fraction(96, 10))
    assert len(rows(layout)) == 4
    assert layout.used == Length(Fraction(557, 10))
    starts = sorted({piece.start for piece in layout.pieces})
    assert starts == [Length(Fraction(144, 10)) * number for number in range(4)]
    assert [widths_joined(layout, part) for part in ("foot", "head")] == [inches("118"), inches("82")]
    assert layout.joins == 3
    assert face.roll.value == inches("1") + Length(Fraction(557, 10) / Fraction(96, 100))
    assert face.buy.value == inches("63")


# Bed 3: two owned lengths that do not pool
# ------------------------------------------
# 2.3 yd = 82.8 in and 1.6 yd = 57.6 in, on the ruler 82 3/4 and 57 9/16. Every drop is 11, so C = 12 1/2.
# Squared by 1 in each: 81 3/4 / 12 1/2 = 6.54 -> 6 widths; 56 9/16 / 12 1/2 = 4.53 -> 4 widths; 10 in all.
#   (As if they pooled: 140.4 / 12 1/2 = 11.2 -> 11 widths, of which one is not there.)
# Runs 76, 76 and 58, G = 210 in all; end hems 2 a section, so the cut widths together are 210 f + 6.
# Three sections on ten widths take at least 10 + 3 - 1 = 12 pieces, so 9 joins: 10 x 54 - 9 = 531 at most,
#   f = 525 / 210 = 2 1/2 at most. At 2 1/2: A = 192, 192 and 147, 531 together, on the mark. And it can be cut:
#   192 = 54 + 54 + 54 + 33 - 3;   192 = 21 + 54 + 54 + 54 + 13 - 4;   147 = 41 + 54 + 54 - 2;
#   33 + 21 and 13 + 41 each fill a width; no piece is under 6. Cloth used 10 x 12 1/2 = 125, nothing bought.
# With the eleventh width it would have been 11 x 54 - 10 = 584, f = 578 / 210 = 2.75.


def bed_three() -> Plan:
    runs: tuple[tuple[Side, str], ...] = (("left", "76"), ("right", "76"), ("foot", "58"))
    sections: dict[str, Section] = {side: surveyed(side, run, ("11", "11", "11")) for side, run in runs}
    lengths = {
        "longer": Owned(length=Length.of(Fraction("2.3"), "yd")),
        "shorter": Owned(length=Length.of(Fraction("1.6"), "yd")),
    }
    face: Cloth = cloth("55", trim=inches("1/2"), owned=lengths)
    job: Job = plain_job(sections, fullness="1", cloth=face, least="6", squaring="1")
    return make_plan(replace(job, fullness=Fullness(aim="all the cloth I own", joins="part widths", surplus="trim")))


def test_bed_three_is_that_worked_by_hand() -> None:
    plan = bed_three()
    face, layout = laid(plan)
    assert {use.stretch: use.rows for use in layout.uses} == {"longer": 6, "shorter": 4}
    assert layout.used == inches("125")
    assert plan.figures["fullness"].value == Fraction(5, 2)
    assert [part.fullness.value for part in plan.parts] == [Fraction(5, 2)] * 3
    joined = [widths_joined(layout, part) for part in ("left", "right", "foot")]
    assert joined == [inches("192"), inches("192"), inches("147")]
    assert (face.roll.value, face.buy.value) == (ZERO, ZERO)
    assert min(piece.width for piece in layout.pieces) >= inches("6")
