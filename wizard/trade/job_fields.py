"""The job: all that the arithmetic is told, and each field of the project file declared once.

Every record is frozen and every leaf may be missing. The path of a field is its key in the file. How a declaration is
read is said in `fields`; the text under a field goes into the schema of the file, word for word.

Left and right of the bed are as seen standing at the foot, facing the head. A section's *left end* is the one on the
left hand of somebody in the room, facing the face side: the head end of the left section, the foot end of the right
one, the bed's left in the foot section, the bed's right in the head section.
"""

# Annotations are not postponed here: they are read as they are, at every start.

from collections import Counter
from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from functools import cache, lru_cache
from types import MemberDescriptorType
from typing import Annotated, Final, Literal

from msgspec import Struct

from wizard.trade.fields import (
    ALLOWANCE,
    ALONG,
    AT_POST,
    DAMAGE_FROM,
    DAMAGE_TO,
    DROP,
    FULLNESS,
    GAP,
    HEIGHT,
    LAP,
    LEG,
    MOST_ITEMS,
    OVERLAP,
    OWNED,
    PIECE,
    POST,
    PRICE,
    RAIL,
    REPEAT,
    RETURN,
    RULER,
    RUN,
    SHOP_STEP,
    SHORT,
    SHRINKAGE,
    SPACING,
    SPOOL,
    TAPE,
    THING,
    THING_HEIGHT,
    THREAD,
    TOLERANCE,
    WASTE,
    WIDTH,
    AtMost,
    Count,
    Field,
    Ident,
    NotInFile,
    Record,
    Standard,
    Text,
    Usual,
    bare,
    field_in,
    fields_of,
    is_table,
    lengths,
    type_at,
)
from wizard.trade.lengths import ZERO, Length

Side = Literal["left", "right", "foot", "head"]
EndKind = Literal["stops", "stops short", "returns", "overlaps"]
"""`stops` at the post; `returns` behind it; `overlaps` the next section in front of nothing (no post between)."""
HemLine = Literal["level", "follow the floor"]
RailMaterial = Literal["solid wood", "veneered board", "metal", "upholstered", "heirloom"]
FixingFace = Literal["inner face", "lower back edge"]
TakenOff = Literal["stays on", "now and then", "often"]
"""How the skirt is to come off for cleaning."""
Watch = Literal["antique", "old paint", "adjustable", "heated", "public room", "cot", "candles or fire near"]
"""What there is about the bed that calls for a caution."""
ObstacleKind = Literal["centre leg", "bracket", "bed-bolt cover", "drawer", "heater", "vent", "socket", "other"]
BedSize = Literal[
    "US twin", "US long twin", "US full", "US queen", "US king", "US California king",
    "UK 75", "UK 90", "UK 120", "UK 135", "UK 150", "UK 180",
    "EU 80", "EU 90", "EU 100", "EU 140", "EU 160", "EU 170", "EU 180", "EU 200",
]  # fmt: skip
Unit = Literal["in", "ft", "yd", "mm", "cm", "m"]
LayerId = Literal["face", "interlining", "lining"]
LAYERS: tuple[LayerId, ...] = ("face", "interlining", "lining")
ClothKind = Literal["fine silk", "lawn", "plain cotton", "linen", "flannel", "velvet or other heavy cloth", "other"]
Weight = Literal["sheer", "light", "medium", "heavy"]
Wash = Literal["washed first", "not washed", "already washed"]
RepeatKind = Literal["straight", "half-drop"]
MatchFrom = Literal["hem", "top"]
Lay = Literal["across", "along"]
CutWay = Literal["least cloth", "fewest joins", "slit", "stacked"]
SoldBy = Literal["yd", "m", "ft"]
FixingKind = Literal[
    "staples", "tacks", "adhesive hook-and-loop", "hook-and-loop", "magnets", "upholstery pins", "glue"
]
Aim = Literal["a number", "all the cloth I own"]
Joins = Literal["part widths", "half widths", "whole widths"]
Surplus = Literal["trim", "keep"]

