"""The plan's shape: everything that follows from a job. Screens and sheets show it and compute nothing."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from functools import cached_property
from typing import Any, Literal

from msgspec import Struct

from wizard.trade.cutting import Cutting, Layout, Refusal, Rules, Stretch, Strip
from wizard.trade.figures import Figure, Need
from wizard.trade.fullness_steps import FullnessBasis
from wizard.trade.job_fields import Job, LayerId, Side
from wizard.trade.lengths import ZERO, Length
from wizard.trade.stock import Bought

Level = Literal["stop", "warn", "ask", "note"]
"""`stop`: a figure cannot be worked until it is corrected. `warn`: will likely go wrong. `ask`: measure again, or keep.
`note`: worth knowing."""


class Remedy(Struct, frozen=True):
    """A way out that can be taken as it is."""

    label: str
    """What taking it does: `Turn the three drops round`."""
    entries: Mapping[str, str]
    """File key -> the text that is put there."""


class Finding(Struct, frozen=True):
    """Something that looks wrong, or that needs a choice."""

    id: str
    """Fixed id, never from a display name: `run-differs:left:right`."""
    level: Level
    key: str
    """The file key whose answer would correct it."""
    sentence: str
    """What was found, with its figures."""
    way_out: str
    """What to do."""
    values: str
    """The values it rests on, as text; a kept finding is asked again when they change."""
    other: str = ""
    """The file key of the other answer it rests on, where it holds one against another: either may be the slip."""
    kept: bool = False
    """True when it was looked at and kept for these very values."""
    offers: tuple[Remedy, ...] = ()
    """Ways out to take at once, the likeliest first."""


Stage = Literal["Survey", "Cloth", "Fullness", "Cutting", "Making up", "Hanging"]
STAGES: tuple[Stage, ...] = ("Survey", "Cloth", "Fullness", "Cutting", "Making up", "Hanging")


class Reading(Struct, frozen=True):
    """One drop with what follows from it. `at` is from the part's left end, seen from the room."""

    at: Length
    reading: Length
    """As it was read; at the end of a part, between two readings, on a straight line between them."""
    finished: Length
    """Finished drop of the face there."""
    gap: Length
    """Gap under the hem there."""
    between: bool = False
    """True where nothing was read."""


class Mark(Struct, frozen=True):
    """Where tape and skirt meet; numbered from the section's left end, the end itself is mark 0."""

    number: int
    tape: Length
    """From the left end of the finished tape (turn-unders not counted), exact."""
    flat: Length
    """From the left finished end of the flat skirt, exact."""
    drop: Length | None
    """Finished drop of the face at the mark when the hem follows the floor; else None."""


class FixingAt(Struct, frozen=True):
    """One fixing. `order` 1 is set first."""

    order: int
    at: Length
    """From the head (sides) or from the bed's left (foot, head), as met from inside the bed; along the run."""


class FixingPlan(Struct, frozen=True):
    """Where the fixings go: for a row of them, every position; for hook-and-loop and glue, the length."""

    measured_from: Literal["the head", "the bed's left"]
    spacing: Length | None
    """True spacing, never above the asked one; None when it runs the whole length."""
    positions: tuple[FixingAt, ...]
    """In order of position."""
    skipped: tuple[Length, ...]
    """Positions left out because something is in the way."""
    leg: Length | None
    """Chosen staple or tack leg."""
    gaps: tuple[tuple[Length, Length], ...]
    """Stretches of the tape, (from, to), where what runs the whole length is left out."""
    covers: tuple[Length, Length]
    """Where the part is along its section's whole run, (from, to), from where it is measured."""


PartEnds = tuple[Figure[Length], Figure[Length]]
"""Where a part of a split section starts and ends, from the section's left end."""


class Span(Struct, frozen=True):
    """What is sewn and hung as one: a section, or one part of a section split at something in the way."""

    id: str
    """`left`, or `left/1`."""
    section: str
    name: str
    """As the maker named it, else the side in words (`left section`)."""
    side: Side | None
    run: Figure[Length]
    ends: PartEnds | None
    """None for a whole section."""
    left_extra: Figure[Length]
    """Extra cloth at the left end: behind the post, or over the next section."""
    right_extra: Figure[Length]
    left_is: str
    """The left end in words: `head end`, `foot end`, `bed's left`, `bed's right`."""
    right_is: str

    @property
    def start(self) -> Length | None:
        """Where it starts along the section's run, from its left end; None until that is known."""
        return ZERO if self.ends is None else self.ends[0].value


