"""Fullness steps: for each length of roll at a shop step, the greatest fullness it gives."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from decimal import Decimal
from fractions import Fraction
from functools import cached_property, partial
from typing import Final

from msgspec.structs import replace

from wizard.trade.cutting import Cutting, Layout, Spent, measured, spend
from wizard.trade.figures import Ledger
from wizard.trade.fullness import Growing, greatest
from wizard.trade.fullness_offers import MEAN, MOST
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan import FullnessStep, Plan
from wizard.trade.stock import price_for

STEPS: Final = 60
"""About as many steps are listed at most."""
EFFORT: Final = 2_000
"""Nodes a search may visit for one trial: many are made, and a step that holds is true whether or not it is proven."""

LEADS: Final = 6
"""So often the layout at hand leads on before the middle is tried."""

Climbed = tuple[Length, Fraction, Fraction, int]
"""Length of roll, the greatest fullness it gives, the handy one a little below that, joins at the handy one."""


Climb = Callable[["Growing"], Iterator[Climbed]]


def steps_of(ledger: Ledger, face: Growing | None, climb: Climb) -> Callable[[], Iterator[FullnessStep]]:
    """Works, one by one as they are asked for, the steps from 1 1/2 to 3, with joins and cost of the face at each."""
    if face is None:
        return lambda: iter(())
    price, sold_by = ledger.job.cloth.face.price, str(ledger.read("cloth.face.sold_by").value)
    return partial(_priced, replace(face, rules=replace(face.rules, effort=EFFORT)), price, sold_by, climb)


def _priced(face: Growing, price: Decimal | None, sold_by: str, climb: Climb) -> Iterator[FullnessStep]:
    for roll, fullness, handy, joins in climb(face):
        yield FullnessStep(roll, fullness, joins, None if price is None else price_for(roll, price, sold_by), handy)


def climbing(face: Growing) -> Iterator[Climbed]:
    """The steps, the shortest roll first; each is laid out when it is asked for, and then remembered.

    Only lengths at which more cloth gives more fullness are listed: what lies between gives no more.
    """
    return _up(Trials(face), face.ladder.up(MEAN), ZERO)


def spreading(wanted: Fraction | None, face: Growing) -> Iterator[Climbed]:
    """The same steps, those nearest to a fullness first: up and down from there in turn."""
    trials = Trials(face)
    start = None if wanted is None or wanted > MOST else trials.start(max(wanted, MEAN))
    here = None if start is None else trials.at(start)
    # A very long skirt is listed from its shortest roll on: what is passed over depends on that.
    if start is None or here is None or not face.rules.step or trials.stride > face.rules.step:
        yield from climbing(face)
        return
    sides = [_up(trials, start, ZERO), _down(trials, here.buy)]
    while sides:
        # A step at a time: the next one may be too much work.
        step = next(sides[0], None)
        if step is not None:
            yield step
            sides.append(sides[0])
        del sides[0]


def _up(trials: Trials, at: Fraction, least: Length) -> Iterator[Climbed]:
    while at <= MOST and (best := trials.greatest_from(at, least)) is not None:
        if (step := trials.step(at, best)) is None:
            return
        yield step
        at, least = trials.face.ladder.over(step[1]), step[0] + trials.stride


def _down(trials: Trials, roll: Length) -> Iterator[Climbed]:
    """The steps that buy less than a roll, the longest first."""
    best = trials.below(roll)
    while best is not None and (made := trials.at(best)) is not None:
        below = trials.below(made.buy)
        step = trials.step(trials.lowest if below is None else trials.face.ladder.over(below), best)
        if step is not None:
            yield step
        best = below


class Trials:
    """Layouts of one layer at many fullnesses. More fullness never buys less: what was laid out says something of all
    others too."""

    def __init__(self, face: Growing) -> None:
        self.face = face
        self.laid: dict[Fraction, Layout | None] = {}
        """By rung."""

    def at(self, rung: Fraction) -> Layout | None:
        """The layout at a rung; None where there is none."""
        if rung not in self.laid:
            answer = self.face.cut(rung, (*self.face.owned, self.face.roll))
            self.laid[rung] = answer.best if isinstance(answer, Cutting) else None
        return self.laid[rung]

    @cached_property
    def stride(self) -> Length:
        """How much more roll the next step takes at least: a very long skirt is not listed width by width."""
        return (self.bound(self.face.ladder.up(MOST)) - self.bound(self.lowest)) / STEPS

    def start(self, wanted: Fraction) -> Fraction:
        """The rung of a fullness, or the last one below the top."""
        rung = self.face.ladder.up(wanted)
        return rung if rung <= MOST else self.face.ladder.under(rung)

    @property
    def lowest(self) -> Fraction:
        """The first rung."""
        return self.face.ladder.up(MEAN)

    def greatest_from(self, at: Fraction, least: Length) -> Fraction | None:
        """The greatest fullness that buys no more than is bought at `at`, or than `least`."""
        layout = self.at(at)
        return None if layout is None else self.greatest(at, max(layout.buy, least))

    def below(self, roll: Length) -> Fraction | None:
        """The greatest fullness that buys less than a roll, in shop steps; None where none does."""
        most = roll - (self.face.rules.step or ZERO)
        return self.greatest(self.lowest, most) if self.fits(self.lowest, most) else None

    def greatest(self, low: Fraction, most: Length) -> Fraction:
        """The greatest rung that buys no more than `most`, as `low` does. It is looked for where the widths of the
        layout at hand are used up, and in the middle where that leads no further."""
        ladder, top = self.face.ladder, self.within(low, most)
        for rung, made in self.laid.items():
            fits = made is not None and made.buy <= most
            low, top = (max(low, rung), top) if fits else (low, min(top, ladder.under(rung)))
        leads = LEADS
        if low < top and self.bound(low) == self.bound(top) and self.fits(top, most):
            return top
        tied = self.within(low, most, tied=True)
        if low < tied < top and self.fits(tied, most):
            low = tied
        while low < top:
            reach = min(self.reach(low, most), top)
            trial = ladder.over(reach) if leads and reach < top else ladder.up((low + top) / 2)
            trial, leads = min(trial, top), leads - 1 if leads else 0
            if self.fits(trial, most):
                low = trial
            elif trial > reach > low and self.fits(reach, most):
                low, top = reach, ladder.under(trial)
            else:
                top, leads = ladder.under(min(trial, reach) if reach > low else trial), 0
        return low

    def fits(self, rung: Fraction, most: Length) -> bool:
        """True when no more than `most` is bought there."""
        made = self.at(rung)
        return made is not None and made.buy <= most

    def reach(self, rung: Fraction, most: Length) -> Fraction:
        """As far as the widths of a rung's layout go, each group of strips that share some taking up all of its own."""
        made = self.at(rung)
        groups = self.face.bound.groups(made, most) if made is not None else []
        return self.face.ladder.fitting(groups, rung) if groups else rung

    def bound(self, rung: Fraction, *, tied: bool = False) -> Length:
        """What is bought there at the least."""
        return self.face.bound.buys(self.face.ladder.marks(rung), tied=tied)

    def within(self, low: Fraction, most: Length, *, tied: bool = False) -> Fraction:
        """The greatest rung that can buy no more than `most` by its bound; `low` where none can."""
        return greatest(self.face.ladder, low, MOST, lambda rung: self.bound(rung, tied=tied) <= most) or low

    def step(self, at: Fraction, best: Fraction) -> Climbed | None:
        """The step that runs from one fullness to another, the greatest that its roll gives."""
        made, top = self.at(best), min(best, MOST)
        if made is None:
            return None
        handy, joins = self._handy(at, top, made)
        return made.buy, top, handy, joins

    def _handy(self, at: Fraction, top: Fraction, made: Layout) -> tuple[Fraction, int]:
        """A fullness of two decimals, or of three, from `at` to `top` that takes no more cloth, and its joins."""
        for parts in (100, 1000):
            rounded = Fraction((top * parts).__floor__(), parts)
            other = self.at(self.face.ladder.up(rounded)) if at <= rounded < top else None
            if other is not None and other.buy == made.buy:
                return rounded, other.joins
        return top, made.joins


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
