"""Small jobs for the cutting tests, in inches."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from tests.trade.sample_jobs import inches
from wizard.trade.cutting import Cutting, Layout, Rules, Stretch, Strip, lay_out
from wizard.trade.lengths import Length, round_up

SIXTEENTH = Length(Fraction(1, 16))
ROLL = Stretch("roll", None, Length(54))


def strips_of(*sizes: tuple[str | int | Fraction, str | int | Fraction]) -> list[Strip]:
    """Strips named a, b, c... from (flat, cut)."""
    return [
        Strip(chr(97 + place), chr(97 + place), "face", round_up(inches(flat), SIXTEENTH), inches(cut))
        for place, (flat, cut) in enumerate(sizes)
    ]


def rules_of(**changed: Any) -> Rules:
    """The trade's defaults: half-inch joins, least piece 6 in, 1/16 in marks, eighths of a yard."""
    given: dict[str, Any] = {
        "join_cost": Length(1),
        "least_piece": Length(6),
        "mark": SIXTEENTH,
        "squaring": Length(1),
        "step": Length(Fraction(9, 2)),
    }
    return Rules(**(given | changed))


def cutting(strips: Sequence[Strip], rules: Rules, stock: Sequence[Stretch] = (ROLL,)) -> Cutting:
    """The plan; fails the test when it is refused."""
    answer = lay_out(strips, stock, rules)
    assert isinstance(answer, Cutting), answer
    return answer


def best(strips: Sequence[Strip], rules: Rules, stock: Sequence[Stretch] = (ROLL,)) -> Layout:
    """The plan to follow."""
    return cutting(strips, rules, stock).best
