"""Marks for drawing up, and fixings as met from inside the bed."""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from wizard.sheets.figure_text import bare, counted
from wizard.sheets.lines import lines_of
from wizard.sheets.matter import Heading, Matter, Pairs, Para, Table
from wizard.sheets.page import Page
from wizard.trade.formatting import Ruler, ruler_of, shown
from wizard.trade.lengths import ZERO
from wizard.trade.plan import FixingPlan, Mark, Part, Plan
from wizard.trade.steps.kit import from_right, from_where

FIRST: Final = 5
"""So many fixings are named in the order in which they are set; the rest go on outwards."""


def marks(plan: Plan, page: Page) -> list[str]:
    """The marks in lines."""
    return lines_of(mark_tables(plan), page)


def fixings(plan: Plan, page: Page) -> list[str]:
    """The fixings in lines."""
    return lines_of(fixing_lists(plan), page)


def mark_tables(plan: Plan) -> list[Matter]:
    """For each part the marks on tape and flat skirt, measured as they are met from inside the bed."""
    ruler = ruler_of(plan.job)
    tables = [each for part in plan.parts if part.marks for each in marks_of_part(part, ruler)]
    return [Heading("Marks"), *tables] if tables else []


def marks_of_part(part: Part, ruler: Ruler) -> list[Matter]:
    """The marks of one part, which has some."""
    drops = any(mark.drop is not None for mark in part.marks)
    rows = tuple(
        (str(each.number), bare(each.tape, ruler), bare(each.flat, ruler)) + ((bare(each.drop, ruler),) * drops)
        for each in as_met(part)
    )
    heads = ("mark", "tape", "flat skirt", *(("drop",) if drops else ()))
    parts = "" if part.marks_in is None else f" in {counted(part.marks_in, 'equal part')}"
    measured = f"{_spacing(part, ruler)}Every mark is measured from {from_where(part)}, never from the mark before."
    return [Heading(f"{part.name}{parts}", 2), Para(measured), Table(heads, rows, ())]


def as_met(part: Part) -> tuple[Mark, ...]:
    """The marks from the head, or from the bed's left: where the section's right end lies there they turn round."""
    if not from_right(part):
        return part.marks
    last = part.marks[-1]
    return tuple(
        Mark(last.number - each.number, last.tape - each.tape, last.flat - each.flat, each.drop)
        for each in reversed(part.marks)
    )


def _spacing(part: Part, ruler: Ruler) -> str:
    """Both spacings, where all are equal; they are only to check by, for every mark is measured from the end."""
    pairs = list(pairwise(part.marks))
    tapes = {after.tape - before.tape for before, after in pairs}
    flats = {after.flat - before.flat for before, after in pairs}
    if len(tapes) != 1 or len(flats) != 1:
        return ""
    return f"Spacing {shown(tapes.pop(), ruler)} on the tape, {shown(flats.pop(), ruler)} on the flat skirt. "


def fixing_lists(plan: Plan) -> list[Matter]:
    """For each part its fixings, seen from inside the bed."""
    ruler = ruler_of(plan.job)
    lists = [each for part in plan.parts if part.fixings for each in fixings_of_part(part, part.fixings, ruler)]
    return [Heading("Hanging, seen from inside the bed"), *lists] if lists else []


def fixings_of_part(part: Part, plan: FixingPlan, ruler: Ruler) -> list[Matter]:
    """The fixings of one part, under its name."""
    return [Heading(part.name, 2), _fixings(plan, ruler)]


def _fixings(plan: FixingPlan, ruler: Ruler) -> Matter:
    start = plan.measured_from
    if not plan.positions:
        gaps = ", ".join(f"{bare(first, ruler)} to {bare(last, ruler)}" for first, last in plan.gaps)
        return Para(f"The fixing runs the whole length{f', but from {gaps}' if gaps else ''}. Measure from {start}.")
    ordered = sorted(plan.positions, key=lambda each: each.order)
    rows: list[tuple[str, str]] = [("measure from", start)]
    if plan.spacing is not None and plan.spacing > ZERO:
        rows.append(("spacing", shown(plan.spacing, ruler)))
    if plan.leg is not None:
        rows.append(("leg", shown(plan.leg, ruler)))
    first = ", then ".join(bare(each.at, ruler) for each in ordered[:FIRST])
    rows.append(("set first", f"{first}, then outwards"))
    rows.append((f"all {len(ordered)}", ", ".join(bare(each.at, ruler) for each in plan.positions)))
    if plan.skipped:
        rows.append(("left out", f"{', '.join(bare(each, ruler) for each in plan.skipped)} (in the way)"))
    return Pairs(tuple(rows))
