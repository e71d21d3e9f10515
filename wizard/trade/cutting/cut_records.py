"""The records of the cutting plan: strips in, pieces on the roll out.

Directions: *along* runs down the roll from its squared end; *across* runs from the left edge of the usable width. The
*flat* of a strip goes across (its left end first, as hung and seen from the room), its *cut* goes along. For railroaded
cloth (`Rules.along`) the two change places.
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
    """One layer of one section before it is cut into pieces. Both measures are on the ruler mark."""

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
    """Spans in which no join should fall: pieces are ordered to keep out of them where an order does."""
    larger_end: Literal["left", "right", "either"] = "either"
    """Where the section has a part width at each end, the end that takes the larger one: the foot end."""


class Stretch(Struct, frozen=True):
    """A length of cloth. `length` is None for the roll to be bought, which has no end."""

    id: str
    length: Length | None
    """From end to end before squaring, rounded down to the ruler mark."""
    usable: Length
    """Usable width `U`, trimmed and (where the cloth is washed first) shrunk; rounded down to the ruler mark."""
    squared: bool = False
    """True when the end is square already, so that no squaring allowance is taken."""
    damage: tuple[tuple[Length, Length], ...] = ()
    """Damaged stretches (from, to), measured from its end before squaring, which no piece may touch."""
    lot: str | None = None
    """Dye lot; None where it does not matter."""


class Repeat(Struct, frozen=True):
    """The pattern along the roll."""

    length: Length
    phase: Phase = "straight"


class Rules(Struct, frozen=True):
    """How pieces may be cut and joined. All lengths but `repeat` and `squaring` are on the ruler mark."""

    join_cost: Length
    """Cut width that one join takes: `2j` for a seam, the lap for a lapped join."""
    least_piece: Length
    """Least cut width of a piece of a section that is joined; a section cut whole may be narrower."""
    mark: Length
    """Ruler mark, > 0."""
    squaring: Length = ZERO
    """Taken once from each length that is not squared."""
    policy: Policy = "part widths"
    surplus: Surplus = "trim"
    repeat: Repeat | None = None
    """None for plain cloth, and for a pattern that is not matched."""
    step: Length | None = None
    """The shop's step, as cut from the roll before shrinkage; None when cloth is not bought."""
    keeps: Fraction = Fraction(1)
    """What is left of the roll's length once washed, `1 - warp`: bought length = squaring + used / keeps."""
    along: bool = False
    """Railroaded: strips run along the roll, in lanes across it."""
    one_way: bool = False
    """No piece may be turned end for end; lanes may not lie sideways."""
    effort: int = 400
    """How many nodes the exact search may visit before it stops and states the gap. Never a time: the same job gets the
    same plan everywhere. The first plan makes do with this; `cut_plans.better_plan` goes on from it."""


class Piece(Struct, frozen=True):
    """A piece as cut. `order` 1 is the strip's left end as hung, seen from the room."""

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
    """The width of its stretch that it is cut from, counted from 1; of lanes, the lane."""
    rip_side: Literal["none", "left", "right", "both"] = "none"
    """Which edges are cut rather than selvedge."""
    phase: int = 0
    """0 or 1: how many half repeats a half-drop has fallen at its nearer edge, from one mark for all pieces."""


class Offcut(Struct, frozen=True):
    """Waste beside, below or after the pieces, as a rectangle on its stretch."""

    stretch: str
    start: Length
    across: Length
    along: Length
    """Its size along the roll."""
    width: Length
    kind: OffcutKind
    """`before`: between the pieces and a damaged stretch."""


class Use(Struct, frozen=True):
    """How much of one stretch is used."""

    stretch: str
    length: Length
    """From its squared end to the last cut, in washed cloth where it is washed first."""
    rows: int
    """Widths (or lanes) cut from it."""


