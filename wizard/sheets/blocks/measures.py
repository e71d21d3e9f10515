"""Every section's measures, and its drop readings."""

from __future__ import annotations

from typing import Final

from wizard.sheets.figure_text import bare, ratio_text
from wizard.sheets.lines import lines_of
from wizard.sheets.matter import Heading, Matter, Table
from wizard.sheets.page import Page
from wizard.trade.formatting import Ruler, ruler_of
from wizard.trade.plan import Part, Plan, Reading

HEADS: Final = ("section", "run", "gathered", "drop", "flat", "fullness", "tape cut")


def measures(plan: Plan, page: Page) -> list[str]:
    """The measures in lines."""
    return lines_of(section_measures(plan), page)


def section_measures(plan: Plan) -> list[Matter]:
    """One row a part, then the readings of each."""
    if not plan.parts:
        return []
    ruler = ruler_of(plan.job)
    matter: list[Matter] = [Heading("Measures"), Table(HEADS, tuple(_row(part, ruler) for part in plan.parts))]
    for part in plan.parts:
        matter += _readings(part, ruler)
    return matter


def _row(part: Part, ruler: Ruler) -> tuple[str, ...]:
    lengths = (part.run, part.gathered, part.drop, part.flat_made if part.flat_made.value else part.flat)
    return (
        part.name,
        *(bare(each.value, ruler) for each in lengths),
        ratio_text(part.fullness.value),
        bare(part.tape.value, ruler, "up"),
    )


def _readings(part: Part, ruler: Ruler) -> list[Matter]:
    """Where the drop was read, what it was, what the cloth finishes at there and the daylight under it."""
    if not part.readings:
        return []
    hem = "the hem follows the floor" if part.follows_floor else "level hem"
    rows = tuple(
        (bare(each.at, ruler), _read(each, ruler), bare(each.finished, ruler), bare(each.gap, ruler))
        for each in part.readings
    )
    title = f"{part.name}: {hem}, measured from the {part.left_is}"
    return [Heading(title, 2), Table(("at", "reading", "drop", "daylight"), rows, ())]


def _read(reading: Reading, ruler: Ruler) -> str:
    return "between" if reading.between else bare(reading.reading, ruler)
