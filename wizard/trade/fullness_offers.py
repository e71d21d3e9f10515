"""The guide to fullness by cloth and layers, and what the fullness steps offer beside the one in use.

The guide is common practice, no source: never a wall."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction
from typing import Final, Literal

from msgspec import Struct

from wizard.trade.formatting import exact, money, number
from wizard.trade.fullness_steps import MEAN, MOST, FullnessStep
from wizard.trade.job import Job, Weight
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan import Plan

Range = tuple[Fraction, Fraction]
"""Least and greatest usual fullness."""

BY_WEIGHT: Final[dict[Weight, Range]] = {
    "heavy": (Fraction(2), Fraction(2)),
    "medium": (Fraction(2), Fraction(5, 2)),
    "light": (Fraction(5, 2), Fraction(3)),
    "sheer": (Fraction(3), Fraction(3)),
}
"""By the weight of the face cloth."""
THICK: Final[tuple[Weight, ...]] = ("medium", "heavy")
LAYERED: Final[Range] = (Fraction(2), Fraction(2))
"""Interlined or lined, and any of the layers thick: whatever the face alone would take."""
MIDDLING: Final = Fraction(5, 2)
"""What most skirts take; the offer is as near to it as the guide allows."""


def guide_for(weight: Weight, inner: tuple[Weight | None, ...]) -> Range:
    """For a face of a weight with inner layers of theirs."""
    thick = any(each in THICK for each in (weight, *inner))
    return LAYERED if inner and thick else BY_WEIGHT[weight]


def inner_weights(job: Job) -> tuple[Weight | None, ...]:
    """The weights of the inner layers in use, None where one is not known."""
    return tuple(each.weight for each in (job.cloth.interlining, job.cloth.lining) if each.use)


def guide_of(job: Job) -> Range:
    """For this job's cloth and layers; a face whose weight is not known counts as medium."""
    return guide_for(job.cloth.face.weight or "medium", inner_weights(job))


def offered(job: Job) -> Fraction:
    """What is offered: as near to 2.5 as the guide allows; where cloth is owned, as full as it allows."""
    least, most = guide_of(job)
    return most if job.cloth.face.owned else min(max(MIDDLING, least), most)


def range_words(guide: Range) -> str:
    """`2`, `2.5 to 3`."""
    least, most = guide
    return number(least) if least == most else f"{number(least)} to {number(most)}"


def guide_words(job: Job) -> str:
    """The whole guide, and what it says of this job's cloth and layers."""
    weights = ", ".join(f"{weight} {range_words(each)}" for weight, each in BY_WEIGHT.items())
    weight, layers = job.cloth.face.weight, " with these inner layers" if inner_weights(job) else ""
    here = f" This {weight} cloth{layers}: {range_words(guide_of(job))}." if weight else ""
    return (
        f"How much wider the cloth is, laid flat, than the run. Usual by weight: {weights}; {range_words(LAYERED)} "
        f"with thick inner layers.{here} Below {number(MEAN)} it looks mean, above {number(MOST)} it hardly gathers."
    )


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
    return present(plan) is not None or next(plan.basis.steps(), None) is not None


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