class Proof(Struct, frozen=True):
    """How good a layout is known to be."""

    least: bool
    """True when no plan of its class is shorter: it meets a bound, or a finished search found nothing shorter."""
    bound: Length
    """No plan of the class uses less than this in all."""
    by: Literal["bound", "search", "policy", "none"]
    """How that is proven; `none` where it is not."""
    among: str
    """The class in words: `of cross-cut plans, part widths, least piece 6 in`."""
    fewest_joins: bool
    """True when no plan of the class with the same length has fewer joins."""
    saves: Length | None = None
    """Where it is not least and cloth is bought beside cloth in hand: the most that another plan of the class could
    save of the roll. None elsewhere: there the gap is `used - bound`."""


class Layout(Struct, frozen=True):
    """One way of cutting. Its pieces and offcuts cover each stretch that is used exactly."""

    way: LayoutWay
    pieces: tuple[Piece, ...]
    offcuts: tuple[Offcut, ...]
    uses: tuple[Use, ...]
    used: Length
    """Over all stretches, counted as `Use.length`."""
    roll: Length
    """What the roll must give as cut from it, with squaring and shrinkage. ZERO where nothing is bought."""
    buy: Length
    """`roll` rounded up to the shop's step."""
    joins: int
    flats: tuple[tuple[str, Length], ...]
    """The flat cut width of each strip as made: more than asked where the surplus is kept, never less."""
    proof: Proof
    area_bound: Length
    """`sum(A x C) / U`: no way of cutting uses less."""


class Refusal(Struct, frozen=True):
    """Why nothing could be laid out; the findings put it in words."""

    reason: Literal[
        "no strips", "cut too long", "usable too narrow", "piece too narrow", "no cloth", "cannot join", "too much",
        "joins along", "way along",
    ]  # fmt: skip
    """The last two: along the roll, how widths are joined or the chosen way of cutting cannot apply."""
    strip: str | None
    needed: Length | None
    found: Length | None
    certain: bool = True
    """False where no way was found, but not every way was tried."""


@dataclass(frozen=True)
class Cutting:
    """The answer of `lay_out`: the plan in use, and other layouts."""

    best: Layout
    """Least length of the asked policy among cross-cut plans (or lanes), then fewest joins."""
    fewest_joins: Callable[[], Layout | None] = field(default=lambda: None, compare=False, repr=False)
    """Works out the fewest joins among plans that buy the same length in shop steps; None where that is `best` itself.
    It follows from the question, so it does not count in comparisons."""
    others: Callable[[], tuple[Layout, ...]] = field(default=tuple, compare=False, repr=False)
    """Works out slit and stacked layouts shorter than `best`, shortest first."""
    least: Layout | None = None
    """The least cloth, where another layout was chosen."""
    tries: int = 0
    """How many searches `cut_plans` made after the first plan."""
    searched: int = 0
    """The work of those searches."""


LEAST_BOUGHT = ", least bought, then least of your own cloth"
LOT_EACH = ", each section from one dye lot"
ONE_LOT = ", each section from one width and dye lot"
ONE_WIDTH = ", each section from one width"
MATCHED = ", the pattern matched at every join"
SET_ASIDE = ", a repeat set aside on each length but one, least bought"
ONE_CLOTH = ", on the cloth of one width"
"""What more a proof says of its class, after `class_of`."""


def class_of(rules: Rules) -> str:
    """The class of plans in words: `across the roll, part widths, no piece under 6 in`."""
    parts = ["along the roll"] if rules.along else ["across the roll", rules.policy]
    if (rules.along or rules.policy == "part widths") and rules.least_piece > ZERO:
        parts.append(_least_piece(rules.least_piece, rules.mark))
    return ", ".join(parts)


@lru_cache(maxsize=16)
def _least_piece(least: Length, mark: Length) -> str:
    return f"no piece under {exact(least, unit_of(mark))}"


def unit_of(mark: Length) -> str:
    """The unit of a ruler mark: centimetres when it is a whole number of tenths of a millimetre."""
    return "cm" if (mark.mm * 10).denominator == 1 and mark.inches.denominator & (mark.inches.denominator - 1) else "in"
