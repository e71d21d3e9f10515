"""The first figures of a job that is still being answered, and the one line that says them.

From the third drop of a section on its cut length is known, with usual allowances where none were chosen; its width and
the number of widths follow with a usual fullness and cloth; and from a bed size alone about how much face cloth it
takes. The plan itself presumes nothing: once it knows a figure, that one is shown.

For the estimate, what is not known yet is presumed: the runs by the opposite side or the bed size, a drop as on the
rest of the bed, and for everything else the usual answer. Pieces are not laid out: it takes a whole number of widths,
all of one length. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Any, Final

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.fields import lengths
from wizard.trade.figures import DEFAULT, PRESUMED, Figure, Formula, Ledger, Rule, value_at
from wizard.trade.formatting import exact, number, ruler_of, shown
from wizard.trade.fullness import WANTED, offered
from wizard.trade.job_fields import Cloth, Fullness, Job, Section, usual_of
from wizard.trade.layers import cut_width, prepare
from wizard.trade.lengths import ZERO, Length, ceiling, round_up, total
from wizard.trade.make_plan import survey_of
from wizard.trade.parts import flat_of
from wizard.trade.plan_records import Layer, Plan
from wizard.trade.sections import ENDS, along_side, next_side, nominal_run, sections_on, side_of
from wizard.trade.stock import join_cost

Lengths = Mapping[str, Figure[Length]]

USUAL: Final[Mapping[str, tuple[Length, Length]]] = {
    "drop": lengths("12 in", "30 cm"),
    "hard floor": lengths("1/4 in", "0.5 cm"),
    "return": lengths("1 in", "2.5 cm"),
    "overlap": lengths("2 in", "5 cm"),
    "width": lengths("54 in", "137 cm"),
}
"""What is presumed, in inches and in metric."""
USUAL_SIDES: Final = ("left", "foot", "right")
"""The sections of a bed whose head is at a wall."""

WIDTHS: Final = Formula(
    "widths of cloth", "({wide} − {join}) ÷ ({usable} − {join}), up to a whole number",
    lambda wide, join, usable: max(1, ceiling((wide - join) / (usable - join))) if usable > join else None,
)  # fmt: skip
IN_REPEATS: Final = Formula(
    "cut length in repeats", "{cut}, up to a whole repeat of {repeat}", lambda cut, repeat: round_up(cut, repeat)
)
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
    cut_lengths: Lengths
    """Part id -> cut length."""
    cut_widths: Lengths
    widths: Mapping[str, Figure[int]]
    """Part id -> widths of cloth."""
    in_all: Figure[int]
    """Widths of cloth of all parts together."""
    estimate: Figure[Length]


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
    long, half = (
        _long(ledger, face.cuts, wide, together),
        Length.of(1, str(ledger.read(Cloth.sold_by, "cloth.face").value)) / 2,
    )
    step = ledger.keep(Figure("early.step", STEP.id, half, (), STEP))
    stock = face.stock
    about = ledger.apply(
        ESTIMATE, "early.estimate", squaring=stock.squaring, widths=in_all, long=long, keeps=stock.keeps, step=step
    )
    return Early(ledger, face.cuts, wide, widths, in_all, about)


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


def _with_sections(job: Job) -> Job:
    """The job with the usual sections where it has none, and without a fullness that it does not go by."""
    survey, fullness = job.survey, job.fullness
    if not survey.section:
        survey = replace(survey, section={side: Section() for side in USUAL_SIDES})
    if fullness.aim == "all the cloth I own":
        fullness = replace(fullness, want=None)
    return replace(job, survey=survey, fullness=fullness)


def _presumed(job: Job) -> Iterator[tuple[str, Any]]:
    """File key -> what is taken there while it is missing."""
    usual = {what: pair[job.standard == "metric"] for what, pair in USUAL.items()}
    yield "survey.floor_gap", usual["hard floor"] if job.survey.floor == "hard floor" else ZERO
    yield "cloth.face.width", usual["width"]
    yield "fullness.want", offered(job)
    drops = [drop for _, section in sections_on(job) for drop in section.drop if drop is not None]
    for section_id, section in sections_on(job):
        key = f"survey.section.{section_id}"
        yield f"{key}.hem_line", "level"
        for end in ENDS:
            yield f"{key}.{end}_end", "stops"
            yield f"{key}.{end}_return", usual["return"]
            yield f"{key}.{end}_short", ZERO
        for thing in section.in_the_way:
            yield f"{key}.in_the_way.{thing}.overlap", usual["overlap"]
        own = [drop for drop in section.drop if drop is not None] or drops or [usual["drop"]]
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
    across = [(*each.run, None)[0] for _, each in along_side(job.survey, opposite)]
    known = [each for each in across if each is not None]
    if known and len(known) == len(across):
        whole = total(known)
    elif job.survey.bed_size is not None:
        whole = nominal_run(job.survey.bed_size, side)
    else:
        return None
    here = [(*each.run, None)[0] for _, each in along_side(job.survey, side)]
    left = whole - total(each for each in here if each is not None)
    return left / here.count(None) if left > ZERO and None in here else None


LAID_OUT = Rule("widths laid out", "{value}")


class SectionFigures(Struct, frozen=True):
    """One part: its figures have no value before they are known, or follow from what was read and what is usual."""

    part: str
    """Part id: `left`, or `left/1`."""
    name: str
    cut_length: Figure[Length]
    cut_width: Figure[Length]
    widths: Figure[int]
    """Of cloth, whole or in part, for this part alone; its rule is LAID_OUT once the plan says it."""


class FirstFigures(Struct, frozen=True):
    """What can be said so far."""

    sections: tuple[SectionFigures, ...]
    """In the order of the plan; only those whose cut length is known."""
    whole: bool
    """True when they are all sections there are."""
    widths: Figure[int]
    """Of face cloth, for all sections together; its rule is LAID_OUT once the plan says it."""
    buys: tuple[tuple[Layer, Figure[Length]], ...]
    """The layers whose cloth to buy is known, zero for nothing."""
    estimate: Figure[Length] | None
    """Face cloth in all, in hand or not, until the plan knows what to buy."""
    usual_width: Length | None
    """Of the face cloth, which the estimate takes while its width is not known; None once it is."""
    usual_fullness: Fraction | None
    """Which the estimate takes while none is chosen; None once it is."""
    usual_allowances: bool
    """True while a cut length here goes by an allowance that nobody chose."""


class Segment(Struct, frozen=True):
    """Some words of the line, and the figure that answers *why?* about them."""

    words: str
    figure: Figure[Any] | None = None


def first_figures(plan: Plan) -> FirstFigures:
    """What can be said of a job so far; of one without a hole, the plan's own figures."""
    early, face = early_figures(plan.job, plan.figures.get("fullness")), plan.layers[0]
    found = [
        SectionFigures(
            part.id, part.name, _better(face.cut_lengths, early.cut_lengths, part.id),
            _better(face.cut_widths, early.cut_widths, part.id),
            _laid_out(face, part.id) or _measured(early.widths[part.id]),
        )
        for part in plan.parts
    ]  # fmt: skip
    known = tuple(each for each in found if each.cut_length.value is not None)
    bought = tuple((each, each.buy) for each in plan.layers if each.buy.value is not None)
    width = early.ledger.read(Cloth.width, "cloth.face")
    want = early.ledger.read(Fullness.want)
    settled = face.buy.value is not None or face.refused is not None
    return FirstFigures(
        sections=known,
        whole=bool(known) and len(known) == len(found),
        widths=_laid_out(face) or _measured(early.in_all),
        buys=bought,
        estimate=None if settled or early.estimate.value is None else early.estimate,
        usual_width=width.value if width.rule is PRESUMED else None,
        usual_fullness=want.value if want.rule is PRESUMED and plan.figures["fullness"].value is None else None,
        usual_allowances=any(
            each.rule is DEFAULT and each.id.startswith(("allowances.", "cloth."))
            for part in known
            for each in _under(part.cut_length)
        ),
    )


