"""Everything that follows from a job, worked in one pass."""

from __future__ import annotations

from wizard.trade.cautions import cautions_of
from wizard.trade.drops import finished_drop, readings_of
from wizard.trade.figures import Figure, Ledger, Need, merged
from wizard.trade.fullness import from_owned, fullness_of, growing
from wizard.trade.fullness_steps import steps_of
from wizard.trade.gathers import Gathered, flat_of, gathered_of
from wizard.trade.job import Job
from wizard.trade.layers import Laid, lay, layers_in_use, measured, prepare
from wizard.trade.lengths import Length
from wizard.trade.making import made_part
from wizard.trade.parts import run_of, spans_of
from wizard.trade.plan import FullnessStep, Plan
from wizard.trade.surveyed import survey_asked


def make_plan(job: Job) -> Plan:
    """The plan of a job, however little of it is known. Total: a hole becomes the needs of the figures above it."""
    ledger = Ledger(job)
    survey_asked(ledger)
    readings = {
        span.section_id: readings_of(ledger, span.section_id, span.section, run_of(ledger, span.section_id))
        for spans in spans_of(ledger)
        for span in spans[:1]
    }
    parts = tuple(gathered_of(ledger, span) for spans in spans_of(ledger) for span in spans)
    drops = {
        part.span.id: finished_drop(ledger, part.span.id, readings[part.span.section_id], part.span.ends)
        for part in parts
    }
    layers, steps, flats = _layers(ledger, parts, drops)
    made = tuple(
        made_part(ledger, part, readings[part.span.section_id], drops[part.span.id], flats[part.span.id], layers[0])
        for part in parts
    )
    return Plan(
        job=job,
        figures=ledger.figures,
        parts=made,
        layers=tuple(each.layer for each in layers),
        steps_of_fullness=steps,
        findings=(),
        cautions=cautions_of(job),
        work=(),
        purchases=(),
        missing=missing_of(ledger),
    )


Flats = dict[str, Figure[Length]]


def _layers(
    ledger: Ledger, parts: tuple[Gathered, ...], drops: Flats
) -> tuple[list[Laid], tuple[FullnessStep, ...], Flats]:
    """Every layer laid out, the fullness steps, and the flat width asked of each part."""
    mark = ledger.read("ruler")
    prepared = [prepare(ledger, layer, drops, mark) for layer in layers_in_use(ledger)]
    fullness = fullness_of(ledger, prepared, parts, mark)
    asked = {part.span.id: flat_of(ledger, part, fullness) for part in parts}
    laid: list[Laid] = []
    for each in prepared:
        flats = laid[0].made if laid and ledger.read("fullness.surplus").value == "keep" else asked
        ready = measured(ledger, each, parts, flats, mark)
        buys = not (from_owned(ledger) and each.stock.owns)
        laid.append(lay(ledger, each, ready, buys=buys, over=laid[0].layer if laid else None))
    steps = steps_of(ledger, growing(ledger, prepared[0], parts, mark))
    return laid, steps, asked


def missing_of(ledger: Ledger) -> tuple[Need, ...]:
    """Everything still to be answered before the plan is complete. A price is nobody's need."""
    needs = merged(figure.needs for figure in ledger.figures.values())
    return tuple(need for need in needs if not need.key.endswith(".price"))
