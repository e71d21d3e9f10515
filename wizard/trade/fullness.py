"""Fullness: a number, or as full as the owned cloth allows, found exactly.

Cut widths stand on the ruler mark, so only some fullnesses matter: those at which a width is exactly on a mark."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import cached_property
from math import lcm
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cut_plans import cut_plan
from wizard.trade.cutting import Cutting, QuickBound, Refusal, Rules, Stretch, Strip
from wizard.trade.figures import Figure, Ledger, Need, Rule, merged
from wizard.trade.layers import Prepared, strip_as
from wizard.trade.lengths import ZERO, Length, round_up
from wizard.trade.parts import LEAST_FULLNESS, Gathered


class Grows(Struct, frozen=True):
    """A cut width that grows with the fullness: `fullness × gathers + stays`, up to the ruler mark."""

    gathers: Length
    """More than nothing."""
    stays: Length
    """What does not gather: end hems, returns left flat, end setbacks."""

    def at(self, fullness: Fraction, mark: Length) -> Length:
        """The cut width at a fullness."""
        return round_up(self.gathers * fullness + self.stays, mark)


class Ladder(Struct, frozen=True, dict=True):
    """The fullnesses at which some cut width is exactly on the mark: between two of them nothing changes."""

    widths: Sequence[Grows]
    mark: Length

    def marks(self, fullness: Fraction) -> list[int]:
        """The cut widths at a fullness, in ruler marks."""
        over, under = fullness.numerator, fullness.denominator
        mark = self._mark * under
        return [-(-(gathers * over + stays * under) // mark) for gathers, stays in self._parts]

    def up(self, fullness: Fraction) -> Fraction:
        """The least rung that is not below `fullness`: every cut width is the same there."""
        return self._rung(self.marks(fullness), 1)

    def under(self, fullness: Fraction) -> Fraction:
        """The greatest rung that is below `fullness`."""
        return self._rung([count - 1 for count in self.marks(fullness)], -1)

    def over(self, fullness: Fraction) -> Fraction:
        """The least rung above `fullness`."""
        over, under = fullness.numerator, fullness.denominator
        mark = self._mark * under
        return self._rung([(gathers * over + stays * under) // mark + 1 for gathers, stays in self._parts], 1)

    def _rung(self, marks: Sequence[int], way: int) -> Fraction:
        """Of the fullnesses at which the widths are so many marks the least, or where `way` is -1 the greatest."""
        best, under = 0, 0
        for count, (gathers, stays) in zip(marks, self._parts, strict=True):
            here = count * self._mark - stays
            # As here / gathers < best / under, or > where the greatest is looked for.
            if not under or way * (here * under - best * gathers) < 0:
                best, under = here, gathers
        return Fraction(best, under)

    def fitting(self, groups: Sequence[tuple[Sequence[int], int]], low: Fraction) -> Fraction:
        """The greatest rung, `low` at the least, at which the widths of each group, by their numbers, take up no more
        than so many marks together."""
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

    @cached_property
    def _parts(self) -> list[tuple[int, int]]:
        """How each width grows, in parts of an inch so small that all are whole numbers."""
        return [(int(each.gathers.inches * self._fine), int(each.stays.inches * self._fine)) for each in self.widths]

    @cached_property
    def _mark(self) -> int:
        return int(self.mark.inches * self._fine)

    @cached_property
    def _fine(self) -> int:
        lengths = [self.mark, *(each.gathers for each in self.widths), *(each.stays for each in self.widths)]
        return lcm(*(each.inches.denominator for each in lengths))


def greatest(
    ladder: Ladder,
    least: Fraction,
    most: Fraction,
    will_do: Callable[[Fraction], bool],
    guess: Fraction | None = None,
) -> Fraction | None:
    """The greatest rung from `least` up to and at most over `most` that will do, or None when not even `least` does.

    What will do at some fullness is taken to do at any smaller one: more cloth is never needed for less. A good
    `guess` only saves trials: it and the rung above it are tried first.
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
    """All that the fullness of one layer rests on; equal when nothing of it has changed."""

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

    def at(self, fullness: Fraction) -> tuple[Length, ...]:
        """The cut widths at a fullness."""
        return tuple(grows.at(fullness, self.mark) for grows in self.widths)

    @cached_property
    def bound(self) -> QuickBound:
        """What the layer buys at the least."""
        return QuickBound(self.templates, (*self.owned, self.roll), self.rules)

    def cut(self, fullness: Fraction, cloth: tuple[Stretch, ...]) -> Cutting | Refusal:
        """The layer laid out at a fullness."""
        return self._laid(self.at(fullness), cloth)

    def behind(self, face: Growing, made: Cutting, cloth: tuple[Stretch, ...]) -> Cutting | Refusal:
        """An inner layer laid out as wide as the face comes out, its kept surplus included, less the end setbacks."""
        wide = dict(made.best.flats)
        less = [before.stays - own.stays for before, own in zip(face.widths, self.widths, strict=True)]
        pairs = zip(self.templates, less, strict=True)
        return self._laid(tuple(round_up(wide[strip.id] - each, self.mark) for strip, each in pairs), cloth)

    def _laid(self, flats: tuple[Length, ...], cloth: tuple[Stretch, ...]) -> Cutting | Refusal:
        pairs = zip(self.templates, flats, strict=True)
        return cut_plan(tuple(replace(strip, flat=flat) for strip, flat in pairs), cloth, self.rules)

    def most(self) -> Fraction:
        """No fullness above this fits on the owned cloth: its area is used up."""
        have = sum((each.length.inches * each.usable.inches for each in self.owned if each.length), Fraction(0))
        pairs = list(zip(self.widths, self.templates, strict=True))
        stays = sum((grows.stays.inches * strip.cut.inches for grows, strip in pairs), Fraction(0))
        return (have - stays) / sum((grows.gathers.inches * strip.cut.inches for grows, strip in pairs), Fraction(0))


