"""Whole and half widths, and owned lengths: they do not pool, are used before any is bought, and keep off damage."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from tests.trade.cutting.geometry import faults
from tests.trade.cutting.jobs import ROLL, best, cutting, rules_of, strips_of
from tests.trade.sample_jobs import inches
from wizard.trade.cutting import Layout, Refusal, Stretch, Strip, lay_out
from wizard.trade.cutting.assign_stock import could_save
from wizard.trade.cutting.lay_out import job_of
from wizard.trade.lengths import ZERO, Length, total


def widths(plan: Layout, strip: str) -> list[Length]:
    """A strip's piece widths from its left end."""
    pieces = sorted((piece for piece in plan.pieces if piece.strip == strip), key=lambda piece: piece.order)
    return [piece.width for piece in pieces]


@pytest.mark.parametrize(
    ("flat", "width", "rules", "pieces"),
    [
        # Whole widths trim the surplus equally off both outer pieces.
        ("140", 54, {"policy": "whole widths"}, ["44", "54", "44"]),
        # By hand: 3 x 10 - 2 x 1 = 28 in of three widths, 8 1/4 too many; 10 to 6 in at either end leaves 1/4 in.
        ("19 3/4", 10, {"policy": "whole widths"}, ["9 3/4", "6", "6"]),
        # Kept, they make the strip wider than asked; half a width that is kept stays a full half.
        ("140", 54, {"policy": "whole widths", "surplus": "keep"}, ["54", "54", "54"]),
        ("75", 54, {"policy": "half widths", "surplus": "keep"}, ["54", "27"]),
    ],
)
def test_the_surplus_of_whole_and_half_widths_is_trimmed_or_kept(
    flat: str, width: int, rules: dict[str, Any], pieces: list[str]
) -> None:
    plan = best(strips_of((flat, 12)), rules_of(**rules), [Stretch("roll", None, Length(width))])
    assert sorted(widths(plan, "a")) == sorted(inches(each) for each in pieces)
    assert len(pieces) == 2 or widths(plan, "a") == [inches(each) for each in pieces], "in order"
    assert plan.used == Length(12) * plan.uses[0].rows
    made = sum((inches(each) for each in pieces), -Length(len(pieces) - 1))
    assert plan.flats == (("a", made),)


@pytest.mark.parametrize(("flat", "rows"), [(27, 1), (28, 1), (54, 1), (80, 2), (81, 2), (107, 2), (108, 3)])
def test_the_least_number_of_halves_is_taken(flat: int, rows: int) -> None:
    assert best(strips_of((flat, 12)), rules_of(policy="half widths")).uses[0].rows == rows


def test_two_odd_halves_share_a_width_the_longest_with_the_longest() -> None:
    plan = best(strips_of((75, 12), (75, 12)), rules_of(policy="half widths"))
    assert (plan.used, plan.uses[0].rows) == (Length(36), 3)
    plan = best(strips_of((27, 12), (27, 20), (27, 12), (27, 20)), rules_of(policy="half widths"))
    assert plan.used == Length(32)


@pytest.mark.parametrize(
    ("strips", "stock", "least", "refusal"),
    [
        ([], [ROLL], 6, Refusal("no strips", None, None, None)),
        (strips_of((50, 12)), [], 6, Refusal("no cloth", None, None, None)),
        # A strip that would need pieces under the least is refused with the piece it would get.
        (strips_of((56, 12)), [ROLL], 30, Refusal("piece too narrow", "a", Length(30), Length(57) / 2)),
    ],
)
def test_what_cannot_be_cut_is_refused(strips: list[Strip], stock: list[Stretch], least: int, refusal: Refusal) -> None:
    assert lay_out(strips, stock, rules_of(least_piece=Length(least))) == refusal
    narrow = lay_out(strips_of((50, 12)), [Stretch("roll", None, Length(1))], rules_of())
    assert isinstance(narrow, Refusal)
    assert narrow.reason == "usable too narrow"


def owned(name: str, length: str | int | Fraction, **more: object) -> Stretch:
    """A length in hand, 54 in wide."""
    return Stretch(name, inches(length), Length(54), **more)  # type: ignore[arg-type]


TWO = [owned("long", Fraction(23, 10) * 36), owned("short", Fraction(16, 10) * 36)]


