"""A scene in characters: for the terminal, for text sheets, for a screen pane of any size."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from wizard.sheets.grid import Grid
from wizard.sheets.scene import Box, Scene, Stroke, Words
from wizard.sheets.strokes import DOWN, LEFT, RIGHT, UP
from wizard.trade.lengths import Length

ROOM_FOR_TIPS: Final = 2
"""A picked line shorter than this has no tips: they would hide the double line that picks it out."""


def to_cells(scene: Scene, columns: int, rows: int) -> list[str]:
    """The scene stretched over `rows` lines of at most `columns` characters; no lines when either is below one.

    Lines first, then labels: the picked ones, then the others in order.
    """
    if columns < 1 or rows < 1:
        return []
    sheet = _Fitted(scene, Grid(columns, rows))
    for shape in scene.shapes:
        if isinstance(shape, Box):
            sheet.box(shape)
        elif isinstance(shape, Stroke):
            sheet.stroke(shape)
    labels = [shape for shape in scene.shapes if isinstance(shape, Words)]
    for label in sorted(labels, key=lambda label: label.pen != "picked"):
        sheet.label(label)
    return sheet.grid.lines()


class _Fitted:
    """A grid that takes lengths."""

    def __init__(self, scene: Scene, grid: Grid) -> None:
        self.scene = scene
        self.grid = grid

    def column(self, x: Length) -> int:
        return _cell(x / self.scene.width, self.grid.columns)

    def row(self, y: Length) -> int:
        return row_of(self.scene, y, self.grid.rows)

    def box(self, box: Box) -> None:
        left, right = self.column(box.x), self.column(box.x + box.width)
        top, bottom = self.row(box.y), self.row(box.y + box.height)
        if box.fill == "hatched":
            self.grid.hatch(range(top, bottom + 1), range(left, right + 1))
        for row in {top, bottom}:
            self.grid.across(row, left, right, box.pen)
        for column in {left, right}:
            self.grid.down(column, top, bottom, box.pen)

    def stroke(self, stroke: Stroke) -> None:
        columns = sorted((self.column(stroke.x1), self.column(stroke.x2)))
        rows = sorted((self.row(stroke.y1), self.row(stroke.y2)))
        if stroke.pen == "picked" and (columns[0], rows[0]) == (columns[1], rows[1]):
            # What is asked for is never too short to be seen.
            self.grid.mark(rows[0], columns[0], UP | DOWN if stroke.x1 == stroke.x2 else LEFT | RIGHT, stroke.pen)
        elif columns[0] == columns[1]:
            self.grid.down(columns[0], rows[0], rows[1], stroke.pen)
            self._tips(stroke, (rows[0], columns[0], UP), (rows[1], columns[0], DOWN), rows[1] - rows[0])
        elif rows[0] == rows[1]:
            self.grid.across(rows[0], columns[0], columns[1], stroke.pen)
            self._tips(stroke, (rows[0], columns[0], LEFT), (rows[0], columns[1], RIGHT), columns[1] - columns[0])
        else:
            self._slope(stroke, columns)

    def _tips(self, stroke: Stroke, first: tuple[int, int, int], last: tuple[int, int, int], size: int) -> None:
        if stroke.tips == "none" or size == 0 or (stroke.pen == "picked" and size < ROOM_FOR_TIPS):
            return
        backwards = (stroke.x2, stroke.y2) < (stroke.x1, stroke.y1)
        for tip in (first, last) if stroke.tips == "both" else (first if backwards else last,):
            self.grid.tip(*tip)

    def _slope(self, stroke: Stroke, columns: list[int]) -> None:
        """A sloping line as level pieces, each in the nearest row."""
        first, last = self.column(stroke.x1), self.column(stroke.x2)
        for column in range(columns[0], columns[1] + 1):
            part = Fraction(column - first, last - first)
            row = self.row(stroke.y1 + (stroke.y2 - stroke.y1) * part)
            self.grid.mark(row, column, LEFT | RIGHT, stroke.pen)

    def label(self, label: Words) -> None:
        row, column = self.row(label.y), self.column(label.x)
        for text in (label.text, *label.shorter, label.short):
            over = label.pen == "picked"
            if text and self.grid.write(row, column, text, label.anchor, over=over, stays=label.stays):
                return


def row_of(scene: Scene, y: Length, rows: int) -> int:
    """The line that height `y` of the scene comes to lie in, from 0, when it is drawn in `rows` lines."""
    return _cell(y / scene.height, rows)


def _cell(part: Fraction, count: int) -> int:
    """The cell that `part` of the way falls in; the ends are the middles of the first and the last cell."""
    return max(0, min(count - 1, (part * (count - 1) + Fraction(1, 2)).__floor__()))
