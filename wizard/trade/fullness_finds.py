"""Named finds among the fullness steps: a little less fullness that saves cloth, the same cloth that gives more."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction
from typing import Final, Literal

from msgspec import Struct

from wizard.trade.fullness_guide import MOST
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan import FullnessStep, Plan
from wizard.trade.printing import exact, money, number

Kind = Literal["saves", "same cloth", "costs", "nothing to buy"]
LEAST_GAIN: Final = Fraction(1, 20)
"""The same cloth is worth naming when it gives at least so much more fullness."""


class Find(Struct, frozen=True):
    """One of them."""

    kind: Kind
    step: FullnessStep
    length: Length
    """What is saved, or bought on top; ZERO for the same cloth."""
    money: Decimal | None
    """What that is worth; None without a price."""


def finds(steps: Sequence[FullnessStep], wanted: Fraction | None, buy: Length | None) -> tuple[Find, ...]:
    """What the steps offer beside a fullness of `wanted` that buys `buy`; nothing until both are known.

    `steps` run from the shortest roll on and may still be growing. The step below saves the least cloth that can be
    saved; the one above costs the least more.
    """
    if wanted is None or buy is None:
        return ()
    below = [each for each in steps if each.roll < buy and each.handy < wanted]
    same = [each for each in steps if each.roll == buy and each.handy >= wanted + LEAST_GAIN]
    above = [each for each in steps if each.roll > buy and each.handy > wanted]
    cost = _cost_at(steps, buy)
    found = [_find("saves", each, buy - each.roll, cost) for each in below[-1:]]
    found += [Find("same cloth", each, ZERO, None) for each in same[:1]]
    found += [_find("costs", each, each.roll - buy, cost) for each in above[:1]]
    free = [each for each in below[:-1] if each.roll == ZERO]
    return (*found, *(_find("nothing to buy", each, buy, cost) for each in free))


def _cost_at(steps: Sequence[FullnessStep], buy: Length) -> Decimal | None:
    return next((each.cost for each in steps if each.roll == buy), None)


def _find(kind: Kind, step: FullnessStep, length: Length, cost: Decimal | None) -> Find:
    known = cost is not None and step.cost is not None
    return Find(kind, step, length, abs(cost - step.cost) if known else None)  # type: ignore[operator]


class Row(Struct, frozen=True):
    """One place to stand at among the steps: a step, or what the skirt is made to as it stands."""

    step: FullnessStep
    now: bool


def rows_of(plan: Plan, steps: Sequence[FullnessStep]) -> tuple[Row, ...]:
    """The steps so far, the present fullness among them in its place, the mean end first."""
    now = present(plan)
    rows = [Row(each, False) for each in steps if now is None or each.handy != now.handy]
    if now is not None:
        rows.append(Row(now, True))
    return tuple(sorted(rows, key=lambda each: each.step.handy))


def has_steps(plan: Plan) -> bool:
    """True when there is something to move along: the first step is laid out for this."""
    return present(plan) is not None or next(plan.climb(), None) is not None


def present(plan: Plan) -> FullnessStep | None:
    """What the skirt is made to as it stands; None until it is known and the face is laid out."""
    wanted, face = wanted_in(plan), plan.layers[0]
    if wanted is None or face.cutting is None or face.buy.value is None:
        return None
    return FullnessStep(face.buy.value, wanted, face.cutting.best.joins, face.cost.value, wanted)


def find_words(find: Find, wanted: Fraction, unit: str, currency: str = "") -> str:
    """`2.46 instead of 2.5 saves 1/8 yd`, `the same cloth gives 2.58`, `2.9 takes 1/4 yd more`."""
    full = number(find.step.handy)
    worth = "" if find.money is None else f" ({currency}{money(find.money)})"
    length = exact(find.length, unit)
    match find.kind:
        case "saves":
            return f"{full} instead of {said(wanted)} saves {length}{worth}"
        case "same cloth":
            # The steps go no further than what is called lavish; the cloth may.
            return f"the same cloth gives {'at least ' if find.step.handy >= MOST else ''}{full}"
        case "costs":
            return f"{full} instead of {said(wanted)} takes {length}{worth} more"
    return f"{full} takes no cloth but what is in hand"


def finds_in_words(plan: Plan, steps: Sequence[FullnessStep]) -> tuple[str, ...]:
    """The finds beside what the plan is made to, each in words."""
    face = plan.layers[0]
    wanted, unit = wanted_in(plan), plan.figures.get("cloth.face.sold_by")
    if wanted is None or unit is None or not unit.value:
        return ()
    found = finds(steps, wanted, face.buy.value)
    return tuple(find_words(each, wanted, str(unit.value), plan.job.currency or "") for each in found)


def wanted_in(plan: Plan) -> Fraction | None:
    """The fullness the plan is made to, however it was set; None until it is known."""
    figure = plan.figures.get("fullness")
    value: Fraction | None = None if figure is None else figure.value
    return value


def said(fullness: Fraction) -> str:
    """A fullness in at most two decimals, with ≈ in front when that rounded it."""
    rounded = Fraction(round(fullness * 100), 100)
    return number(fullness) if rounded == fullness else f"≈ {number(rounded)}"
