"""What a sheet adds to a plan, within bounds: so much of the work that the plan itself took, and no more."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import cache, partial
from typing import Any, Final, TypeVar

from msgspec.structs import replace

from wizard.trade.compared import answered
from wizard.trade.cut_plans import work_of
from wizard.trade.cutting import Cutting, Rules, Spent, measured, spend, within
from wizard.trade.later import Later
from wizard.trade.plan import FullnessStep, Layer, Plan

T = TypeVar("T")

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


class LaidWithin:
    """Lays layers out by other rules, as `answered` does, until so much work is done. What would take more than is
    left is passed over; the layer as the plan has it is known already and takes nothing."""

    def __init__(self, work: int) -> None:
        self.work, self.left, self.whole = work, work, True
        self._known: dict[tuple[object, ...], Cutting | None] = {}
        self._laters: dict[int, tuple[Later[Any], Later[Any]]] = {}

    @property
    def taken(self) -> int:
        """The work done."""
        return self.work - self.left

    def __call__(self, layer: Layer, rules: Rules) -> Cutting | None:
        """The layer laid out so; None where it cannot be, or would take more work than is left."""
        asked = (layer.strips, layer.stock, rules)
        if asked not in self._known:
            own = rules == layer.rules
            found = answered(layer, rules) if own else self._bounded(partial(answered, layer, rules))
            self._known[asked] = self.with_ways(found)
        return self._known[asked]

    def with_ways(self, found: Cutting | None) -> Cutting | None:
        """A cutting whose further layouts are worked from what is left, once they are looked at."""
        if found is None:
            return None
        fewer = self._once(found.fewer, lambda: found.fewest_joins, None)
        return replace(found, fewer=fewer, shorter=self._once(found.shorter, lambda: found.others, ()))

    def _once(self, later: Later[T], call: Callable[[], T], none: T) -> Later[T]:
        """`call` within what is left, and no more than once for each `later`."""
        _, once = self._laters.setdefault(id(later), (later, Later(cache(lambda: self._bounded(call) or none))))
        return once

    def _bounded(self, call: Callable[[], T]) -> T | None:
        found, took = within(call, self.left)
        self.left, self.whole = self.left - took, self.whole and took < self.left
        return found


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
