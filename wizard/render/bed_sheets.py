"""What the bed is drawn on: one page to look at and to show, and the survey with a box for each length read on it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from wizard.render.document import Block, Drawing, Heading, Pairs, Para, Table, headed, points
from wizard.render.drawings.bed_view import bed_view
from wizard.render.drawings.finished_view import finished
from wizard.render.drawings.sketch import PageSketch
from wizard.render.figure_text import unitless
from wizard.trade.field_names import first_up, in_words
from wizard.trade.formatting import ruler_of, shown, two_decimals
from wizard.trade.job_fields import Section
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan_records import Plan
from wizard.trade.purchases import cloth_to_ask_for
from wizard.trade.sections import end_in_words, section_name, sections_on, side_of
from wizard.trade.stock import cloth_of

COLUMNS: Final = 72
BED_ROWS: Final = 16
SECTION_ROWS: Final = 7
"""Size of the drawings in characters."""


def overview(plan: Plan) -> list[Block]:
    """What it will look like, what it is made of, and what is still open."""
    ruler = ruler_of(plan.job)
    longest = max((part.gathered.value or ZERO for part in plan.parts), default=ZERO)
    hung = [each for each in (finished(part, ruler, longest) for part in plan.parts) if each is not None]
    later = (f"to find out later: {each.words}" for each in plan.later)
    unanswered = (*(each.words for each in plan.missing), *later)
    look_at = [each.sentence for each in plan.findings if each.level in ("stop", "warn") and not each.kept]
    return [
        *bed_drawing(plan),
        *(Drawing(each, SECTION_ROWS, half=True) for each in hung),
        Pairs(tuple(_about(plan))),
        *headed("Still open", 2, points("missing", (first_up(each) for each in unanswered))),
        *headed("Warnings", 2, points("missing", look_at)),
    ]


def bed_drawing(plan: Plan) -> list[Block]:
    """The bed from above with its sections; nothing before there is one."""
    if not plan.job.survey.section:
        return []
    return [Drawing(bed_view(PageSketch(plan, (), "", COLUMNS, BED_ROWS), ""), BED_ROWS)]


def _about(plan: Plan) -> Iterator[tuple[str, str]]:
    ruler = ruler_of(plan.job)
    for layer in plan.layers:
        yield layer.id, cloth_to_ask_for(layer, cloth_of(plan.job, layer.id), ruler).replace(f" ({layer.id})", "")
    made = sorted({two_decimals(part.fullness.value) for part in plan.parts if part.fullness.value})
    if made:
        yield "fullness", f"{' to '.join(dict.fromkeys((made[0], made[-1])))} times the gathered length"
    gaps = sorted({each.gap for part in plan.parts for each in part.readings})
    if gaps:
        low, high = shown(gaps[0], ruler), shown(gaps[-1], ruler)
        yield "gap under hem", low if low == high else f"{low} to {high}"
    if plan.job.cloth.fixing.kind:
        yield "fixed with", plan.job.cloth.fixing.kind


HOW: Final = (
    "Use a metal tape, and read each length twice, at the height where the cloth will hang. Measure drops from the "
    "rail's lower edge to the floor, starting at the section's left end as you see it from the room."
)
FEWEST_DROPS: Final = 3
"""Boxes for drops that a section has at least: both ends and the middle."""


def survey(plan: Plan, *, filled: bool) -> list[Block]:
    """A box for each length that is read on the bed, with what was read or empty."""
    sections = sections_on(plan.job)
    if not sections:
        return []
    drops = max(FEWEST_DROPS, *(len(each.drop) for _, each in sections))
    heads = ("section", "run at rail", "run near floor", *(f"drop {number}" for number in range(1, drops + 1)))
    rows = tuple(tuple(_row(plan, id, section, drops, filled=filled)) for id, section in sections)
    others = tuple(_others(plan, filled=filled))
    blank = tuple(range(1, len(heads)))
    unread = {id: replace(section, run=()) for id, section in plan.job.survey.section.items()}
    bed = plan if filled else replace(plan, job=replace(plan.job, survey=replace(plan.job.survey, section=unread)))
    return [
        Para(HOW),
        *bed_drawing(bed),
        Heading("Runs and drops", 2),
        Table(heads, rows, blank=blank),
        Heading("Other readings", 2),
        Table(("what", "reading"), others, blank=(1,)),
    ]


def _row(plan: Plan, id: str, section: Section, drops: int, *, filled: bool) -> Iterator[str]:
    left, ruler = end_in_words(side_of(id, section), "left"), ruler_of(plan.job)
    yield f"{section_name(plan.job, id)}, from the {left}"
    for readings, count in ((section.run, 2), (section.drop, drops)):
        for at in range(count):
            value = readings[at] if at < len(readings) else None
            yield unitless(value, ruler) if filled and value is not None else ""


def _others(plan: Plan, *, filled: bool) -> Iterator[tuple[str, str]]:
    """Every other length of the survey: those read, and those that are still to be found out, of the cloth too."""
    ruler = ruler_of(plan.job)
    kept = {key: each.value for key, each in plan.figures.items() if key.startswith("survey.")}
    read_later = (*(each for each in plan.missing if each.key.startswith("survey.")), *plan.later)
    for key, value in {**{each.key: None for each in read_later}, **kept}.items():
        if any(f".{leaf}." in f"{key}." for leaf in ("run", "drop")) or not (
            value is None or isinstance(value, Length)
        ):
            continue
        yield in_words(key, plan.job), unitless(value, ruler) if filled and value is not None else ""
