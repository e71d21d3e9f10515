"""Slots on a drawing: the cells in which lengths are typed, each beside the line that it measures."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from itertools import product
from typing import Final

from msgspec import Struct

from wizard.render.drawings.character_grid import DOWN, LEFT, RIGHT, UP, Grid
from wizard.render.drawings.scene import Anchor
from wizard.render.plain_text import cell_len

WIDTH: Final = 12
"""Cells inside the brackets: the longest length that a tape reads."""
BRACKETED: Final = WIDTH + 2
MARKS: Final = "»", "«"
"""Around the slot in hand."""
UPRIGHT_COST, LEVEL_COST, MARK_COST, JUMP_COST = 5, 2, 1, 20
"""What it costs to cover a line that runs down or one that runs along, to stand against a line, or to be on the far
side of a line."""
WORDS_WORTH, FAR = 8, 20
"""What it may cost to keep the words; and to have a slot at all, but for the one in hand."""
_NEVER: Final = 10_000
_AROUND: Final = sorted(
    (3 * abs(down) + abs(aside), abs(down), down, aside) for down, aside in product(range(-12, 13), range(-40, 41))
)
"""Places for a slot, the nearest first: how far away, rows down, columns aside. A row counts as three columns."""


class Slot(Struct, frozen=True):
    """Where the text of one length is typed."""

    key: str
    row: int
    """From 0, as the lines of the drawing."""
    column: int
    """Of the first cell inside the brackets."""
    width: int


class Wanted(Struct, frozen=True):
    """A slot to be placed: its own place in cells."""

    key: str
    row: int
    column: int
    anchor: Anchor
    words: str


class Slots:
    """Places slots on a grid on which all lines are drawn already."""

    def __init__(self, grid: Grid) -> None:
        self.grid = grid
        self.upright = self._mask(lambda cell: cell.pen != "fine" and bool(cell.lines & (UP | DOWN)))
        self.level = self._mask(lambda cell: cell.pen != "fine" and bool(cell.lines & (LEFT | RIGHT)))
        """Fine lines only help: a slot may be anywhere on them."""
        self.solid = self._mask(lambda cell: cell.pen == "heavy" and bool(cell.lines))
        self.kept = self._mask(lambda cell: bool(cell.tip) or (cell.pen == "picked" and bool(cell.lines & (UP | DOWN))))
        """Tips, and the upright line in hand: never covered."""
        self.taken = [0] * grid.rows

    def _mask(self, holds: Callable[..., bool]) -> list[int]:
        """Row -> a bit for each cell, from the left, for which it holds."""
        rows = [0] * self.grid.rows
        for (row, column), cell in self.grid.cells.items():
            if holds(cell):
                rows[row] |= 1 << column
        return rows

    def placed(self, wanted: Iterable[Wanted], in_hand: str) -> tuple[Slot, ...]:
        """Brackets on the grid, and their slots in the order wanted, without those for which there is no space.

        All keep their places from field to field while they fit; where the one in hand does not, it comes first and may
        cover other lines.
        """
        wanted = tuple(wanted)
        places = {each.key: place for each in wanted if (place := self._place(each, over=False)) is not None}
        first = next((each for each in wanted if each.key == in_hand and in_hand not in places), None)
        if first is not None:
            self.taken = [0] * self.grid.rows
            ordered = sorted(wanted, key=lambda each: each is not first)
            found = ((each.key, self._place(each, over=each is first)) for each in ordered)
            places = {key: place for key, place in found if place is not None}
        for each in wanted:
            if each.key in places:
                self._write(*places[each.key], in_hand=each.key == in_hand)
        return tuple(
            Slot(each.key, row, column + cell_len(words) + 1, WIDTH)
            for each in wanted
            if each.key in places
            for row, column, words in (places[each.key],)
        )

    def _place(self, wanted: Wanted, *, over: bool) -> tuple[int, int, str] | None:
        """Row and column of the slot with its words, now taken; None where it fits nowhere."""
        for words, limit in ((f"{wanted.words} ", WORDS_WORTH), ("", _NEVER if over else FAR)):
            size = cell_len(words) + BRACKETED
            home = wanted.column - {"start": 0, "middle": size // 2, "end": size - 1}[wanted.anchor]
            cost, row, column = self._best(wanted, home, size, limit, over)
            if cost < limit and (wanted.words or not words):
                self.taken[row] |= _span(column, size)
                return row, column, words
        return None

    def _best(self, wanted: Wanted, home: int, size: int, limit: int, over: bool) -> tuple[int, int, int]:
        """Cost, row and column of the best place that costs less than `limit`; the limit itself where there is none."""
        best, starts = (limit, 0, 0), [self._starts(row, size, over) for row in range(self.grid.rows)]
        for away, _, down, aside in _AROUND:
            if away >= best[0]:
                break
            row, column = wanted.row + down, home + aside
            if 0 <= row < self.grid.rows and column >= 0 and starts[row] >> column & 1:
                cost = away + self._covered(row, column, size)
                if cost < best[0]:
                    best = min(best, (cost + self._jumped(wanted, row, column, size), row, column))
        return best

    def _starts(self, row: int, size: int, over: bool) -> int:
        """A bit for each column of a row from which that many cells may be covered."""
        taken, whole = self.taken[row], _span(0, self.grid.columns)
        covered = self.kept[row] | (0 if over else self.upright[row] | self.solid[row])
        free = whole & ~(taken | taken << 1 | taken >> 1 | covered)
        done = 1
        while done < size:
            step = min(done, size - done)
            free, done = free & free >> step, done + step
        return free

    def _covered(self, row: int, column: int, size: int) -> int:
        here, beside = _span(column, size), _span(column - 1, size + 2)
        lines = (self.upright[row] | self.solid[row]) & here
        cost = UPRIGHT_COST * lines.bit_count() + MARK_COST * (self.upright[row] & (beside ^ here)).bit_count()
        return cost + (LEVEL_COST if self.level[row] & here else 0)

    def _jumped(self, wanted: Wanted, row: int, column: int, size: int) -> int:
        """What lies between a slot and its own place: with lines there one would take it for another length's."""
        last = column + size - 1
        start, end = (wanted.column, column - 1) if column > wanted.column else (last + 1, wanted.column)
        aside = (self.upright[row] & _span(start, end - start + 1)).bit_count() if start <= end else 0
        rows = range(min(row, wanted.row) + 1, max(row, wanted.row))
        down = sum(self.level[each] >> wanted.column & 1 for each in rows)
        return JUMP_COST * (max(aside - 1, 0) + down)

    def _write(self, row: int, column: int, words: str, *, in_hand: bool) -> None:
        self.grid.put(row, column, f"{words}[{' ' * WIDTH}]")
        if in_hand:
            start = column + cell_len(words)
            for mark, at in zip(MARKS, (start - 1, start + BRACKETED), strict=True):
                if 0 <= at < self.grid.columns and not self.upright[row] >> at & 1:
                    self.grid.put(row, at, mark)


def _span(start: int, size: int) -> int:
    return ((1 << size) - 1) << start if start >= 0 else ((1 << (size + start)) - 1)
