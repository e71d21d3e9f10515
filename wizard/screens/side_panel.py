"""So far: the plan beside the questions. Enter on a figure asks why."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate

from textual.message import Message
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from wizard.screens.lines import Lines
from wizard.screens.panel_lines import lines_of
from wizard.screens.so_far import Row

USUAL = 28
"""Columns of its lines until its place is known."""


class SidePanel(Lines):
    """The figures, changed ones marked. Headings cannot be stood on."""

    class Asked(Message):
        """Why is this figure what it is?"""

        def __init__(self, figure: str) -> None:
            super().__init__()
            self.figure = figure

    def __init__(self, id: str) -> None:
        super().__init__(id=id, markup=False)
        self.figures: list[str | None] = []
        self.rows: Sequence[Row] = ()
        self.columns = USUAL
        self.brought: tuple[int, int] | None = None
        """From where it was scrolled to show a change, and to where; None when it was not."""

    def tell(self, rows: Sequence[Row]) -> None:
        """Show `rows`. The line in hand stays on its figure; the rest stays in its place unless all that changed would
        be out of sight: then the first of it is scrolled into sight."""
        if rows == self.rows:
            return
        in_hand = self.figure_in_hand() if self.has_focus else None
        self.rows, self.figures = rows, [each.figure for each in rows]
        self._write(self.figures.index(in_hand) if in_hand in self.figures and in_hand is not None else None)

    def on_resize(self) -> None:
        """Laid out for another width."""
        # The bar that scrolls comes and goes: its column is left free.
        columns = self.size.width - 1 - self.get_component_styles("option-list--option").padding.width
        if columns > 0 and columns != self.columns:
            self.columns = columns
            self._write(self.highlighted)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Enter, or a click."""
        event.stop()
        figure = self.figures[event.option_index]
        if figure is not None:
            self.post_message(self.Asked(figure))

    def figure_in_hand(self) -> str | None:
        """Id of the figure of the line in hand."""
        return None if self.highlighted is None else self.figures[self.highlighted]

    def _write(self, in_hand: int | None) -> None:
        """Lay the rows out and stand on one of them: the one in hand, else one that changed."""
        lines = list(lines_of(self.rows, self.columns))
        top = self._own_top()
        with self.prevent(OptionList.OptionHighlighted):
            self.set_options(
                Option(line, disabled=row.figure is None) for line, row in zip(lines, self.rows, strict=True)
            )
            self.scroll_to(y=top, animate=False, force=True, immediate=True)
            top = self.scroll_offset.y
            ends = list(accumulate(each.plain.count("\n") + 1 for each in lines))
            self.highlighted = self._changed(ends, top) if in_hand is None else in_hand
        self.brought = None if self.scroll_offset.y == top else (top, self.scroll_offset.y)

    def _own_top(self) -> int:
        """The line it is scrolled to, or was before it was scrolled to show a change."""
        now = self.scroll_offset.y
        return self.brought[0] if self.brought is not None and self.brought[1] == now else now

    def _changed(self, ends: Sequence[int], top: int) -> int | None:
        """The first changed row in sight, else the first of all; `ends`: the line behind each row."""
        changed = [place for place, each in enumerate(self.rows) if each.changed]
        begins = [0, *ends]
        in_sight = (each for each in changed if begins[each] >= top and ends[each] <= top + self.size.height)
        return next(in_sight, next(iter(changed), None))
