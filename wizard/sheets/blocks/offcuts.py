"""What is left of the cloth."""

from __future__ import annotations

from typing import Final

from wizard.sheets.drawings.roll import stretch_name
from wizard.sheets.figure_text import bare
from wizard.sheets.lines import lines_of
from wizard.sheets.matter import Heading, Matter, Table
from wizard.sheets.page import Page
from wizard.trade.cutting import Layout, Offcut
from wizard.trade.formatting import Ruler
from wizard.trade.lengths import ZERO
from wizard.trade.plan import Layer

KINDS: Final = {
    "side": "beside the pieces",
    "below": "below a shorter piece",
    "repeat": "lost to the pattern",
    "damage": "damaged",
    "before": "left before the damage",
    "end": "left at the end",
    "squaring": "squared off",
}
HEADS: Final = ("offcut", "from", "across", "wide", "along", "of")


def offcuts(layer: Layer, layout: Layout, page: Page) -> list[str]:
    """The offcuts in lines."""
    return lines_of(left_over(layer, layout, page.ruler), page)


def left_over(layer: Layer, layout: Layout, ruler: Ruler) -> list[Matter]:
    """Every offcut as a rectangle, stretch by stretch from the squared end on."""
    stretches = [each.id for each in layer.stock]
    left = sorted(layout.offcuts, key=lambda each: (stretches.index(each.stretch), each.start, each.across))
    if not left:
        return []
    return [Heading("Offcuts", 2), Table(HEADS, tuple(_row(each, ruler) for each in left), (0, 5))]


def _row(each: Offcut, ruler: Ruler) -> tuple[str, ...]:
    start = "before 0" if each.start < ZERO else bare(each.start, ruler)
    across, wide = bare(each.across, ruler), bare(each.width, ruler)
    along = bare(each.along, ruler, "given" if each.kind == "squaring" else "nearest")
    return KINDS[each.kind], start, across, wide, along, stretch_name(each.stretch)
