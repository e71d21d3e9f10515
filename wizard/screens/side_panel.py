"""So far: the plan beside the questions. Enter on a figure asks why."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content
from textual.message import Message
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from wizard.screens.glyphs import CHANGED
from wizard.screens.lines import Lines
from wizard.screens.literal import cut_to, filled, plain
from wizard.screens.so_far import Row

LABEL = 11
"""Columns for the labels, so that the values stand in line."""


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

    def tell(self, rows: Sequence[Row]) -> None:
        """Show `rows`; the line in hand stays on its figure, and a changed figure is scrolled into sight."""
        if rows == self.rows:
            return
        self.rows = rows
        in_hand = self.figure_in_hand()
        self.figures = [each.figure for each in rows]
        with self.prevent(OptionList.OptionHighlighted):
            self.set_options(Option(_line(each), disabled=each.figure is None) for each in rows)
            wanted = next((each.figure for each in rows if each.changed), None)
            for figure in (in_hand if self.has_focus else None, wanted):
                if figure is not None and figure in self.figures:
                    self.highlighted = self.figures.index(figure)
                    break

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Enter, or a click."""
        event.stop()
        figure = self.figures[event.option_index]
        if figure is not None:
            self.post_message(self.Asked(figure))

    def figure_in_hand(self) -> str | None:
        """Id of the figure of the line in hand."""
        return None if self.highlighted is None else self.figures[self.highlighted]


def _line(row: Row) -> Content:
    if not row.label.startswith(" "):
        value = Content.styled(f"  {plain(row.value)}", "$quiet") if row.value else ""
        return Content.assemble((plain(row.label), "bold"), value)
    label = Content.styled(filled(cut_to(row.label, LABEL - 1), LABEL), "$quiet")
    value = Content.styled(plain(row.value or ""), "bold $accent" if row.changed else "")
    mark = Content.styled(f" {CHANGED}", "bold $accent") if row.changed else Content("")
    was = Content.styled(f"\n{' ' * LABEL}was {plain(row.was)}", "$quiet") if row.was else Content("")
    return Content.assemble(label, value, mark, was)
