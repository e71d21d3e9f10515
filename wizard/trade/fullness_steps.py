"""Fullness steps: the greatest fullness that each length of roll at a shop step gives, and that cloth in hand gives.

Cut widths are on ruler marks, so only some fullnesses matter, the rungs of a `Ladder`: those at which a width is
exactly on a mark. Between two rungs nothing changes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from decimal import Decimal
from fractions import Fraction
from functools import cached_property, partial
from math import lcm
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cut_plans import cut_plan
from wizard.trade.cutting import Cutting, Layout, PurchaseBound, Refusal, Rules, Spent, Stretch, Strip, measured, spend
from wizard.trade.lengths import ZERO, Length, round_up
from wizard.trade.stock import price_for

LEAST_FULLNESS: Final = Fraction(1)
"""A flat skirt."""
MEAN: Final = Fraction(3, 2)
"""Below this a gathered skirt looks thin."""
MOST: Final = Fraction(3)
"""Above this cloth is hard to gather."""
STEPS: Final = 60
"""About the most steps that are listed."""
EFFORT: Final = 2_000
"""Search nodes for one trial: there are many trials, and a step holds even if its layout is not proven least."""

LEADS: Final = 6
"""How often the layout at hand leads on before the middle is tried."""


class FullnessStep(Struct, frozen=True):
    """The greatest equal fullness that one length of roll at a shop step gives."""

    roll: Length
    fullness: Fraction
    joins: int
    cost: Decimal | None
    handy: Fraction
    """A fullness of few decimals, at most a little below `fullness`, that takes the same roll; joins are counted at
    it."""


class Grows(Struct, frozen=True):
    """A cut width that grows with the fullness: `fullness × gathers + stays`, up to the ruler mark."""

    gathers: Length
    """More than zero."""
    stays: Length
    """What does not gather: end hems, returns left flat, end setbacks."""

    def at(self, fullness: Fraction, mark: Length) -> Length:
        """The cut width at a fullness."""
        return round_up(self.gathers * fullness + self.stays, mark)


class Ladder:
    """The fullnesses at which some cut width is exactly on the mark: between two of them nothing changes."""

    def __init__(self, widths: Sequence[Grows], mark: Length) -> None:
        fine = lcm(*(each.inches.denominator for grows in widths for each in (mark, grows.gathers, grows.stays)))
        self._mark = int(mark.inches * fine)
        self._parts = [(int(each.gathers.inches * fine), int(each.stays.inches * fine)) for each in widths]
        """How each width grows, in parts of an inch so small that all are whole numbers."""

    def marks(self, fullness: Fraction) -> list[int]:
        """The cut widths at a fullness, in ruler marks."""
        over, under = fullness.numerator, fullness.denominator
        mark = self._mark * under
        return [-(-(gathers * over + stays * under) // mark) for gathers, stays in self._parts]

    def up(self, fullness: Fraction) -> Fraction:
        """The least rung at or above `fullness`: every cut width is the same there."""
        return self._rung(self.marks(fullness), 1)

    def under(self, fullness: Fraction) -> Fraction:
        """The greatest rung below `fullness`."""
        return self._rung([count - 1 for count in self.marks(fullness)], -1)

    def over(self, fullness: Fraction) -> Fraction:
        """The least rung above `fullness`."""
        over, under = fullness.numerator, fullness.denominator
        mark = self._mark * under
        return self._rung([(gathers * over + stays * under) // mark + 1 for gathers, stays in self._parts], 1)

    def _rung(self, marks: Sequence[int], way: int) -> Fraction:
        """The least fullness at which the widths are this many marks; the greatest where `way` is -1."""
        best, under = 0, 0
        for count, (gathers, stays) in zip(marks, self._parts, strict=True):
            here = count * self._mark - stays
            # As here / gathers < best / under, or > where the greatest is looked for.
            if not under or way * (here * under - best * gathers) < 0:
                best, under = here, gathers
        return Fraction(best, under)

    def fitting(self, groups: Sequence[tuple[Sequence[int], int]], low: Fraction) -> Fraction:
        """The greatest rung, at least `low`, at which the widths of each group take no more than their marks
        together."""
        most = min(
            Fraction(room * self._mark - sum(self._parts[n][1] for n in group), sum(self._parts[n][0] for n in group))
            for group, room in groups
        )
        rung = self.under(self.over(max(most, low)))
        while rung > low and not self._fit(groups, rung):
            rung = self.under(rung)
        return max(rung, low)

    def _fit(self, groups: Sequence[tuple[Sequence[int], int]], rung: Fraction) -> bool:
        marks = self.marks(rung)
        return all(sum(marks[n] for n in group) <= room for group, room in groups)


def greatest(
    ladder: Ladder, least: Fraction, most: Fraction, will_do: Callable[[Fraction], bool], guess: Fraction | None = None
) -> Fraction | None:
    """The greatest rung from `least` to `most` that fits; None where not even `least` does.

    What fits at one fullness fits at any smaller one, which never needs more cloth. A good `guess` only saves trials:
    it and the rung above it are tried first.
    """
    low, top = ladder.up(least), ladder.up(most)
    if not will_do(low):
        return None
    for trial in () if guess is None else (ladder.up(guess), ladder.over(ladder.up(guess))):
        if low < trial <= top and will_do(trial):
            low = trial
        elif low < trial <= top:
            top = ladder.under(trial)
    while low < top:
        middle = ladder.up((low + top) / 2)
        if will_do(middle):
            low = middle
        else:
            top = ladder.under(middle)
    return low


class Growing(Struct, frozen=True, dict=True):
    """Everything the fullness of one layer depends on; equal when none of it has changed."""

    templates: tuple[Strip, ...]
    """Its strips, whatever their cut widths."""
    widths: tuple[Grows, ...]
    """How each strip's cut width grows."""
    mark: Length
    rules: Rules
    owned: tuple[Stretch, ...]
    roll: Stretch

    @cached_property
    def ladder(self) -> Ladder:
        """The fullnesses that matter."""
        return Ladder(self.widths, self.mark)

    @cached_property
    def bound(self) -> PurchaseBound:
        """The least cloth that the layer needs to buy."""
        return PurchaseBound(self.templates, (*self.owned, self.roll), self.rules)

    def cut(self, fullness: Fraction, cloth: tuple[Stretch, ...]) -> Cutting | Refusal:
        """The layer laid out at a fullness."""
        return self._laid(tuple(grows.at(fullness, self.mark) for grows in self.widths), cloth)

    def behind(self, face: Growing, made: Cutting, cloth: tuple[Stretch, ...]) -> Cutting | Refusal:
        """An inner layer laid out as wide as the face is made, with its kept surplus, less the end setbacks."""
        wide = dict(made.best.flats)
        less = [before.stays - own.stays for before, own in zip(face.widths, self.widths, strict=True)]
        pairs = zip(self.templates, less, strict=True)
        return self._laid(tuple(round_up(wide[strip.id] - each, self.mark) for strip, each in pairs), cloth)

    def _laid(self, flats: tuple[Length, ...], cloth: tuple[Stretch, ...]) -> Cutting | Refusal:
        pairs = zip(self.templates, flats, strict=True)
        return cut_plan((tuple(replace(strip, flat=flat) for strip, flat in pairs), cloth, self.rules))

    def most(self) -> Fraction:
        """The fullness at which the area of the cloth in hand is used up."""
        have = sum((each.length.inches * each.usable.inches for each in self.owned if each.length), Fraction(0))
        pairs = list(zip(self.widths, self.templates, strict=True))
        stays = sum((grows.stays.inches * strip.cut.inches for grows, strip in pairs), Fraction(0))
        return (have - stays) / sum((grows.gathers.inches * strip.cut.inches for grows, strip in pairs), Fraction(0))


