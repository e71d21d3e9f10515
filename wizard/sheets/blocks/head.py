"""What holds for the whole job, and whether it is finished."""

from __future__ import annotations

from typing import Final

from wizard.sheets.figure_text import counted
from wizard.sheets.matter import Matter, Para
from wizard.sheets.stamp import UNIT_WORDS, Stamp
from wizard.trade.plan import Plan

__all__ = ["UNIT_WORDS", "head"]

ROUNDED: Final = "Cuts and purchases are rounded up, marks to the nearest; ≈ stands before what was rounded."


def head(plan: Plan, stamp: Stamp) -> list[Matter]:
    """What holds for all sheets of the plan, whichever of them are written."""
    count = len({part.section for part in plan.parts})
    sections = f"Bed skirt in {counted(count, 'section')}." if count else "Bed skirt, no section measured yet."
    return [Para(f"{sections} {stamp.units} {ROUNDED}"), Para(f"{_state(plan)} {_capital(stamp.short)}.")]


def _state(plan: Plan) -> str:
    if plan.complete:
        return f"This plan is complete{_changed(plan)}."
    if plan.missing:
        return f"Unfinished: {counted(len(plan.missing), 'answer')} missing; the overview names each."
    return "Unfinished: something stops a figure; see Findings on the overview."


def _changed(plan: Plan) -> str:
    steps = counted(len(plan.changed), "finished step")
    return f", but {steps} {'has' if len(plan.changed) == 1 else 'have'} changed since" if plan.changed else ""


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
