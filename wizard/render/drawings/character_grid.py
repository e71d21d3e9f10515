"""A field of character cells that lines and labels are drawn into; lines that meet make joints."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import product
from typing import Final

from wizard.render.plain_text import cell_len, clipped, literal

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
HATCH: Final = "░"
"""What an offcut is filled with."""


ACROSS = LEFT | RIGHT
SHIFTS = (0, 1, -1, 2, -2)
"""How far a label may move to fit, nearest first, in rows and in columns."""


def _places(ups: tuple[int, ...]) -> tuple[tuple[int, int, int, int], ...]:
    """Places for a label, the nearest first: how far away, which one of alike ones comes first, rows up, columns aside.
    A row counts as three columns."""
    numbered = enumerate(product(ups, SHIFTS))
    return tuple(sorted((3 * abs(up) + abs(aside), number, up, aside) for number, (up, aside) in numbered))


AROUND = _places(SHIFTS)
LEVEL = _places(SHIFTS[:1])


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

    def tip(self, row: int, column: int, direction: int) -> None:
        """An arrow tip pointing in `direction`."""
        self.at(row, column).tip = TIPS[direction]

    def hatch(self, rows: range, columns: range) -> None:
        """Fill cells with hatching."""
        for row, column in product(rows, columns):
            self.at(row, column).hatched = True

    def write(self, row: int, column: int, text: str, anchor: str, *, over: bool, stays: bool) -> bool:
        """Put a label at or near a cell; False when it does not fit.

        `over`: it may cover lines that run down. `stays`: it keeps to its row.
        """
        text = clipped(literal(text), self.columns)
        size = cell_len(text)
        home = column - {"start": 0, "middle": size // 2, "end": size - 1}[anchor]
        best = _NEVER, _NEVER, 0, 0
        for away, number, up, aside in LEVEL if stays else AROUND:
            if away > best[0]:
                break
            if self._open(row, home + size // 2, up, aside):
                cost = self._cost(row + up, home + aside, size, over) + away
                best = min(best, (cost, number, row + up, home + aside))
        if best[0] >= _NEVER:
            return False
        self.put(best[2], best[3], text)
        return True

    def _open(self, row: int, middle: int, up: int, aside: int) -> bool:
        """No line is crossed on the way from a label's own place to another; its own place may be on one."""
        upright = (self._lines(each, middle) & ACROSS for each in _steps(row, up))
        sideways = (self._lines(row + up, each) & (UP | DOWN) for each in _steps(middle, aside))
        return not any(upright) and not any(sideways)

    def _lines(self, row: int, column: int) -> int:
        cell = self.cells.get((row, column))
        return 0 if cell is None else cell.lines

    def _cost(self, row: int, start: int, size: int, over: bool) -> int:
        """What a label covers there: nothing is free, lines along it cost a little, other labels are never covered."""
        if not 0 <= row < self.rows or start < 0 or start + size > self.columns or size == 0:
            return _NEVER
        beside = self._held(row, start - 1, start + size + 1)
        if any(cell.letter is not None for cell in beside):
            return _NEVER
        covered = self._held(row, start, start + size)
        if any(cell.tip or cell.lines & (UP | DOWN) for cell in covered):
            return 12 if over else _NEVER
        return 2 if any(cell.lines for cell in covered) else 0

    def _held(self, row: int, start: int, end: int) -> list[Cell]:
        """The cells of a row from one column up to another that anything is in."""
        found = (self.cells.get((row, column)) for column in range(start, end))
        return [cell for cell in found if cell is not None]

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


def _steps(start: int, by: int) -> range:
    """Every place on the way from `start`, itself left out, to `start + by`."""
    step = 1 if by > 0 else -1
    return range(start + step, start + by + step, step) if by else range(0)


_NEVER = 10_000
