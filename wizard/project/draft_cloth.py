"""The cloth in the project file: the tables under `cloth`, each field the one of the same name in the job."""

from collections.abc import Callable, Mapping
from typing import Annotated, Any, ClassVar

from wizard.project.notes import AtMost
from wizard.project.tables import MOST_ITEMS, Flag, Id, Legs, Name, Pack, Table
from wizard.project.typed.fields import (
    AllowanceField,
    DamageFromField,
    DamageToField,
    LapField,
    OwnedField,
    PriceField,
    RepeatField,
    ShopField,
    ShrinkageField,
    SpacingField,
    SpoolField,
    TapeField,
    ThreadField,
    WasteField,
    WidthField,
)
from wizard.trade import job


class OwnedTable(Table, frozen=True):
    """A length of cloth already in the cupboard: `cloth.LAYER.owned.ID`."""

    builds: ClassVar[Callable[..., Any] | None] = job.Owned

    length: OwnedField | None = None
    """How long it is along the roll."""
    width: WidthField | None = None
    """Its width, when not as the layer's."""
    damage_from: DamageFromField | None = None
    """Where a damaged stretch begins, from the end that is squared."""
    damage_to: DamageToField | None = None
    """Where it ends."""
    lot: Name | None = None
    """Dye lot."""
    washed: Flag | None = None
    """true when it has been washed already."""


class ClothTable(Table, frozen=True):
    """One layer: `cloth.face`, `cloth.interlining`, `cloth.lining`."""

    builds: ClassVar[Callable[..., Any] | None] = job.Cloth

    use: Flag | None = None
    """Inner layers only; the face is always there."""
    name: Name | None = None
    """What the maker calls it: slate ticking."""
    kind: job.ClothKind | None = None
    """Decides the needle."""
    weight: job.Weight | None = None
    """Decides the guide to fullness."""
    width: WidthField | None = None
    """From selvedge edge to selvedge edge."""
    trim: AllowanceField | None = None
    """Selvedge trimmed off, each side."""
    one_way: Flag | None = None
    """true for a nap or pattern that must stay the same way up."""
    sideways: Flag | None = None
    """true when one-way cloth may lie sideways all the same."""
    repeat: RepeatField | None = None
    """Pattern repeat along the roll; 0 in for none."""
    repeat_kind: job.RepeatKind | None = None
    """How the pattern meets across a join."""
    match: Flag | None = None
    """false: no match, the gathers hide it."""
    match_from: job.MatchFrom | None = None
    """Where the pattern lies level."""
    lay: job.Lay | None = None
    """Strips across the roll, or along it (railroaded)."""
    way: job.CutWay | None = None
    """Which cutting plan is followed, where there are several."""
    warp_shrink: ShrinkageField | None = None
    """Shrinkage along the roll."""
    weft_shrink: ShrinkageField | None = None
    """Shrinkage across the roll."""
    wash: job.Wash | None = None
    """Whether it is washed before cutting."""
    sold_by: job.SoldBy | None = None
    """The unit its price is for."""
    step: ShopField | None = None
    """What the shop cuts in: 1/8 yd."""
    price: PriceField | None = None
    """For one sold_by unit."""
    hem: AllowanceField | None = None
    """Depth of the hem as finished."""
    hem_kind: job.HemKind | None = None
    """Turned twice by the same depth, or once with a turn-under."""
    hem_turn: AllowanceField | None = None
    """Turn-under of a single hem."""
    setback: AllowanceField | None = None
    """Inner layers: how much shorter than the face below."""
    end_setback: AllowanceField | None = None
    """Inner layers: how much shorter than the face at each end."""
    join: job.JoinKind | None = None
    """A seam, or a lap (interlining)."""
    lap: LapField | None = None
    """What a lapped join costs in width."""
    owned: Annotated[Mapping[Id, OwnedTable], AtMost(MOST_ITEMS)] = {}
    """Lengths already in the cupboard, each under an id of its own."""


class TapeTable(Table, frozen=True):
    """The tape: `cloth.tape`."""

    builds: ClassVar[Callable[..., Any] | None] = job.Tape

    width: TapeField | None = None
    """Its width before it is folded."""
    turn_under: AllowanceField | None = None
    """Turned under at each end."""
    sold_by: job.SoldBy | None = None
    """The unit its price is for."""
    step: ShopField | None = None
    """What the shop cuts in."""
    price: PriceField | None = None
    """For one sold_by unit."""


class ThreadTable(Table, frozen=True):
    """Sewing thread: `cloth.thread`."""

    builds: ClassVar[Callable[..., Any] | None] = job.Thread

    ratio: ThreadField | None = None
    """Thread over seam."""
    waste: WasteField | None = None
    """Added for ends and starts."""
    spool: SpoolField | None = None
    """Thread on one spool."""
    price: PriceField | None = None
    """For one spool."""


class FixingTable(Table, frozen=True):
    """What holds the tape to the rail: `cloth.fixing`."""

    builds: ClassVar[Callable[..., Any] | None] = job.Fixing

    kind: job.FixingKind | None = None
    """What is used."""
    spacing: SpacingField | None = None
    """Greatest distance from one to the next."""
    inset: AllowanceField | None = None
    """From an end to the first."""
    legs: Legs = ()
    """Staple or tack legs that can be had, shortest first."""
    pack: Pack | None = None
    """Fixings in a pack."""
    price: PriceField | None = None
    """For one pack; of hook-and-loop, for one sold_by unit."""
    sold_by: job.SoldBy | None = None
    """The unit the price of hook-and-loop is for."""
    step: ShopField | None = None
    """What the shop cuts hook-and-loop in."""


class ClothsTable(Table, frozen=True):
    """All that is bought: `cloth`."""

    builds: ClassVar[Callable[..., Any] | None] = job.Cloths

    face: ClothTable = ClothTable()
    """The outer layer."""
    interlining: ClothTable = ClothTable()
    """The soft layer behind it."""
    lining: ClothTable = ClothTable()
    """The inner layer."""
    tape: TapeTable = TapeTable()
    """The tape over the raw top edge."""
    thread: ThreadTable = ThreadTable()
    """Sewing thread."""
    fixing: FixingTable = FixingTable()
    """What holds it to the rail."""
