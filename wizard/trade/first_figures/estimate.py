"""About how much face cloth a skirt takes, from a nominal bed size alone, and closer with every answer.

What is not known yet is presumed: the runs by the opposite side or the bed size, a drop as on the rest of the bed, and
for everything else the usual answer. Pieces are not laid out: it takes a whole number of widths, all of one length.
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any, Final

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.figures import Figure, Formula, Ledger, Rule
from wizard.trade.fullness import WANTED, offered
from wizard.trade.job_fields import Cloth, Fullness, Job, Section
from wizard.trade.layers import cut_width, prepare
from wizard.trade.lengths import ZERO, Length, ceiling, round_up, total
from wizard.trade.make_plan import survey_of
from wizard.trade.parts import flat_of
from wizard.trade.plan_records import Gathered
from wizard.trade.sections import ENDS, along_side, next_side, nominal_run, sections_on, side_of
from wizard.trade.stock import join_cost

Lengths = Mapping[str, Figure[Length]]

USUAL: Final[Mapping[str, tuple[str, str]]] = {
    "drop": ("12 in", "30 cm"),
    "hard floor": ("1/4 in", "0.5 cm"),
    "return": ("1 in", "2.5 cm"),
    "overlap": ("2 in", "5 cm"),
    "width": ("54 in", "137 cm"),
}
"""What is presumed, in inches and in metric."""
USUAL_SIDES: Final = ("left", "foot", "right")
"""The sections of a bed whose head is at a wall."""

WIDTHS: Final = Formula(
    "widths of cloth", "({wide} − {join}) ÷ ({usable} − {join}), up to a whole number",
    lambda wide, join, usable: max(1, ceiling((wide - join) / (usable - join))) if usable > join else None,
)  # fmt: skip
IN_REPEATS: Final = Formula(
    "cut length in repeats", "{cut}, up to a whole repeat of {repeat}", lambda cut, repeat: round_up(cut, repeat),
)  # fmt: skip
SHARE: Final = Formula(
    "share of the length of a width", "{cut} × {wide} ÷ {together}",
    lambda cut, wide, together: cut * (wide / together) if together else None,
)  # fmt: skip
ESTIMATE: Final = Formula(
    "face cloth, estimated", "about {squaring} + {widths} × {long} ÷ {keeps}, up to {step}",
    lambda squaring, widths, long, keeps, step: round_up(squaring + long * widths / keeps, step),
)  # fmt: skip
STEP: Final = Rule("step of an estimate", "{value}")


class Early(Struct, frozen=True):
    """The face as far as it can be worked before everything is known."""

    ledger: Ledger
    parts: tuple[Gathered, ...]
    cut_lengths: Lengths
    """Part id -> cut length."""
    cut_widths: Lengths
    widths: Mapping[str, Figure[int]]
    """Part id -> widths of cloth."""
    in_all: Figure[int]
    """Widths of cloth of all parts together."""
    estimate: Figure[Length]


def estimate(job: Job) -> Figure[Length] | None:
    """About how much face cloth the skirt takes, what is in hand included; None while not even a size is known."""
    figure = early_figures(job).estimate
    return None if figure.value is None else figure


def early_figures(job: Job, fullness: Figure[Fraction] | None = None) -> Early:
    """The face worked with a usual value for all that is not known yet. `fullness`: the plan's, once it knows one."""
    job = _with_sections(job)
    ledger = Ledger(job, presumed=dict(_presumed(job)))
    surveyed = survey_of(ledger)
    face = prepare(ledger, "face", surveyed.drops)
    if fullness is None or fullness.value is None:
        fullness = ledger.work("fullness", "fullness", WANTED, lambda want: want, want=ledger.read(Fullness.want))
    flats = {part.id: flat_of(ledger, part, fullness) for part in surveyed.parts}
    wide = {part: cut_width(ledger, "face", part, flat) for part, flat in flats.items()}
    taken = {"usable": face.stock.usable, "join": join_cost(ledger, "face")}
    widths = {part: ledger.apply(WIDTHS, f"early.widths.{part}", wide=each, **taken) for part, each in wide.items()}
    together = ledger.total("early.wide", "cut widths together", "The cut widths of all sections.", wide)
    in_all = ledger.apply(WIDTHS, "early.widths", wide=together, **taken)
    about = ledger.apply(
        ESTIMATE, "early.estimate", squaring=face.stock.squaring, widths=in_all,
        long=_long(ledger, face.cuts, wide, together), keeps=face.stock.keeps, step=_step(ledger),
    )  # fmt: skip
    return Early(ledger, surveyed.parts, face.cuts, wide, widths, in_all, about)


