"""Marks for drawing up, and fixings as met from inside the bed."""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from wizard.sheets.figure_text import bare, counted
from wizard.sheets.page import Page
from wizard.trade.lengths import ZERO
from wizard.trade.plan import FixingPlan, Mark, Part, Plan
from wizard.trade.printing import shown
from wizard.trade.work.kit import from_right, from_where

FIRST: Final = 5
"""So many fixings are named in the order in which they are set; the rest go on outwards."""


def marks(plan: Plan, page: Page) -> list[str]:
    """For each part the marks on tape and flat skirt, measured as they are met from inside the bed."""
    parts = [part for part in plan.parts if part.marks]
    return [*page.heading("Marks"), *(line for part in parts for line in _marks(part, page))] if parts else []


def _marks(part: Part, page: Page) -> list[str]:
    drops = any(mark.drop is not None for mark in part.marks)
    rows = [
        (str(each.number), bare(each.tape, page.ruler), bare(each.flat, page.ruler))
        + ((bare(each.drop, page.ruler),) if drops else ())
        for each in _as_met(part)
    ]
    heads = ("mark", "tape", "flat skirt", *(("drop",) if drops else ()))
    parts = "" if part.marks_in is None else f" in {counted(part.marks_in, 'equal part')}"
    measured = f"{_spacing(part, page)}Every mark is measured from {from_where(part)}, never from the mark before."
    return [*page.subheading(f"{part.name}{parts}"), *page.para(measured), "", *page.table(heads, rows, ())]


def _as_met(part: Part) -> tuple[Mark, ...]:
    """The marks from the head, or from the bed's left: where the section's right end lies there they turn round."""
    if not from_right(part):
        return part.marks
    last = part.marks[-1]
    return tuple(
        Mark(last.number - each.number, last.tape - each.tape, last.flat - each.flat, each.drop)
        for each in reversed(part.marks)
    )


def _spacing(part: Part, page: Page) -> str:
    """Both spacings, where all are equal; they are only to check by, for every mark is measured from the end."""
    pairs = list(pairwise(part.marks))
    tapes = {after.tape - before.tape for before, after in pairs}
    flats = {after.flat - before.flat for before, after in pairs}
    if len(tapes) != 1 or len(flats) != 1:
        return ""
    tape, flat = shown(tapes.pop(), page.ruler), shown(flats.pop(), page.ruler)
    return f"Spacing {tape} on the tape, {flat} on the flat skirt. "


def fixings(plan: Plan, page: Page) -> list[str]:
    """For each part its fixings, seen from inside the bed."""
    lines: list[str] = []
    for part in plan.parts:
        if part.fixings is not None:
            lines += [*page.subheading(part.name), *_fixings(part, part.fixings, page)]
    return [*page.heading("Hanging, seen from inside the bed"), *lines] if lines else []


def _fixings(part: Part, plan: FixingPlan, page: Page) -> list[str]:
    start = plan.measured_from
    if not plan.positions:
        return page.para(f"The fixing runs the whole length. Measure from {start}.")
    ordered = sorted(plan.positions, key=lambda each: each.order)
    lines = page.pair("measure from", start)
    if plan.spacing is not None and plan.spacing > ZERO:
        lines += page.pair("spacing", shown(plan.spacing, page.ruler))
    if plan.leg is not None:
        lines += page.pair("leg", shown(plan.leg, page.ruler))
    lines += page.pair(
        "set first", ", then ".join(bare(each.at, page.ruler) for each in ordered[:FIRST]) + ", then outwards"
    )
    lines += page.pair(f"all {len(ordered)}", ", ".join(bare(each.at, page.ruler) for each in plan.positions))
    if plan.skipped:
        lines += page.pair("left out", ", ".join(bare(each, page.ruler) for each in plan.skipped) + " (in the way)")
    return lines
