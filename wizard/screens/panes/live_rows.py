"""A table to choose from, as fullness steps and ways of cutting are: its rows in lines of a width."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from textual.content import Content

from wizard.render.plain_text import cell_len
from wizard.screens.screen_text import plain
from wizard.trade.field_names import first_up
from wizard.trade.plan_records import Offer, Offers

GAP: Final = 2
"""Blanks between columns."""
EDGE: Final = 2
"""Columns of the signs before and behind the selected row."""


class Columns:
    """A table in lines of a width. What does not fit in a row is said of the selected one."""

    def __init__(self, offers: Offers, columns: int) -> None:
        table = list(zip(offers.heads, *(each.cells for each in offers.rows), strict=True))
        self.head_words = offers.heads
        self.widths = [max(map(cell_len, column)) for column in table]
        filled = [number for number, column in enumerate(table) if any(column[1:])]
        space = columns - EDGE * 2 - max((cell_len(state_words(each)) for each in offers.rows), default=0)
        # The first columns that fit beside the longest state.
        self.shown = [each for each in filled if sum(self.widths[one] + GAP for one in filled if one <= each) <= space]
        self.left_out = [each for each in filled if each not in self.shown]
        self.space = columns - EDGE * 2 - sum(self.widths[each] + GAP for each in self.shown)
        """Columns for the words at the end of a row."""

    def heads(self) -> Content:
        """The headings."""
        return Content.styled(f"{' ' * EDGE}{self._cells(self.head_words)}", "$quiet")

    def line(self, row: Offer, *, in_hand: bool) -> Content:
        """A row; the selected one (`in_hand`) between two signs."""
        before, behind = ("» ", " «") if in_hand else ("  ", "")
        tail = tail_words(row) if self._fits(row) else state_words(row)
        style = "$accent" if row.in_use or row.recommended else "$quiet"
        return Content.assemble(
            before, (self._cells(row.cells), "bold" if in_hand else ""), (f"{' ' * GAP}{plain(tail)}", style), behind
        )

    def hidden(self, row: Offer) -> str:
        """What does not fit in a row, in a sentence; nothing where all does."""
        cells = [f"{self.head_words[each]} {row.cells[each]}" for each in self.left_out]
        words = ", ".join((*cells, *([row.note] if row.note and not self._fits(row) else [])))
        return f"{first_up(words)}." if words else ""

    def _fits(self, row: Offer) -> bool:
        return cell_len(tail_words(row)) <= self.space

    def _cells(self, cells: Sequence[str]) -> str:
        blanks = {each: " " * (self.widths[each] - cell_len(cells[each])) for each in self.shown}
        return (" " * GAP).join(
            blanks[each] + cells[each] if each else cells[each] + blanks[each] for each in self.shown
        )


def state_words(row: Offer) -> str:
    """`in use, recommended`."""
    states = {"in use": row.in_use, "recommended": row.recommended}
    return ", ".join(each for each, holds in states.items() if holds)


def tail_words(row: Offer) -> str:
    """The same, and what is noted of the row."""
    return ": ".join(each for each in (state_words(row), row.note) if each)