class Held(Struct, frozen=True):
    """The layers in hand as they grow."""

    layers: tuple[Growing, ...]
    face: Growing | None
    """The face where it keeps its surplus, for inner layers are made as wide as it comes out; else None."""

    def fits(self, fullness: Fraction) -> bool:
        """True when every layer fits its own lengths. A face of which nothing is owned is bought."""
        if self.face is None:
            return all(isinstance(each.cut(fullness, each.owned), Cutting) for each in self.layers)
        face, made = self.face, self.face.cut(fullness, self.face.owned or (self.face.roll,))
        inner = [each for each in self.layers if each is not face]
        return isinstance(made, Cutting) and all(
            isinstance(each.behind(face, made, each.owned), Cutting) for each in inner
        )


def all_owned(held: Held) -> Fraction | None:
    """The greatest equal fullness at which every layer fits its own lengths; None where not even 1 does."""
    most = min(each.most() for each in held.layers)
    if most < LEAST_FULLNESS:
        return None
    # A layer that occurs twice has the same ladder.
    growing = (*held.layers, *((held.face,) if held.face else ()))
    ladder = Ladder([grows for each in growing for grows in each.widths], growing[0].mark)
    bounds = [(each.ladder, PurchaseBound(each.templates, each.owned, each.rules)) for each in held.layers]

    def has_room(tied: bool, fullness: Fraction) -> bool:
        """True where the number of widths allows all strips; if `tied`, with widths shared from strip to strip."""
        return all(bound.has_room(own.marks(fullness), tied=tied) for own, bound in bounds)

    roomy, tied = (greatest(ladder, LEAST_FULLNESS, most, partial(has_room, each)) for each in (False, True))
    return None if roomy is None else greatest(ladder, LEAST_FULLNESS, roomy, held.fits, tied)


