"""Fullness: a number, or as full as the cloth in the cupboard allows."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Final

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
    grown = [growing(ledger, layer, parts, mark) for layer in bound]
    known = [each for each in grown if each is not None]
    value = all_owned(known) if len(known) == len(grown) else None
    number = sum(len(each.stock.owned) for each in bound)
    lengths = ledger.keep(Figure("fullness.lengths", "lengths in hand", number, (), OWNED_CLOTH))
    needs = _needs(bound, parts)
    return ledger.keep(Figure("fullness", "fullness", value, needs, OWNED_CLOTH, (("lengths", lengths),)))


def from_owned(ledger: Ledger) -> bool:
    """True when the cloth in hand sets the fullness."""
    return bool(ledger.read("fullness.aim").value == ALL_OWNED)


def _needs(bound: Sequence[Prepared], parts: Sequence[Gathered]) -> tuple[Need, ...]:
    cuts = [cut.needs for layer in bound for cut in layer.cuts.values()]
    return merged([*(part.length.needs for part in parts), *cuts, *(layer.stock.needs for layer in bound)])


def all_owned(layers: Sequence[Growing]) -> Fraction | None:
    """The greatest equal fullness at which every layer fits on its own lengths, or None when not even 1 does."""
    most = min(each.most() for each in layers)
    if most < LEAST_FULLNESS:
        return None
    ladder = Ladder([grows for each in layers for grows in each.widths], layers[0].mark)

    def fits(fullness: Fraction) -> bool:
        return all(isinstance(each.cut(fullness, each.owned), Cutting) for each in layers)

    return greatest(ladder, LEAST_FULLNESS, most, fits)