LONGEST_ID: Final = 40
_ID_IS: Final = "small letters a to z, figures and hyphens, and no hyphen in front"
_FINDING_ID_IS: Final = "small letters a to z, figures, and . _ : / - behind them"

Name = Annotated[str, Text(200, "Juniper loft")]
Note = Annotated[str, Text(1000, "second width has a slub, turned inside")]
Currency = Annotated[str, Text(8, "$")]
Id = Annotated[str, Ident(r"[a-z0-9][a-z0-9-]*", LONGEST_ID, _ID_IS, "centre-leg")]
FindingId = Annotated[str, Ident(r"[a-z0-9][a-z0-9_.:/-]*", 200, _FINDING_ID_IS, "run-differs:left")]
HALF_INCH: Final = lengths("1/2 in", "1.5 cm")
"""What most allowances are."""
LEGS: Final = (
    tuple(Length(Fraction(n, 16)) for n in (4, 5, 6, 8, 9)),
    tuple(Length.of(n, "mm") for n in (6, 8, 10, 12, 14)),
)
"""Legs that shops sell."""


class Obstacle(Record, frozen=True):
    """Something in the way along a run: `survey.section.ID.in_the_way.ID`."""

    name: Annotated[Name | None, Field("name")] = None
    """What you call it."""
    kind: Annotated[ObstacleKind | None, Field("kind of thing")] = None
    """What it is; a heater, a vent or a socket raises its caution."""
    at: Annotated[Length | None, Field("where its middle is", ALONG)] = None
    """Middle of it along the run: from the head on a side, from the bed's left on the foot or head."""
    width: Annotated[Length | None, Field("width", THING)] = None
    """Its size along the run."""
    height: Annotated[Length | None, Field("height above the floor", THING_HEIGHT)] = None
    """Height of its top above the floor."""
    do: Annotated[Literal["no fixing", "split here", "keep clear"] | None, Field("what the skirt does there")] = None
    """What the skirt does there."""
    overlap: Annotated[Length | None, Field("overlap of the two parts", OVERLAP)] = None
    """When the section is split here: how far the two parts overlap."""


class Post(Record, frozen=True):
    """A post at a corner: `survey.post.ID`; usual ids head-left, foot-left, foot-right, head-right."""

    along_side: Annotated[Length | None, Field("size along the side rail", POST)] = None
    """Its size along the side rail."""
    along_end: Annotated[Length | None, Field("size along the foot or head rail", POST)] = None
    """Its size along the foot or head rail."""
    side_set_in: Annotated[Length | None, Field("side rail's set-in from the post's outer face", AT_POST)] = None
    """From the post's outer face in to the side rail's outer face."""
    end_set_in: Annotated[Length | None, Field("foot or head rail's set-in from the post's outer face", AT_POST)] = None
    """From the post's outer face in to the foot or head rail's outer face."""
    may_fix: Annotated[bool | None, Field("may you fix into it")] = None
    """true when you may fix into it."""
    turned: Annotated[bool | None, Field("turned or tapered")] = None
    """true for a turned or tapered leg, which opens below."""


