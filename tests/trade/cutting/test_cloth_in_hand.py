"""Owned lengths: they do not pool, they are used before anything is bought, and damage and dye lots are kept off."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.trade.cutting.geometry import faults
from tests.trade.cutting.jobs import ROLL, best, cutting, rules_of, strips_of
from tests.trade.sample_jobs import inches
from wizard.trade.cutting import Cutting, Layout, Refusal, Rules, Stretch, Strip, lay_out
from wizard.trade.cutting.assign_stock import could_save
from wizard.trade.cutting.lay_out import job_of
from wizard.trade.lengths import ZERO, Length, total


def owned(name: str, length: str | int | Fraction, **more: object) -> Stretch:
    """A length in hand, 54 in wide."""
    return Stretch(name, inches(length), Length(54), **more)  # type: ignore[arg-type]


def widths_on(plan: Layout) -> dict[str, int]:
    """How many widths each stretch gives."""
    return {use.stretch: use.rows for use in plan.uses}


TWO = [owned("long", Fraction(23, 10) * 36), owned("short", Fraction(16, 10) * 36)]


def test_two_lengths_give_six_and_four_widths_and_not_the_eleven_they_would_if_they_pooled() -> None:
    ten = strips_of((531, Fraction(25, 2)))
    plan = best(ten, rules_of(squaring=ZERO), TWO)
    assert widths_on(plan) == {"long": 6, "short": 4}
    eleven = lay_out(strips_of((532, Fraction(25, 2))), TWO, rules_of(squaring=ZERO))
    assert isinstance(eleven, Refusal)
    assert eleven.reason == "no cloth"


def test_each_length_is_squared_on_its_own_unless_it_is_square_already() -> None:
    strips, stock = strips_of((54, 12), (54, 12)), [owned("a", 12), owned("b", 12)]
    assert isinstance(lay_out(strips, stock, rules_of()), Refusal)
    square = [owned("a", 12, squared=True), owned("b", 12, squared=True)]
    assert widths_on(best(strips, rules_of(), square)) == {"a": 1, "b": 1}


def test_a_cut_longer_than_a_length_leaves_it_unused() -> None:
    plan = best(strips_of((54, 20)), rules_of(), [owned("short", 15), owned("long", 30)])
    assert widths_on(plan) == {"long": 1}


def test_a_cut_longer_than_every_length_is_refused_with_both_lengths() -> None:
    answer = lay_out(strips_of((54, 20)), [owned("short", 15)], rules_of())
    assert answer == Refusal("cut too long", "a", Length(20), Length(15))


def test_only_what_is_left_over_is_bought() -> None:
    plan = best(strips_of((160, 12)), rules_of(), [owned("a", 25), ROLL])
    assert (widths_on(plan), plan.roll, plan.buy) == ({"a": 2, "roll": 1}, Length(13), Length(Fraction(27, 2)))


def test_nothing_is_bought_when_enough_is_owned() -> None:
    plan = best(strips_of((100, 12)), rules_of(), [owned("a", 25), ROLL])
    assert (plan.roll, plan.buy) == (ZERO, ZERO)


def test_no_piece_touches_a_damaged_stretch() -> None:
    plan = best(
        strips_of((54, 12), (54, 12)), rules_of(squaring=ZERO), [owned("a", 40, damage=((Length(14), Length(20)),))]
    )
    assert sorted(piece.start for piece in plan.pieces) == [ZERO, Length(20)]
    assert [offcut.kind for offcut in plan.offcuts if offcut.start == Length(14)] == ["damage"]


def test_a_section_is_cut_from_one_dye_lot_where_that_can_be() -> None:
    stock = [owned("a", 37, lot="1"), owned("b", 37, lot="2")]
    plan = best(strips_of((107, 12), (107, 12)), rules_of(), stock)
    lots = {
        piece.strip: {other.stretch for other in plan.pieces if other.strip == piece.strip} for piece in plan.pieces
    }
    assert all(len(each) == 1 for each in lots.values())


def test_a_section_is_cut_from_two_dye_lots_only_where_there_is_no_other_way() -> None:
    stock = [owned("a", 25, lot="1"), owned("b", 25, lot="2")]
    assert widths_on(best(strips_of((180, 12)), rules_of(), stock)) == {"a": 2, "b": 2}


def test_a_narrow_length_gives_its_own_narrower_widths() -> None:
    stock = [Stretch("narrow", Length(25), Length(45))]
    plan = best(strips_of((80, 12)), rules_of(), stock)
    assert max(piece.width for piece in plan.pieces) <= Length(45)
    assert plan.uses[0].rows == 2


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


def test_what_is_left_before_a_damaged_stretch_is_not_called_the_end() -> None:
    stock = [owned("a", 60, damage=((Length(16), Length(20)),))]
    plan = best(strips_of((107, 12)), rules_of(squaring=ZERO), stock)
    kinds = {each.kind: (each.start, each.along) for each in plan.offcuts if each.width == Length(54)}
    assert kinds == {
        "before": (Length(12), Length(4)), "damage": (Length(16), Length(4)), "end": (Length(32), Length(28))
    }  # fmt: skip


@pytest.mark.parametrize(("least", "saved"), [(30, Fraction(100, 9)), (0, Fraction(409, 9))])
def test_what_could_be_saved_is_told_in_cloth_as_bought(least: int, saved: Fraction) -> None:
    """Nine tenths are left once washed: 10 less used is 10 / 0.9 less bought; nothing bought saves the squaring too."""
    rules = rules_of(squaring=Length(1), keeps=Fraction(9, 10))
    job = job_of(strips_of((100, 12)), (Stretch("chest", Length(60), Length(54)), ROLL), rules)
    ticks = [job.scale.down(Length(each)) for each in (40, least)]
    assert could_save(job, *ticks) == Length(saved)


# More strips than are searched as one, on lengths in hand: planned in batches, with nothing left out.
RULES = Rules(join_cost=inches(1), least_piece=inches(6), mark=inches("1/16"), step=inches(9), squaring=inches(1))


@pytest.mark.parametrize("count", [9, 12, 15])
@pytest.mark.parametrize("more", [Stretch("long", inches(2000), inches(54)), Stretch("roll", None, inches(54))])
def test_every_strip_is_cut_in_full(count: int, more: Stretch) -> None:
    strips = [Strip(f"s{n}", f"s{n}", "face", inches(20 + 13 * n), inches(12 + n % 3)) for n in range(count)]
    answer = lay_out(strips, [Stretch("short", inches(100), inches(54)), more], RULES)
    assert isinstance(answer, Cutting)
    for strip in strips:
        widths = [piece.width for piece in answer.best.pieces if piece.strip == strip.id]
        assert total(widths) - inches(len(widths) - 1) == strip.flat