class Gathered(Span, frozen=True):
    """A span with its gathered length and what of it stays flat."""

    gathered: Figure[Length]
    """`G`: run + returns + overlaps."""
    left_flat: Figure[Length]
    """Of the gathered length, what is left flat at the left end; ZERO when it gathers too."""
    right_flat: Figure[Length]
    tape: Figure[Length]
    """Tape cut."""

    @property
    def returns_flat(self) -> bool:
        """True when a return stays flat."""
        return bool(self.left_flat.value or self.right_flat.value)


class Part(Gathered, frozen=True):
    """A part as it is cut, sewn and hung."""

    drop: Figure[Length]
    """Greatest finished drop `D` of the face; the only one when the hem is level."""
    follows_floor: bool
    readings: tuple[Reading, ...]
    flat: Figure[Length]
    """`W` asked for: fullness x gathered."""
    fullness: Figure[Fraction]
    """As made, end to end: more than asked for when cuts were rounded up or a surplus is kept."""
    flat_made: Figure[Length]
    """`W` as made."""
    marks: tuple[Mark, ...]
    """Empty until everything they need is known."""
    marks_in: int | None
    """Number of equal parts `n`."""
    fixings: FixingPlan | None


class Layer(Bought, frozen=True):
    """One layer of the whole skirt."""

    id: LayerId
    name: str
    """As the maker named it, else the layer in words."""
    strips: tuple[Strip, ...]
    """One for each part whose measures are known; strip id is the part's id."""
    stock: tuple[Stretch, ...]
    rules: Rules | None
    cutting: Cutting | None
    """None until all is known, or when it cannot be laid out. Its best is the layout that is followed."""
    found: Cutting | None
    """The same as it was found, before another way was chosen: its best is the least cloth."""
    refused: Refusal | None
    needs: tuple[Need, ...]
    """What is missing before it can be laid out."""
    cut_lengths: Mapping[str, Figure[Length]]
    """Part id -> face or inner cut length `C`, on the ruler mark."""
    cut_widths: Mapping[str, Figure[Length]]
    """Part id -> flat cut width `A`, on the ruler mark, before joins."""
    flats: Mapping[str, Figure[Length]]
    """Part id -> flat finished width as made."""
    usable: Figure[Length]

    @property
    def least(self) -> Layout | None:
        """The least cloth, whichever layout is followed."""
        return self.found.best if self.found else None


class Caution(Struct, frozen=True):
    """A caution in the usual words. It informs; it never claims compliance."""

    id: str
    sentence: str


class Step(Struct, frozen=True):
    """One step of the work. `id` is fixed, never from a display name: `hem:face:left`."""

    id: str
    stage: Stage
    title: str
    section: str | None
    """Part id, for a step that is done section by section."""
    lines: tuple[str, ...]
    """What to do, with this job's figures, a sentence each."""
    figures: tuple[str, ...]
    """Ids of the figures the lines rest on."""
    tools: tuple[str, ...]
    settings: tuple[str, ...]
    """Needle, stitch length and the like."""
    minutes: int
    cautions: tuple[Caution, ...]
    """Shown before the lines."""
    taken: int | None = None
    """Minutes it took. This, `done`, `note` and `changed` come from the project file, for the sheets."""
    done: bool = False
    """True once it is ticked."""
    note: str | None = None
    """The maker's own note about it."""
    listed: tuple[str, ...] = ()
    """What is done piece by piece or mark by mark, a line each; a sheet has a table of it."""
    written: tuple[str, ...] = ()
    """Sizes that are written down at this step, on labels, and that no line tells."""
    changed: tuple[str, ...] = ()
    """What differs now from what it said when it was ticked, a sentence each."""


class ChangedStep(Struct, frozen=True):
    """A finished step that said something else when it was ticked."""

    id: str
    title: str
    stage: Stage | None
    """None for a step that the plan no longer has."""
    sentences: tuple[str, ...]