class Section(Record, frozen=True):
    """One side of the bed between posts: `survey.section.ID`. Its left end is the one on the left hand of somebody in
    the room: the head end of the left section, the foot end of the right one, the bed's left in the foot section, the
    bed's right in the head section."""

    on: Annotated[bool | None, Field("made or left out")] = None
    """false leaves it out of the skirt and keeps its measurements."""
    name: Annotated[Name | None, Field("name")] = None
    """What you call it: window side."""
    side: Annotated[Side | None, Field("side of the bed")] = None
    """Which side of the bed it hangs on."""
    rail: Annotated[RailMaterial | None, Field("what the rail is made of")] = None
    """What this rail is made of, where it differs from the rest of the bed."""
    rail_thickness: Annotated[Length | None, Field("rail thickness", RAIL)] = None
    """How thick this rail is, where it differs from the rest of the bed."""
    run: Annotated[tuple[Annotated[Length | None, RUN], ...], Field("run")] = ()
    """Length of the skirt along the rail, as you see it: post to post, unless it stops short. First at the rail, second
    near the floor."""
    drop: Annotated[tuple[Annotated[Length | None, DROP], ...], Field("drop")] = ()
    """From the rail's lower edge to the floor, in order from the section's left end to its right end."""
    drop_at: Annotated[
        tuple[Annotated[Length | None, ALONG], ...], Field("places of the drops"), AtMost(MOST_ITEMS)
    ] = ()
    """Where each drop was measured, from the section's left end; if left out, they are equally spaced."""
    hem_line: Annotated[HemLine | None, Field("level hem, or one that follows the floor")] = None
    """What the hem does on an uneven floor."""
    floor_gap: Annotated[Length | None, Field("gap under the hem", GAP)] = None
    """Gap under this hem, where it differs from the rest of the bed."""
    rug: Annotated[Length | None, Field("thickness of the rug under the hem", GAP)] = None
    """How thick a rug is that goes under this hem but was not there when the drops were measured."""
    raised: Annotated[Length | None, Field("drop line above the rail's lower edge", HEIGHT)] = None
    """How far the drop line is above the rail's lower edge, where it differs from the rest of the bed."""
    fixing_face: Annotated[FixingFace | None, Field("where the tape goes on the rail")] = None
    """Where the tape goes: a footboard without an inner face takes it at its lower back edge."""
    free_height: Annotated[Length | None, Field("free height below the ledger", HEIGHT)] = None
    """Free height of the rail's inner face below the ledger or slat cleat, from its lower edge up."""
    left_end: Annotated[EndKind | None, Field("what happens at {end}")] = None
    """What the cloth does at the left end."""
    left_return: Annotated[Length | None, Field("return at {end}", RETURN)] = None
    """Extra cloth at the left end: behind the post, or over the next section."""
    left_short: Annotated[Length | None, Field("gap to the post at {end}", SHORT)] = None
    """Gap along the rail from the end of the run to the bed's corner post at the left, where the section stops short
    of it. Not part of the run."""
    left_post: Annotated[Id | None, Field("post at {end}")] = None
    """Id of the post at the left end; if left out, the corner's."""
    left_daylight_top: Annotated[Length | None, Field("gap beside the leg at the top, at {end}", AT_POST)] = None
    """Gap between the left end and a turned leg, at the top."""
    left_daylight_floor: Annotated[Length | None, Field("gap beside the leg at the floor, at {end}", AT_POST)] = None
    """Gap between the left end and a turned leg, at the floor."""
    left_hook: Annotated[Length | None, Field("hook plate at {end}", AT_POST)] = None
    """How far a hook plate or bolt reaches along the rail from the left end."""
    right_end: Annotated[EndKind | None, Field("what happens at {end}")] = None
    """What the cloth does at the right end."""
    right_return: Annotated[Length | None, Field("return at {end}", RETURN)] = None
    """Extra cloth at the right end: behind the post, or over the next section."""
    right_short: Annotated[Length | None, Field("gap to the post at {end}", SHORT)] = None
    """Gap along the rail from the end of the run to the bed's corner post at the right, where the section stops short
    of it. Not part of the run."""
    right_post: Annotated[Id | None, Field("post at {end}")] = None
    """Id of the post at the right end; if left out, the corner's."""
    right_daylight_top: Annotated[Length | None, Field("gap beside the leg at the top, at {end}", AT_POST)] = None
    """Gap between the right end and a turned leg, at the top."""
    right_daylight_floor: Annotated[Length | None, Field("gap beside the leg at the floor, at {end}", AT_POST)] = None
    """Gap between the right end and a turned leg, at the floor."""
    right_hook: Annotated[Length | None, Field("hook plate at {end}", AT_POST)] = None
    """How far a hook plate or bolt reaches along the rail from the right end."""
    returns_flat: Annotated[bool | None, Field("returns left flat or gathered")] = None
    """true when the returns stay flat instead of gathered."""
    in_the_way: Annotated[Mapping[Id, Obstacle], AtMost(MOST_ITEMS)] = {}
    """Things in the way along the run, each under its own id."""


