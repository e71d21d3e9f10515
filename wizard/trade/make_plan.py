"""Everything that follows from a job, worked in one pass."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from msgspec import Struct
from msgspec.structs import asdict

from wizard.trade.cautions import CAUTIONS, called
from wizard.trade.cut_plans import NONE_BETTER, Better
from wizard.trade.drops_and_cut_lengths import Readings, finished_drop, line_of, readings_of, within
from wizard.trade.figures import Figure, Ledger, merged
from wizard.trade.findings import findings_of
from wizard.trade.findings.checker import Checker
from wizard.trade.fixings import fixings_for
from wizard.trade.formatting import ruler_of
from wizard.trade.fullness import basis_of, from_owned, fullness_of
from wizard.trade.job_fields import Fullness, Job
from wizard.trade.layers import Prepared, lay, layers_in_use, prepare
from wizard.trade.lengths import Length
from wizard.trade.missing import survey_asked
from wizard.trade.parts import (
    flat_of,
    fullness_made,
    gathered_of,
    mark_figures,
    marks_of,
    run_of,
    spans_of,
)
from wizard.trade.plan_records import Gathered, Layer, Mark, Part, Plan, Span
from wizard.trade.purchases import purchases_of, total_cost
from wizard.trade.sections import sections_on
from wizard.trade.steps import work_of

Lengths = dict[str, Figure[Length]]
"""Part id -> a figure of each part."""


def make_plan(job: Job, better: Better = NONE_BETTER) -> Plan:
    """The plan of a job, however little of it is known. Total: a hole becomes the needs of the figures above it.

    It depends on the job alone; `better` cutting plans that were found since take the place of the first ones.
    """
    ledger = Ledger(job)
    survey_asked(ledger)
    surveyed = survey_of(ledger)
    ledger.read(Job.ruler)  # first of these figures: JSON lists them in the order they are read
    prepared = tuple(prepare(ledger, layer, surveyed.drops) for layer in layers_in_use(ledger))
    fullness = fullness_of(ledger, prepared, surveyed.parts)
    flats = {part.id: flat_of(ledger, part, fullness) for part in surveyed.parts}
    layers = _laid(ledger, prepared, surveyed.parts, flats, better)
    basis = basis_of(ledger, prepared, surveyed.parts, fullness)
    parts = tuple(_made(ledger, part, surveyed, flats[part.id], layers[0].flats[part.id]) for part in surveyed.parts)
    purchases = purchases_of(ledger, parts, layers)
    total_cost(ledger, purchases)
    work = work_of(ledger, parts, layers, purchases)
    # Before the findings, which read what no figure waits for. A price is nobody's need.
    needs = merged(figure.needs for figure in ledger.figures.values())
    return Plan(
        job=job,
        figures=ledger.figures,
        parts=parts,
        layers=layers,
        basis=basis,
        findings=findings_of(Checker(ledger, ruler_of(job), surveyed.readings, parts, layers, prepared)),
        cautions=called(CAUTIONS, job),
        work=work,
        purchases=purchases,
        holes=tuple(need for need in needs if not need.key.endswith(".price")),
    )


class Surveyed(Struct, frozen=True):
    """What the survey alone gives."""

    readings: dict[str, Readings]
    """Section id -> its drop readings."""
    parts: tuple[Gathered, ...]
    drops: Lengths


def survey_of(ledger: Ledger) -> Surveyed:
    """Parts, gathered lengths and drops, as far as they are known."""
    sections = sections_on(ledger.job)
    spans = [span for id, section in sections for span in spans_of(ledger, id, section)]
    readings = {id: readings_of(ledger, id, section, run_of(ledger, id)) for id, section in sections}
    parts = tuple(gathered_of(ledger, span) for span in spans)
    drops = {part.id: finished_drop(ledger, part.id, readings[part.section], part.ends) for part in parts}
    return Surveyed(readings, parts, drops)


def _laid(
    ledger: Ledger, prepared: Sequence[Prepared], parts: Sequence[Gathered], flats: Lengths, better: Better
) -> tuple[Layer, ...]:
    """Every layer laid out, the face first. `flats`: the flat width asked of each part."""
    keeps_surplus, layers = ledger.read(Fullness.surplus).value == "keep", list[Layer]()
    for each in prepared:
        face = layers[0] if layers else None
        buys = not (from_owned(ledger) and each.stock.owns)
        faces = face.flats if face and keeps_surplus else flats
        layers.append(lay(ledger, each, parts, faces, better, buys=buys, over=face))
    return tuple(layers)


def _made(ledger: Ledger, part: Gathered, surveyed: Surveyed, flat: Figure[Length], flat_made: Figure[Length]) -> Part:
    """A part as it is sewn and hung: what the layout gave it, its marks and its fixings."""
    readings = surveyed.readings[part.section]
    ends = {"left_flat": part.left_flat, "right_flat": part.right_flat}
    marks_in = mark_figures(ledger, part.id, part.gathered, flat_made, **ends)
    return Part(
        **asdict(part),
        drop=surveyed.drops[part.id],
        follows_floor=readings.follows,
        readings=within(readings, part.ends),
        flat=flat,
        fullness=fullness_made(ledger, part.id, part.gathered, flat_made),
        flat_made=flat_made,
        marks=_marks(part, readings, flat_made),
        marks_in=marks_in.value,
        fixings=fixings_for(ledger, part),
    )


def _marks(part: Gathered, readings: Readings, flat_made: Figure[Length]) -> tuple[Mark, ...]:
    """The marks once all they need is known: a hem that follows the floor has its drop at each."""
    gathered, flat, left, right = part.gathered.value, flat_made.value, part.left_flat.value, part.right_flat.value
    if gathered is None or flat is None or left is None or right is None:
        return ()
    return marks_of(gathered, flat, left, right, _drop_along(part, readings) if readings.follows else None)


def _drop_along(span: Span, readings: Readings) -> Callable[[Length], Length] | None:
    """Finished drop of the face at a place on the part's tape, from its left end."""
    line, raised, gap, extra = line_of(readings), readings.raised.value, readings.gap.value, span.left_extra.value
    start = span.start
    if line is None or raised is None or gap is None or start is None or extra is None:
        return None
    return lambda place: line.at(start + place - extra) + raised - gap
