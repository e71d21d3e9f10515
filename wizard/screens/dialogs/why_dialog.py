"""Why a figure is what it is, and what it was worked from, down to what was measured."""

from __future__ import annotations

from typing import Any, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Button, OptionList, Static
from textual.widgets.option_list import Option

from wizard.render.plan_rows import Row, figure_of, figure_words, full_title
from wizard.screens.actions import key_binding
from wizard.screens.clipboard import copy
from wizard.screens.dialog_host import open_screen
from wizard.screens.dialogs.base_dialogs import Dialog
from wizard.screens.option_lists import LineList
from wizard.screens.panes.side_panel import SidePanel
from wizard.screens.screen_text import plain
from wizard.trade.figures import Figure, explained
from wizard.trade.formatting import ruler_of
from wizard.trade.plan_records import Plan


class WhyDialog(Dialog[str | None]):
    """Formula, values, rule, source; Enter on an input asks why again, Esc steps back up. Gives a key to go to."""

    LONG: ClassVar[dict[str, int]] = {".reading": 70, "#inputs": 30}
    AROUND: ClassVar[int] = 8
    BINDINGS: ClassVar[list[BindingType]] = [key_binding("copy")]

    def __init__(self, plan: Plan, figure: str, asked: frozenset[str]) -> None:
        super().__init__("Why?", None, {"go": "Go to the question", "copy": "Copy"})
        self.plan = plan
        self.path = [figure_of(plan, figure)]
        self.asked = asked
        """Keys that are questions: those can be gone to."""

    def inside(self) -> ComposeResult:
        """The reason, and the figures it rests on."""
        with VerticalScroll(classes="reading", can_focus=False):
            yield Static(id="reason")
        yield Static("Worked from", classes="quiet", id="from-words")
        inputs = LineList(id="inputs", markup=False)
        inputs.beside = ".reading"
        yield inputs

    def on_mount(self) -> None:
        """Show the figure asked about."""
        self._tell()

    def action_close(self) -> None:
        """Back up one figure, or close."""
        if len(self.path) > 1:
            self.path.pop()
            self._tell()
        else:
            self.answer(None)

    @on(OptionList.OptionSelected, "#inputs")
    def _deeper(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.path.append(self.path[-1].inputs[event.option_index][1])
        self._tell()

    def action_copy(self) -> None:
        """Copy the figure as it reads."""
        figure = self.path[-1]
        copy(self.app, figure.title, figure_words(figure, self.plan), "railskirt sheet FILE --only workings")

    def action_go(self) -> None:
        """To the question."""
        self.answer(self.path[-1].id)

    def _tell(self) -> None:
        figure = self.path[-1]
        self.query_one("#reason", Static).update(reason(figure, self.plan))
        inputs = self.query_one("#inputs", OptionList)
        rows = [(f"{figure_words(each, self.plan):<14} ", plain(each.title)) for _, each in figure.inputs]
        inputs.set_options(Option(Content.assemble((value, "bold"), title)) for value, title in rows)
        inputs.display = self.query_one("#from-words").display = bool(figure.inputs)
        go = self.query_one("#go", Button)
        go.display = figure.id in self.asked
        if figure.inputs:
            inputs.highlighted = 0
            inputs.focus()
        else:
            (go if go.display else self.query_one("#close")).focus()


def reason(figure: Figure[Any], plan: Plan) -> Content:
    """All that is said of one figure."""
    told = explained(figure, ruler_of(plan.job))
    lines = (
        *((full_title(plan, figure.id, told.title), "bold"), (told.result, "bold $accent"), ("", "")),
        *((told.formula, ""), (f"= {told.values}", "$quiet"), ("", "")),
        *((told.says, ""), (f"From: {told.source}", "$quiet")),
        *((f"Needs {each.words}.", "$warning") for each in figure.needs),
    )
    return Content("\n").join(Content.styled(plain(text), style) for text, style in lines)


class SoFarDialog(Dialog[str | None]):
    """The plan so far as a list over the screen; Enter on a figure asks why. Gives a key to go to."""

    LONG: ClassVar[dict[str, int]] = {"#figures": 100}

    def __init__(self, plan: Plan, rows: tuple[Row, ...], asked: frozenset[str]) -> None:
        super().__init__("Why? Choose a figure of the plan so far", None)
        self.plan, self.rows, self.asked = plan, rows, asked
        self.panel = SidePanel(id="figures")

    def inside(self) -> ComposeResult:
        """The figures."""
        yield self.panel

    def on_mount(self) -> None:
        """Select the first figure."""
        self.panel.tell(self.rows)
        self.panel.action_first()
        (self.query_one("#close") if self.panel.highlighted is None else self.panel).focus()

    @on(OptionList.OptionSelected)
    def _why(self) -> None:
        if figure := self.panel.figure_in_hand():
            dialog = WhyDialog(self.plan, figure, self.asked)
            open_screen(self, dialog, lambda key: None if key is None else self.answer(key))
