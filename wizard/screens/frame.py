"""What is around the middle of a screen: the heading, the plan so far in one line, and the footer with its buttons."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence

from msgspec.structs import replace
from textual import events, on
from textual.app import ComposeResult
from textual.containers import HorizontalGroup
from textual.content import Content
from textual.widgets import Button, Static

from wizard.interview.page import Position
from wizard.render.plain_text import cell_len
from wizard.screens.actions import BUTTONS, Action, Context, action_string, actions_in, actions_of
from wizard.screens.dialogs.base_dialogs import relabel
from wizard.screens.screen_text import AHEAD, AT, FINISHED, cut_to, one_line
from wizard.trade.first_figures import Segment, line_text, plan_line
from wizard.trade.plan_records import Plan

NAME = 16
"""Columns that a name has at least, where it needs them."""


class Bar(Static):
    """A sign a page: finished, here, to come. A click goes to the page."""

    async def on_click(self, event: events.Click) -> None:
        """Go there, by its number from 0."""
        event.stop()
        await self.run_action(f"screen.to_page({event.x - 1})")


def bar(position: Position) -> str:
    """`┴·┴▲··`: the pages that are finished or not, with the one in hand."""
    signs = "".join(FINISHED if each else AHEAD for each in position.finished).ljust(position.of, AHEAD)
    return signs[: position.number - 1] + AT + signs[position.number : position.of]


class Heading(HorizontalGroup):
    """The project and its stage at the left; at the right whether all is saved, and how far it is."""

    def __init__(self) -> None:
        super().__init__(id="heading")
        self.names = ("", "")
        self.states: tuple[str, ...] = ("",)
        self.position = Position(0, 0, ())

    def compose(self) -> ComposeResult:
        """Three pieces of text."""
        yield Static(id="job-name")
        yield Static(id="job-state")
        yield Bar(id="job-bar")

    def tell(self, name: str, stage: str, states: tuple[str, ...], position: Position) -> None:
        """Show all. `states`: the same in more and in fewer words, the most first."""
        self.names, self.states, self.position = (one_line(name), stage), states, position
        self.on_resize()

    def on_resize(self) -> None:
        """As much of the state as leaves the name room, then the bar."""
        name, stage = self.names
        space = self.size.width - min(cell_len(name), NAME) - len(stage) - 4
        state = next((each for each in self.states if cell_len(each) <= space), self.states[-1])
        signs = bar(self.position) if self.position.number else ""
        shown = signs if cell_len(state) + 1 + len(signs) <= space else ""
        self.query_one("#job-bar", Static).update(Content(f" {shown}" if shown else ""))
        self.query_one("#job-state", Static).update(Content(state))
        left = self.size.width - cell_len(state) - len(shown) - 2 - len(stage) - 3
        title = Content.assemble((cut_to(name, max(left, 1)), "bold"), (f" · {stage}", "$quiet"))
        self.query_one("#job-name", Static).update(title)


class PlanLine(Static):
    """The line, with the key that says why."""

    def __init__(self) -> None:
        super().__init__(id="plan-line")
        self.texts: tuple[str, ...] = ("",)
        self.key = ""

    def tell(self, plan: Plan, section: str | None, key: str, *, chosen: bool) -> None:
        """Show a plan. `section`: the one named first; `chosen`: the allowances were looked at."""
        self.texts, self.key = shortened_line(plan_line(plan, section, chosen=chosen)), key
        self.on_resize()

    def on_resize(self) -> None:
        """As much of it as there is room for."""
        why = f"  {self.key} why"
        space = max(self.size.width - cell_len(why), 10)
        text = next((each for each in self.texts if cell_len(each) <= space), cut_to(self.texts[-1], space))
        gap = " " * max(self.size.width - cell_len(text) - cell_len(why), 0)
        self.update(Content.assemble(text, gap, (why, "$quiet")) if text else Content(""))


def shortened_line(line: Sequence[Segment]) -> tuple[str, ...]:
    """The plan line in less and less: without its name, the fullness that an estimate takes, the widths, the width that
    it takes, then without one cloth after the other; at last the length alone."""
    if not line:
        return ("",)
    words = [each.words for each in line if not each.words.startswith(", fullness ")]
    joint = words.index("; ") if "; " in words else len(words)
    lengths = [each for each in words[:joint] if not each.startswith(", ")]
    kept, first = [*lengths, *words[joint:]], len(lengths) + 1
    fewer = ("".join(kept[:last]) + " and more" for last in range(len(kept) - 1, first, -1))
    least = [re.sub(", [^,]+ wide$", "", each) for each in ("".join(kept), *kept[:1])]
    whole = line_text(line)
    return (f"Plan so far: {whole}", whole, "".join(words), "".join(kept), least[0], *fewer, least[-1])


class ActionFooter(HorizontalGroup):
    """The buttons. Each runs the action of its name."""

    def __init__(self, context: Context) -> None:
        super().__init__(id="foot")
        self.context: Context = context
        self.called: dict[str, str] = {}
        """Words of a button while it does something else, or has something to count."""

    def compose(self) -> ComposeResult:
        """One line of buttons."""
        for action in self.actions:
            button = Button(_label(action), id=f"do-{action.id}", action=action_string(action), compact=True)
            button.tooltip = Content(f"{action.says} ({action.shown})")
            yield button

    def call(self, action_id: str, words: str) -> None:
        """Have other words on a button; empty for its own."""
        if self.called.get(action_id, "") != words:
            self.called[action_id] = words
            self._write()

    @property
    def actions(self) -> tuple[Action, ...]:
        """Those with a button, in the words they have now."""
        buttons = (each for each in actions_in(self.context, actions_of(self.app)) if each.id in BUTTONS)
        return tuple(replace(each, words=self.called.get(each.id) or each.words) for each in buttons)

    @on(events.Resize)
    @on(events.DescendantFocus)
    @on(events.DescendantBlur)
    def _write(self) -> None:
        """Apart where all fit; else close together and in short words, without those that are needed least. The key of
        the button in hand is not quiet."""
        columns, actions = self.app.size.width, self.actions
        apart = self._width(actions, short=False) + 2 * len(actions) <= columns
        shown = actions if apart else self._fitting(actions, columns)
        self.set_class(not apart, "-tight")
        for action in actions:
            button = self.query_one(f"#do-{action.id}", Button)
            button.display = action in shown
            label = _label(action, short=not apart, in_hand=button.has_focus)
            # A button of the toolkit pads its words on both sides, unless it is told its width.
            button.styles.line_pad = 1 if apart else 0
            button.styles.width = "auto" if apart else len(label.plain) + 1
            relabel(button, label)

    def _fitting(self, actions: Collection[Action], columns: int) -> list[Action]:
        fitting: list[Action] = []
        for action in sorted(actions, key=lambda each: BUTTONS.index(each.id)):
            if self._width([*fitting, action], short=True) + len(fitting) + 1 <= columns:
                fitting.append(action)
        return fitting

    def _width(self, actions: Collection[Action], *, short: bool) -> int:
        return sum(len(_label(each, short=short).plain) for each in actions)


def _label(action: Action, *, short: bool = False, in_hand: bool = False) -> Content:
    """`F4 Findings 2`; in short words `F3 Go`. A quiet key would be lost on the ground of the button in hand."""
    parts = [each for at, each in enumerate(action.words.split()) if not (short and at) or each.isdecimal()]
    key = action.shown.replace("Ctrl+", "^")
    return Content.assemble((f"{key} ", "" if in_hand else "$quiet"), (" ".join(parts), "bold"))
