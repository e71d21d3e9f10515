"""Marks: tape and flat skirt in the same number of equal parts, so that they meet mark on mark.

Common practice: the parts are made by folding, so their number is a power of two. Each mark is measured from one
end, never by adding up a spacing that was rounded.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Final

from msgspec import Struct

from wizard.trade.figures import Figure, Ledger, Rule
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan import Mark, Part

LONGEST_PART: Final = Length(12)
"""A gathered part is no longer than this: what two hands can even out at a time. Common practice."""

MOST_PARTS: Final = 1024
"""No more parts than this are written out one by one: a longer tape (over 1000 ft) was mistyped."""

PARTS = Rule(
    "marks",
    "parts = 1, 2, 4, 8, …: the first for which ({gathered} − {left_flat} − {right_flat}) ÷ parts ≤ 12 in",
    "Tape and flat skirt are folded in half, and in half again, until a gathered part is 12 in or less.",
)
SPACING_TAPE = Rule(
    "mark spacing on the tape",
    "({gathered} − {left_flat} − {right_flat}) ÷ {parts}",
    "The gathered part of the tape is divided equally; what is left flat at an end is not.",
)
SPACING_FLAT = Rule(
    "mark spacing on the flat skirt",
    "({flat} − {left_flat} − {right_flat}) ÷ {parts}",
    "The flat skirt is divided into as many equal parts as the tape; what is left flat at an end is not.",
)


class MarkSpan(Struct, frozen=True):
    """What is divided. All lengths exact; the ends are the section's, seen from the room."""

    gathered: Length
    """The whole finished tape, `G`."""
    flat: Length
    """The whole finished flat skirt as made, `W`."""
    left_flat: Length = ZERO
    """What is left flat at the left end (a return that is not gathered); ZERO if all is gathered."""
    right_flat: Length = ZERO
    drop_at: Callable[[Length], Length] | None = None
    """Finished drop of the face at a place on the tape, from its left end; None when the hem is level."""

    @property
    def gathers_on_tape(self) -> Length:
        """The gathered part of the tape."""
        return self.gathered - self.left_flat - self.right_flat

    @property
    def gathers_in_flat(self) -> Length:
        """The part of the flat skirt that is drawn up on it."""
        return self.flat - self.left_flat - self.right_flat


def parts_in(gathered_part: Length) -> int:
    """The least power of two that divides `gathered_part` into parts of 12 in or less; 1 for nothing."""
    parts = 1
    while gathered_part / parts > LONGEST_PART:
        parts *= 2
    return parts


def marks_of(span: MarkSpan) -> tuple[Mark, ...]:
    """Every mark from the left end to the right end, both ends and the bounds of what is left flat among them.

    Empty when nothing is left to gather between the flat ends, and when there would be over MOST_PARTS parts.
    """
    if span.gathers_on_tape <= ZERO or span.gathers_in_flat <= ZERO or parts_in(span.gathers_on_tape) > MOST_PARTS:
        return ()
    return tuple(_mark(span, number, *place) for number, place in enumerate(_places(span)))


def _places(span: MarkSpan) -> list[tuple[Length, Length]]:
    """(on the tape, on the flat skirt) of each mark; each worked from the left end by its own fraction."""
    parts = parts_in(span.gathers_on_tape)
    shares = [Fraction(each, parts) for each in range(parts + 1)]
    places = [
        (span.left_flat + span.gathers_on_tape * share, span.left_flat + span.gathers_in_flat * share)
        for share in shares
    ]
    start = [(ZERO, ZERO)] if span.left_flat else []
    end = [(span.gathered, span.flat)] if span.right_flat else []
    return start + places + end


def _mark(span: MarkSpan, number: int, tape: Length, flat: Length) -> Mark:
    return Mark(number, tape, flat, span.drop_at(tape) if span.drop_at else None)


def is_gathered(part: Part, ruler_mark: Length) -> bool:
    """True when a part is drawn up on its tape; False when it is flat but for what the ruler mark rounded up.

    False too while its flat width is not known.
    """
    flat, gathered = part.flat_made.value, part.gathered.value
    return flat is not None and gathered is not None and flat - gathered >= ruler_mark


def mark_figures(
    ledger: Ledger,
    part: str,
    *,
    gathered: Figure[Length],
    flat: Figure[Length],
    left_flat: Figure[Length],
    right_flat: Figure[Length],
) -> Figure[int]:
    """Keep the number of parts and both spacings of `part` in the ledger; gives the number of parts.

    Ids: `part.ID.marks`, `part.ID.mark_spacing_tape`, `part.ID.mark_spacing_flat`. No value when no gathers are left.
    """
    ends = {"gathered": gathered, "left_flat": left_flat, "right_flat": right_flat}
    parts = ledger.work(f"part.{part}.marks", "equal parts between marks", PARTS, _parts, **ends)
    ledger.work(
        f"part.{part}.mark_spacing_tape", "from mark to mark on the tape", SPACING_TAPE, _spacing, parts=parts, **ends
    )
    ends["flat"] = flat
    ledger.work(
        f"part.{part}.mark_spacing_flat",
        "from mark to mark on the flat skirt",
        SPACING_FLAT,
        _flat_spacing,
        parts=parts,
        **{name: ends[name] for name in ("flat", "left_flat", "right_flat")},
    )
    return parts


def _parts(gathered: Length, left_flat: Length, right_flat: Length) -> int | None:
    part = gathered - left_flat - right_flat
    return parts_in(part) if part > ZERO else None


def _spacing(parts: int, gathered: Length, left_flat: Length, right_flat: Length) -> Length:
    return (gathered - left_flat - right_flat) / parts


def _flat_spacing(parts: int, flat: Length, left_flat: Length, right_flat: Length) -> Length:
    return (flat - left_flat - right_flat) / parts
