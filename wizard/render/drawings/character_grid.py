"""A field of character cells that lines and labels are drawn into; lines that meet make joints."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import product
from typing import Final

from wizard.render.plain_text import cell_len

UP, DOWN, LEFT, RIGHT = 1, 2, 4, 8
"""Directions a line leaves a cell in; a cell holds their sum."""
CHARACTERS: Final = {
    "fine": " ┊┊┊┄┘┐┤┄└┌├┄┴┬┼",
    "line": " │││─┘┐┤─└┌├─┴┬┼",
    "heavy": " ┃┃┃━┛┓┫━┗┏┣━┻┳╋",
    "picked": " ║║║═╝╗╣═╚╔╠═╩╦╬",
}
"""Pen -> its character for each sum of directions; from the pen that yields to the one that stays where they meet."""
RANKS: Final = tuple(CHARACTERS)
TIPS: Final = {UP: "▲", DOWN: "▼", LEFT: "◄", RIGHT: "►"}
"""Arrow tips by the direction they point in."""
PICKED_TIPS: Final = {UP: "╦", DOWN: "╩", LEFT: "╠", RIGHT: "╣"}
"""Those of the picked pen, as double as its line."""
HATCH: Final = "░"
"""What an offcut is filled with."""


@dataclass(slots=True)
class Cell:
    """What is in one cell."""

    lines: int = 0
    rank: int = 0
    hatched: bool = False
    tip: str = ""
    letter: str | None = None
    """A letter with its marks; "" in the second cell of a wide one."""

    @property
    def pen(self) -> str:
        """The strongest pen of the lines in it."""
        return RANKS[self.rank]

    def shown(self) -> str:
        """The character to print: letters over tips over lines over hatching."""
        if self.letter is not None:
            return self.letter
        if self.tip or self.lines:
            return self.tip or CHARACTERS[self.pen][self.lines]
        return HATCH if self.hatched else " "


@dataclass
class Grid:
    """`rows` rows of `columns` cells, both at least one."""

    columns: int
    rows: int
    cells: dict[tuple[int, int], Cell] = field(default_factory=dict)
    """Those that anything is in, by row and column: most of a drawing is blank."""

    def lines(self) -> list[str]:
        """The rows as text, without trailing blanks."""
        shown = [[" "] * self.columns for _ in range(self.rows)]
        for (row, column), cell in self.cells.items():
            shown[row][column] = cell.shown()
        return ["".join(row).rstrip() for row in shown]

    def at(self, row: int, column: int) -> Cell:
        """The cell there, to put something in."""
        cell = self.cells.get((row, column))
        if cell is None:
            cell = self.cells[row, column] = Cell()
        return cell

    def mark(self, row: int, column: int, directions: int, pen: str) -> None:
        """Let a line leave a cell in `directions`; the stronger pen decides what is drawn there, and the picked one
        is over all tips."""
        cell = self.at(row, column)
        cell.lines |= directions
        cell.rank = max(cell.rank, RANKS.index(pen))
        if pen == "picked":
            cell.tip = ""

    def line(self, rows: Sequence[int], columns: Sequence[int], pen: str) -> None:
        """A level or upright line, from the first to the last of its rows and of its columns."""
        (top, bottom), (left, right) = rows, columns
        for row, column in product(range(top, bottom + 1), range(left, right + 1)):
            upright = (UP if row > top else 0) | (DOWN if row < bottom else 0)
            self.mark(row, column, upright | (LEFT if column > left else 0) | (RIGHT if column < right else 0), pen)

    def tip(self, row: int, column: int, direction: int, pen: str) -> None:
        """An arrow tip pointing in `direction`."""
        self.at(row, column).tip = (PICKED_TIPS if pen == "picked" else TIPS)[direction]

    def hatch(self, rows: range, columns: range) -> None:
        """Fill cells with hatching."""
        for row, column in product(rows, columns):
            self.at(row, column).hatched = True

    def runs_down(self, row: int, column: int) -> bool:
        """True where a line runs down through a cell."""
        cell = self.cells.get((row, column))
        return cell is not None and bool(cell.lines & (UP | DOWN))

    def put(self, row: int, column: int, text: str) -> None:
        """Write literal text from a cell on, over what is there."""
        for each in text:
            size = cell_len(each)
            if size == 0 and column > 0:
                before = self.at(row, column - 1)
                before.letter = (before.letter or "") + each
                continue
            for offset in range(size):
                self.at(row, column + offset).letter = each if offset == 0 else ""
            column += size
