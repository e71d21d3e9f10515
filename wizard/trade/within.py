"""What a sheet adds to a plan, within bounds: so much of the work that the plan itself took, and no more."""

from __future__ import annotations

from fractions import Fraction
from functools import partial
from typing import Final

from wizard.trade.cut_plans import work_of
from wizard.trade.cutting.tally import Spent, measured, spend
from wizard.trade.plan import FullnessStep, Plan

ONCE: Final = 6_000
"""Work that any plan takes beside its layouts."""
EACH: Final = 600
"""And for each section of each layer."""


def work_laid(plan: Plan) -> int:
    """The work of the layouts of a plan, improved as they are."""
    layers = [each for each in plan.layers if each.strips]
    return sum(work_of(each.strips, each.stock, each.rules) for each in layers if each.rules is not None)


def work_in(plan: Plan) -> int:
    """About the work of all of a plan."""
    return ONCE + EACH * len(plan.parts) * len(plan.layers) + work_laid(plan)


def steps_within(plan: Plan, work: int) -> tuple[tuple[FullnessStep, ...], bool]:
    """The fullness steps as far as so much work goes, from the fullness as it stands on and back: those found, the
    shortest roll first, and whether they are all."""
    found: list[FullnessStep] = []
    steps, left = plan.spread(), work
    try:
        while True:
            step, took = measured(partial(next, steps, None), left)
            spend(took)
            if step is None:
                return in_order(found), True
            found.append(step)
            left -= took
    except Spent:
        return in_order(found), False


def in_order(steps: list[FullnessStep]) -> tuple[FullnessStep, ...]:
    """The shortest roll first."""
    return tuple(sorted(steps, key=lambda each: each.fullness))


def in_hand_within(plan: Plan, work: int) -> tuple[Fraction | None, bool]:
    """The fullness that the cloth in hand gives without buying, and whether it was found out with so much work."""
    try:
        value, took = measured(plan.hold, work)
    except Spent:
        return None, False
    spend(took)
    return value, True
