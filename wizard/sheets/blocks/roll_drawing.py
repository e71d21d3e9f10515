"""The roll drawing of a text sheet: down the page, the squared end at the top, the running measure beside it."""

from __future__ import annotations

from typing import Final

from wizard.sheets.cells import row_of, to_cells
from wizard.sheets.cut_order import in_cutting_order
from wizard.sheets.drawings.roll import rolls, squared_end, way_up
from wizard.sheets.drawings.roll_on_paper import rolls_on_paper
from wizard.sheets.figure_text import bare
from wizard.sheets.matter import Drawing, Heading, Matter
from wizard.sheets.page import Page
from wizard.sheets.plain import cells
from wizard.sheets.scene import Box, Scene
from wizard.trade.compare_ways import held
from wizard.trade.cutting import Layout
from wizard.trade.formatting import Ruler
from wizard.trade.lengths import Length, ceiling
from wizard.trade.plan import Layer, Plan

ROWS_A_PIECE: Final = 3
"""Lines that the shortest piece gets, so that its number has room."""
MOST_ROWS: Final = 160
"""A very long roll is drawn coarser rather than longer than this."""
MEASURE: Final = 11
"""Columns of the running measure, at least."""
WIDEST: Final = 72
LEGEND: Final = (
    "In the drawings of the cloth an arrow shows a piece's way up: it points to the edge that goes to the rail. "
    "Hatched: no piece lies there. Figures beside them: along the cloth from its squared end, across it from its left "
    "edge."
)
"""For drawings without a cut list, which says the same."""


def roll_drawing(plan: Plan, layer: Layer, layout: Layout, ruler: Ruler) -> list[Matter]:
    """Each length that is cut, drawn with the pieces' numbers and their way up; offcuts are hatched."""
    level = held(plan, layer, "match_from") or "hem"
    names = {part.id: part.name for part in plan.parts}
    shortest = min(each.along for each in in_cutting_order(layer, layout))
    matter: list[Matter] = []
    upright = rolls(layer, layout, names, up=way_up(layout, level))
    for scene, paper in zip(upright, rolls_on_paper(layer, layout, names, ruler, level), strict=True):
        rows = max(ROWS_A_PIECE, min(MOST_ROWS, ceiling(scene.height / shortest * ROWS_A_PIECE) + 1))
        matter += [Heading(scene.title, 2), Drawing(scene, rows, measured=True, paper=paper, legend=LEGEND)]
    return matter


def drawn(drawing: Drawing, page: Page) -> list[str]:
    """A drawing in characters, as wide as the page; beside a roll stands the running measure."""
    scene, rows = drawing.scene, drawing.rows
    if not drawing.measured:
        return to_cells(scene, min(page.columns, WIDEST), rows)
    measures = _measures(scene, rows, page)
    margin = max(MEASURE, *(cells(text) + 1 for text in measures.values()))
    lines = to_cells(scene, min(page.columns - margin, WIDEST), rows)
    beside = (measures.get(number, "") for number in range(rows))
    return [f"{' ' * (margin - 1 - cells(text))}{text} {line}" for text, line in zip(beside, lines, strict=True)]


def _measures(scene: Scene, rows: int, page: Page) -> dict[int, str]:
    """Line -> what the running measures are there, for the ends of the pieces. Of several on one line those of cuts
    right across stay, else the first: where cloth is lost between two pieces, both are wanted."""
    pieces = [shape for shape in scene.shapes if isinstance(shape, Box) and shape.fill == "none"]
    ends = {end for each in pieces for end in (each.y, each.y + each.height)}
    found: dict[int, list[str]] = {}
    for end in sorted(ends, key=lambda end: (_through(end, pieces), end)):
        here = found.setdefault(row_of(scene, end, rows), [])
        if not here or not _through(end, pieces):
            here.append(bare(end - squared_end(scene), page.ruler))
    return {line: _listed(texts, page.columns // 2) for line, texts in found.items()}


def _listed(texts: list[str], room: int) -> str:
    """The measures of one line; where they take more than the room there is, the first and the last of them."""
    text = ", ".join(texts)
    return text if cells(text) <= room else f"{texts[0]} … {texts[-1]}"


def _through(end: Length, pieces: list[Box]) -> bool:
    return any(each.y < end < each.y + each.height for each in pieces)
