"""Where the joins of a section fall, and keeping those of an inner layer away from the face's."""

from __future__ import annotations

from bisect import bisect_left
from typing import Final

from wizard.trade.cutting.strips import Layout
from wizard.trade.lengths import ZERO, Length

APART: Final = Length(2)
"""Joins of two layers lie at least this far apart, or the seams make a lump that shows."""


def joins_at(layout: Layout, strip_id: str, join_cost: Length) -> tuple[Length, ...]:
    """The joins of one strip, from its left raw edge, along the joined-up flat width. A lap counts by its middle."""
    pieces = sorted((piece for piece in layout.pieces if piece.strip == strip_id), key=lambda piece: piece.order)
    joins, reached = [], ZERO
    for piece in pieces[:-1]:
        reached += piece.width
        joins.append(reached - join_cost / 2)
        reached -= join_cost
    return tuple(joins)


def keep_off(joins: tuple[Length, ...], shift: Length, flat: Length) -> tuple[tuple[Length, Length], ...]:
    """The spans of an inner layer in which no join should fall. `shift` is what its flat starts later by."""
    spans = ((join - shift - APART, join - shift + APART) for join in joins)
    return tuple((max(start, ZERO), min(end, flat)) for start, end in spans if end > ZERO and start < flat)


def least_apart(face: tuple[Length, ...], inner: tuple[Length, ...], shift: Length) -> Length | None:
    """How close the nearest two joins of the layers come, or None when one of the layers has none. Both rise."""
    if not face:
        return None
    return min((_nearest(face, other + shift) for other in inner), default=None)


def _nearest(joins: tuple[Length, ...], place: Length) -> Length:
    at = bisect_left(joins, place)
    return min(abs(join - place) for join in joins[max(at - 1, 0) : at + 1])
