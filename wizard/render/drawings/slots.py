"""Slots on a drawing: the cells in which lengths are typed, each beside the line that it measures."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from wizard.render.drawings.character_grid import Grid
from wizard.render.drawings.placing import Fit, Space, places_within
from wizard.render.drawings.scene import Label
from wizard.render.plain_text import cell_len

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
