"""Whole and half widths, their surplus trimmed or kept, and what cannot be cut."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.trade.cutting.jobs import ROLL, best, rules_of, strips_of
from wizard.trade.cutting import Layout, Refusal, Stretch, lay_out
from wizard.trade.lengths import Length


def widths(plan: Layout, strip: str) -> list[Length]:
    """A strip's piece widths from its left end."""
    pieces = sorted((piece for piece in plan.pieces if piece.strip == strip), key=lambda piece: piece.order)
    return [piece.width for piece in pieces]


def test_whole_widths_trim_the_surplus_equally_off_both_outer_pieces() -> None:
    plan = best(strips_of((140, 12)), rules_of(policy="whole widths"))
    assert widths(plan, "a") == [Length(44), Length(54), Length(44)]
    assert plan.used == Length(36)


def test_where_the_outer_pieces_have_no_more_to_give_those_between_are_trimmed() -> None:
    # By hand: 3 x 10 - 2 x 1 = 28 in of three widths, 8 1/4 too many; 10 to 6 in at either end leaves 1/4 in.
    narrow = [Stretch("roll", None, Length(10))]
    plan = best(strips_of(("19.75", 12)), rules_of(policy="whole widths"), narrow)
    assert sorted(widths(plan, "a")) == [Length(6), Length(6), Length(Fraction(39, 4))]


def test_whole_widths_kept_make_the_strip_wider_than_asked() -> None:
    plan = best(strips_of((140, 12)), rules_of(policy="whole widths", surplus="keep"))
    assert widths(plan, "a") == [Length(54)] * 3
    assert plan.flats == (("a", Length(160)),)


def test_two_odd_halves_share_a_width() -> None:
    plan = best(strips_of((75, 12), (75, 12)), rules_of(policy="half widths"))
    assert plan.used == Length(36)
    assert plan.uses[0].rows == 3


@pytest.mark.parametrize(("flat", "rows"), [(27, 1), (28, 1), (54, 1), (80, 2), (81, 2), (107, 2), (108, 3)])
def test_the_least_number_of_halves_is_taken(flat: int, rows: int) -> None:
    assert best(strips_of((flat, 12)), rules_of(policy="half widths")).uses[0].rows == rows


def test_halves_of_unequal_length_are_paired_longest_with_longest() -> None:
    plan = best(strips_of((27, 12), (27, 20), (27, 12), (27, 20)), rules_of(policy="half widths"))
    assert plan.used == Length(32)


def test_half_a_width_that_is_kept_stays_a_full_half() -> None:
    plan = best(strips_of((75, 12)), rules_of(policy="half widths", surplus="keep"))
    assert sorted(widths(plan, "a")) == [Length(27), Length(54)]


def test_no_strips_and_no_cloth_are_refused() -> None:
    assert lay_out([], [ROLL], rules_of()) == Refusal("no strips", None, None, None)
    assert lay_out(strips_of((50, 12)), [], rules_of()) == Refusal("no cloth", None, None, None)


def test_cloth_no_wider_than_a_join_is_refused() -> None:
    answer = lay_out(strips_of((50, 12)), [Stretch("roll", None, Length(1))], rules_of())
    assert isinstance(answer, Refusal)
    assert answer.reason == "usable too narrow"


def test_a_strip_that_would_need_pieces_under_the_least_is_refused_with_the_piece_it_would_get() -> None:
    answer = lay_out(strips_of((56, 12)), [ROLL], rules_of(least_piece=Length(30)))
    assert answer == Refusal("piece too narrow", "a", Length(30), Length(57) / 2)
