"""Fullness steps: for each length of roll at a shop step, the greatest fullness it gives."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache, partial
from typing import Final

from wizard.trade.costs import price_for
from wizard.trade.cutting.strips import Cutting, Layout
from wizard.trade.figures import Ledger
from wizard.trade.growing import Growing
from wizard.trade.lengths import ZERO, Length, total
from wizard.trade.plan import FullnessStep
from wizard.trade.searching import greatest

LEAST: Final = Fraction(3, 2)
"""Below this a gathered skirt looks mean."""
MOST: Final = Fraction(3)
"""Above this cloth hardly gathers."""

STEPS: Final = 24
"""About as many steps are listed at most."""
EFFORT: Final = 2_000
"""Nodes a search may visit for one trial: many are made, and a step that holds is true whether or not it is proven."""


def steps_of(ledger: Ledger, face: Growing | None) -> Callable[[], tuple[FullnessStep, ...]]:
    """Works, when called, the steps from 1 1/2 to 3, with the joins and the cost of the face cloth at each."""
    if face is None:
        return tuple
    price, sold_by = ledger.job.cloth.face.price, str(ledger.read("cloth.face.sold_by").value)
    return partial(_priced, replace(face, rules=replace(face.rules, effort=EFFORT)), price, sold_by)


def _priced(face: Growing, price: Decimal | None, sold_by: str) -> tuple[FullnessStep, ...]:
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
    at, stride = face.ladder.up(LEAST), _stride(face)
    while at <= MOST and (layout := _laid(face, at)) is not None:
        best = _greatest_for(face, at, layout, max([layout.buy, *(roll + stride for roll, _, _ in steps[-1:])]))
        if best is None or (made := _laid(face, best)) is None:
            break
        steps.append((made.buy, min(best, MOST), made.joins))
        at = face.ladder.over(best)
    return tuple(steps)


def _stride(face: Growing) -> Length:
    """How much more roll the next step takes at least: a very long skirt is not listed width by width."""
    least, most = _laid(face, face.ladder.up(LEAST)), _laid(face, face.ladder.up(MOST))
    return ZERO if least is None or most is None else (most.buy - least.buy) / STEPS


def _laid(face: Growing, fullness: Fraction) -> Layout | None:
    answer = face.cut(fullness, (*face.owned, face.roll))
    return answer.best if isinstance(answer, Cutting) else None


def _greatest_for(face: Growing, at: Fraction, layout: Layout, most: Length) -> Fraction | None:
    """The greatest fullness that buys no more than `most`, which this layout of fullness `at` does not."""

    def buys_no_more(fullness: Fraction) -> bool:
        other = _laid(face, fullness)
        return other is not None and other.buy <= most

    return greatest(face.ladder, at, MOST, buys_no_more, _with_its_offcuts(face, at, layout))


def _with_its_offcuts(face: Growing, at: Fraction, layout: Layout) -> Fraction | None:
    """Where the next width is likely to be needed: when what lies beside the pieces is used up."""
    spare = total(offcut.width for offcut in layout.offcuts if offcut.kind == "side")
    room = total(face.at(at)) + spare
    return greatest(face.ladder, at, MOST, lambda fullness: total(face.at(fullness)) <= room)
