"""A scene in characters: for the terminal, for text sheets, for a screen pane of any size."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import Final

from msgspec.structs import replace

from wizard.render.drawings.character_grid import DOWN, LEFT, RIGHT, UP, Grid
from wizard.render.drawings.placing import LABEL, ON_ITS_ROW, Slot, Space, put_slots
from wizard.render.drawings.scene import Box, Label, Scene, Stroke
from wizard.render.plain_text import cell_len, clipped, literal
from wizard.trade.lengths import Length

OVER: Final = 12
"""What it costs a picked label to cover a line that runs down."""
LEAST_FOR_TIPS: Final = 2
"""A line shorter than this has no tips: they would hide it."""
LINES_FOR_TWO: Final = 4
"""Lines from edge to edge of a box in which two labels fit."""


def to_cells(scene: Scene, columns: int, rows: int) -> list[str]:
    """The scene stretched over `rows` lines of at most `columns` characters; no lines when either is below one.

    Lines first, then labels: the picked ones, then the others in order.
    """
    if columns < 1 or rows < 1:
        return []
    sheet = _Fitted(scene, Grid(columns, rows))
    sheet.labels(each for each in scene.shapes if isinstance(each, Label))
    return sheet.grid.lines()


def to_slots(scene: Scene, columns: int, rows: int, in_hand: str) -> tuple[list[str], tuple[Slot, ...]]:
    """As `to_cells`, with a slot in place of each label of a length; the other labels give way to them. At least one
    column and one row."""
    sheet = _Fitted(scene, Grid(columns, rows))
    labels = [shape for shape in scene.shapes if isinstance(shape, Label)]
    slots = put_slots(sheet.grid, [(each, *sheet.cell(each)) for each in labels if each.key], in_hand)
    sheet.labels(each for each in labels if not each.key)
    return sheet.grid.lines(), slots


class _Fitted:
    """A grid with the lines of a scene, what is picked out last; and what is written on it."""

    def __init__(self, scene: Scene, grid: Grid) -> None:
        self.scene, self.grid = scene, grid
        for shape in sorted(scene.shapes, key=lambda each: each.pen == "picked"):
            if isinstance(shape, Box):
                self.box(shape)
            elif isinstance(shape, Stroke):
                self.stroke(shape)

    def column(self, x: Length) -> int:
        return _cell(x / self.scene.width, self.grid.columns)

    def row(self, y: Length) -> int:
        return row_of(self.scene, y, self.grid.rows)

    def labels(self, labels: Iterable[Label]) -> None:
        """Write labels where they fit, the picked ones first, over lines that run down where need be."""
        space, least = Space(self.grid), self.scene.height * LINES_FOR_TWO
        fitting = (each for each in labels if each.second_in is None or each.second_in * (self.grid.rows - 1) >= least)
        for label in sorted(fitting, key=lambda label: label.pen != "picked"):
            fit = ON_ITS_ROW if label.stays else LABEL
            fit = replace(fit, cover=OVER) if label.pen == "picked" else fit
            for text in map(literal, (label.text, *label.shorter, label.short)):
                text = clipped(text, self.grid.columns)
                place = space.place(*self.cell(label), label.anchor, cell_len(text), fit)
                if place is not None:
                    self.grid.put(*place, text)
                    break

    def cell(self, label: Label) -> tuple[int, int]:
        """Row and column of a label's own place."""
        return self.row(label.y), self.column(label.x)

    def box(self, box: Box) -> None:
        left, right = self.column(box.x), self.column(box.x + box.width)
        top, bottom = self.row(box.y), self.row(box.y + box.height)
        if box.fill == "hatched":
            self.grid.hatch(range(top, bottom + 1), range(left, right + 1))
        for row in {top, bottom}:
            self.grid.line((row, row), (left, right), box.pen)
        for column in {left, right}:
            self.grid.line((top, bottom), (column, column), box.pen)

    def stroke(self, stroke: Stroke) -> None:
        columns = sorted((self.column(stroke.x1), self.column(stroke.x2)))
        rows = sorted((self.row(stroke.y1), self.row(stroke.y2)))
        wide, high = columns[1] - columns[0], rows[1] - rows[0]
        if wide and high:
            self._slope(stroke, columns)
        elif stroke.pen == "picked" and not wide and not high:
            # What is asked for is never too short to be seen.
            self.grid.mark(rows[0], columns[0], UP | DOWN if stroke.x1 == stroke.x2 else LEFT | RIGHT, stroke.pen)
        else:
            self.grid.line(rows, columns, stroke.pen)
            if stroke.tips and wide + high >= LEAST_FOR_TIPS:
                for row, column, direction in zip(rows, columns, (UP, DOWN) if high else (LEFT, RIGHT), strict=True):
                    self.grid.tip(row, column, direction, stroke.pen)

    def _slope(self, stroke: Stroke, columns: list[int]) -> None:
        """A sloping line as level pieces, each in the nearest row."""
        first, last = self.column(stroke.x1), self.column(stroke.x2)
        for column in range(columns[0], columns[1] + 1):
            part = Fraction(column - first, last - first)
            row = self.row(stroke.y1 + (stroke.y2 - stroke.y1) * part)
            self.grid.mark(row, column, LEFT | RIGHT, stroke.pen)


def row_of(scene: Scene, y: Length, rows: int) -> int:
    """The line, from 0, in which height `y` of the scene is drawn when it takes `rows` lines."""
    return _cell(y / scene.height, rows)


def _cell(part: Fraction, count: int) -> int:
    """The cell that `part` of the way falls in; the ends are the middles of the first and the last cell."""
    twice = 2 * part.denominator
    return max(0, min(count - 1, (2 * part.numerator * (count - 1) + part.denominator) // twice))
