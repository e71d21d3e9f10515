"""The work as a checklist: the steps on one side, the selected one on the other."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import HorizontalGroup, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Button, OptionList, Static
from textual.widgets.option_list import Option

from wizard.screens.dialogs.base_dialogs import plain_button, relabel
from wizard.screens.panes.work_words import Kept, cautions_before, stage_words, told
from wizard.screens.screen_text import plain, words
from wizard.screens.widgets.option_lists import Hanging, LineList
from wizard.trade.plan_records import Stage, Step

TICKED, UNTICKED = "[x]", "[ ]"


class StepList(LineList):
    """The steps. Enter ticks and goes on; Space ticks or unticks."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("space", "screen.tick", "Tick or untick", show=False)]

    def on_resize(self) -> None:
        """The selected step stays in sight."""
        self.call_after_refresh(self.scroll_to_highlight)


Times = Mapping[Stage, tuple[int, int | None]]
"""Stage -> minutes expected and taken."""


class WorkPane(HorizontalGroup):
    """The checklist. It knows steps and whether they are ticked; ticking is the session's affair."""

    def __init__(self, id: str) -> None:
        super().__init__(id=id)
        self.steps: tuple[Step, ...] = ()
        self.times: Times = {}
        self.before: dict[str, tuple[str, ...]] = {}
        """Step id -> its cautions: in full before the first step of a kind, named before each later one."""
        self.shown = ""
        """Id of the step that is shown."""

    def compose(self) -> ComposeResult:
        """List, text, buttons."""
        yield StepList(id="steps", markup=False)
        with Vertical(id="step"):
            with VerticalScroll(id="step-body"):
                yield Static(id="work-resumed", classes="note")
                yield Static(id="step-text")
            with HorizontalGroup(id="step-buttons"):
                yield plain_button("Tick", "tick", "screen.tick")
                yield plain_button("Note", "note", "screen.note")
                yield plain_button("Start timer", "timer", "screen.timer")

    def tell(
        self, steps: tuple[Step, ...], ticked: Mapping[str, str], stale: frozenset[str], at: str, times: Times
    ) -> None:
        """Show all steps. `ticked`: step id -> when; `stale`: those that changed since; `at`: the selected one."""
        self.steps, self.times = steps, times
        self.before = cautions_before(steps)
        lines = self.query_one(StepList)
        with self.prevent(OptionList.OptionHighlighted):
            lines.set_options(self._options(ticked, stale))
            ids = [each.id for each in lines.options]
            lines.highlighted = ids.index(at) if at in ids else None
        lines.scroll_to_highlight()

    def tell_step(self, step: Step, kept: Kept, *, from_top: bool = True) -> None:
        """Show one step, from its beginning; the one shown already stays where it was scrolled to."""
        other = step.id != self.shown
        if other:
            self.remind(())
        self.shown = step.id
        text = told(step, kept, self.before.get(step.id, ()))
        self.query_one("#step-text", Static).update(Hanging(text, 2, apart=True))
        if from_top and other:
            self.query_one("#step-body", VerticalScroll).scroll_home(animate=False)
        relabel(self.query_one("#tick", Button), words("Untick" if kept.done else "Tick"))
        relabel(self.query_one("#timer", Button), words(timer_label(kept)))

    def remind(self, lines: tuple[str, ...]) -> None:
        """Say where the work stopped, above the selected step, until another is selected; nothing for no lines."""
        place = self.query_one("#work-resumed", Static)
        place.update(words("\n".join(lines)))
        place.display = bool(lines)

    def take_focus(self) -> None:
        """The arrow keys move among the steps."""
        self.query_one(StepList).focus()

    def _options(self, ticked: Mapping[str, str], stale: frozenset[str]) -> list[Option]:
        options: list[Option] = []
        stage = None
        for step in self.steps:
            if step.stage != stage:
                stage = step.stage
                options.append(Option(stage_words(stage, *self.times.get(stage, (0, None))), disabled=True))
            mark = TICKED if step.id in ticked else UNTICKED
            changed = Content.styled(" changed since", "$warning") if step.id in stale else Content("")
            line = Content.assemble(f"{mark} {plain(step.title)}", changed)
            options.append(Option(Hanging(line, len(mark) + 1), id=step.id))
        return options


def timer_label(kept: Kept) -> str:
    """What the button of the timer does now."""
    return "Stop timer" if kept.runs else "Start timer"