class Survey(Record, frozen=True):
    """The bed: `survey`."""

    rail: Annotated[RailMaterial | None, Field("what the rail is made of")] = None
    """What the rails are made of; decides the fixing."""
    rail_thickness: Annotated[Length | None, Field("rail thickness", RAIL)] = None
    """How thick the rails are."""
    slatted: Annotated[bool | None, Field("slats on a ledger inside the rail", usual=False)] = None
    """true when slats lie on a ledger or cleats along the inside of the rail."""
    floor: Annotated[Literal["carpet", "hard floor"] | None, Field("what the floor is")] = None
    """What the floor is."""
    floor_gap: Annotated[Length | None, Field("gap under the hem", GAP)] = None
    """Gap under the hem."""
    raised: Annotated[Length | None, Field("drop line above the rail's lower edge", HEIGHT, ZERO)] = None
    """How far the drop line, where the cloth begins, is above the rail's lower edge."""
    bed_size: Annotated[BedSize | None, Field("bed size")] = None
    """The size it is sold as; used for a first estimate of the cloth and to check the readings."""
    taken_off: Annotated[TakenOff | None, Field("how often the skirt comes off", usual="now and then")] = None
    """How often the skirt comes off for cleaning."""
    watch: Annotated[tuple[Watch, ...] | None, Field("what to watch for"), AtMost(MOST_ITEMS)] = None
    """What about the bed calls for a caution; an empty list says that nothing does."""
    section: Annotated[Mapping[Id, Section], Field("a section to make"), AtMost(MOST_ITEMS)] = {}
    """The sections, each under its own id: usually left, foot, right, head."""
    post: Annotated[Mapping[Id, Post], AtMost(MOST_ITEMS)] = {}
    """The posts, each under its own id."""


class Owned(Record, frozen=True):
    """A length of cloth you already have: `cloth.LAYER.owned.ID`."""

    length: Annotated[Length | None, Field("length", OWNED)] = None
    """How long it is along the roll."""
    width: Annotated[Length | None, Field("width", WIDTH)] = None
    """Its width, where it differs from the layer's."""
    damage_from: Annotated[Length | None, Field("where the damage begins", DAMAGE_FROM)] = None
    """Where a damaged stretch begins, from the end that is squared."""
    damage_to: Annotated[Length | None, Field("where the damage ends", DAMAGE_TO)] = None
    """Where it ends."""
    lot: Annotated[Name | None, Field("dye lot")] = None
    """Dye lot."""
    washed: Annotated[bool | None, Field("washed already or not")] = None
    """true when it has been washed already."""


