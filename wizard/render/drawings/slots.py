"""Slots on a drawing: the cells in which lengths are typed, each beside the line that it measures."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from wizard.render.drawings.character_grid import Grid
from wizard.render.drawings.placing import Fit, Space, places_within
from wizard.render.drawings.scene import Anchor
from wizard.render.plain_text import cell_len

WIDTH: Final = 12
"""Cells inside the brackets: the longest length that a tape reads."""
BRACKETED: Final = WIDTH + 2
MARKS: Final = "»", "«"
"""Around the slot in hand."""
SLOT: Final = Fit(places_within(range(-12, 13), range(-40, 41)), limit=20, jump=20, beside=1, own=1)
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


class Wanted(Struct, frozen=True):
    """A slot to be placed: its own place in cells, and the words before it where both fit."""

    key: str
    row: int
    column: int
    anchor: Anchor
    words: str


Placed = dict[str, tuple[int, int, str]]
"""Key -> row and column of its words and brackets, and the words."""


def put_slots(grid: Grid, wanted: Iterable[Wanted], in_hand: str) -> tuple[Slot, ...]:
    """Brackets on the grid, and their slots in the order wanted, without those for which there is no space.

    All keep their places from field to field while they fit; where the one in hand does not, it comes first and may
    cover other lines.
    """
    wanted = tuple(wanted)
    placed = _placed(grid, wanted, "")
    if in_hand not in placed:
        placed = _placed(grid, sorted(wanted, key=lambda each: each.key != in_hand), in_hand)
    return tuple(_put(grid, each.key, *placed[each.key], each.key == in_hand) for each in wanted if each.key in placed)


def _placed(grid: Grid, wanted: Iterable[Wanted], first: str) -> Placed:
    space, placed = Space(grid, slots=True), Placed()
    for each in wanted:
        bare = "", IN_HAND if each.key == first else SLOT
        for words, fit in ((f"{each.words} ", WITH_WORDS), bare) if each.words else (bare,):
            place = space.place(each.row, each.column, each.anchor, cell_len(words) + BRACKETED, fit)
            if place is not None:
                placed[each.key] = *place, words
                break
    return placed


def _put(grid: Grid, key: str, row: int, column: int, words: str, in_hand: bool) -> Slot:
    grid.put(row, column, f"{words}[{' ' * WIDTH}]")
    slot = Slot(key, row, column + cell_len(words) + 1)
    for mark, at in zip(MARKS, (slot.column - 2, slot.column + WIDTH + 1), strict=True):
        if in_hand and 0 <= at < grid.columns and not grid.runs_down(row, at):
            grid.put(row, at, mark)
    return slot
