"""The plan so far, beside the questions: the figures that matter. Enter on a figure asks why."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from wizard.render.plain_text import NO_BREAK_SPACE, cell_len
from wizard.render.plan_rows import Row
from wizard.screens.option_lists import LineList
from wizard.screens.screen_text import CHANGED, in_lines, plain
from wizard.trade.field_names import first_up

LABEL = 13
"""Least columns of the labels, so that most values are aligned."""


def line_of(row: Row, columns: int) -> Content:
    """A row, as high as it needs: a label that leaves its value too little space is above it."""
    if not row.label:
        value = Content.styled(f"  {row.value}", "$quiet") if row.value else ""
        return Content.assemble((plain(first_up(row.group)), "bold"), value)
    value = f"{plain(row.value)}{f'{NO_BREAK_SPACE}{CHANGED}' if row.changed else ''}"
    label, begin = f"  {plain(row.label)}", max(LABEL, cell_len(row.label) + 3)
    if begin > LABEL and begin + cell_len(value) > columns:
        label, begin = f"\n{UNDER}".join(in_lines(plain(row.label), columns - len(UNDER))), len(UNDER) + 2
        label = f"  {label}\n{' ' * begin}"
    told = Content.styled(_going_on(value, begin, columns), "bold $accent" if row.changed else "")
    was = f"\n{' ' * begin}{_going_on(f'was {plain(row.was)}', begin, columns)}" if row.was else ""
    return Content.assemble((label.ljust(begin), "$quiet"), told, (was, "$quiet"))


UNDER = "    "
"""Before what goes on under a label."""


def _going_on(text: str, begin: int, columns: int) -> str:
    """`text` from the column `begin` on, and from there again where it is longer than its place."""
    return f"\n{' ' * begin}".join(in_lines(text, columns - begin))


USUAL = 28
"""Columns of its lines until its place is known."""


class SidePanel(LineList):
    """The figures, changed ones marked. Headings cannot be selected."""

    def __init__(self, id: str) -> None:
        super().__init__(id=id, markup=False)
        self.rows: Sequence[Row] = ()
        self.columns = USUAL

    def tell(self, rows: Sequence[Row]) -> None:
        """Show `rows`. The selected line stays on its figure. The panel scrolls only where the first change would be
        out of sight."""
        if rows == self.rows:
            return
        in_hand, self.rows = self.figure_in_hand() if self.has_focus else None, rows
        wanted = [place for place, each in enumerate(rows) if in_hand and each.figure == in_hand]
        wanted += [place for place, each in enumerate(rows) if each.changed]
        self._write(wanted[0] if wanted else None)

    def on_resize(self) -> None:
        """Laid out for another width."""
        # The bar that scrolls comes and goes: its column is left free.
        columns = self.size.width - 1 - self.get_component_styles("option-list--option").padding.width
        if columns > 0 and columns != self.columns:
            self.columns = columns
            self._write(self.highlighted)

    def figure_in_hand(self) -> str | None:
        """Id of the figure of the selected line."""
        return None if self.highlighted is None else self.rows[self.highlighted].figure

    def _write(self, in_hand: int | None) -> None:
        """Lay the rows out, with one selected."""
        top = self.scroll_offset.y
        with self.prevent(OptionList.OptionHighlighted):
            self.set_options(Option(line_of(each, self.columns), disabled=each.figure is None) for each in self.rows)
            self.scroll_to(y=top, animate=False, force=True, immediate=True)
            self.highlighted = in_hand
