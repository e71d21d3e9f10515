"""Fullness steps: for each length of roll at a shop step, the greatest fullness it gives."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from typing import Final

from wizard.trade.costs import price_for
from wizard.trade.cutting.strips import Cutting, Layout
from wizard.trade.figures import Ledger
from wizard.trade.growing import Growing
from wizard.trade.lengths import Length
from wizard.trade.plan import FullnessStep
from wizard.trade.searching import greatest

LEAST: Final = Fraction(3, 2)
"""Below this a gathered skirt looks mean."""
MOST: Final = Fraction(3)
"""Above this cloth hardly gathers."""


def steps_of(ledger: Ledger, face: Growing | None) -> tuple[FullnessStep, ...]:
    """The steps from 1 1/2 to 3, with the joins and the cost of the face cloth at each."""
    if face is None:
        return ()
    price, sold_by = ledger.job.cloth.face.price, str(ledger.read("cloth.face.sold_by").value)
    return tuple(
        FullnessStep(roll, fullness, joins, None if price is None else price_for(roll, price, sold_by))
        for roll, fullness, joins in climbed(face)
    )


@lru_cache(maxsize=32)
def climbed(face: Growing) -> tuple[tuple[Length, Fraction, int], ...]:
    """(length of roll, greatest fullness it gives, joins), the shortest roll first.

    Only lengths at which more cloth gives more fullness are listed: what lies between gives no more.
    """
    steps: list[tuple[Length, Fraction, int]] = []
    at = face.ladder.up(LEAST)
    while at <= MOST and (layout := _laid(face, at)) is not None:
        best = greatest(face.ladder, at, MOST, lambda fullness, buy=layout.buy: _buys(face, fullness, buy))  # type: ignore[misc]
        if best is None or (made := _laid(face, best)) is None:
            break
        steps.append((layout.buy, min(best, MOST), made.joins))
        at = face.ladder.over(best)
    return tuple(steps)


def _laid(face: Growing, fullness: Fraction) -> Layout | None:
    answer = face.cut(fullness, (*face.owned, face.roll))
    return answer.best if isinstance(answer, Cutting) else None


def _buys(face: Growing, fullness: Fraction, most: Length) -> bool:
    """True when no more than `most` has to be bought."""
    layout = _laid(face, fullness)
    return layout is not None and layout.buy <= most
