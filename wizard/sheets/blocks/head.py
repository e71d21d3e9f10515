"""Whose sheet it is, what it measures in, and whether it is finished."""

from __future__ import annotations

from typing import Final

from wizard.sheets.figure_text import counted
from wizard.sheets.page import Page
from wizard.trade.plan import Plan
from wizard.trade.printing import exact

UNIT_WORDS: Final = {
    "in": "inches",
    "ft": "feet",
    "yd": "yards",
    "mm": "millimetres",
    "cm": "centimetres",
    "m": "metres",
}
_ROUNDED: Final = "Cuts and purchases are rounded up, marks to the nearest; ≈ stands before what was rounded."


def head(plan: Plan, page: Page) -> list[str]:
    """The title and what holds for the whole sheet."""
    ruler = page.ruler
    count = len({part.section for part in plan.parts})
    sections = f"Bed skirt in {counted(count, 'section')}." if count else "Bed skirt, no section measured yet."
    unit = (
        f"Lengths without a unit are in {UNIT_WORDS[ruler.unit]}, on a ruler marked in {exact(ruler.mark, ruler.unit)}."
    )
    return [
        *page.para(plan.job.name or "A bed skirt without a name"),
        "═" * page.columns,
        *page.para(f"{sections} {unit} {_ROUNDED}"),
        *page.para(_state(plan)),
    ]


def _state(plan: Plan) -> str:
    if plan.complete:
        return "This plan is complete."
    if plan.missing:
        return f"Unfinished: {counted(len(plan.missing), 'answer')} missing, named at the end."
    return "Unfinished: something stops a figure; see Findings."
