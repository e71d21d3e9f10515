"""What practitioners say of such a skirt. Common practice, no source, unless a source stands beside the check."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.trade.sample_jobs import cloth, inches, plain_job, planned, straight, value
from wizard.trade.cutting import Cutting, Rules, Stretch, Strip, lay_out
from wizard.trade.job_fields import Cloth, usual_of
from wizard.trade.lengths import ZERO, Length, ceiling

MARK = Length(Fraction(1, 16))


def interlining() -> Cloth:
    """Interlining with every allowance said."""
    return cloth("54", hem="3/2", step="12", setback=inches("1/2"), end_setback=inches("1/2"))


def test_a_finished_drop_of_11_in_is_cut_at_12_and_a_half() -> None:
    """Common practice, no source: 11 in, 1/2 in top, 1/2 in double hem."""
    plan, _ = planned(plain_job({"left": straight("left", "60", "11")}, fullness="2.5", cloth=cloth("54")))
    assert value(plan, "layer.face.cut.left") == inches("12 1/2")


def test_cloth_55_in_wide_with_half_inch_seams_leaves_54_in() -> None:
    """Common practice, no source."""
    wide = cloth("54", width=inches(55), trim=inches("1/2"))
    plan, _ = planned(plain_job({"left": straight("left", "60", "11")}, fullness="2.5", cloth=wide))
    assert value(plan, "layer.face.usable") == inches(54)


def rows_from(length: Length, cut: Length, *, squaring: Length = ZERO) -> int:
    """How many whole widths of a cut length one owned length gives: the most that can be laid out on it."""
    rules = Rules(join_cost=inches(1), least_piece=inches(6), mark=MARK, squaring=squaring)
    count = 0
    while True:
        strips = [Strip(f"s{n}", f"s{n}", "face", inches(54), cut) for n in range(count + 1)]
        if not isinstance(lay_out(strips, [Stretch("owned", length, inches(54))], rules), Cutting):
            return count
        count += 1


def test_four_yards_give_eleven_widths_of_12_and_a_half_in() -> None:
    """Common practice, no source; the end squared or not."""
    assert rows_from(Length.of(4, "yd"), inches("12 1/2")) == 11
    assert rows_from(Length.of(4, "yd"), inches("12 1/2"), squaring=inches(1)) == 11


def test_lengths_do_not_pool() -> None:
    """Common practice, no source: 2.3 yd and 1.6 yd give 6 + 4 = 10 widths of 12 1/2 in, not 11."""
    separate = [rows_from(Length.of(Fraction(yards), "yd"), inches("12 1/2")) for yards in ("2.3", "1.6")]
    assert separate == [6, 4]
    assert rows_from(Length.of(Fraction("3.9"), "yd"), inches("12 1/2")) == 11


def test_interlining_of_eleven_widths_at_14_in_is_154_in_and_four_and_a_third_yards() -> None:
    """Common practice, no source: 154 in, bought in thirds of a yard (NIST Handbook 44, section 5.52, has thirds)."""
    strips = [Strip("all", "all", "interlining", inches(11 * 54 - 10), inches(14))]
    rules = Rules(join_cost=inches(1), least_piece=inches(6), mark=MARK, step=Length.of(Fraction(1, 3), "yd"))
    answer = lay_out(strips, [Stretch("roll", None, inches(54))], rules)
    assert isinstance(answer, Cutting)
    assert answer.best.used == inches(154)
    assert answer.best.buy == Length.of(Fraction(13, 3), "yd")


def test_an_interlining_cut_at_14_in_that_finishes_at_10_and_a_half_has_an_inch_and_a_half_of_hem() -> None:
    """It was said to be 1 1/4 in; with 1/2 in of top that would finish at 11 in, level with the face."""
    job = plain_job(
        {"left": straight("left", "60", "11")}, fullness="2.5", cloth=cloth("54"), interlining=interlining()
    )
    plan, _ = planned(job)
    assert value(plan, "layer.interlining.cut.left") == inches(14)
    other = plain_job(
        {"left": straight("left", "60", "11")}, fullness="2.5", cloth=cloth("54"),
        interlining=cloth("54", hem="5/4", setback=ZERO, end_setback=ZERO),
    )  # fmt: skip
    assert value(planned(other)[0], "layer.interlining.cut.left") == inches(14)


def test_the_interlining_finishes_half_an_inch_above_the_face_by_default() -> None:
    """Common practice, no source."""
    assert usual_of("cloth.interlining.setback", "inches") == inches("1/2")


def test_69_and_a_quarter_in_at_two_and_a_half_are_3_21_widths() -> None:
    """Common practice, no source: over 54 in."""
    plan, _ = planned(plain_job({"left": straight("left", "69 1/4", "11")}, fullness="2.5", cloth=cloth("54")))
    assert round(value(plan, "part.left.flat") / inches(54), 2) == Fraction("3.21")


def test_80_and_a_half_in_at_two_and_a_half_are_3_73_widths_and_not_3_89() -> None:
    """3.89 widths was said; it does not follow from its own inputs, and would be a run of 84 in."""
    plan, _ = planned(plain_job({"left": straight("left", "80 1/2", "11")}, fullness="2.5", cloth=cloth("54")))
    assert round(value(plan, "part.left.flat") / inches(54), 2) == Fraction("3.73")
    longer, _ = planned(plain_job({"left": straight("left", "84", "11")}, fullness="2.5", cloth=cloth("54")))
    assert round(value(longer, "part.left.flat") / inches(54), 2) == Fraction("3.89")


def test_a_run_of_80_and_a_half_in_takes_82_and_a_half_in_of_tape_in_eight_parts() -> None:
    """Common practice, no source: 1 in turned under at each end."""
    plan, _ = planned(plain_job({"left": straight("left", "80 1/2", "11")}, fullness="2.5", cloth=cloth("54")))
    assert value(plan, "part.left.tape") == inches("82 1/2")
    assert plan.parts[0].marks_in == 8


@pytest.mark.parametrize(
    ("run", "parts"),
    [("12", 1), ("12 1/16", 2), ("24", 2), ("48", 4), ("48 1/16", 8), ("96", 8), ("97", 16)],
)
def test_tape_and_skirt_are_marked_in_halves_quarters_and_eighths(run: str, parts: int) -> None:
    """artandhome.blogspot.com (2011) and *Sewing Handicraft for Girls*: halves, quarters, eighths, made by folding."""
    plan, _ = planned(plain_job({"left": straight("left", run, "11")}, fullness="2.5", cloth=cloth("54")))
    assert plan.parts[0].marks_in == parts


@pytest.mark.parametrize(("hem", "takes"), [("4", 8), ("1", 2), ("2", 4), ("3", 6)])
def test_a_double_hem_takes_twice_its_depth(hem: str, takes: int) -> None:
    """pattern-making.com: a double hem of 4 in adds 8 in; 1 to 3 in add 2 to 6 in."""
    plan, _ = planned(plain_job({"left": straight("left", "60", "11")}, fullness="2.5", cloth=cloth("54", hem=hem)))
    assert value(plan, "layer.face.hem") == inches(takes)


def test_a_hem_half_an_inch_off_the_floor() -> None:
    """simplesewingprojects (2006): the hem hangs 1/2 in off the floor."""
    section = straight("left", "60", "12", floor_gap=inches("1/2"))
    plan, _ = planned(plain_job({"left": section}, fullness="2.5", cloth=cloth("54")))
    assert value(plan, "part.left.drop") == inches("11 1/2")
    assert {reading.gap for reading in plan.parts[0].readings} == {inches("1/2")}


def shrunk(warp: str) -> tuple[Length, Length]:
    """Used and to-be-bought length of a section of four widths of 25 in, washed first."""
    cloth_ = cloth("54", warp_shrink=Fraction(warp), weft_shrink=Fraction(0), wash="washed first", step="1/1000")
    plan, _ = planned(plain_job({"left": straight("left", "84", "23 1/2")}, fullness="2.5", cloth=cloth_))
    return value(plan, "layer.face.used"), value(plan, "layer.face.roll")


@pytest.mark.parametrize(
    "warp",
    [
        "3/100",  # ASTM D3691 table 1 (withdrawn 2018): at most 3.0 % after five launderings
        "35/1000",  # ASTM D6664: woven tailored bedspreads 3.5 %
        "5/100",  # ASTM D6664: throws 5.0 %
    ],
)
def test_shrinkage_is_divided_out_and_never_multiplied_on(warp: str) -> None:
    """ISO 5077: 100 (Xt - X0) / X0 is the change; so what is bought, once shrunk, is exactly what is used."""
    used, roll = shrunk(warp)
    assert used == inches(100)
    assert roll * (1 - Fraction(warp)) == used
    assert roll > used * (1 + Fraction(warp))


def test_100_in_at_three_per_cent_are_103_09_and_not_103() -> None:
    """Exact: 100 / 0.97 = 103.09; a sum that adds 3 % buys 103 and comes out short."""
    _, roll = shrunk("3/100")
    assert round(roll.inches, 2) == Fraction("103.09")


def test_widths_are_rounded_up_and_never_down() -> None:
    """Merrick & Day handbook, pp. 116-117."""
    assert [ceiling(Fraction(text)) for text in ("12.22", "2.708", "2.78", "3", "10.26")] == [13, 3, 3, 3, 11]