class Cloth(Record, frozen=True):
    """One layer: `cloth.face`, `cloth.interlining`, `cloth.lining`."""

    use: Annotated[bool | None, Field("used or not", usual=True, inner=False)] = None
    """Inner layers only; the face is always there."""
    name: Annotated[Name | None, Field("name")] = None
    """What you call it: slate ticking."""
    kind: Annotated[ClothKind | None, Field("kind of cloth")] = None
    """What cloth it is: the needle depends on it."""
    weight: Annotated[Weight | None, Field("weight")] = None
    """How heavy it is: the usual fullness depends on it."""
    width: Annotated[Length | None, Field("width", WIDTH)] = None
    """From selvedge edge to selvedge edge."""
    trim: Annotated[Length | None, Field("selvedge trimmed off, each side", ALLOWANCE, HALF_INCH)] = None
    """How much of the selvedge you trim off, each side."""
    one_way: Annotated[bool | None, Field("one-way nap or pattern", usual=False)] = None
    """true for a nap or pattern that must stay the same way up."""
    sideways: Annotated[bool | None, Field("may lie sideways", usual=False)] = None
    """true when one-way cloth may still lie sideways."""
    repeat: Annotated[Length | None, Field("pattern repeat", REPEAT, ZERO)] = None
    """Pattern repeat along the roll; 0 in for none."""
    repeat_kind: Annotated[RepeatKind | None, Field("straight repeat or half-drop", usual="straight")] = None
    """How the pattern meets across a join."""
    match: Annotated[bool | None, Field("pattern matched or not", usual=True)] = None
    """false: not matched, the gathers hide it."""
    match_from: Annotated[MatchFrom | None, Field("pattern matched at the hem or at the top", usual="hem")] = None
    """Where the pattern is level."""
    lay: Annotated[Lay | None, Field("across the roll or along it", usual="across")] = None
    """Strips across the roll, or along it (railroaded)."""
    way: Annotated[CutWay | None, Field("way of cutting", usual="least cloth")] = None
    """Which cutting plan you use, where there are several."""
    warp_shrink: Annotated[Fraction | None, Field("shrinkage along the roll", SHRINKAGE, Fraction(0))] = None
    """Shrinkage along the roll."""
    weft_shrink: Annotated[Fraction | None, Field("shrinkage across the roll", SHRINKAGE, Fraction(0))] = None
    """Shrinkage across the roll."""
    wash: Annotated[Wash | None, Field("washed first or not", usual="not washed")] = None
    """Whether it is washed before cutting."""
    sold_by: Annotated[SoldBy | None, Field("unit it is sold by", usual=("yd", "m"))] = None
    """The unit its price is for."""
    step: Annotated[Length | None, Field("smallest step sold", SHOP_STEP, lengths("9/2 in", "10 cm"))] = None
    """The steps it is sold in: 1/8 yd."""
    price: Annotated[Decimal | None, Field("price", PRICE)] = None
    """For one sold_by unit."""
    hem: Annotated[Length | None, Field("depth of the hem", ALLOWANCE, HALF_INCH, lengths("3/2 in", "4 cm"))] = None
    """Depth of the hem as finished."""
    hem_kind: Annotated[Literal["double", "single"] | None, Field("double or single hem", usual="double")] = None
    """Turned twice by the same depth, or once with a turn-under."""
    hem_turn: Annotated[
        Length | None, Field("turn-under of the single hem", ALLOWANCE, lengths("1/4 in", "0.5 cm"))
    ] = None
    """Turn-under of a single hem."""
    setback: Annotated[Length | None, Field("setback at the hem", ALLOWANCE, inner=HALF_INCH)] = None
    """Inner layers: how far they end above the face's hem."""
    end_setback: Annotated[Length | None, Field("setback at the ends", ALLOWANCE, inner=HALF_INCH)] = None
    """Inner layers: how far they end short of the face at each end."""
    join: Annotated[Literal["seam", "lap"] | None, Field("seamed or lapped join", usual="seam")] = None
    """A seam, or a lap (interlining)."""
    lap: Annotated[Length | None, Field("lap of a join", LAP, lengths("1/2 in", "1 cm"))] = None
    """How much width a lapped join takes."""
    owned: Annotated[Mapping[Id, Owned], Field("a length you already have"), AtMost(MOST_ITEMS)] = {}
    """Lengths you already have, each under its own id."""


class Tape(Record, frozen=True):
    """The tape: `cloth.tape`."""

    width: Annotated[Length | None, Field("width", TAPE, lengths("2 in", "5 cm"))] = None
    """Its width before it is folded."""
    turn_under: Annotated[Length | None, Field("turn-under at each end", ALLOWANCE, lengths("1 in", "2.5 cm"))] = None
    """How much is turned under at each end."""
    sold_by: Annotated[SoldBy | None, Field("unit it is sold by", usual=("yd", "m"))] = None
    """The unit its price is for."""
    step: Annotated[Length | None, Field("smallest step sold", SHOP_STEP, lengths("36 in", "100 cm"))] = None
    """The steps it is sold in."""
    price: Annotated[Decimal | None, Field("price", PRICE)] = None
    """For one sold_by unit."""


