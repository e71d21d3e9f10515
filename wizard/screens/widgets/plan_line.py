"""The plan so far in one line, under the page where there is no room beside it."""

from __future__ import annotations

from textual.content import Content
from textual.geometry import Size
from textual.widgets import Static

from wizard.render.plain_text import cell_len
from wizard.screens.figure_words import bought_words, figure_words, sold_by
from wizard.screens.screen_text import cut_to
from wizard.trade.plan_records import Plan


def plan_line(plan: Plan, section: str = "") -> str:
    """`left side 12 3/4 in long, 11 widths, 5 1/4 yd to buy`; empty while nothing is known. `section`: the one asked
    about, whose cut length comes first; without one, the longest."""
    parts: list[str] = []
    for layer in plan.layers[:1]:
        known = {id: each for id, each in layer.cut_lengths.items() if each.value is not None}
        here = [each for id, each in known.items() if id.partition("/")[0] == section]
        if here or known:
            longest = max(here or known.values(), key=lambda each: each.value)
            name = next((each.name for each in plan.parts if each.section == section), "") if here else "longest piece"
            parts.append(f"{name} {figure_words(longest, plan)} long")
        if layer.cutting is not None:
            parts.append(f"{sum(each.rows for each in layer.cutting.best.uses)} widths")
    buying = [each for each in plan.layers if each.buy.value is not None]
    parts += [f"{each.name} {bought_words(each.buy, sold_by(plan, each.id))} to buy" for each in buying]
    return ", ".join(parts)


class PlanLine(Static):
    """The line, with the key that says why."""

    def __init__(self) -> None:
        super().__init__(id="plan-line")
        self.told = ("", "")

    def tell(self, line: str, key: str) -> None:
        """Show the plan so far; nothing for an empty line."""
        self.told = line, key
        self._write(self.size)

    def on_resize(self) -> None:
        """Cut for the new width."""
        self._write(self.size)

    def _write(self, size: Size) -> None:
        line, key = self.told
        why = f"  {key} why"
        text = cut_to(f"Plan so far: {line}", max(size.width - cell_len(why), 10))
        gap = " " * max(size.width - cell_len(text) - cell_len(why), 0)
        self.update(Content.assemble(text, gap, (why, "$quiet")) if line else Content(""))
