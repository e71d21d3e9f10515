"""Fullness: a number, or as full as the cloth in the cupboard allows."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Final

from msgspec import Struct

from wizard.trade.cutting.quick_bound import QuickBound
from wizard.trade.cutting.strips import Cutting, Strip
from wizard.trade.figures import Figure, Ledger, Need, Rule, merged
from wizard.trade.gathers import LEAST_FULLNESS, Gathered
from wizard.trade.growing import Growing
from wizard.trade.layers import Prepared, strip_as
from wizard.trade.lengths import ZERO, Length
from wizard.trade.searching import Grows, Ladder, greatest

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
