"""The plan so far in one line, under the page."""

from __future__ import annotations

from textual.content import Content
from textual.widgets import Static

from wizard.render.plain_text import cell_len
from wizard.screens.screen_text import cut_to
from wizard.trade.first_figures import line_text, plan_line
from wizard.trade.plan_records import Plan


class PlanLine(Static):
    """The line, with the key that says why."""

    def __init__(self) -> None:
        super().__init__(id="plan-line")
        self.line, self.key = "", ""

    def tell(self, plan: Plan, section: str | None, key: str, *, chosen: bool) -> None:
        """Show a plan. `section`: the one named first; `chosen`: the allowances were looked at."""
        self.line, self.key = line_text(plan_line(plan, section, chosen=chosen)), key
        self.on_resize()

    def on_resize(self) -> None:
        """Cut for the width there is; what it is of goes first."""
        why, named = f"  {self.key} why", f"Plan so far: {self.line}"
        space = max(self.size.width - cell_len(why), 10)
        text = cut_to(named if cell_len(named) <= space else self.line, space)
        gap = " " * max(self.size.width - cell_len(text) - cell_len(why), 0)
        self.update(Content.assemble(text, gap, (why, "$quiet")) if self.line else Content(""))
