"""What practitioners say of such a skirt. Common practice, no source, unless a source stands beside the check."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.trade.sample_jobs import cloth, inches, plain_job, planned, straight, value
from wizard.trade.cutting import Cutting, Rules, Stretch, Strip, lay_out
from wizard.trade.job_fields import Cloth, Section, usual_of
from wizard.trade.lengths import ZERO, Length, ceiling
from wizard.trade.plan_records import Plan

RULES = Rules(join_cost=inches(1), least_piece=inches(6), mark=Length(Fraction(1, 16)))


def plan_of(
    run: str = "60", drop: str = "11", face: Cloth | None = None, section: Section | None = None, **more: Cloth
) -> Plan:
    """One section at fullness 2 1/2, on 54 in cloth."""
    one = section or straight("left", run, drop)
    return planned(plain_job({"left": one}, fullness="2.5", cloth=face or cloth("54"), interlining=more.get("inner")))[
        0
    ]


@pytest.mark.parametrize(
    ("plan", "figure", "length"),
    [
        # 11 in, 1/2 in top, 1/2 in double hem
        (plan_of(), "layer.face.cut.left", "12 1/2"),
        (plan_of(face=cloth("54", width=inches(55), trim=inches("1/2"))), "layer.face.usable", "54"),
        # An interlining cut at 14 in that finishes at 10 1/2 in has 1 1/2 in of hem. It was said to be 1 1/4 in; with
        # 1/2 in of top that would finish at 11 in, level with the face.
        (plan_of(inner=cloth("54", hem="3/2", setback=inches("1/2"))), "layer.interlining.cut.left", "14"),
        (plan_of(inner=cloth("54", hem="5/4", setback=ZERO)), "layer.interlining.cut.left", "14"),
        # 1 in turned under at each end of the tape
        (plan_of("80 1/2"), "part.left.tape", "82 1/2"),
        # pattern-making.com: a double hem of 4 in adds 8 in; 1 to 3 in add 2 to 6 in
        *((plan_of(face=cloth("54", hem=hem)), "layer.face.hem", takes)
          for hem, takes in (("4", "8"), ("1", "2"), ("2", "4"), ("3", "6"))),
        # simplesewingprojects (2006): the hem hangs 1/2 in off the floor
        (plan_of(section=straight("left", "60", "12", floor_gap=inches("1/2"))), "part.left.drop", "11 1/2"),
    ],
)  # fmt: skip
def test_a_figure_is_what_practice_says(plan: Plan, figure: str, length: str) -> None:
    assert value(plan, figure) == inches(length)
    assert usual_of("cloth.interlining.setback", "inches") == inches("1/2"), "half an inch above the face"


@pytest.mark.parametrize(
    ("run", "widths"),
    [
        ("69 1/4", "3.21"),
        # 3.89 widths was said of 80 1/2 in; it does not follow from its own inputs, and would be a run of 84 in.
        ("80 1/2", "3.73"), ("84", "3.89"),
    ],
)  # fmt: skip
def test_a_run_at_two_and_a_half_over_54_in_is_so_many_widths(run: str, widths: str) -> None:
    assert round(value(plan_of(run), "part.left.flat") / inches(54), 2) == Fraction(widths)


@pytest.mark.parametrize(
    ("run", "parts"),
    [("12", 1), ("12 1/16", 2), ("24", 2), ("48", 4), ("48 1/16", 8), ("80 1/2", 8), ("96", 8), ("97", 16)],
)
def test_tape_and_skirt_are_marked_in_halves_quarters_and_eighths(run: str, parts: int) -> None:
    """artandhome.blogspot.com (2011) and *Sewing Handicraft for Girls*: halves, quarters, eighths, made by folding."""
    assert plan_of(run).parts[0].marks_in == parts


def rows_from(yards: str, squaring: Length = ZERO) -> int:
    """How many whole widths of 12 1/2 in one owned length gives: the most that can be laid out on it."""
    rules = Rules(RULES.join_cost, RULES.least_piece, RULES.mark, squaring)
    owned = Stretch("owned", Length.of(Fraction(yards), "yd"), inches(54))
    count = 0
    while True:
        strips = [Strip(f"s{n}", f"s{n}", "face", inches(54), inches("12 1/2")) for n in range(count + 1)]
        if not isinstance(lay_out(strips, [owned], rules), Cutting):
            return count
        count += 1


def test_four_yards_give_eleven_widths_squared_or_not_and_lengths_do_not_pool() -> None:
    """2.3 yd and 1.6 yd give 6 + 4 = 10 widths of 12 1/2 in, not 11."""
    assert [rows_from("4"), rows_from("4", inches(1)), rows_from("3.9")] == [11, 11, 11]
    assert [rows_from("2.3"), rows_from("1.6")] == [6, 4]


def test_interlining_of_eleven_widths_at_14_in_is_154_in_and_four_and_a_third_yards() -> None:
    """154 in, bought in thirds of a yard (NIST Handbook 44, section 5.52, has thirds)."""
    strips = [Strip("all", "all", "interlining", inches(11 * 54 - 10), inches(14))]
    rules = Rules(RULES.join_cost, RULES.least_piece, RULES.mark, step=Length.of(Fraction(1, 3), "yd"))
    answer = lay_out(strips, [Stretch("roll", None, inches(54))], rules)
    assert isinstance(answer, Cutting)
    assert (answer.best.used, answer.best.buy) == (inches(154), Length.of(Fraction(13, 3), "yd"))


@pytest.mark.parametrize(
    ("warp", "bought"),
    [
        ("3/100", "103.09"),  # ASTM D3691 table 1 (withdrawn 2018): at most 3.0 % after five launderings
        ("35/1000", "103.63"),  # ASTM D6664: woven tailored bedspreads 3.5 %
        ("5/100", "105.26"),  # ASTM D6664: throws 5.0 %
    ],
)
def test_shrinkage_is_divided_out_and_never_multiplied_on(warp: str, bought: str) -> None:
    """ISO 5077: 100 (Xt - X0) / X0 is the change; so what is bought, once shrunk, is exactly what is used: 100 in here.
    A sum that adds 3 % buys 103 and comes out short."""
    washed = cloth("54", warp_shrink=Fraction(warp), weft_shrink=Fraction(0), wash="washed first", step="1/1000")
    plan = plan_of("84", "23 1/2", washed)
    roll = value(plan, "layer.face.roll")
    assert value(plan, "layer.face.used") == inches(100) == roll * (1 - Fraction(warp))
    assert (roll > inches(100) * (1 + Fraction(warp)), round(roll.inches, 2)) == (True, Fraction(bought))


def test_widths_are_rounded_up_and_never_down() -> None:
    """Merrick & Day handbook, pp. 116-117."""
    assert [ceiling(Fraction(text)) for text in ("12.22", "2.708", "2.78", "3", "10.26")] == [13, 3, 3, 3, 11]
