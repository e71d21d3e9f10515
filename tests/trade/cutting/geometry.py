"""What every layout must keep, worked out from its pieces and offcuts alone."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import pairwise

from wizard.trade.cutting import Layout, Offcut, Piece, Rules, Stretch, Strip

Box = tuple[Fraction, Fraction, Fraction, Fraction]
"""Start and stop along the roll, then across it."""


def box(each: Piece | Offcut, along: bool) -> Box:
    """The rectangle a piece or an offcut covers on its stretch."""
    if isinstance(each, Offcut):
        long, wide = each.along, each.width
    else:
        long, wide = (each.width, each.cut) if along else (each.cut, each.width)
    start, across = each.start.inches, each.across.inches
    return start, start + long.inches, across, across + wide.inches


def overlapping(boxes: Sequence[Box]) -> bool:
    """True when any two rectangles share more than an edge."""
    return any(
        a[0] < b[1] and b[0] < a[1] and a[2] < b[3] and b[2] < a[3] for n, a in enumerate(boxes) for b in boxes[n + 1 :]
    )


def area(boxes: Iterable[Box]) -> Fraction:
    """All their areas together."""
    return sum(((b - a) * (d - c) for a, b, c, d in boxes), Fraction(0))


def faults(plan: Layout, strips: Sequence[Strip], stock: Sequence[Stretch], rules: Rules) -> list[str]:
    """Everything wrong with a layout, in words; an empty list when nothing is."""
    found = [fault for strip in strips for fault in strip_faults(plan, strip, rules)]
    used = {piece.stretch for piece in plan.pieces}
    for stretch in stock:
        if stretch.id in used:
            found += stretch_faults(plan, stretch, rules)
    if {use.stretch for use in plan.uses} != used:
        found.append("the stretches used are not those the pieces lie on")
    if plan.joins != len(plan.pieces) - len(strips):
        found.append("the joins are miscounted")
    return found


def strip_faults(plan: Layout, strip: Strip, rules: Rules) -> list[str]:
    """A strip's pieces make its flat width exactly, in order, none under the least piece."""
    pieces = sorted((piece for piece in plan.pieces if piece.strip == strip.id), key=lambda piece: piece.order)
    widths = [piece.width.inches for piece in pieces]
    made = sum(widths) - rules.join_cost.inches * (len(pieces) - 1)
    flat = dict(plan.flats)[strip.id].inches
    out = []
    if [piece.order for piece in pieces] != list(range(1, len(pieces) + 1)):
        out.append(f"{strip.id}: orders {[piece.order for piece in pieces]}")
    if made != flat or flat < strip.flat.inches or (rules.surplus == "trim" and flat != strip.flat.inches):
        out.append(f"{strip.id}: makes {made}, states {flat}, asked {strip.flat.inches}")
    if len(pieces) > 1 and min(widths) < rules.least_piece.inches:
        out.append(f"{strip.id}: a piece of {min(widths)}")
    if any(piece.cut != strip.cut for piece in pieces):
        out.append(f"{strip.id}: a piece of another cut length")
    return out + join_faults(strip, widths, rules)


def join_faults(strip: Strip, widths: Sequence[Fraction], rules: Rules) -> list[str]:
    """No join lies within a span where none may."""
    at, out = Fraction(0), []
    for width in widths[:-1]:
        at += width - rules.join_cost.inches
        seam = at + rules.join_cost.inches / 2
        out += [f"{strip.id}: a join at {seam}" for a, b in strip.no_join if a.inches < seam < b.inches]
    return out


def stretch_faults(plan: Layout, stretch: Stretch, rules: Rules) -> list[str]:
    """Pieces and offcuts lie on the stretch, overlap nowhere, leave nothing uncovered and keep off damage."""
    along = plan.way == "along"
    pieces = [box(piece, along) for piece in plan.pieces if piece.stretch == stretch.id]
    offcuts = [box(offcut, along) for offcut in plan.offcuts if offcut.stretch == stretch.id]
    squared = Fraction(0) if stretch.squared else rules.squaring.inches
    used = next(use.length.inches for use in plan.uses if use.stretch == stretch.id)
    end = used if stretch.length is None else stretch.length.inches - squared
    out = []
    if used != max(stop for _, stop, _, _ in pieces):
        out.append(f"{stretch.id}: {used} used, but the last cut is elsewhere")
    if any(a < -squared or b > end or c < 0 or d > stretch.usable.inches for a, b, c, d in pieces + offcuts):
        out.append(f"{stretch.id}: something lies off the cloth")
    if any(a < 0 for a, *_ in pieces):
        out.append(f"{stretch.id}: a piece in the squaring")
    if overlapping(pieces + offcuts):
        out.append(f"{stretch.id}: overlaps")
    if area(pieces + offcuts) != (end + squared) * stretch.usable.inches:
        out.append(f"{stretch.id}: pieces and offcuts do not cover it")
    if not along:
        sides = {(False, False): "none", (True, False): "left", (False, True): "right", (True, True): "both"}
        for piece in [piece for piece in plan.pieces if piece.stretch == stretch.id]:
            cut = piece.across.inches > 0, (piece.across + piece.width).inches < stretch.usable.inches
            out += [] if piece.rip_side == sides[cut] else [f"{piece.strip} {piece.order}: edges cut {cut}"]
    for first, last in stretch.damage:
        if any(a < last.inches - squared and b > first.inches - squared for a, b, *_ in pieces):
            out.append(f"{stretch.id}: a piece on the damage")
    return out


def pattern_faults(plan: Layout, rules: Rules) -> list[str]:
    """Every join on matched cloth has selvedges and the right phase: by the measures where both its pieces lie on one
    stretch, by the row each is said to begin with where they do not; and what is said agrees with the measures."""
    assert rules.repeat is not None
    length = rules.repeat.length.inches
    drop = length / 2 if rules.repeat.phase == "half-drop" else Fraction(0)
    pieces = sorted(plan.pieces, key=lambda piece: (piece.strip, piece.order))
    out = []
    for one, other in pairwise(pieces):
        if one.strip != other.strip:
            continue
        if one.rip_side in ("right", "both") or other.rip_side in ("left", "both"):
            out.append(f"{one.strip}: no selvedge at join {one.order}")
        if one.stretch == other.stretch and (one.start.inches - other.start.inches - drop) % length:
            out.append(f"{one.strip}: out of phase at join {one.order}")
        if (other.phase - one.phase - (drop > 0)) % 2:
            out.append(f"{one.strip}: said to begin with rows that do not meet at join {one.order}")
    for one, other in pairwise(sorted(plan.pieces, key=lambda piece: (piece.stretch, piece.start))):
        apart = one.start.inches - other.start.inches - drop * (one.phase - other.phase)
        if one.stretch == other.stretch and apart % length:
            out.append(f"{one.stretch}: not where the row lies that {other.strip} {other.order} begins with")
    return out
