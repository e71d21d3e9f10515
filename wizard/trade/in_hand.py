"""Cloth in hand: what is cut from which length, what is left of it, and how full it makes the skirt without buying."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction

from msgspec import Struct

from wizard.trade.cutting.strips import Layout, Stretch
from wizard.trade.figures import Figure, Ledger
from wizard.trade.fullness import all_owned, held_of
from wizard.trade.gathers import Gathered
from wizard.trade.job import Job
from wizard.trade.keynames import first_up, owned_in_words
from wizard.trade.layers import Prepared
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan import Layer
from wizard.trade.printing import Ruler, number, shown
from wizard.trade.stock import cloth_of


class InHand(Struct, frozen=True):
    """One length in hand and what becomes of it."""

    stretch: Stretch
    pieces: tuple[tuple[str, int], ...]
    """Strip id and how many of its pieces are cut from it, in the order of the strips."""
    left: Length
    """What is left whole at its far end."""


def in_hand_of(layer: Layer) -> tuple[InHand, ...]:
    """Every length in hand of a layer; none while it is not laid out."""
    if layer.cutting is None:
        return ()
    return tuple(_used(layer, layer.cutting.best, each) for each in layer.stock if each.length is not None)


def _used(layer: Layer, layout: Layout, stretch: Stretch) -> InHand:
    here = [piece.strip for piece in layout.pieces if piece.stretch == stretch.id]
    counts = tuple((strip.id, here.count(strip.id)) for strip in layer.strips if strip.id in here)
    ends = [each for each in layout.offcuts if each.stretch == stretch.id and each.kind == "end"]
    last = max(ends, key=lambda each: each.start, default=None)
    left = ZERO if last is None else last.along
    return InHand(stretch, counts, left if here else stretch.length or ZERO)


def in_hand_lines(job: Job, layer: Layer, names: dict[str, str], ruler: Ruler) -> Iterator[str]:
    """A sentence or two for each length in hand: what it is, what is cut from it, what is left."""
    for each in in_hand_of(layer):
        what, gives = ", ".join(_measures(job, layer, each.stretch, ruler)), _gives(layer, each, names, ruler)
        yield f"{first_up(owned_in_words(each.stretch.id))}: {what}. {gives}"


def _measures(job: Job, layer: Layer, stretch: Stretch, ruler: Ruler) -> Iterator[str]:
    owned = cloth_of(job, layer.id).owned.get(stretch.id)
    washes = cloth_of(job, layer.id).wash == "washed first"
    state = "" if not washes else ", washed already" if owned is not None and owned.washed else " once it is washed"
    yield f"{shown(stretch.length or ZERO, ruler, 'down')} long{state}"
    usable = shown(stretch.usable, ruler, "down")
    yield f"{'only ' if _narrow(layer, stretch) else ''}{usable} of its width can be used"
    for start, end in stretch.damage:
        yield f"damaged from {shown(start, ruler)} to {shown(end, ruler)}"
    if stretch.lot:
        yield f"dye lot {stretch.lot}"


def _narrow(layer: Layer, stretch: Stretch) -> bool:
    return layer.usable.value is not None and stretch.usable < layer.usable.value


def _cut_widths(layer: Layer) -> set[Length]:
    """How much of their width can be used of the lengths that pieces are cut from."""
    uses = layer.cutting.best.uses if layer.cutting is not None else ()
    return {each.usable for each in layer.stock if each.id in {use.stretch for use in uses}}


def _gives(layer: Layer, each: InHand, names: dict[str, str], ruler: Ruler) -> str:
    if not each.pieces:
        matched = layer.rules is not None and layer.rules.repeat is not None and not layer.rules.along
        apart = matched and each.stretch.usable not in _cut_widths(layer)
        why = ": it is not as wide as the cloth that is cut, so at a join the pattern would not meet" if apart else ""
        return f"Nothing is cut from it{why}."
    counts = [f"{count} for {names.get(strip, strip)}" for strip, count in each.pieces]
    left = f" {shown(each.left, ruler, 'down')} is left whole." if each.left > ZERO else ""
    return f"Pieces cut from it: {'; '.join(counts)}.{left}"


def greatest_in_hand(
    ledger: Ledger, prepared: Sequence[Prepared], parts: Sequence[Gathered], mark: Figure[Length]
) -> Callable[[], Fraction | None]:
    """Works, when called, the greatest equal fullness for which nothing need be bought of any layer that is in hand.

    None when no layer is in hand, when something is not known yet, or when it does not make even a flat skirt.
    """
    held = held_of(ledger, prepared, parts, mark)
    return lambda: None if held is None else all_owned(held)


def without_buying(fullness: Fraction | None, layers: Sequence[Layer]) -> str:
    """What the cloth in hand gives by itself, in a sentence; empty where nothing is in hand."""
    held = [layer.name for layer in layers if any(each.length is not None for each in layer.stock)]
    if not held:
        return ""
    of = " and ".join(held)
    if fullness is None:
        return f"Without buying any {of}, no way was found of making even a flat skirt."
    handy = Fraction((fullness * 100).__floor__(), 100)
    lots = any(len({each.lot for each in layer.stock if each.lot}) > 1 for layer in layers)
    mixed = ", where a section may come from more than one dye lot" if lots else ""
    return f"Without buying any {of}, the skirt can be {number(handy)} full, the same in every section{mixed}."