def _better(planned: Lengths, early: Lengths, part: str) -> Figure[Length]:
    """The plan's own where it has one; else the early one, as far as it rests on what was read."""
    return planned[part] if planned[part].value is not None else _measured(early[part])


def _measured(figure: Figure[Any]) -> Figure[Any]:
    """The figure, without its value where a run or a drop under it was not read."""
    presumed = (each.id.split(".") for each in _under(figure) if each.rule is PRESUMED)
    read = all(key[3:4] not in (["run"], ["drop"]) for key in presumed)
    return figure if read else Figure(figure.id, figure.title, None, figure.needs, figure.rule, figure.inputs)


def _under(figure: Figure[Any]) -> Iterator[Figure[Any]]:
    """The figure and all it is made of."""
    yield figure
    for _, each in figure.inputs:
        yield from _under(each)


def _laid_out(face: Layer, part: str | None = None) -> Figure[int] | None:
    """The widths that the cutting plan cuts across the roll, those of one part where it is given; without a value where
    it cuts along the roll. None while there is no cutting plan."""
    if face.cutting is None:
        return None
    best, id = face.cutting.best, f"layer.face.widths{f'.{part}' if part else ''}"
    pieces = [each for each in best.pieces if part in (None, each.strip)]
    number = len(pieces if part else {(each.stretch, each.row) for each in pieces})
    return Figure(id, LAID_OUT.id, None if best.way == "along" else number, (), LAID_OUT)