@pytest.mark.parametrize(
    ("sizes", "stock", "squaring", "widths", "bought"),
    [
        # Two lengths give six and four widths, and not the eleven they would if they pooled.
        ([(531, Fraction(25, 2))], TWO, 0, {"long": 6, "short": 4}, 0),
        ([(532, Fraction(25, 2))], TWO, 0, None, 0),
        # Each length is squared on its own unless it is square already.
        ([(54, 12), (54, 12)], [owned("a", 12), owned("b", 12)], 1, None, 0),
        ([(54, 12), (54, 12)], [owned("a", 12, squared=True), owned("b", 12, squared=True)], 1, {"a": 1, "b": 1}, 0),
        # A cut longer than a length leaves it unused. Only what is left over is bought.
        ([(54, 20)], [owned("short", 15), owned("long", 30)], 1, {"long": 1}, 0),
        ([(160, 12)], [owned("a", 25), ROLL], 1, {"a": 2, "roll": 1}, 13),
        ([(100, 12)], [owned("a", 25), ROLL], 1, {"a": 2}, 0),
        # A section is cut from two dye lots only where there is no other way.
        ([(180, 12)], [owned("a", 25, lot="1"), owned("b", 25, lot="2")], 1, {"a": 2, "b": 2}, 0),
        # A narrow length gives its own narrower widths.
        ([(80, 12)], [Stretch("narrow", Length(25), Length(45))], 1, {"narrow": 2}, 0),
    ],
)
def test_how_many_widths_each_length_gives(
    sizes: list[tuple[int, int]], stock: list[Stretch], squaring: int, widths: dict[str, int] | None, bought: int
) -> None:
    rules = rules_of(squaring=Length(squaring))
    answer = lay_out(strips_of(*sizes), stock, rules)
    if isinstance(answer, Refusal):
        assert (answer.reason, widths) == ("no cloth", None)
    else:
        assert widths == {use.stretch: use.rows for use in answer.best.uses}
        assert answer.best.roll == Length(bought)
        assert faults(answer.best, strips_of(*sizes), stock, rules) == []


def test_a_cut_longer_than_every_length_is_refused_with_both_lengths() -> None:
    answer = lay_out(strips_of((54, 20)), [owned("short", 15)], rules_of())
    assert answer == Refusal("cut too long", "a", Length(20), Length(15))


def test_no_piece_touches_a_damaged_stretch_and_what_is_left_before_it_is_not_called_the_end() -> None:
    kinds = []
    for strips, damage in ((strips_of((54, 12), (54, 12)), (14, 20)), (strips_of((107, 12)), (16, 20))):
        hurt = owned("a", 60, damage=((Length(damage[0]), Length(damage[1])),))
        plan = best(strips, rules_of(squaring=ZERO), [hurt])
        assert sorted(piece.start for piece in plan.pieces) == [ZERO, Length(20)]
        kinds.append({each.kind: (each.start, each.along) for each in plan.offcuts if each.width == Length(54)})
    assert kinds[1] == {
        "before": (Length(12), Length(4)), "damage": (Length(16), Length(4)), "end": (Length(32), Length(28))
    }  # fmt: skip


def test_a_section_is_cut_from_one_dye_lot_where_that_can_be() -> None:
    stock = [owned("a", 37, lot="1"), owned("b", 37, lot="2")]
    plan = best(strips_of((107, 12), (107, 12)), rules_of(), stock)
    assert len({(piece.strip, piece.stretch) for piece in plan.pieces}) == 2


def test_a_length_that_is_left_whole_takes_none_of_the_other_ways_away() -> None:
    scrap = Stretch("scrap", Length(5), Length(54))
    alone, beside = (cutting(strips_of((53, 18), (79, 12)), rules_of(), stock) for stock in ([ROLL], [scrap, ROLL]))
    assert [(each.way, each.used) for each in beside.others] == [("slit", Length(36))]
    assert [(each.way, each.used) for each in alone.others] == [(each.way, each.used) for each in beside.others]
    sizes, step = [(86, 12), (86, 12), (86, 12)], rules_of(step=Length(100))
    alone, beside = (cutting(strips_of(*sizes), step, stock) for stock in ([ROLL], [scrap, ROLL]))
    assert alone.fewest_joins is not None
    assert beside.fewest_joins is not None
    assert (beside.fewest_joins.used, beside.fewest_joins.joins) == (alone.fewest_joins.used, alone.fewest_joins.joins)


