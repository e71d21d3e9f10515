"""Where words fit on a grid on which all lines are drawn, and the slots in which lengths are typed beside them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from wizard.render.drawings.character_grid import DOWN, LEFT, RIGHT, UP, Cell, Grid
from wizard.render.drawings.scene import Anchor, Label
from wizard.render.plain_text import cell_len

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
        column = column if fit.by_line else max(home + size // 2, 0)
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


WIDTH: Final = 12
"""Cells inside the brackets: the longest length that a tape reads."""
BRACKETED: Final = WIDTH + 2
MARKS: Final = "»", "«"
"""Around the slot in hand."""
SLOT: Final = Fit(places_within(range(-12, 13), range(-40, 41)), limit=20, jump=20, beside=1, by_line=True)
WITH_WORDS: Final = replace(SLOT, limit=8)
IN_HAND: Final = replace(SLOT, limit=10_000, cover=5)
"""It is always there, in front of other lines where need be."""


class Slot(Struct, frozen=True):
    """Where the text of one length is typed."""

    key: str
    row: int
    """From 0, as the lines of the drawing."""
    column: int
    """Of the first cell inside the brackets."""
    width: int = WIDTH


Wanted = tuple[Label, int, int]
"""A label that becomes a slot, and its own row and column."""
Placed = dict[str, tuple[int, int, str]]
"""Key -> row and column of its words and brackets, and the words."""


def put_slots(grid: Grid, wanted: Sequence[Wanted], in_hand: str) -> tuple[Slot, ...]:
    """Brackets on the grid, and their slots in the order wanted, without those for which there is no space.

    All keep their places from field to field while they fit; where the one in hand does not, it comes first and may
    cover other lines.
    """
    placed = _placed(grid, wanted, "")
    if in_hand not in placed:
        placed = _placed(grid, sorted(wanted, key=lambda each: each[0].key != in_hand), in_hand)
    keys = (label.key for label, *_ in wanted if label.key in placed)
    return tuple(_put(grid, key, *placed[key], in_hand=key == in_hand) for key in keys)


def _placed(grid: Grid, wanted: Sequence[Wanted], first: str) -> Placed:
    space, placed = Space(grid, slots=True), Placed()
    for each, row, column in wanted:
        bare = "", IN_HAND if each.key == first else SLOT
        for words, fit in ((f"{each.words} ", WITH_WORDS), bare) if each.words else (bare,):
            place = space.place(row, column, each.anchor, cell_len(words) + BRACKETED, fit)
            if place is not None:
                placed[each.key] = *place, words
                break
    return placed


def _put(grid: Grid, key: str, row: int, column: int, words: str, *, in_hand: bool) -> Slot:
    grid.put(row, column, f"{words}[{' ' * WIDTH}]")
    slot = Slot(key, row, column + cell_len(words) + 1)
    for mark, at in zip(MARKS, (slot.column - 2, slot.column + WIDTH + 1), strict=True):
        if in_hand and 0 <= at < grid.columns and not grid.runs_down(row, at):
            grid.put(row, at, mark)
    return slot