def plan_line(plan: Plan, section: str | None = None, *, chosen: bool = False) -> tuple[Segment, ...]:
    """The plan so far in one line, with its pauses; empty while nothing can be said.

    `section`: id of the one in hand, named first. `chosen`: the allowances were gone through, so that it need not be
    said any more that they are the usual ones.
    """
    first = first_figures(plan)
    sized = tuple(_sized(plan, first, section))
    if sized and first.usual_allowances and not (chosen or plan.complete):
        sized = (sized[0], Segment(" (usual)"), *sized[1:])
    cloth = tuple(_cloth(plan, first))
    return (*sized, *([Segment("; ")] if sized and cloth else []), *cloth)


def line_text(segments: Sequence[Segment]) -> str:
    """The line as text."""
    return "".join(each.words for each in segments)


def _sized(plan: Plan, first: FirstFigures, section: str | None) -> Iterator[Segment]:
    """How long the pieces are, and how many widths they take."""
    here = [each for each in first.sections if each.part.partition("/")[0] == section] or list(first.sections)
    if not here:
        return
    longest = max((each.cut_length for each in here), key=_length)
    alike = all(_length(each.cut_length) == _length(longest) for each in here)
    named = f"{here[0].name} cut length" if len(here) == 1 else "cut length" if alike else "longest cut"
    yield Segment(f"{named} {shown(_length(longest), ruler_of(plan.job), 'up')}", longest)
    widths = first.widths if first.whole else here[0].widths if len(here) == 1 else None
    if widths is not None and widths.value is not None:
        about = "" if widths.rule is LAID_OUT else "about "
        in_all = " in all" if first.whole and len(here) < len(first.sections) else ""
        yield Segment(f", {about}{widths.value} width{'' if widths.value == 1 else 's'}{in_all}", widths)


def _length(figure: Figure[Length]) -> Length:
    return figure.value or ZERO


def _cloth(plan: Plan, first: FirstFigures) -> Iterator[Segment]:
    """What to buy, or about how much cloth it takes."""
    if first.estimate is not None:
        yield Segment(estimate_words(plan, first, " face cloth"), first.estimate)
        if first.usual_fullness is not None:
            yield Segment(f", fullness {number(first.usual_fullness)}", first.estimate)
        return
    bought = [(layer, figure) for layer, figure in first.buys if figure.value]
    for place, (layer, figure) in enumerate(bought):
        before = "buy " if not place else " and " if place == len(bought) - 1 else ", "
        yield Segment(f"{before}{_by_the(plan, layer, figure)} {layer.name}", figure)
    if not bought and len(first.buys) == len(plan.layers):
        yield Segment("nothing to buy", first.buys[0][1])


def estimate_words(plan: Plan, first: FirstFigures, cloth: str = "") -> str:
    """`about 4 1/2 yd, 54 in wide`; the width only where it is taken as usual. Empty without an estimate."""
    if first.estimate is None:
        return ""
    wide = "" if first.usual_width is None else f", {shown(first.usual_width, ruler_of(plan.job))} wide"
    return f"about {_by_the(plan, plan.layers[0], first.estimate)}{cloth}{wide}"


def _by_the(plan: Plan, layer: Layer, figure: Figure[Length]) -> str:
    """A length of cloth in the unit that it is sold by."""
    unit = value_at(plan.job, key := f"cloth.{layer.id}.sold_by") or usual_of(key, plan.job.standard or "inches")
    return exact(_length(figure), str(unit))