WANTED = Rule("fullness", "{want}", "The fullness that was chosen, the same in every section.", "the maker")
OWNED_CLOTH = Rule(
    "greatest fullness of owned cloth", "the greatest that {lengths} lengths in hand give",
    "The same in every section: the greatest at which every piece can still be cut from the cloth in hand.",
)  # fmt: skip
ALL_OWNED: Final = "all the cloth I own"


def growing(ledger: Ledger, prepared: Prepared, parts: Sequence[Gathered], mark: Figure[Length]) -> Growing | None:
    """A layer as it grows with the fullness, or None until all it rests on is known."""
    stock, end_hem = prepared.stock, ledger.read("allowances.end_hem").value
    if not parts or end_hem is None or mark.value is None or stock.rules is None or stock.roll is None or stock.needs:
        return None
    setback = prepared.end_setback.value if prepared.end_setback else ZERO
    made = [_grown(prepared, part, (end_hem - (setback or ZERO)) * 2) for part in parts]
    known = [each for each in made if each is not None]
    if len(known) < len(made):
        return None
    strips, widths = zip(*known, strict=True)
    return Growing(strips, widths, mark.value, stock.rules, stock.owned, stock.roll)


def _grown(prepared: Prepared, part: Gathered, ends: Length) -> tuple[Strip, Grows] | None:
    """A part's strip, as if it took no fullness at all, and how it grows."""
    length, cut = part.length.value, prepared.cuts[part.span.id].value
    flat = (part.left_flat.value or ZERO) + (part.right_flat.value or ZERO)
    if length is None or cut is None or length <= flat:
        return None
    return strip_as(prepared, part, length, cut), Grows(length - flat, flat + ends)


def fullness_of(
    ledger: Ledger, prepared: Sequence[Prepared], parts: Sequence[Gathered], mark: Figure[Length]
) -> Figure[Fraction]:
    """The fullness the skirt is made to. Figure `fullness`."""
    if not from_owned(ledger):
        return ledger.work("fullness", "fullness", WANTED, lambda want: want, want=ledger.read("fullness.want"))
    bound = [layer for layer in prepared if layer.stock.owns]
    if not bound:
        waiting = ledger.wanting("cloth.face.owned")
        return ledger.keep(Figure("fullness", "fullness", None, waiting.needs, OWNED_CLOTH))
    held = held_of(ledger, prepared, parts, mark)
    value = None if held is None else all_owned(held)
    number = sum(len(each.stock.owned) for each in bound)
    lengths = ledger.keep(Figure("fullness.lengths", "lengths in hand", number, (), OWNED_CLOTH))
    needs = _needs(_resting_on(ledger, prepared), parts)
    return ledger.keep(Figure("fullness", "fullness", value, needs, OWNED_CLOTH, (("lengths", lengths),)))


