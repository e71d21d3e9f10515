"""Whole and half widths, their surplus trimmed or kept, and what cannot be cut."""

from __future__ import annotations

from typing import Any

import pytest

from tests.trade.cutting.jobs import ROLL, best, rules_of, strips_of
from tests.trade.sample_jobs import inches
from wizard.trade.cutting import Layout, Refusal, Stretch, Strip, lay_out
from wizard.trade.lengths import Length


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
