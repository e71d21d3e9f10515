"""Every section's measures, and its drop readings."""

from __future__ import annotations

from wizard.sheets.figure_text import bare, ratio_text
from wizard.sheets.page import Page
from wizard.trade.plan import Part, Plan

HEADS = ("section", "run", "gathered", "drop", "flat", "fullness", "tape cut")


def measures(plan: Plan, page: Page) -> list[str]:
    """One row a part, then the readings of each."""
    if not plan.parts:
        return []
    lines = [*page.heading("Measures"), *page.table(HEADS, [_row(part, page) for part in plan.parts])]
    for part in plan.parts:
        lines += _readings(part, page)
    return lines


def _row(part: Part, page: Page) -> tuple[str, ...]:
    lengths = (part.run, part.gathered, part.drop, part.flat_made if part.flat_made.value else part.flat)
    fullness = part.fullness.value
    return (
        part.name,
        *(bare(each.value, page.ruler) for each in lengths),
        ratio_text(fullness),
        bare(part.tape.value, page.ruler, "up"),
    )


def _readings(part: Part, page: Page) -> list[str]:
    """Where the drop was read, what it was, what the cloth finishes at there and the daylight under it."""
    if not part.readings:
        return []
    hem = "the hem follows the floor" if part.follows_floor else "level hem"
    rows = [
        tuple(bare(length, page.ruler) for length in (each.at, each.reading, each.finished, each.gap))
        for each in part.readings
    ]
    title = f"{part.name}: {hem}, measured from the {part.left_is}"
    return [*page.subheading(title), *page.table(("at", "reading", "drop", "daylight"), rows, ())]
