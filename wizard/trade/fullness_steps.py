"""Fullness steps: for each length of roll at a shop step, the greatest fullness it gives."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache, partial
from typing import Final

from msgspec.structs import replace

from wizard.trade.costs import price_for
from wizard.trade.cutting.strips import Cutting, Layout
from wizard.trade.figures import Ledger
from wizard.trade.fullness_guide import MEAN, MOST
from wizard.trade.growing import Growing
from wizard.trade.lengths import ZERO, Length, total
from wizard.trade.plan import FullnessStep
from wizard.trade.searching import greatest

STEPS: Final = 60
"""About as many steps are listed at most."""
EFFORT: Final = 2_000
"""Nodes a search may visit for one trial: many are made, and a step that holds is true whether or not it is proven."""

Climbed = tuple[Length, Fraction, Fraction, int]
"""Length of roll, the greatest fullness it gives, the handy one a little below that, joins at the handy one."""


def steps_of(ledger: Ledger, face: Growing | None) -> Callable[[], Iterator[FullnessStep]]:
    """Works, one by one as they are asked for, the steps from 1 1/2 to 3, with joins and cost of the face at each."""
    if face is None:
        return lambda: iter(())
    price, sold_by = ledger.job.cloth.face.price, str(ledger.read("cloth.face.sold_by").value)
    return partial(_priced, replace(face, rules=replace(face.rules, effort=EFFORT)), price, sold_by)


def _priced(face: Growing, price: Decimal | None, sold_by: str) -> Iterator[FullnessStep]:
    for roll, fullness, handy, joins in climbing(face):
        yield FullnessStep(roll, fullness, joins, None if price is None else price_for(roll, price, sold_by), handy)


def climbing(face: Growing) -> Iterator[Climbed]:
    """The steps, the shortest roll first; each is laid out when it is asked for, and then remembered.

    Only lengths at which more cloth gives more fullness are listed: what lies between gives no more.
    """
    steps: tuple[Climbed, ...] = ()
    while (step := _next(face, steps)) is not None:
        yield step
        steps = (*steps, step)


@lru_cache(maxsize=1024)
def _next(face: Growing, steps: tuple[Climbed, ...]) -> Climbed | None:
    """The step after `steps`; None when they come to the top."""
    at = face.ladder.over(steps[-1][1]) if steps else face.ladder.up(MEAN)
    if at > MOST or (layout := _laid(face, at)) is None:
        return None
    most = max([layout.buy, *(roll + _stride(face) for roll, *_ in steps[-1:])])
    best = _greatest_for(face, at, layout, most)
    made = None if best is None else _laid(face, best)
    if best is None or made is None:
        return None
    top = min(best, MOST)
    handy, joins = _handy(face, at, top, made)
    return made.buy, top, handy, joins


def _handy(face: Growing, at: Fraction, top: Fraction, made: Layout) -> tuple[Fraction, int]:
    """A fullness of two decimals, or of three, from `at` to `top` that takes no more cloth, and its joins."""
    for parts in (100, 1000):
        rounded = Fraction((top * parts).__floor__(), parts)
        other = _laid(face, rounded) if at <= rounded < top else None
        if other is not None and other.buy == made.buy:
            return rounded, other.joins
    return top, made.joins


@lru_cache(maxsize=32)
def _stride(face: Growing) -> Length:
    """How much more roll the next step takes at least: a very long skirt is not listed width by width."""
    least, most = _laid(face, face.ladder.up(MEAN)), _laid(face, face.ladder.up(MOST))
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
