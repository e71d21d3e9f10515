"""One page to look at, and to show: the bed from above, each section as it hangs, the cloth, and what is still open."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from wizard.render.document import Block, Drawing, Pairs, headed, points
from wizard.render.drawings.bed_view import bed_view
from wizard.render.drawings.finished_view import finished
from wizard.render.drawings.page_sketch import PageSketch
from wizard.render.figure_text import ratio_text
from wizard.trade.field_names import first_up
from wizard.trade.formatting import ruler_of, shown
from wizard.trade.plan_records import Plan
from wizard.trade.purchases import cloth_to_ask_for
from wizard.trade.stock import cloth_of

COLUMNS: Final = 72
BED_ROWS: Final = 16
SECTION_ROWS: Final = 7
"""Size of the drawings in characters."""


def overview(plan: Plan) -> list[Block]:
    """What it will look like, what it is made of, and what is still open."""
    ruler = ruler_of(plan.job)
    hung = [each for each in (finished(part, ruler) for part in plan.parts) if each is not None]
    unanswered = [
        *(each.words for each in plan.missing),
        *(f"to find out later: {each.words}" for each in plan.later),
    ]
    look_at = [each.sentence for each in plan.findings if each.level in ("stop", "warn") and not each.kept]
    return [
        *bed_drawing(plan),
        *(Drawing(each, SECTION_ROWS, half=True) for each in hung),
        Pairs(tuple(_about(plan))),
        *headed("Still open", 2, points("missing", (first_up(each) for each in unanswered))),
        *headed("To look at", 2, points("missing", look_at)),
    ]


def bed_drawing(plan: Plan) -> list[Block]:
    """The bed from above with its sections; nothing before there is one."""
    if not plan.job.survey.section:
        return []
    return [Drawing(bed_view(PageSketch(plan, (), "", COLUMNS, BED_ROWS), ""), BED_ROWS)]


def _about(plan: Plan) -> Iterator[tuple[str, str]]:
    ruler = ruler_of(plan.job)
    for layer in plan.layers:
        yield layer.id, cloth_to_ask_for(layer, cloth_of(plan.job, layer.id), ruler)
    made = {ratio_text(part.fullness.value) for part in plan.parts if part.fullness.value}
    if made:
        yield "fullness", f"{' to '.join(sorted(made))} times the length of the rail"
    gaps = sorted({each.gap for part in plan.parts for each in part.readings})
    if gaps:
        low, high = shown(gaps[0], ruler), shown(gaps[-1], ruler)
        yield "hem", f"{low if low == high else f'{low} to {high}'} above the floor"
    if plan.job.cloth.fixing.kind:
        yield "held by", plan.job.cloth.fixing.kind
