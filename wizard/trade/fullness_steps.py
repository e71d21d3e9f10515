"""Fullness steps: for each length of roll at a shop step, the greatest fullness it gives."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from typing import Final

from wizard.trade.costs import price_for
from wizard.trade.cutting.strips import Cutting, Layout
from wizard.trade.figures import Ledger
from wizard.trade.growing import Growing
from wizard.trade.lengths import Length, total
from wizard.trade.plan import FullnessStep
from wizard.trade.searching import greatest

LEAST: Final = Fraction(3, 2)
"""Below this a gathered skirt looks mean."""
MOST: Final = Fraction(3)
"""Above this cloth hardly gathers."""

EFFORT: Final = 2_000
"""Nodes a search may visit for one trial: many are made, and a step that holds is true whether or not it is proven."""


def steps_of(ledger: Ledger, face: Growing | None) -> tuple[FullnessStep, ...]:
    """The steps from 1 1/2 to 3, with the joins and the cost of the face cloth at each."""
    if face is None:
        return ()
    price, sold_by = ledger.job.cloth.face.price, str(ledger.read("cloth.face.sold_by").value)
    return tuple(
        FullnessStep(roll, fullness, joins, None if price is None else price_for(roll, price, sold_by))
        for roll, fullness, joins in climbed(replace(face, rules=replace(face.rules, effort=EFFORT)))
    )


@lru_cache(maxsize=32)
def climbed(face: Growing) -> tuple[tuple[Length, Fraction, int], ...]:
    """(length of roll, greatest fullness it gives, joins), the shortest roll first.

    Only lengths at which more cloth gives more fullness are listed: what lies between gives no more.
    """
    steps: list[tuple[Length, Fraction, int]] = []
    at = face.ladder.up(LEAST)
    while at <= MOST and (layout := _laid(face, at)) is not None:
        best = _greatest_for(face, at, layout)
        if best is None or (made := _laid(face, best)) is None:
            break
        steps.append((layout.buy, min(best, MOST), made.joins))
        at = face.ladder.over(best)
    return tuple(steps)


def _laid(face: Growing, fullness: Fraction) -> Layout | None:
    answer = face.cut(fullness, (*face.owned, face.roll))
    return answer.best if isinstance(answer, Cutting) else None


def _greatest_for(face: Growing, at: Fraction, layout: Layout) -> Fraction | None:
    """The greatest fullness that buys no more than this layout, which is of fullness `at`."""

    def buys_no_more(fullness: Fraction) -> bool:
        other = _laid(face, fullness)
        return other is not None and other.buy <= layout.buy

    return greatest(face.ladder, at, MOST, buys_no_more, _with_its_offcuts(face, at, layout))


def _with_its_offcuts(face: Growing, at: Fraction, layout: Layout) -> Fraction | None:
    """Where the next width is likely to be needed: when what lies beside the pieces is used up."""
    spare = total(offcut.width for offcut in layout.offcuts if offcut.kind == "side")
    room = total(face.at(at)) + spare
    return greatest(face.ladder, at, MOST, lambda fullness: total(face.at(fullness)) <= room)
