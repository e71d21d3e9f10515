"""What the cutting plan is asked and what it answers: strips in, pieces on the roll out. One door: `lay_out`.

Directions: *along* runs down the roll from its squared end; *across* runs from the left selvedge edge of the usable
width. A strip's *flat* lies across (its left end, as hung and seen from the room, first); its *cut* lies along. For
railroaded cloth (`Rules.along`) the two change places.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache
from typing import Literal

from msgspec import Struct

from wizard.trade.formatting import exact
from wizard.trade.lengths import ZERO, Length

Policy = Literal["part widths", "half widths", "whole widths"]
Surplus = Literal["trim", "keep"]
Phase = Literal["straight", "half-drop"]
LayoutWay = Literal["cross-cut", "slit", "stacked", "along"]
OffcutKind = Literal["side", "below", "repeat", "damage", "before", "end", "squaring"]


class Strip(Struct, frozen=True):
    """One layer of one section before it is cut up into pieces. Both measures stand on the ruler mark."""

    id: str
    """Fixed id, like `left` or `left/2`; unique in one call."""
    section: str
    layer: str
    flat: Length
    """Cut width `A = W + 2e`, before any joins, > 0."""
    cut: Length
    """Cut length `C`, > 0."""
    no_join: tuple[tuple[Length, Length], ...] = ()
    """Spans of the joined-up flat width, from its left end, in which no join may fall."""
    avoid: tuple[tuple[Length, Length], ...] = ()
    """Spans in which none should: the pieces are put in an order that keeps out of them, where there is one."""
    larger_end: Literal["left", "right", "either"] = "either"
    """Where the section has a part at each end, the end that takes the larger: the foot end."""


class Stretch(Struct, frozen=True):
    """A length of cloth. `length` None is the roll still to be bought, which has no end."""

    id: str
    length: Length | None
    """From end to end as it lies, before squaring; rounded down to the ruler mark."""
    usable: Length
    """Usable width `U`, trimmed and (where the cloth is washed first) shrunk; rounded down to the ruler mark."""
    squared: bool = False
    """True when the end is square already, so no squaring allowance is taken."""
    damage: tuple[tuple[Length, Length], ...] = ()
    """Stretches (from, to) along it, measured from its end as it lies, that no piece may touch."""
    lot: str | None = None
    """Dye lot; None means it does not matter."""


class Repeat(Struct, frozen=True):
    """The pattern along the roll."""

    length: Length
    phase: Phase = "straight"


class Rules(Struct, frozen=True):
    """How pieces may be cut and joined. Every length stands on the ruler mark, but `repeat` and `squaring`."""

    join_cost: Length
    """Cut width that one join takes: `2j` for a seam, the lap for a lapped join."""
    least_piece: Length
    """Least cut width of a piece of a section that is joined; a section cut whole is exempt."""
    mark: Length
    """Ruler mark, > 0."""
    squaring: Length = ZERO
    """Taken once from each length that is not squared."""
    policy: Policy = "part widths"
    surplus: Surplus = "trim"
    repeat: Repeat | None = None
    """None: plain cloth, or a pattern that is not to be matched."""
    step: Length | None = None
    """The shop's step, as cut from the roll before shrinkage; None when cloth is not bought."""
    keeps: Fraction = Fraction(1)
    """What is left of the roll's length once washed, `1 - warp`: bought length = squaring + used / keeps."""
    along: bool = False
    """Railroaded: strips run along the roll, in lanes across it."""
    one_way: bool = False
    """No piece may be turned end for end; lanes may not lie sideways."""
    effort: int = 400
    """What the exact search may look at before it stops with a stated gap. Never a clock: same job, same plan. A plan
    that must not keep anybody waiting does with this; `improved` goes on from there."""


class Piece(Struct, frozen=True):
    """A piece as cut. Piece `order` 1 is the strip's left end as hung, seen from the room."""

    strip: str
    order: int
    width: Length
    """Cut width, joins and end hem included."""
    cut: Length
    stretch: str
    start: Length
    """Along the stretch, from its squared end, to the piece's nearer edge."""
    across: Length
    """From the left edge of the usable width to the piece's nearer edge."""
    row: int
    """Which width of its stretch it lies in, from 1; for lanes, which lane."""
    rip_side: Literal["none", "left", "right", "both"] = "none"
    """Which edges are cut rather than selvedge."""
    phase: int = 0
    """0 or 1: by how many half repeats a half-drop has fallen at its nearer edge, against the same mark everywhere."""


