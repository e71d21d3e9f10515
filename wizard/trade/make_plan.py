"""Everything that follows from a job, worked in one pass."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from functools import partial

from msgspec import Struct

from wizard.trade.all_findings import findings_of
from wizard.trade.cautions import cautions_of
from wizard.trade.costs import total_cost
from wizard.trade.drops import Readings, finished_drop, readings_of
from wizard.trade.figures import Figure, Ledger, Need, merged
from wizard.trade.fullness import from_owned, fullness_of, growing
from wizard.trade.fullness_steps import climbing, spreading, steps_of
from wizard.trade.gathers import Gathered, flat_of, gathered_of
from wizard.trade.in_hand import greatest_in_hand
from wizard.trade.job import Job
from wizard.trade.later import Later
from wizard.trade.layers import Laid, Prepared, lay, layers_in_use, measured, prepare
from wizard.trade.lengths import Length
from wizard.trade.making import made_part
from wizard.trade.parts import run_of, spans_of
from wizard.trade.plan import FullnessStep, Part, Plan
from wizard.trade.purchases import purchases_of
from wizard.trade.surveyed import survey_asked
from wizard.trade.work import work_of

Lengths = dict[str, Figure[Length]]
"""Part id -> a figure of each part."""


def make_plan(job: Job) -> Plan:
    """The plan of a job, however little of it is known. Total: a hole becomes the needs of the figures above it."""
    ledger = Ledger(job)
    survey_asked(ledger)
    surveyed = _surveyed(ledger)
    layered = _layered(ledger, surveyed)
    parts = tuple(_made(ledger, part, surveyed, layered) for part in surveyed.parts)
    layers = tuple(each.layer for each in layered.laid)
    purchases = purchases_of(ledger, parts, layers)
    total_cost(ledger, purchases)
    work = work_of(ledger, parts, layers, purchases)
    missing = missing_of(ledger)
    return Plan(
        job=job,
        figures=ledger.figures,
        parts=parts,
        layers=layers,
        climb=Later(layered.climb),
        spread=Later(layered.spread),
        hold=Later(layered.hold),
        findings=findings_of(ledger, surveyed.readings, parts, layers, layered.prepared),
        cautions=cautions_of(job),
        work=work,
        purchases=purchases,
        missing=missing,
    )


def missing_of(ledger: Ledger) -> tuple[Need, ...]:
    """Everything still to be answered before the plan is complete. A price is nobody's need."""
    needs = merged(figure.needs for figure in ledger.figures.values())
    return tuple(need for need in needs if not need.key.endswith(".price"))


class _Surveyed(Struct, frozen=True):
    readings: dict[str, Readings]
    """Section id -> its drop readings."""
    parts: tuple[Gathered, ...]
    drops: Lengths


class _Layered(Struct, frozen=True):
    flats: Lengths
    """Flat width asked of each part."""
    prepared: tuple[Prepared, ...]
    laid: tuple[Laid, ...]
    climb: Callable[[], Iterator[FullnessStep]]
    spread: Callable[[], Iterator[FullnessStep]]
    hold: Callable[[], Fraction | None]


def _surveyed(ledger: Ledger) -> _Surveyed:
    """What the survey alone gives: parts, gathered lengths and drops."""
    spans = spans_of(ledger)
    whole = [section[0] for section in spans]
    readings = {
        each.section_id: readings_of(ledger, each.section_id, each.section, run_of(ledger, each.section_id))
        for each in whole
    }
    parts = tuple(gathered_of(ledger, span) for section in spans for span in section)
    drops = {
        part.span.id: finished_drop(ledger, part.span.id, readings[part.span.section_id], part.span.ends)
        for part in parts
    }
    return _Surveyed(readings, parts, drops)


def _layered(ledger: Ledger, surveyed: _Surveyed) -> _Layered:
    """Fullness, flat widths, and every layer laid out, the face first."""
    mark, parts = ledger.read("ruler"), surveyed.parts
    prepared = tuple(prepare(ledger, layer, surveyed.drops, mark) for layer in layers_in_use(ledger))
    fullness = fullness_of(ledger, prepared, parts, mark)
    flats = {part.span.id: flat_of(ledger, part, fullness) for part in parts}
    keeps_surplus = ledger.read("fullness.surplus").value == "keep"
    laid: list[Laid] = []
    for each in prepared:
        ready = measured(ledger, each, parts, laid[0].made if laid and keeps_surplus else flats, mark)
        buys = not (from_owned(ledger) and each.stock.owns)
        laid.append(lay(ledger, each, ready, buys=buys, over=laid[0].layer if laid else None))
    face = growing(ledger, prepared[0], parts, mark)
    return _Layered(
        flats=flats,
        prepared=prepared,
        laid=tuple(laid),
        climb=steps_of(ledger, face, climbing),
        spread=steps_of(ledger, face, partial(spreading, fullness.value)),
        hold=greatest_in_hand(ledger, prepared, parts, mark),
    )


def _made(ledger: Ledger, part: Gathered, surveyed: _Surveyed, layered: _Layered) -> Part:
    id = part.span.id
    readings = surveyed.readings[part.span.section_id]
    return made_part(ledger, part, readings, surveyed.drops[id], layered.flats[id], layered.laid[0])
