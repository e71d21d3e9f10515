"""The marks strip: each part's tape and flat skirt side by side, with its marks in figures."""

from __future__ import annotations

from typing import Final

from wizard.sheets.blocks.hanging import as_met, marks_of_part
from wizard.sheets.drawings.marks_strip import marks_strip
from wizard.sheets.matter import Drawing, Matter
from wizard.trade.formatting import Ruler, ruler_of
from wizard.trade.plan import Part, Plan

ROWS: Final = 13
"""Lines of the drawing in characters."""


def strips(plan: Plan) -> list[Matter]:
    """Every part that has marks."""
    ruler = ruler_of(plan.job)
    return [each for part in plan.parts if part.marks for each in _strip(part, ruler)]


def _strip(part: Part, ruler: Ruler) -> list[Matter]:
    heading, measured, table = marks_of_part(part, ruler)
    scene = marks_strip(part, as_met(part), ruler)
    return [heading, *([Drawing(scene, ROWS)] if scene is not None else []), measured, table]