class Trials:
    """Layouts of one layer at many fullnesses. More fullness never buys less, so each layout bounds all others."""

    def __init__(self, face: Growing, price: Decimal | None, sold_by: str) -> None:
        self.face, self.price, self.sold_by = face, price, sold_by
        self.lowest = face.ladder.up(MEAN)
        """The first rung."""
        self.laid: dict[Fraction, Layout | None] = {}
        """By rung."""

    def nearest_to(self, fullness: Fraction | None) -> Iterator[FullnessStep]:
        """The steps nearest to a fullness first, up and down in turn; for None shortest roll first. Each is laid out
        when it is asked for, and then remembered.

        Only lengths at which more cloth gives more fullness are listed.
        """
        ladder = self.face.ladder
        rung = None if fullness is None or fullness > MOST else ladder.up(max(fullness, MEAN))
        # The last one below the top.
        start = rung if rung is None or rung <= MOST else ladder.under(rung)
        here = None if start is None else self.at(start)
        # A very long skirt is listed from its shortest roll on: what is skipped depends on that.
        if start is None or here is None or not self.face.rules.step or self.stride > self.face.rules.step:
            yield from Trials(self.face, self.price, self.sold_by).up(self.lowest, ZERO)
            return
        sides = [self.up(start, ZERO), self.down(here.buy)]
        while sides:
            # A step at a time: the next one may be too much work.
            step = next(sides[0], None)
            if step is not None:
                yield step
                sides.append(sides[0])
            del sides[0]

    def up(self, at: Fraction, least: Length) -> Iterator[FullnessStep]:
        """The steps from a rung on that buy at least so much, shortest roll first."""
        while at <= MOST and (made := self.at(at)) is not None:
            # The greatest that buys no more than is bought there, or than the least.
            if (step := self.step(at, self.greatest(at, max(made.buy, least)))) is None:
                return
            yield step
            at, least = self.face.ladder.over(step.fullness), step.roll + self.stride

    def down(self, roll: Length) -> Iterator[FullnessStep]:
        """The steps that buy less than a roll, longest first."""
        best = self.below(roll)
        while best is not None and (made := self.at(best)) is not None:
            below = self.below(made.buy)
            step = self.step(self.lowest if below is None else self.face.ladder.over(below), best)
            if step is not None:
                yield step
            best = below

    def at(self, rung: Fraction) -> Layout | None:
        """The layout at a rung; None where there is none."""
        if rung not in self.laid:
            answer = self.face.cut(rung, (*self.face.owned, self.face.roll))
            self.laid[rung] = answer.best if isinstance(answer, Cutting) else None
        return self.laid[rung]

    @cached_property
    def stride(self) -> Length:
        """How much more roll the next step must take, so that a very long skirt is not listed width by width."""
        return (self.bound(self.face.ladder.up(MOST)) - self.bound(self.lowest)) / STEPS

    def below(self, roll: Length) -> Fraction | None:
        """The greatest fullness that buys less than a roll, in shop steps; None where there is none."""
        most = roll - (self.face.rules.step or ZERO)
        return self.greatest(self.lowest, most) if self.fits(self.lowest, most) else None

    def greatest(self, low: Fraction, most: Length) -> Fraction:
        """The greatest rung that buys no more than `most`, as `low` does. It is looked for where the widths of the
        layout at hand are used up, and in the middle where that leads no further."""
        ladder, top = self.face.ladder, self.within(low, most)
        for rung in self.laid:
            low, top = (max(low, rung), top) if self.fits(rung, most) else (low, min(top, ladder.under(rung)))
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
        """True when at most `most` is bought there."""
        made = self.at(rung)
        return made is not None and made.buy <= most

    def reach(self, rung: Fraction, most: Length) -> Fraction:
        """The greatest rung for the widths of a rung's layout: each group of strips that share widths uses them up."""
        made = self.at(rung)
        groups = self.face.bound.groups(made, most) if made is not None else []
        return self.face.ladder.fitting(groups, rung) if groups else rung

    def bound(self, rung: Fraction, *, tied: bool = False) -> Length:
        """A lower bound of what is bought there."""
        return self.face.bound.buys(self.face.ladder.marks(rung), tied=tied)

    def within(self, low: Fraction, most: Length, *, tied: bool = False) -> Fraction:
        """The greatest rung that can buy no more than `most` by its bound; `low` where none can."""
        return greatest(self.face.ladder, low, MOST, lambda rung: self.bound(rung, tied=tied) <= most) or low

    def step(self, at: Fraction, best: Fraction) -> FullnessStep | None:
        """The step that runs from one fullness to another, the greatest that its roll gives."""
        made, top = self.at(best), min(best, MOST)
        if made is None:
            return None
        for parts in (100, 1000):
            # A fullness with two or three decimals that takes no more cloth.
            rounded = Fraction((top * parts).__floor__(), parts)
            other = self.at(self.face.ladder.up(rounded)) if at <= rounded < top else None
            if other is not None and other.buy == made.buy:
                return self.as_step(other, top, rounded)
        return self.as_step(made, top, top)

    def as_step(self, made: Layout, fullness: Fraction, handy: Fraction) -> FullnessStep:
        """What a layout takes, as a step."""
        cost = None if self.price is None else price_for(made.buy, self.price, self.sold_by)
        return FullnessStep(made.buy, fullness, made.joins, cost, handy)