class Purchase(Struct, frozen=True):
    """One line of the buying list."""

    id: str
    """`cloth:face`, `tape`, `thread`, `fixing`, `needles`."""
    what: str
    amount: str
    cost: Decimal | None
    figures: tuple[str, ...]
    needs: Length | int | None = None
    """What the job takes, exactly; None where nobody counts it."""
    step: Length | int | None = None
    """What it is sold in: a shop's step, what is in a pack, what is on a spool."""
    unit: str = ""
    """What one of it is called, and what its price is for: `yd`, `spool of 100 yd`, `box of 1,000`."""
    price: Decimal | None = None
    """For one unit."""


class Plan(Struct, frozen=True, dict=True):
    """Everything that follows from a job."""

    job: Job
    figures: Mapping[str, Figure[Any]]
    """By id. What was given is kept under its file key. Worked for a section: `section.ID.run`, `.least`, `.greatest`,
    `.spread`, `.at.N`, `.left_step`; for a part: `part.ID.run`, `.gathered`, `.tape`, `.drop`, `.flat`, `.flat_made`,
    `.fullness`; for a layer: `layer.ID.usable`, `.keeps`, `.hem`, `.join`, `.least_piece`, `.cut.PART`, `.width.PART`,
    `.on.STRETCH`, `.used`, `.roll`, `.buy`, `.cost`; and `fullness`, `cost.total`."""
    parts: tuple[Part, ...]
    """In the order left, foot, right, head, then as entered."""
    layers: tuple[Layer, ...]
    """Face, then the inner layers in use."""
    basis: FullnessBasis
    """What other fullnesses would take."""
    findings: tuple[Finding, ...]
    """Open first by level (stop, warn, ask, note), then kept ones."""
    cautions: tuple[Caution, ...]
    """All that the job calls for, each once."""
    work: tuple[Step, ...]
    """In the order of doing; empty parts of it until their figures are known."""
    purchases: tuple[Purchase, ...]
    holes: tuple[Need, ...]
    """Every answer that a figure waits for."""
    later: tuple[Need, ...] = ()
    """What is found out later, filled in from the project."""
    changed: tuple[ChangedStep, ...] = ()
    """Finished steps that said something else when they were ticked, filled in for the sheets."""

    def value(self, id: str) -> Any:
        """The value of a figure; None where it has none, or is not worked."""
        figure = self.figures.get(id)
        return None if figure is None else figure.value

    @cached_property
    def fullness_in_hand(self) -> Fraction | None:
        """The greatest equal fullness that owned cloth gives by itself; None where there is none, or not enough."""
        return self.basis.in_hand()

    @cached_property
    def missing(self) -> tuple[Need, ...]:
        """What has still to be answered before the plan is complete; empty for a complete one."""
        return tuple(each for each in self.holes if each not in self.later)

    @cached_property
    def waits_for(self) -> frozenset[str]:
        """Keys of what is missing."""
        return frozenset(each.key for each in self.missing)

    @property
    def complete(self) -> bool:
        """True when nothing is missing and nothing stops a figure."""
        return not self.missing and not any(each.level == "stop" for each in self.findings)


class Offer(Struct, frozen=True):
    """One row of a table to choose from: what it takes, and what is answered by taking it."""

    name: str
    """In a few words, to be said of it elsewhere: `2.05`, `across, whole widths`."""
    cells: tuple[str, ...]
    """One for each heading; empty where nothing is known."""
    entries: dict[str, str]
    """Key of the file -> value."""
    note: str = ""
    """A few words at the end of its row."""
    said: str = ""
    """What is different about it, in a sentence or two."""
    in_use: bool = False
    recommended: bool = False


class Offers(Struct, frozen=True):
    """A table to choose from, as far as it is worked out."""

    heads: tuple[str, ...]
    rows: tuple[Offer, ...]
    reason: str = ""
    """Why one is recommended; empty until all are known."""
    usual: Offer | None = None
    """What is taken by who takes what is filled in: the one in use, else the recommended one."""
    free: Offer | None = None
    """A row for what may be typed instead: its entry without a value is what is typed."""
    whole: bool = False
    """True when no more rows will come."""
    waits: str = ""
    """What the table waits for, in a sentence, while it cannot be worked out."""