def from_owned(ledger: Ledger) -> bool:
    """True when the cloth in hand sets the fullness."""
    return bool(ledger.read("fullness.aim").value == ALL_OWNED)


def _needs(bound: Sequence[Prepared], parts: Sequence[Gathered]) -> tuple[Need, ...]:
    cuts = [cut.needs for layer in bound for cut in layer.cuts.values()]
    return merged([*(part.length.needs for part in parts), *cuts, *(layer.stock.needs for layer in bound)])


class Held(Struct, frozen=True):
    """The layers in hand as they grow."""

    layers: tuple[Growing, ...]
    face: Growing | None
    """The face where it keeps its surplus, for inner layers are made as wide as it comes out; else None."""

    def fits(self, fullness: Fraction) -> bool:
        """True when every layer fits on its own lengths. A face that is not in hand is bought."""
        if self.face is None:
            return all(isinstance(each.cut(fullness, each.owned), Cutting) for each in self.layers)
        face, made = self.face, self.face.cut(fullness, self.face.owned or (self.face.roll,))
        inner = [each for each in self.layers if each is not face]
        return isinstance(made, Cutting) and all(
            isinstance(each.behind(face, made, each.owned), Cutting) for each in inner
        )


def held_of(
    ledger: Ledger, prepared: Sequence[Prepared], parts: Sequence[Gathered], mark: Figure[Length]
) -> Held | None:
    """The layers in hand, or None when there is none, or not all they rest on is known."""
    resting = _resting_on(ledger, prepared)
    grown = {layer.id: growing(ledger, layer, parts, mark) for layer in resting}
    known = {id: each for id, each in grown.items() if each is not None}
    if not known or len(known) < len(grown):
        return None
    keeps = ledger.read("fullness.surplus").value == "keep"
    held = tuple(known[layer.id] for layer in resting if layer.stock.owns)
    return Held(held, known["face"] if keeps and "face" in known else None)


def _resting_on(ledger: Ledger, prepared: Sequence[Prepared]) -> list[Prepared]:
    """The layers in hand, and the face before them where it decides how wide they are."""
    keeps = ledger.read("fullness.surplus").value == "keep" and any(each.stock.owns for each in prepared)
    return [each for each in prepared if each.stock.owns or (keeps and each.id == "face")]


def all_owned(held: Held) -> Fraction | None:
    """The greatest equal fullness at which every layer fits on its own lengths, or None when not even 1 does."""
    most = min(each.most() for each in held.layers)
    if most < LEAST_FULLNESS:
        return None
    # The same layer twice makes no other ladder.
    growing = (*held.layers, *((held.face,) if held.face else ()))
    ladder = Ladder([grows for each in growing for grows in each.widths], growing[0].mark)
    roomy, tied = (_with_room(held, ladder, most, tied=each) for each in (False, True))
    return None if roomy is None else greatest(ladder, LEAST_FULLNESS, roomy, held.fits, tied)


def _with_room(held: Held, ladder: Ladder, most: Fraction, *, tied: bool) -> Fraction | None:
    """The greatest fullness at which the widths alone, if `tied` shared from strip to strip, leave room for all."""
    bounds = [(each.ladder, QuickBound(each.templates, each.owned, each.rules)) for each in held.layers]

    def has_room(fullness: Fraction) -> bool:
        return all(bound.has_room(own.marks(fullness), tied=tied) for own, bound in bounds)

    return greatest(ladder, LEAST_FULLNESS, most, has_room)


def greatest_in_hand(
    ledger: Ledger, prepared: Sequence[Prepared], parts: Sequence[Gathered], mark: Figure[Length]
) -> Callable[[], Fraction | None]:
    """Works, when called, the greatest equal fullness for which nothing need be bought of any layer that is in hand.

    None when no layer is in hand, when something is not known yet, or when it does not make even a flat skirt.
    """
    held = held_of(ledger, prepared, parts, mark)
    return lambda: None if held is None else all_owned(held)
