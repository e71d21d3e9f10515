"""The job: everything the arithmetic is told. Frozen; every leaf may be missing; field paths are the file's keys."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from msgspec import Struct, field

from wizard.trade.bed import Survey
from wizard.trade.lengths import Length

Unit = Literal["in", "ft", "yd", "mm", "cm", "m"]
Standard = Literal["inches", "metric"]
"""Which column of the defaults table stands in for what is not said."""
LayerId = Literal["face", "interlining", "lining"]
LAYERS: tuple[LayerId, ...] = ("face", "interlining", "lining")
ClothKind = Literal["fine silk", "lawn", "plain cotton", "linen", "flannel", "velvet or other heavy cloth", "other"]
Weight = Literal["sheer", "light", "medium", "heavy"]
Wash = Literal["washed first", "not washed", "already washed"]
RepeatKind = Literal["straight", "half-drop"]
MatchFrom = Literal["hem", "top"]
Lay = Literal["across", "along"]
CutWay = Literal["least cloth", "fewest joins", "slit", "stacked"]
HemKind = Literal["double", "single"]
JoinKind = Literal["seam", "lap"]
SoldBy = Literal["yd", "m", "ft"]
FixingKind = Literal[
    "staples", "tacks", "adhesive hook-and-loop", "hook-and-loop", "magnets", "upholstery pins", "glue"
]  # fmt: skip
Aim = Literal["a number", "all the cloth I own"]
Joins = Literal["part widths", "half widths", "whole widths"]
Surplus = Literal["trim", "keep"]


class Owned(Struct, frozen=True):
    """A length of cloth already in the cupboard. Key: `cloth.LAYER.owned.ID`."""

    length: Length | None = None
    width: Length | None = None
    """Overrides the layer's."""
    damage_from: Length | None = None
    damage_to: Length | None = None
    lot: str | None = None
    """Dye lot."""
    washed: bool | None = None


class Cloth(Struct, frozen=True):
    """One layer. Keys: `cloth.face`, `cloth.interlining`, `cloth.lining`."""

    use: bool | None = None
    """Inner layers only; the face is always there."""
    name: str | None = None
    kind: ClothKind | None = None
    weight: Weight | None = None
    width: Length | None = None
    """From selvedge edge to selvedge edge."""
    trim: Length | None = None
    """Selvedge trimmed off, each side."""
    one_way: bool | None = None
    sideways: bool | None = None
    """One-way cloth may lie sideways all the same (railroaded)."""
    repeat: Length | None = None
    """Pattern repeat along the roll; None or zero for none."""
    repeat_kind: RepeatKind | None = None
    match: bool | None = None
    """False: no match, the gathers hide it."""
    match_from: MatchFrom | None = None
    lay: Lay | None = None
    way: CutWay | None = None
    """Which of the cutting plans found is followed; the least cloth where the one chosen is not to be had."""
    warp_shrink: Fraction | None = None
    weft_shrink: Fraction | None = None
    wash: Wash | None = None
    sold_by: SoldBy | None = None
    step: Length | None = None
    price: Decimal | None = None
    """For one `sold_by` unit."""
    hem: Length | None = None
    """Depth of the hem `d` as finished."""
    hem_kind: HemKind | None = None
    hem_turn: Length | None = None
    """Turn-under `t` of a single hem."""
    setback: Length | None = None
    """Inner layers: how much shorter than the face below."""
    end_setback: Length | None = None
    join: JoinKind | None = None
    lap: Length | None = None
    owned: Mapping[str, Owned] = field(default_factory=dict)


class Tape(Struct, frozen=True):
    """Key: `cloth.tape`."""

    width: Length | None = None
    turn_under: Length | None = None
    sold_by: SoldBy | None = None
    step: Length | None = None
    price: Decimal | None = None


class Thread(Struct, frozen=True):
    """Key: `cloth.thread`."""

    ratio: Fraction | None = None
    """Thread over seam, lockstitch 301."""
    waste: Fraction | None = None
    spool: Length | None = None
    price: Decimal | None = None
    """For one spool."""


class Fixing(Struct, frozen=True):
    """Key: `cloth.fixing`."""

    kind: FixingKind | None = None
    spacing: Length | None = None
    inset: Length | None = None
    legs: tuple[Length | None, ...] = ()
    """Staple or tack legs that can be had, shortest first."""
    pack: int | None = None
    """Fixings in a pack."""
    price: Decimal | None = None
    """For one pack (of hook-and-loop: for one `sold_by` unit)."""
    sold_by: SoldBy | None = None
    step: Length | None = None


class Cloths(Struct, frozen=True):
    """Key: `cloth`."""

    face: Cloth = Cloth()
    interlining: Cloth = Cloth()
    lining: Cloth = Cloth()
    tape: Tape = Tape()
    thread: Thread = Thread()
    fixing: Fixing = Fixing()


class Allowances(Struct, frozen=True):
    """Key: `allowances`."""

    join: Length | None = None
    """Join seam `j`, each side."""
    end_hem: Length | None = None
    """End hem `e`: all the cloth it takes at each end."""
    top: Length | None = None
    squaring: Length | None = None
    least_piece: Length | None = None
    floor_tolerance: Length | None = None
    run_tolerance: Length | None = None


class Fullness(Struct, frozen=True):
    """Key: `fullness`."""

    aim: Aim | None = None
    want: Fraction | None = None
    joins: Joins | None = None
    surplus: Surplus | None = None


class Unusable(Struct, frozen=True):
    """What stands in the file at a key and cannot be used."""

    text: str
    sentence: str
    """Why not."""
    way_out: str
    """What would do."""


class Foreign(Struct, frozen=True):
    """A length in a unit that is not of the job's system."""

    text: str
    """As it was typed."""
    would: Length
    """The same figures in the job's own unit."""


class Job(Struct, frozen=True):
    """All of it."""

    name: str | None = None
    show: Unit | None = None
    ruler: Length | None = None
    standard: Standard | None = None
    currency: str | None = None
    """Put before sums of money, as typed."""
    survey: Survey = field(default_factory=Survey)
    allowances: Allowances = Allowances()
    cloth: Cloths = Cloths()
    fullness: Fullness = Fullness()
    kept: Mapping[str, str] = field(default_factory=dict)
    """Findings looked at and kept: finding id -> the values it was kept for."""
    unusable: Mapping[str, Unusable] = field(default_factory=dict)
    """Key -> what stands there in the file and cannot be used: the leaf is missing, and no usual value stands in."""
    foreign: Mapping[str, Foreign] = field(default_factory=dict)
    """Key -> the length there, where it is in a unit that is not of the job's system."""
