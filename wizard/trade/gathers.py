"""Gathers: gathered length, flat width and tape of each part."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from msgspec import Struct

from wizard.trade.figures import Figure, Ledger, Rule
from wizard.trade.lengths import ZERO, Length
from wizard.trade.parts import Span

GATHERED = Rule(
    "gathered length", "{run} + {left} + {right}",
    "The section is as long as what is seen and what turns in, or lies over, at its ends.",
)  # fmt: skip
FLAT = Rule("flat width", "{fullness} × {gathered}", "Fullness is flat finished width over gathered length.")
FLAT_RETURNS = Rule(
    "flat width, returns left flat", "{fullness} × ({gathered} − {returns}) + {returns}",
    "Returns that are left flat take their own length of cloth and no more.",
)  # fmt: skip
RETURNS = Rule("returns left flat", "{left} + {right}", "What turns in behind the posts and is not gathered.")
TAPE = Rule(
    "tape cut", "{gathered} + 2 × {turn_under}",
    "The tape's turned ends and the cloth's hemmed ends finish together, so each end takes one turn-under.",
)  # fmt: skip
TRUE_FULLNESS = Rule("fullness as made", "{flat} ÷ {gathered}", "Fullness is flat finished width over gathered length.")
LEAST_FULLNESS: Final = Fraction(1)


class Gathered(Struct, frozen=True):
    """A part with its gathered length and what of it stays flat."""

    span: Span
    length: Figure[Length]
    """`G`."""
    left_flat: Figure[Length]
    """Of the gathered length, what is left flat at the left end; ZERO when it gathers too."""
    right_flat: Figure[Length]
    tape: Figure[Length]

    @property
    def returns_flat(self) -> bool:
        """True when a return stays flat."""
        return bool(self.left_flat.value or self.right_flat.value)


def gathered_of(ledger: Ledger, span: Span) -> Gathered:
    """Gathered length and tape of a part."""
    id = span.id
    length = ledger.work(
        f"part.{id}.gathered", "gathered length", GATHERED, lambda run, left, right: run + left + right,
        run=span.run, left=span.left_extra, right=span.right_extra,
    )  # fmt: skip
    tape = ledger.work(
        f"part.{id}.tape", "tape cut", TAPE, lambda gathered, turn_under: gathered + turn_under * 2,
        gathered=length, turn_under=ledger.read("cloth.tape.turn_under"),
    )  # fmt: skip
    return Gathered(span, length, _flat_end(ledger, span, "left"), _flat_end(ledger, span, "right"), tape)


def _flat_end(ledger: Ledger, span: Span, end: str) -> Figure[Length]:
    """What stays flat at an end: the return there, when the maker leaves returns flat. An overlap gathers."""
    kind = span.section.left_end if end == "left" else span.section.right_end
    extra = span.left_extra if end == "left" else span.right_extra
    stays = kind == "returns" and span.section.returns_flat is True and extra.value != ZERO
    return extra if stays else Figure(f"part.{span.id}.{end}_flat", f"left flat at the {end} end", ZERO, (), RETURNS)


def flat_of(ledger: Ledger, part: Gathered, fullness: Figure[Fraction]) -> Figure[Length]:
    """Flat finished width `W` of the face, exact."""
    id = f"part.{part.span.id}.flat"
    if not part.returns_flat:
        return ledger.work(id, "flat width", FLAT, _flat, fullness=fullness, gathered=part.length)
    returns = ledger.work(
        f"part.{part.span.id}.returns", "returns left flat", RETURNS, lambda left, right: left + right,
        left=part.left_flat, right=part.right_flat,
    )  # fmt: skip
    return ledger.work(id, "flat width", FLAT_RETURNS, _flat, fullness=fullness, gathered=part.length, returns=returns)


def _flat(fullness: Fraction, gathered: Length, returns: Length = ZERO) -> Length | None:
    """None for a fullness under 1: a finding refuses it."""
    return (gathered - returns) * fullness + returns if fullness >= LEAST_FULLNESS else None


def fullness_made(ledger: Ledger, part_id: str, gathered: Figure[Length], flat: Figure[Length]) -> Figure[Fraction]:
    """True fullness of a part end to end, from its flat width as made."""
    return ledger.work(
        f"part.{part_id}.fullness", "fullness as made", TRUE_FULLNESS,
        lambda flat, gathered: flat / gathered if gathered > ZERO else None, flat=flat, gathered=gathered,
    )  # fmt: skip
