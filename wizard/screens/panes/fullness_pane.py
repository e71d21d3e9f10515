"""The fullness steps as a chart to move along: the plan follows the selected step; nothing is saved until Enter."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import HorizontalGroup, Vertical, VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from wizard.render.figure_text import counted
from wizard.screens.dialogs.base_dialogs import plain_button
from wizard.screens.glyphs import DONE
from wizard.screens.panes.fullness_words import heads, lines_of, under
from wizard.screens.screen_text import plain
from wizard.screens.widgets.option_lists import LineList
from wizard.trade.fullness import MIDDLING, offered
from wizard.trade.fullness_offers import Row, finds_in_words, rows_of
from wizard.trade.fullness_steps import FullnessStep
from wizard.trade.plan_records import Plan


class StepChart(LineList):
    """The lines of the chart. Every arrow key moves along it."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "cursor_up", show=False),
        Binding("right", "cursor_down", show=False),
    ]

    def on_resize(self) -> None:
        """The step in hand stays in sight."""
        self.call_after_refresh(self.scroll_to_highlight)


class FullnessPane(Vertical):
    """The chart, its finds, and what the step in hand would make of the plan."""

    @dataclass
    class Moved(Message):
        """Another step is in hand."""

        row: Row

    @dataclass
    class Taken(Message):
        """The step in hand is the answer."""

        row: Row

    def __init__(self, id: str) -> None:
        super().__init__(id=id)
        self.plan: Plan | None = None
        self.shown: tuple[Row, ...] = ()
        self.tried: tuple[Row, Plan, bool] | None = None
        self.whole = False
        self.moved = False
        """True once one moved: until then the line in hand is the present one."""

    def compose(self) -> ComposeResult:
        """Heading, chart, what it says, buttons."""
        yield Static(id="chart-title")
        yield Static(id="chart-heads")
        yield StepChart(id="chart", markup=False)
        with VerticalScroll(id="chart-said", can_focus=False):
            yield Static(id="chart-under")
            yield Static(id="chart-finds")
        with HorizontalGroup(id="chart-buttons"):
            yield plain_button("Take it", "chart-take", "screen.step_next")
            yield plain_button("Leave it as it was", "chart-leave", "screen.step_back")

    @property
    def row(self) -> Row | None:
        """The row in hand."""
        at = self.query_one(StepChart).highlighted
        return None if at is None or at >= len(self.shown) else self.shown[at]

    def begin(self, plan: Plan) -> None:
        """Stand on the present place of `plan`, with no step worked yet."""
        self.moved, self.tried = False, None
        self.tell(plan, (), whole=False)
        self.query_one(StepChart).focus()

    def tell(self, plan: Plan, steps: Sequence[FullnessStep], *, whole: bool) -> None:
        """Show the steps found so far; the row in hand stays in hand. `whole`: there are no more."""
        held = self.row if self.moved else None
        self.plan, self.whole, self.shown = plan, whole, rows_of(plan, steps)
        chart = self.query_one(StepChart)
        with chart.prevent(OptionList.OptionHighlighted):
            chart.set_options(Option(each) for each in lines_of(self.shown, plan, self._columns))
            chart.highlighted = self._place(held)
        chart.scroll_to_highlight()
        self.query_one("#chart-title", Static).update(self._title())
        self.query_one("#chart-heads", Static).update(heads(self.shown, self._columns))
        self.query_one("#chart-finds", Static).update(_finds(plan, steps))

    def tell_under(self, row: Row, tried: Plan, *, brief: bool) -> None:
        """Show what the plan would be at `row`. `brief`: the plan so far is shown beside the chart."""
        self.tried = row, tried, brief
        self._write_under()

    def on_resize(self) -> None:
        """The bars are drawn for the new width."""
        if self.plan is not None:
            self.tell(self.plan, [each.step for each in self.shown if not each.now], whole=self.whole)
            self._write_under()

    def _write_under(self) -> None:
        if self.plan is not None and self.tried is not None:
            row, tried, brief = self.tried
            lines = under(row, tried, self.plan, self._columns, brief=brief)
            self.query_one("#chart-under", Static).update(Content("\n").join(lines))

    @property
    def _columns(self) -> int:
        return max(self.query_one(StepChart).scrollable_content_region.width, 30)

    def _place(self, held: Row | None) -> int | None:
        if held in self.shown:
            return self.shown.index(held)
        now = next((place for place, each in enumerate(self.shown) if each.now), None)
        if now is not None or not self.shown:
            return now
        usual = MIDDLING if self.plan is None else offered(self.plan.job)
        return min(range(len(self.shown)), key=lambda place: abs(self.shown[place].step.handy - usual))

    def _title(self) -> Content:
        now = any(each.now for each in self.shown)
        steps = counted(len(self.shown) - now, "step")
        state = steps if self.whole else f"{steps} so far…"
        keys = f"{f'{DONE} as it is now · ' if now else ''}arrows move · Enter takes"
        return Content.assemble(("How full, for each length of roll", "bold"), f"  {state}\n", (keys, "$quiet"))

    @on(OptionList.OptionHighlighted)
    def _moved(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        if self.row is not None:
            self.moved = True
            self.post_message(self.Moved(self.row))

    @on(OptionList.OptionSelected)
    def _taken(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        if self.row is not None:
            self.post_message(self.Taken(self.row))


def _finds(plan: Plan, steps: Sequence[FullnessStep]) -> Content:
    found = finds_in_words(plan, steps)
    lines = [Content.styled("Worth knowing", "bold"), *(Content(f"  {plain(each)}") for each in found)]
    return Content("\n").join(lines) if found else Content("")
