"""Where words fit on a grid on which all lines are drawn already."""

from __future__ import annotations

from itertools import product
from typing import Final

from msgspec import Struct

from wizard.render.drawings.character_grid import DOWN, LEFT, RIGHT, UP, Cell, Grid
from wizard.render.drawings.scene import Anchor

NEVER: Final = 10_000
LEVEL: Final = 2
"""What it costs to cover a line that runs along."""


def places_within(downs: range, asides: range) -> tuple[tuple[int, int, int, int], ...]:
    """Ways off, the nearest first: how far, which one of alike ones comes first, rows down, columns aside. A row counts
    as three columns."""
    ways = enumerate(product(sorted(downs, key=_nearest), sorted(asides, key=_nearest)))
    return tuple(sorted((3 * abs(down) + abs(aside), number, down, aside) for number, (down, aside) in ways))


def _nearest(by: int) -> tuple[int, bool]:
    return abs(by), by < 0


class Fit(Struct, frozen=True):
    """What words may do to fit."""

    places: tuple[tuple[int, int, int, int], ...] = places_within(range(-2, 3), range(-2, 3))
    limit: int = NEVER
    """They are left out where they cost as much."""
    cover: int = NEVER
    """What it costs to cover a line that runs down."""
    jump: int = NEVER
    """What it costs to be on the far side of a line, where they would be taken for something else's."""
    beside: int = 0
    """What it costs to touch a line that runs down."""
    by_line: bool = False
    """True where they belong to a line: anywhere along a level one is as good, and either side of an upright one."""


LABEL: Final = Fit()
ON_ITS_ROW: Final = Fit(places_within(range(1), range(-2, 3)))


class Space:
    """The lines of a grid, a bit for each cell of a row from the left; and what words have taken of it."""

    def __init__(self, grid: Grid, *, slots: bool = False) -> None:
        """For labels; or for slots, which may be anywhere on fine lines and never on the upright line in hand."""
        self.grid, self.slots = grid, slots
        self.upright, self.level, self.kept, self.taken = ([0] * grid.rows for _ in range(4))
        for (row, column), cell in grid.cells.items():
            self._count(row, 1 << column, cell)

    def _count(self, row: int, bit: int, cell: Cell) -> None:
        lines = 0 if self.slots and cell.pen == "fine" else cell.lines
        in_hand = self.slots and cell.pen == "picked" and lines & (UP | DOWN)
        self.upright[row] |= bit if lines & (UP | DOWN) else 0
        self.level[row] |= bit if lines & (LEFT | RIGHT) else 0
        self.kept[row] |= bit if cell.tip or in_hand else 0
        self.taken[row] |= bit if cell.letter is not None else 0

    def place(self, row: int, column: int, anchor: Anchor, size: int, fit: Fit) -> tuple[int, int] | None:
        """Row and first column of the best place near a cell for words that long, which is taken then."""
        home = column - {"start": 0, "middle": size // 2, "end": size - 1}[anchor]
        column = column if fit.by_line else home + size // 2
        best, starts = (fit.limit, 0, 0, 0), [self._starts(each, size, fit) for each in range(self.grid.rows)]
        for away, number, down, aside in fit.places:
            if away >= best[0]:
                break
            if 0 <= row + down < self.grid.rows and home + aside >= 0 and starts[row + down] >> (home + aside) & 1:
                cost = away + self._cost(row + down, home + aside, size, fit)
                own = _own(anchor, down, aside) if fit.by_line else 0
                cost += fit.jump * self._jumped((row, column), (row + down, home + aside), size, own)
                best = min(best, (cost, number, row + down, home + aside))
        if best[0] >= fit.limit:
            return None
        self.taken[best[2]] |= _span(best[3], size)
        return best[2], best[3]

    def _starts(self, row: int, size: int, fit: Fit) -> int:
        """A bit for each column from which that many cells may be covered."""
        taken = self.taken[row]
        covered = self.kept[row] | (self.upright[row] if fit.cover == NEVER else 0)
        free, done = _span(0, self.grid.columns) & ~(taken | taken << 1 | taken >> 1 | covered), 1
        while done < size:
            step = min(done, size - done)
            free, done = free & free >> step, done + step
        return free if size else 0

    def _cost(self, row: int, column: int, size: int, fit: Fit) -> int:
        here, around = _span(column, size), _span(column - 1, size + 2)
        crossed, touched = (self.upright[row] & each for each in (here, around ^ here))
        along = LEVEL if (self.level[row] | self.upright[row]) & here else 0
        return fit.cover * crossed.bit_count() + fit.beside * touched.bit_count() + along

    def _jumped(self, home: tuple[int, int], place: tuple[int, int], size: int, own: int) -> int:
        """How many lines are between words and the place they belong to."""
        (row, column), (to, start) = home, place
        left, right = min(column, start + size), max(column, start)
        aside = self.upright[to] & _span(left, right - left) & ~(_span(start, size) | 1 << column)
        rows = range(to, row) if to < row else range(row + 1, to + 1)
        return max(aside.bit_count() - own, 0) + sum(self.level[each] >> column & 1 for each in rows)


def _own(anchor: Anchor, down: int, aside: int) -> int:
    """How many lines words may jump that belong to a level line, or to one that runs down beside them."""
    if anchor == "middle":
        return 0 if down else NEVER
    return int((aside < 0) == (anchor == "start"))


def _span(start: int, size: int) -> int:
    """Bits of so many cells."""
    return ((1 << size) - 1) << start if start >= 0 else (1 << (size + start)) - 1