class FullnessBasis(Struct, frozen=True):
    """Everything that other fullnesses depend on. Each result lays cloth out many times, so it is computed only when it
    is shown."""

    face: Growing | None
    """None until the face can be laid out."""
    held: Held | None
    """The layers in hand; None where there are none, or not all they depend on is known."""
    fullness: Fraction | None
    """The fullness in use."""
    price: Decimal | None
    sold_by: str | None

    def nearest_steps(self) -> Iterator[FullnessStep]:
        """The steps from 1 1/2 to 3, nearest to the fullness in use first; each is laid out when it is asked for."""
        trials = self._trials()
        return trials.nearest_to(self.fullness) if trials else iter(())

    def step_at(self, fullness: Fraction) -> FullnessStep | None:
        """What a fullness takes, laid out with the plan's own effort; None where it cannot be."""
        trials = self._trials(None)
        made = trials and trials.at(fullness)
        return trials.as_step(made, fullness, fullness) if trials and made else None

    def in_hand(self) -> Fraction | None:
        """The greatest equal fullness at which no owned layer needs more cloth; None where none is owned, or where they
        do not even make a flat skirt."""
        return None if self.held is None else all_owned(self.held)

    def _trials(self, effort: int | None = EFFORT) -> Trials | None:
        """Layouts of the face, each with an effort, or with the plan's own for None; None until it can be laid out."""
        if self.face is None or self.sold_by is None:
            return None
        rules = self.face.rules if effort is None else replace(self.face.rules, effort=effort)
        return Trials(replace(self.face, rules=rules), self.price, self.sold_by)


def steps_within(basis: FullnessBasis, work: int) -> tuple[tuple[FullnessStep, ...], bool]:
    """The fullness steps within a limit of work, from the fullness in use up and down: those found, shortest roll
    first, and whether they are all."""
    found: list[FullnessStep] = []
    steps, left, whole = basis.nearest_steps(), work, False
    try:
        while not whole:
            step, took = measured(partial(next, steps, None), left)
            spend(took)
            whole = step is None
            found += [step] if step else []
            left -= took
    except Spent:
        whole = False
    return tuple(sorted(found, key=lambda each: each.fullness)), whole


def in_hand_within(basis: FullnessBasis, work: int) -> tuple[Fraction | None, bool]:
    """The fullness that the cloth in hand gives without buying, and whether it was found within the limit of work."""
    try:
        value, took = measured(basis.in_hand, work)
    except Spent:
        return None, False
    spend(took)
    return value, True