def _long(ledger: Ledger, cuts: Lengths, wide: Lengths, together: Figure[Length]) -> Figure[Length]:
    """The length of a width: as the sections', each by its share, and in whole repeats where the pattern is matched."""
    repeat, match = ledger.read(Cloth.repeat, "cloth.face"), ledger.read(Cloth.match, "cloth.face")
    if repeat.value and match.value:
        cuts = {id: ledger.apply(IN_REPEATS, f"early.matched.{id}", cut=cut, repeat=repeat) for id, cut in cuts.items()}
    shares = {
        id: ledger.apply(SHARE, f"early.share.{id}", cut=cut, wide=wide[id], together=together)
        for id, cut in cuts.items()
    }
    return ledger.total("early.long", "length of a width", "Each section counts by its share of the width.", shares)


def _step(ledger: Ledger) -> Figure[Length]:
    half = Length.of(1, str(ledger.read(Cloth.sold_by, "cloth.face").value)) / 2
    return ledger.keep(Figure("early.step", STEP.id, half, (), STEP))


def _with_sections(job: Job) -> Job:
    """The job with the usual sections where it has none, and without a fullness that it does not go by."""
    survey, fullness = job.survey, job.fullness
    if not survey.section:
        survey = replace(survey, section={side: Section() for side in USUAL_SIDES})
    if fullness.aim == "all the cloth I own":
        fullness = replace(fullness, want=None)
    return replace(job, survey=survey, fullness=fullness)


def _usual(job: Job, what: str) -> Length:
    amount, unit = USUAL[what][job.standard == "metric"].split()
    return Length.of(Fraction(amount), unit)


def _presumed(job: Job) -> Iterator[tuple[str, Any]]:
    """File key -> what is taken there while it is missing."""
    hard = job.survey.floor == "hard floor"
    yield "survey.floor_gap", _usual(job, "hard floor") if hard else ZERO
    yield "cloth.face.width", _usual(job, "width")
    yield "fullness.want", offered(job)
    drops = [drop for _, section in sections_on(job) for drop in section.drop if drop is not None]
    for section_id, section in sections_on(job):
        key = f"survey.section.{section_id}"
        yield f"{key}.hem_line", "level"
        for end in ENDS:
            yield f"{key}.{end}_end", "stops"
            yield f"{key}.{end}_return", _usual(job, "return")
            yield f"{key}.{end}_short", ZERO
        for thing in section.in_the_way:
            yield f"{key}.in_the_way.{thing}.overlap", _usual(job, "overlap")
        own = [drop for drop in section.drop if drop is not None] or drops or [_usual(job, "drop")]
        yield from ((f"{key}.drop.{number}", min(own)) for number in range(1, max(len(section.drop), 3) + 1))
        run = _run(job, section_id, section)
        if run is not None:
            yield f"{key}.run.1", run


def _run(job: Job, section_id: str, section: Section) -> Length | None:
    """A run that is not read yet: an equal share of what is left of its side."""
    side = side_of(section_id, section)
    if side is None:
        return None
    opposite = next_side(next_side(side, "right"), "right")
    across = [_read(each) for _, each in along_side(job.survey, opposite)]
    known = [each for each in across if each is not None]
    if known and len(known) == len(across):
        whole = total(known)
    elif job.survey.bed_size is not None:
        whole = nominal_run(job.survey.bed_size, side)
    else:
        return None
    here = [_read(each) for _, each in along_side(job.survey, side)]
    left = whole - total(each for each in here if each is not None)
    return left / here.count(None) if left > ZERO and None in here else None


def _read(section: Section) -> Length | None:
    return section.run[0] if section.run else None
