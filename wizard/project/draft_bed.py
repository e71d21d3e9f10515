"""The bed in the project file: the tables under `survey`, each field the one of the same name in the job."""

from collections.abc import Callable, Mapping
from typing import Annotated, Any, ClassVar

from wizard.project.notes import AtMost
from wizard.project.tables import MOST_ITEMS, Drops, Flag, Id, Name, Places, Runs, Table
from wizard.project.typed.fields import (
    AlongField,
    AtPostField,
    GapField,
    HeightField,
    OverlapField,
    PostField,
    RailField,
    ReturnField,
    ShortField,
    ThingField,
    ThingHeightField,
)
from wizard.trade import bed


class ObstacleTable(Table, frozen=True):
    """Something in the way along a run: `survey.section.ID.in_the_way.ID`."""

    builds: ClassVar[Callable[..., Any] | None] = bed.Obstacle

    name: Name | None = None
    """What the maker calls it."""
    kind: bed.ObstacleKind | None = None
    """What it is; a heater, a vent or a socket raises its caution."""
    at: AlongField | None = None
    """Middle of it along the run: from the head on a side, from the bed's left on the foot or head."""
    width: ThingField | None = None
    """Its size along the run."""
    height: ThingHeightField | None = None
    """How far its top lies above the floor."""
    do: bed.ObstacleChoice | None = None
    """What is done about it."""
    overlap: OverlapField | None = None
    """When the section is split here: how far the two parts lie over each other."""


class PostTable(Table, frozen=True):
    """A post at a corner: `survey.post.ID`; usual ids head-left, foot-left, foot-right, head-right."""

    builds: ClassVar[Callable[..., Any] | None] = bed.Post

    along_side: PostField | None = None
    """Its size along the side rail."""
    along_end: PostField | None = None
    """Its size along the foot or head rail."""
    side_set_in: AtPostField | None = None
    """From the post's outer face in to the side rail's outer face."""
    end_set_in: AtPostField | None = None
    """From the post's outer face in to the foot or head rail's outer face."""
    may_fix: Flag | None = None
    """true when one may fix into it."""
    turned: Flag | None = None
    """true for a turned or tapered leg, which opens below."""


class SectionTable(Table, frozen=True):
    """One side of the bed between posts: `survey.section.ID`. Its left end is the one on the left hand of somebody in
    the room: the head end of the left section, the foot end of the right one, the bed's left in the foot section, the
    bed's right in the head section."""

    builds: ClassVar[Callable[..., Any] | None] = bed.Section

    on: Flag | None = None
    """false leaves it out of the skirt and keeps its measures."""
    name: Name | None = None
    """What the maker calls it: window side."""
    side: bed.Side | None = None
    """Which side of the bed it hangs on."""
    rail: bed.RailMaterial | None = None
    """What this rail is made of, when not as the whole bed."""
    rail_thickness: RailField | None = None
    """How thick this rail is, when not as the whole bed."""
    run: Runs = ()
    """How far the skirt goes along the rail, which is what is seen: post to post, unless it stops short. First at the
    rail, second near the floor."""
    drop: Drops = ()
    """From the rail's lower edge to the floor, in order from the section's left end to its right end."""
    drop_at: Places = ()
    """Where each drop was read, from the section's left end; left out, they lie equally spaced from end to end."""
    hem_line: bed.HemLine | None = None
    """What the hem does on an uneven floor."""
    floor_gap: GapField | None = None
    """Daylight wanted under this hem, when not as the whole bed."""
    raised: HeightField | None = None
    """How far the drop line lies above the rail's lower edge, when not as the whole bed."""
    fixing_face: bed.FixingFace | None = None
    """Where the tape goes: a footboard without an inner face takes it at its lower back edge."""
    free_height: HeightField | None = None
    """Free height of the rail's inner face below the ledger or slat cleat, from its lower edge up."""
    left_end: bed.EndKind | None = None
    """What the cloth does at the left end."""
    left_return: ReturnField | None = None
    """Extra cloth at the left end: behind the post, or over the next section."""
    left_short: ShortField | None = None
    """From the end of the run to the bed's corner post at the left, past whatever stands between, where the section
    stops short of it. No part of the run."""
    left_post: Id | None = None
    """Id of the post at the left end; left out, the corner's."""
    left_daylight_top: AtPostField | None = None
    """Daylight between the left end and a turned leg, at the top."""
    left_daylight_floor: AtPostField | None = None
    """Daylight between the left end and a turned leg, at the floor."""
    left_hook: AtPostField | None = None
    """How far a hook plate or bolt reaches along the rail from the left end."""
    right_end: bed.EndKind | None = None
    """What the cloth does at the right end."""
    right_return: ReturnField | None = None
    """Extra cloth at the right end: behind the post, or over the next section."""
    right_short: ShortField | None = None
    """From the end of the run to the bed's corner post at the right, past whatever stands between, where the section
    stops short of it. No part of the run."""
    right_post: Id | None = None
    """Id of the post at the right end; left out, the corner's."""
    right_daylight_top: AtPostField | None = None
    """Daylight between the right end and a turned leg, at the top."""
    right_daylight_floor: AtPostField | None = None
    """Daylight between the right end and a turned leg, at the floor."""
    right_hook: AtPostField | None = None
    """How far a hook plate or bolt reaches along the rail from the right end."""
    returns_flat: Flag | None = None
    """true when the returns are left flat instead of gathered."""
    in_the_way: Annotated[Mapping[Id, ObstacleTable], AtMost(MOST_ITEMS)] = {}
    """Things in the way along the run, each under an id of its own."""


class SurveyTable(Table, frozen=True):
    """The bed: `survey`."""

    builds: ClassVar[Callable[..., Any] | None] = bed.Survey

    rail: bed.RailMaterial | None = None
    """What the rails are made of; decides the fixing."""
    rail_thickness: RailField | None = None
    """How thick the rails are."""
    slatted: Flag | None = None
    """true when slats lie on a ledger or cleats along the inside of the rail."""
    floor: bed.Floor | None = None
    """What the hem hangs over."""
    floor_gap: GapField | None = None
    """Daylight wanted under the hem."""
    raised: HeightField | None = None
    """How far the drop line lies above the rail's lower edge."""
    bed_size: bed.BedSize | None = None
    """Nominal; prompts a second reading, nothing more."""
    taken_off: bed.TakenOff | None = None
    """How often the skirt comes off for cleaning."""
    watch: Annotated[tuple[bed.Watch, ...], AtMost(MOST_ITEMS)] | None = None
    """What there is about the bed that calls for a caution; an empty list says there is nothing."""
    section: Annotated[Mapping[Id, SectionTable], AtMost(MOST_ITEMS)] = {}
    """The sections, each under an id of its own: usually left, foot, right, head."""
    post: Annotated[Mapping[Id, PostTable], AtMost(MOST_ITEMS)] = {}
    """The posts, each under an id of its own."""
