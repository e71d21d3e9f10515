"""Making up and hanging as practitioners do it. Common practice, no source, unless one stands beside the check."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from tests.trade.sample_jobs import cloth, inches, plain_job, planned, straight
from wizard.trade.figures import Ledger
from wizard.trade.fixings import in_order
from wizard.trade.job_fields import Job, usual_of
from wizard.trade.lengths import Length
from wizard.trade.notions import BY_KIND, BY_WEIGHT, PAIRS, STITCHES, row_figures, size, stitches_an_inch, thread_for
from wizard.trade.parts import marks_of
from wizard.trade.plan_records import Step
from wizard.trade.steps import work_of
from wizard.trade.steps.making_up_steps import draw_up_minutes


def long_side(**more: Any) -> dict[str, Step]:
    """The work of one side 80 1/2 in long at fullness 2 1/2, over 54 in, 11 in of drop."""
    face = cloth("54", kind="fine silk", weight="light")
    job = plain_job({"left": straight("left", "80 1/2", "11")}, fullness="2.5", cloth=face, **more)
    plan, _ = planned(job)
    return {each.id: each for each in work_of(Ledger(job, dict(plan.figures)), plan.parts, plan.layers)}


def test_a_run_of_80_and_a_half_in_is_marked_in_eight_parts_on_tape_and_skirt() -> None:
    """Common practice, no source: 82 1/2 in of tape with an inch at each end; eight parts; 201 1/4 in of skirt."""
    assert long_side()["mark:left"].lines == (
        "Cut the tape, and press it in half along its length: 82 1/2 in.",
        "Mark 1 in at each end to turn under.",
        "Finished tape, between those marks: 80 1/2 in.",
        "Fold the tape and the flat skirt into equal parts: 8.",
        "Each part on the tape: 10 1/16 in.",
        "Each part on the skirt: ≈ 25 1/8 in.",
        "Measure every mark from the same end, never from the mark before: the head.",
    )
    # Exact: 201 1/4 x 6 / 8 = 150 15/16 in; six times 25 1/8 in is only 150 3/4 in.
    assert marks_of(inches("80 1/2"), inches("201 1/4"))[6].flat == inches("150 15/16")


def test_stay_stitching_a_quarter_inch_from_the_edge_and_the_row_an_eighth_below() -> None:
    """Common practice, no source."""
    assert [each.value for each in row_figures(Ledger(Job()))][1:] == [inches("1/4"), inches("1/4") + inches("1/8")]


def test_about_half_an_hour_to_draw_up_and_pin_one_long_side() -> None:
    """Common practice, no source: a long side is about 80 in; a shorter one takes less."""
    assert draw_up_minutes(inches("80")) == 30
    assert draw_up_minutes(inches("40")) == 15
    assert 30 <= long_side()["draw-up:left"].minutes <= 35


def test_silk_is_hemmed_with_needle_70_and_its_flannel_with_90() -> None:
    """Common practice, no source."""
    flannel = cloth("54", kind="flannel", hem="3/2", setback=inches("1/2"), end_setback=inches("1/2"))
    work = long_side(interlining=flannel)
    needles = [work[f"hem:{layer}:left"].settings[0] for layer in ("face", "interlining")]
    assert needles == ["needle 70/10", "needle 90/14"]


def test_fixings_go_one_end_the_other_the_middle_then_outwards() -> None:
    """Common practice, no source."""
    placed = in_order(tuple(Length(at) for at in range(9)))
    assert [each.at.inches for each in sorted(placed, key=lambda each: each.order)] == [0, 8, 4, 3, 5, 2, 6, 1, 7]


def test_gathering_rows_stop_at_joins_and_a_long_run_may_be_gathered_over_a_cord() -> None:
    """artandhome.blogspot.com (2011): stop gathering rows at joins; the cord: Sew News, questions and answers."""
    lines = long_side()["gather:left"].lines
    assert "Stop at every join and start again on the other side of it." in lines
    assert any("over a cord" in line for line in lines)


@pytest.mark.parametrize(("parts", "word"), [(2, "halves"), (4, "quarters"), (8, "eighths")])
def test_halves_quarters_and_eighths_lie_where_folding_puts_them(parts: int, word: str) -> None:
    """*Sewing Handicraft for Girls*: halves, quarters, eighths; so each fold lies in the middle of the last."""
    run = Length(12 * parts)
    places = [each.tape for each in marks_of(run, run * Fraction(5, 2))]
    assert len(places) == parts + 1, word
    assert all(places[at] * 2 == places[at - 1] + places[at + 1] for at in range(1, parts))


# Needles and stitch lengths against a needle maker's tables, a sewing magazine and the exact inch.
def test_every_needle_we_give_is_in_the_tables_and_its_two_numbers_pair_up() -> None:
    """A needle maker's tables."""
    pairs = ("60/8", "70/10", "75/11", "80/12", "90/14", "100/16", "110/18", "120/19")
    assert [size(int(pair.partition("/")[0])) for pair in pairs] == list(pairs)
    assert {*BY_KIND.values(), *BY_WEIGHT.values()} <= set(PAIRS)


@pytest.mark.parametrize("length", ["2.5", "4", "1", "25.4", "12.7"])
def test_stitches_an_inch_come_from_the_exact_inch_and_gathering_rows_have_about_six(length: str) -> None:
    """NIST SP 811: 1 in = 25.4 mm exactly; so many stitches of that length make an inch and no more. About six: Sew
    News, questions and answers."""
    assert Length.of(Fraction(length), "mm") * stitches_an_inch(Fraction(length)) == Length(1)
    assert round(stitches_an_inch(STITCHES["gathering"])) == 6


# Thread against published ratios.
RATIO: Any = usual_of("cloth.thread.ratio", "inches")
WASTE: Any = usual_of("cloth.thread.waste", "inches")
NONE = Fraction(0)


def by_thickness(thickness: Fraction, stitches: Fraction) -> Fraction:
    """Thread in an inch of lockstitch seam: 2 + 2TS (textilecalculations.com)."""
    return 2 + 2 * thickness * stitches


def test_a_lockstitch_seam_takes_two_and_a_half_times_its_length() -> None:
    """Coats technical guide: stitch 301, seam to thread 1 : 2.5. melgeecrafts.com: 220 cm x 2.5 = 550 cm."""
    assert Fraction(5, 2) == RATIO == usual_of("cloth.thread.ratio", "metric")
    assert thread_for(Length.of(220, "cm"), Fraction(5, 2), NONE) == Length.of(550, "cm")


def test_the_ratio_is_enough_at_our_own_stitch_length() -> None:
    """textilecalculations.com: 2 + 2TS; with T = 0.01 in and S = 10 stitches an inch an inch of thin seam takes 2.2 in,
    and at the stitch length we give for joins less than the ratio we allow."""
    thin = by_thickness(Fraction(1, 100), Fraction(10))
    assert thread_for(Length(1), thin, NONE) == Length(Fraction(11, 5))
    assert thin < by_thickness(Fraction(1, 100), stitches_an_inch(STITCHES["join"])) < RATIO


def test_the_waste_allowed_lies_where_both_printings_agree() -> None:
    """A&E technical bulletin: 10 to 15 % in one printing, 15 to 20 % in another; only 15 % is in both."""
    assert Fraction(10, 100) <= WASTE <= Fraction(15, 100)
    assert Fraction(15, 100) <= WASTE <= Fraction(20, 100)