class Thread(Record, frozen=True):
    """Sewing thread: `cloth.thread`."""

    ratio: Annotated[Fraction | None, Field("thread per length of seam", THREAD, Fraction(5, 2))] = None
    """Length of thread for one length of seam."""
    waste: Annotated[Fraction | None, Field("thread waste", WASTE, Fraction(3, 20))] = None
    """Thread added for ends and starts."""
    spool: Annotated[Length | None, Field("thread on a spool", SPOOL, lengths("100 yd", "100 m"))] = None
    """Thread on one spool."""
    price: Annotated[Decimal | None, Field("price of a spool", PRICE)] = None
    """For one spool."""


class Fixing(Record, frozen=True):
    """What holds the tape to the rail: `cloth.fixing`."""

    kind: Annotated[FixingKind | None, Field("what holds the skirt to the rail")] = None
    """What you use."""
    spacing: Annotated[Length | None, Field("largest spacing", SPACING)] = None
    """Largest distance from one to the next."""
    inset: Annotated[Length | None, Field("first fixing from the end", ALLOWANCE, HALF_INCH)] = None
    """From an end to the first fixing."""
    legs: Annotated[
        tuple[Annotated[Length | None, LEG], ...], Field("legs you can get", usual=LEGS), AtMost(MOST_ITEMS)
    ] = ()
    """Lengths of staple or tack legs you can get, shortest first."""
    pack: Annotated[int | None, Field("how many in a pack", Count("A pack holds one or more."))] = None
    """Fixings in a pack."""
    price: Annotated[Decimal | None, Field("price of a pack or a unit", PRICE)] = None
    """For one pack; of hook-and-loop, for one sold_by unit."""
    sold_by: Annotated[SoldBy | None, Field("unit it is sold by", usual=("yd", "m"))] = None
    """The unit the price of hook-and-loop is for."""
    step: Annotated[Length | None, Field("smallest step sold", SHOP_STEP, lengths("36 in", "100 cm"))] = None
    """The steps hook-and-loop is sold in."""


class Cloths(Record, frozen=True):
    """All that is bought: `cloth`."""

    face: Cloth = Cloth()
    """The outer layer."""
    interlining: Cloth = Cloth()
    """The soft layer behind it."""
    lining: Cloth = Cloth()
    """The inner layer."""
    tape: Tape = Tape()
    """The tape over the raw top edge."""
    thread: Thread = Thread()
    """Sewing thread."""
    fixing: Fixing = Fixing()
    """What holds it to the rail."""


class Allowances(Record, frozen=True):
    """What the cuts allow for: `allowances`."""

    join: Annotated[Length | None, Field("seam allowance of a join", ALLOWANCE, HALF_INCH)] = None
    """Seam allowance of a join, each side."""
    end_hem: Annotated[Length | None, Field("end hem", ALLOWANCE, lengths("1 in", "1.5 cm"))] = None
    """All the cloth the end hem takes, at each end."""
    top: Annotated[Length | None, Field("top allowance", ALLOWANCE, HALF_INCH)] = None
    """How far the raw edge is above the drop line."""
    squaring: Annotated[Length | None, Field("squaring allowance", ALLOWANCE, lengths("1 in", "2.5 cm"))] = None
    """Cut off to square the end of each length."""
    least_piece: Annotated[Length | None, Field("narrowest piece allowed", PIECE, lengths("6 in", "15 cm"))] = None
    """Cut width of the narrowest piece you allow."""
    floor_tolerance: Annotated[Length | None, Field("floor tolerance", TOLERANCE, lengths("1/4 in", "0.6 cm"))] = None
    """How far the drops of one section may differ before the floor counts as uneven."""
    run_tolerance: Annotated[Length | None, Field("run tolerance", TOLERANCE, lengths("1/4 in", "0.6 cm"))] = None
    """How far the two run readings may differ before a post counts as leaning."""


