"""The bed as surveyed. Every leaf may be missing (None); the field paths are the keys of the project file.

Left and right of the bed are as seen standing at the foot, facing the head. A section's *left end* is the one on the
left hand of somebody in the room, facing the face side: the head end of the left section, the foot end of the right
one, the bed's left in the foot section, the bed's right in the head section.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from msgspec import Struct, field

from wizard.trade.lengths import Length

Side = Literal["left", "right", "foot", "head"]
EndKind = Literal["stops", "stops short", "returns", "overlaps"]
"""`stops` at the post; `returns` behind it; `overlaps` the next section in front of nothing (no post between)."""
HemLine = Literal["level", "follow the floor"]
RailMaterial = Literal["solid wood", "veneered board", "metal", "upholstered", "heirloom"]
FixingFace = Literal["inner face", "lower back edge"]
Floor = Literal["carpet", "hard floor"]
TakenOff = Literal["stays on", "now and then", "often"]
"""How the skirt is to come off for cleaning."""
Watch = Literal["antique", "old paint", "adjustable", "heated", "public room", "cot", "candles or fire near"]
"""What there is about the bed that calls for a caution."""
ObstacleKind = Literal["centre leg", "bracket", "bed-bolt cover", "drawer", "heater", "vent", "socket", "other"]
ObstacleChoice = Literal["no fixing", "split here", "keep clear"]
BedSize = Literal[
    "US twin", "US long twin", "US full", "US queen", "US king", "US California king",
    "UK 75", "UK 90", "UK 120", "UK 135", "UK 150", "UK 180",
    "EU 80", "EU 90", "EU 100", "EU 140", "EU 160", "EU 170", "EU 180", "EU 200",
]  # fmt: skip


class Obstacle(Struct, frozen=True):
    """Something in the way along a run. Key: `survey.section.ID.in_the_way.ID`."""

    name: str | None = None
    kind: ObstacleKind | None = None
    at: Length | None = None
    """Middle of it along the run: from the head on a side, from the bed's left on the foot or head."""
    width: Length | None = None
    height: Length | None = None
    """How far its top lies above the floor."""
    do: ObstacleChoice | None = None
    overlap: Length | None = None
    """When split here: how far the two parts lie over each other."""


class Post(Struct, frozen=True):
    """A post at a corner. Key: `survey.post.ID`; usual ids head-left, foot-left, foot-right, head-right."""

    along_side: Length | None = None
    """Its size along the side rail; this is its size *across* the foot or head run."""
    along_end: Length | None = None
    """Its size along the foot or head rail; this is its size *across* the side run."""
    side_set_in: Length | None = None
    """From the post's outer face in to the side rail's outer face."""
    end_set_in: Length | None = None
    """From the post's outer face in to the foot or head rail's outer face."""
    may_fix: bool | None = None
    """True when one may fix into it."""
    turned: bool | None = None
    """True for a turned or tapered leg, which opens below."""


class Section(Struct, frozen=True):
    """One side of the bed between posts. Key: `survey.section.ID`."""

    on: bool | None = None
    name: str | None = None
    side: Side | None = None
    rail: RailMaterial | None = None
    """Overrides the whole bed's."""
    rail_thickness: Length | None = None
    """Overrides the whole bed's."""
    run: tuple[Length | None, ...] = ()
    """How far the skirt goes along the rail, which is what is seen: post to post, unless it stops short. First at the
    rail, second near the floor."""
    drop: tuple[Length | None, ...] = ()
    """From the rail's lower edge to the floor, in order from the section's left end to its right end."""
    drop_at: tuple[Length | None, ...] = ()
    """Where each was read, from the section's left end; unstated ones lie equally spaced from end to end."""
    hem_line: HemLine | None = None
    floor_gap: Length | None = None
    """Overrides the whole bed's."""
    raised: Length | None = None
    """How far the drop line lies above the rail's lower edge; overrides the whole bed's."""
    fixing_face: FixingFace | None = None
    free_height: Length | None = None
    """On a slatted bed: free height of the rail's inner face below the ledger or slat cleat, from its lower edge up."""
    left_end: EndKind | None = None
    left_return: Length | None = None
    """Extra cloth at the left end: behind the post, or over the next section."""
    left_short: Length | None = None
    """From the end of the run to the bed's corner post, past whatever stands between, where the section stops short
    of it. No part of the run."""
    left_post: str | None = None
    """Id of the post there; by default the corner's."""
    left_daylight_top: Length | None = None
    """Daylight between section end and a turned leg, at the top."""
    left_daylight_floor: Length | None = None
    left_hook: Length | None = None
    """How far a hook plate or bolt reaches along the rail from the left end."""
    right_end: EndKind | None = None
    right_return: Length | None = None
    right_short: Length | None = None
    right_post: str | None = None
    right_daylight_top: Length | None = None
    right_daylight_floor: Length | None = None
    right_hook: Length | None = None
    returns_flat: bool | None = None
    """True when returns are left flat instead of gathered."""
    in_the_way: Mapping[str, Obstacle] = field(default_factory=dict)


class Survey(Struct, frozen=True):
    """The bed. Key: `survey`."""

    rail: RailMaterial | None = None
    rail_thickness: Length | None = None
    slatted: bool | None = None
    """True when slats lie on a ledger or cleats along the inside of the rail."""
    floor: Floor | None = None
    floor_gap: Length | None = None
    raised: Length | None = None
    bed_size: BedSize | None = None
    """Nominal; prompts a second reading, nothing more."""
    taken_off: TakenOff | None = None
    watch: tuple[Watch, ...] | None = None
    section: Mapping[str, Section] = field(default_factory=dict)
    post: Mapping[str, Post] = field(default_factory=dict)