class Offcut(Struct, frozen=True):
    """What is left beside, below or at the end of the pieces, as a rectangle on its stretch."""

    stretch: str
    start: Length
    across: Length
    along: Length
    """Its size along the roll."""
    width: Length
    kind: OffcutKind
    """`before`: left before a damaged stretch."""


class Use(Struct, frozen=True):
    """How much of one stretch is used."""

    stretch: str
    length: Length
    """From its squared end to the last cut, squaring not counted, in washed cloth where it is washed first."""
    rows: int
    """Widths (or lanes) cut from it."""


class Proof(Struct, frozen=True):
    """What is known about how good a layout is."""

    least: bool
    """True when nothing of its class is shorter: a bound is met, or a finished search leaves nothing shorter."""
    bound: Length
    """No layout of the class uses less than this in all."""
    by: Literal["bound", "search", "policy", "none"]
    """How it is proven; `none` when it is not."""
    among: str
    """The class in words: `of cross-cut plans, part widths, least piece 6 in`."""
    fewest_joins: bool
    """True when no plan of the class with the same length has fewer joins."""
    saves: Length | None = None
    """Where it is not least and more is bought beside cloth in hand: the most that another plan of the class could
    take less of the roll. None elsewhere: there `used` less `bound` says it."""


class Layout(Struct, frozen=True):
    """One way of cutting, all of it. Pieces and offcuts tile each used stretch exactly."""

    way: LayoutWay
    pieces: tuple[Piece, ...]
    offcuts: tuple[Offcut, ...]
    uses: tuple[Use, ...]
    used: Length
    """Over all stretches, as `Use.length`."""
    roll: Length
    """What the roll to be bought must give, as cut from it: squaring and shrinkage included. ZERO if none is needed."""
    buy: Length
    """`roll` up to the shop's step."""
    joins: int
    flats: tuple[tuple[str, Length], ...]
    """Each strip's flat cut width as made: more than asked for when the surplus is kept, never less."""
    proof: Proof
    area_bound: Length
    """`sum(A x C) / U`: no way of cutting whatever uses less."""


class Refusal(Struct, frozen=True):
    """Why nothing could be laid out, in a form the findings can word."""

    reason: Literal[
        "no strips", "cut too long", "usable too narrow", "piece too narrow", "no cloth", "cannot join", "too much",
        "joins along", "way along",
    ]  # fmt: skip
    """The last two: how widths are joined, or the way of cutting, cannot hold where strips lie along the roll."""
    strip: str | None
    needed: Length | None
    found: Length | None
    certain: bool = True
    """False where no way was found, but not every way was looked at."""


def nothing() -> None:
    """No other layout."""


@dataclass(frozen=True)
class Cutting:
    """The answer of `lay_out`: the plan to follow, and the others worth showing beside it."""

    best: Layout
    """Least length of the asked policy among cross-cut plans (or lanes), then fewest joins."""
    fewer: Callable[[], Layout | None] = field(default=nothing, compare=False, repr=False)
    """Works `fewest_joins`; follows from what was asked, so it tells no two cuttings apart."""
    shorter: Callable[[], tuple[Layout, ...]] = field(default=tuple, compare=False, repr=False)
    """Works `others`, in the same way."""
    least: Layout | None = None
    """The least cloth, where another way was chosen to be followed."""
    tries: int = 0
    """How many searches went on from the first plan, as `cut_plans` makes them."""
    searched: int = 0
    """The work they took."""

    @property
    def fewest_joins(self) -> Layout | None:
        """Fewest joins among plans that buy the same length in shop steps; None when it is `best` itself."""
        return self.fewer()

    @property
    def others(self) -> tuple[Layout, ...]:
        """Slit and stacked layouts shorter than `best`, shortest first."""
        return self.shorter()


def class_of(rules: Rules) -> str:
    """As `of cross-cut plans, part widths, least piece 6 in`."""
    ways = "of lanes along the roll" if rules.along else "of cross-cut plans"
    parts = [ways] if rules.along else [ways, rules.policy]
    if (rules.along or rules.policy == "part widths") and rules.least_piece > ZERO:
        parts.append(_least_piece(rules.least_piece, rules.mark))
    return ", ".join(parts)


@lru_cache(maxsize=16)
def _least_piece(least: Length, mark: Length) -> str:
    return f"least piece {exact(least, unit_of(mark))}"


def unit_of(mark: Length) -> str:
    """The unit a ruler mark belongs to: centimetres when it is a whole number of tenths of a millimetre."""
    return "cm" if (mark.mm * 10).denominator == 1 and mark.inches.denominator & (mark.inches.denominator - 1) else "in"