def test_too_little_cloth_is_said_for_certain_only_where_every_way_was_looked_at() -> None:
    # 2 widths on each length: 4 of the 5 that two strips take, though by area there is enough
    stock = [owned("a", 34), owned("b", 34)]
    refused = lay_out(strips_of((130, 12), (100, 12)), stock, rules_of())
    assert isinstance(refused, Refusal)
    assert refused.needed is not None
    assert refused.found is not None
    assert (refused.certain, refused.needed <= refused.found) == (True, True)
    narrow = [Stretch("narrow", Length(34), Length(45)), owned("b", 34)]
    refused = lay_out(strips_of((102, 12), (95, 12)), narrow, rules_of())
    assert isinstance(refused, Refusal)
    assert not refused.certain


def test_cloth_in_hand_and_a_roll_have_their_fewest_joins_beside_the_least_cloth() -> None:
    # One width in hand and one bought give all three with a join; another bought, and none is joined.
    stock = [owned("a", 14), ROLL]
    found = cutting(strips_of((35, 12), (35, 12), (35, 12)), rules_of(step=Length(40)), stock)
    assert found.fewest_joins is not None
    assert (found.best.joins, found.fewest_joins.joins) == (1, 0)
    assert found.fewest_joins.buy == found.best.buy


def test_what_is_bought_beside_cloth_in_hand_may_be_slit_where_that_is_shorter() -> None:
    # 53 at 18 with 79 at 12 takes 42 in across and 36 in slit; the third strip is cut from the length in hand.
    strips, stock = strips_of((53, 18), (79, 12), (53, 12)), [owned("a", 14), ROLL]
    found = cutting(strips, rules_of(), stock)
    assert bought_of(found.best) == Length(42)
    slit = found.others[0]
    assert (slit.way, bought_of(slit), slit.used) == ("slit", Length(36), Length(48))
    assert faults(slit, strips, stock, rules_of()) == []
    assert cutting(strips_of((53, 12), (79, 12), (53, 12)), rules_of(), stock).others == ()


def bought_of(plan: Layout) -> Length:
    """What is used of the roll."""
    return total([use.length for use in plan.uses if use.stretch == ROLL.id])


def test_what_an_unproven_plan_could_save_is_what_it_could_buy_less() -> None:
    # nine strips, two narrow lengths: the area of all three leaves more to be saved on the roll than in all
    strips = strips_of(*[(65 + 3 * n, 12 + n % 2) for n in range(9)])
    stock = [Stretch("one", Length(40), Length(31)), Stretch("two", Length(30), Length(37)), ROLL]
    plan = best(strips, rules_of(), stock)
    assert not plan.proof.least
    assert plan.proof.saves is not None
    area = sum((strip.flat.inches * strip.cut.inches for strip in strips), Fraction(0))
    owned_area = 39 * 31 + 29 * 37
    assert bought_of(plan) - plan.proof.saves <= Length((area + len(strips) * 13 * 9 - owned_area) / 54)
    assert bought_of(plan) > plan.proof.saves


@pytest.mark.parametrize(("least", "saved"), [(30, Fraction(100, 9)), (0, Fraction(409, 9))])
def test_what_could_be_saved_is_told_in_cloth_as_bought(least: int, saved: Fraction) -> None:
    """Nine tenths are left once washed: 10 less used is 10 / 0.9 less bought; nothing bought saves the squaring too."""
    rules = rules_of(squaring=Length(1), keeps=Fraction(9, 10))
    job = job_of(strips_of((100, 12)), (Stretch("chest", Length(60), Length(54)), ROLL), rules)
    ticks = [job.scale.down(Length(each)) for each in (40, least)]
    assert could_save(job, *ticks) == Length(saved)


@pytest.mark.parametrize("count", [9, 12, 15])
@pytest.mark.parametrize("more", [owned("long", 2000), ROLL])
def test_more_strips_than_are_searched_as_one_are_planned_in_batches_with_nothing_left_out(
    count: int, more: Stretch
) -> None:
    strips, stock = strips_of(*((20 + 13 * n, 12 + n % 3) for n in range(count))), [owned("short", 100), more]
    rules = rules_of(step=Length(9))
    assert faults(best(strips, rules, stock), strips, stock, rules) == []
