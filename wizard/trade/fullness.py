"""Fullness: a number, or as full as the owned cloth allows (`fullness_steps`), and the guide to it by cloth and layers.

The guide is common practice, no source: never a wall.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Final

from wizard.trade.cutting import Strip
from wizard.trade.figures import Figure, Ledger, Rule, merged
from wizard.trade.formatting import number
from wizard.trade.fullness_steps import MEAN, MOST, FullnessBasis, Growing, Grows, Held, all_owned
from wizard.trade.job_fields import Allowances, Cloth, Fullness, Job, Weight
from wizard.trade.layers import Prepared, shift_of, strip_as
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan_records import Gathered

WANTED = Rule("fullness", "{want}", source="the maker")
OWNED_CLOTH = Rule("greatest fullness of owned cloth", "the greatest that your {lengths} lengths of cloth give")
ALL_OWNED: Final = "all the cloth I own"


def growing(ledger: Ledger, prepared: Prepared, parts: Sequence[Gathered]) -> Growing | None:
    """A layer as it grows with the fullness, or None until all it rests on is known."""
    stock, end_hem, mark = prepared.stock, ledger.read(Allowances.end_hem).value, ledger.read(Job.ruler).value
    if not parts or end_hem is None or mark is None or stock.rules is None or stock.roll is None or stock.needs:
        return None
    made = [_grown(prepared, part, (end_hem - shift_of(prepared)) * 2) for part in parts]
    known = [each for each in made if each is not None]
    if len(known) < len(made):
        return None
    strips, widths = zip(*known, strict=True)
    return Growing(strips, widths, mark, stock.rules, stock.owned, stock.roll)


def _grown(prepared: Prepared, part: Gathered, ends: Length) -> tuple[Strip, Grows] | None:
    """A part's strip, as if it took no fullness at all, and how it grows."""
    length, cut = part.gathered.value, prepared.cuts[part.id].value
    flat = (part.left_flat.value or ZERO) + (part.right_flat.value or ZERO)
    if length is None or cut is None or length <= flat:
        return None
    return strip_as(prepared, part, length, cut), Grows(length - flat, flat + ends)


def fullness_of(ledger: Ledger, prepared: Sequence[Prepared], parts: Sequence[Gathered]) -> Figure[Fraction]:
    """The fullness the skirt is made to. Figure `fullness`."""
    if not from_owned(ledger):
        return ledger.work("fullness", "fullness", WANTED, lambda want: want, want=ledger.read(Fullness.want))
    bound = [layer for layer in prepared if layer.stock.owns]
    if not bound:
        waiting = ledger.wanting("cloth.face.owned")
        return ledger.keep(Figure("fullness", "fullness", None, waiting.needs, OWNED_CLOTH))
    held = held_of(ledger, prepared, parts)
    value = None if held is None else all_owned(held)
    number = sum(len(each.stock.owned) for each in bound)
    lengths = ledger.keep(Figure("fullness.lengths", "lengths you have", number, (), OWNED_CLOTH))
    resting = _resting_on(ledger, prepared)
    cuts = [cut.needs for layer in resting for cut in layer.cuts.values()]
    needs = merged([*(part.gathered.needs for part in parts), *cuts, *(layer.stock.needs for layer in resting)])
    return ledger.keep(Figure("fullness", "fullness", value, needs, OWNED_CLOTH, (("lengths", lengths),)))


def from_owned(ledger: Ledger) -> bool:
    """True when owned cloth sets the fullness."""
    return bool(ledger.read(Fullness.aim).value == ALL_OWNED)


def held_of(ledger: Ledger, prepared: Sequence[Prepared], parts: Sequence[Gathered]) -> Held | None:
    """The owned layers, or None when there are none, or not all they rest on is known."""
    resting = _resting_on(ledger, prepared)
    grown = {layer.id: growing(ledger, layer, parts) for layer in resting}
    known = {id: each for id, each in grown.items() if each is not None}
    if not known or len(known) < len(grown):
        return None
    keeps = ledger.read(Fullness.surplus).value == "keep"
    held = tuple(known[layer.id] for layer in resting if layer.stock.owns)
    return Held(held, known["face"] if keeps and "face" in known else None)


def _resting_on(ledger: Ledger, prepared: Sequence[Prepared]) -> list[Prepared]:
    """The owned layers, and the face before them where it decides how wide they are."""
    keeps = ledger.read(Fullness.surplus).value == "keep" and any(each.stock.owns for each in prepared)
    return [each for each in prepared if each.stock.owns or (keeps and each.id == "face")]


def basis_of(
    ledger: Ledger, prepared: Sequence[Prepared], parts: Sequence[Gathered], fullness: Figure[Fraction]
) -> FullnessBasis:
    """What other fullnesses would take rests on this."""
    face = growing(ledger, prepared[0], parts)
    sold_by = None if face is None else str(ledger.read(Cloth.sold_by, "cloth.face").value)
    held = held_of(ledger, prepared, parts)
    return FullnessBasis(face, held, fullness.value, ledger.job.cloth.face.price, sold_by)


Range = tuple[Fraction, Fraction]
"""Least and greatest usual fullness."""

BY_WEIGHT: Final[dict[Weight, Range]] = {
    "heavy": (Fraction(2), Fraction(2)),
    "medium": (Fraction(2), Fraction(5, 2)),
    "light": (Fraction(5, 2), Fraction(3)),
    "sheer": (Fraction(3), Fraction(3)),
}
"""By the weight of the face cloth."""
LAYERED: Final[Range] = (Fraction(2), Fraction(2))
"""Interlined or lined, and any of the layers thick: whatever the face alone would take."""


def inner_weights(job: Job) -> tuple[Weight | None, ...]:
    """The weights of the inner layers in use, None where one is not known."""
    return tuple(each.weight for each in (job.cloth.interlining, job.cloth.lining) if each.use)


def guide_of(job: Job) -> Range:
    """For this job's cloth and layers; a face whose weight is not known counts as medium."""
    weight, inner = job.cloth.face.weight or "medium", inner_weights(job)
    return LAYERED if inner and not {"medium", "heavy"}.isdisjoint((weight, *inner)) else BY_WEIGHT[weight]


def offered(job: Job) -> Fraction:
    """What is offered: as near to 2.5 as the guide allows; where cloth is owned, as full as it allows."""
    least, most = guide_of(job)
    return most if job.cloth.face.owned else min(max(Fraction(5, 2), least), most)


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
        f"How much wider the flat cloth is than the run. Usual by weight: {weights}; {range_words(LAYERED)} "
        f"with thick inner layers.{here} Below {number(MEAN)} it looks thin, above {number(MOST)} it is hard to gather."
    )