class Fullness(Record, frozen=True):
    """How full, and how the widths are joined: `fullness`."""

    aim: Annotated[Aim | None, Field("what sets the fullness", usual="a number")] = None
    """A number, or as full as your own cloth allows."""
    want: Annotated[Fraction | None, Field("fullness", FULLNESS)] = None
    """Flat finished width divided by gathered length, 1 or more."""
    joins: Annotated[Joins | None, Field("how the widths are joined", usual="part widths")] = None
    """How widths are shared between sections."""
    surplus: Annotated[Surplus | None, Field("spare width: trim it or keep it", usual="trim")] = None
    """Whole and half widths: what happens to spare width."""


class Unusable(Struct, frozen=True):
    """What the file says at a key and cannot be used."""

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


class Job(Record, frozen=True):
    """All that the arithmetic is told."""

    name: Annotated[Name | None, Field("name")] = None
    """What the project is called."""
    client: Annotated[Name | None, Field("client")] = None
    """Whom the skirt is for; printed on every sheet."""
    show: Annotated[Unit | None, Field("unit to measure in", usual=("in", "cm"))] = None
    """The unit lengths are shown in, and read in where none is typed."""
    ruler: Annotated[Length | None, Field("ruler mark", RULER, lengths("1/16 in", "0.1 cm"))] = None
    """The finest mark you measure to."""
    standard: Annotated[Standard | None, Field("usual values, inches or metric")] = None
    """Which usual values are used where you enter none."""
    currency: Annotated[Currency | None, Field("currency")] = None
    """Printed before sums of money."""
    survey: Survey = Survey()
    """The bed."""
    allowances: Allowances = Allowances()
    """What the cuts allow for."""
    cloth: Cloths = Cloths()
    """All that is bought."""
    fullness: Fullness = Fullness()
    """How full, and how the widths are joined."""
    kept: Mapping[FindingId, Note] = {}
    """Findings you looked at and kept, with the values you kept them for."""
    unusable: Annotated[Mapping[str, Unusable], NotInFile()] = {}
    """Key -> what is in the file there and cannot be used: the leaf is missing, and no usual value takes its place."""
    foreign: Annotated[Mapping[str, Foreign], NotInFile()] = {}
    """Key -> the length there, where it is in a unit that is not of the job's system."""


@lru_cache(maxsize=4096)
def usual_of(key: str, standard: Standard) -> Usual | None:
    """The value used for a dotted key when the maker says nothing; None where it must be asked."""
    path = tuple(key.split("."))
    holder = type_at(Job, path[:-1])
    declared = field_in(bare(holder), path[-1]) if is_table(bare(holder)) else None
    if declared is None:
        return None
    inner = path[:1] == ("cloth",) and path[1] in LAYERS[1:] and declared.inner is not None
    usual = declared.inner if inner else declared.usual
    return usual[standard == "metric"] if isinstance(usual, tuple) and len(usual) == 2 else usual


def key_of(field: object, at: str | None = None) -> str:
    """The dotted key of a field, as `Tape.width`; of one of several records, as `Cloth.hem`, that of the one `at`."""
    if not isinstance(field, MemberDescriptorType):
        raise TypeError(f"a field of a record's class, not {field!r}")
    home = _homes()[field.__objclass__] if at is None else at
    return f"{home}.{field.__name__}" if home else field.__name__


@cache
def _homes() -> dict[type, str]:
    """Where each record is that the job holds once."""
    outer = [(name, bare(each)) for name, each in fields_of(Job).items() if is_table(bare(each))]
    inner = [(f"{name}.{leaf}", bare(one)) for name, table in outer for leaf, one in fields_of(table).items()]
    every: list[tuple[str, type]] = [("", Job), *outer, *(each for each in inner if is_table(each[1]))]
    often = Counter(kind for _, kind in every)
    return {kind: home for home, kind in every if often[kind] == 1}
