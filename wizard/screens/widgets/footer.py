"""The footer of every screen: a button for each action that has one, with its key. Where not all fit, the least needed
are left out; they are under More."""

from __future__ import annotations

from collections.abc import Collection
from typing import Final

from msgspec.structs import replace
from textual.app import ComposeResult
from textual.containers import HorizontalGroup
from textual.content import Content
from textual.widgets import Button

from wizard.screens.actions import Action, Context, action_string, actions_in, actions_of
from wizard.screens.dialogs.base_dialogs import relabel

NEEDED: Final = ("more", "step_back", "step_next", "new_project", "help", "findings", "why", "go_to", "leave")
"""What is needed most comes first."""


class ActionFooter(HorizontalGroup):
    """The buttons. Each runs the action of its name."""

    def __init__(self, context: Context) -> None:
        super().__init__(id="foot")
        self.context: Context = context
        self.actions: tuple[Action, ...] = ()
        self.counts: dict[str, int] = {}
        self.called: dict[str, str] = {}
        """Words of a button while it does something else."""

    def compose(self) -> ComposeResult:
        """One line of buttons."""
        self.actions = self._table()
        for action in self.actions:
            button = Button(_label(action, 0), id=f"do-{action.id}", action=action_string(action), compact=True)
            button.tooltip = Content(f"{action.says} ({action.shown})")
            yield button

    def count(self, action_id: str, number: int) -> None:
        """Put `number` behind a button's words; nothing for 0."""
        if self.counts.get(action_id, 0) != number:
            self.counts[action_id] = number
            self._write()

    def call(self, action_id: str, words: str) -> None:
        """Have other words on a button; empty for its own."""
        if self.called.get(action_id, "") != words:
            self.called[action_id] = words
            self.actions = self._table()
            self._write()

    def _table(self) -> tuple[Action, ...]:
        buttons = (each for each in actions_in(self.context, actions_of(self.app)) if each.button)
        return tuple(replace(each, words=self.called.get(each.id) or each.words) for each in buttons)

    def on_resize(self) -> None:
        """As many as there is room for."""
        self._write()

    def on_descendant_focus(self) -> None:
        """Another button is in hand."""
        self._write()

    def on_descendant_blur(self) -> None:
        """None is."""
        self._write()

    def _write(self) -> None:
        """Apart where all fit; else close together and in short words, without those that are needed least."""
        columns = self.app.size.width
        apart = self._width(self.actions, short=False) + 2 * len(self.actions) <= columns
        shown = {each.id for each in self.actions} if apart else self._fitting(columns)
        self.set_class(not apart, "-tight")
        for action in self.actions:
            button = self.query_one(f"#do-{action.id}", Button)
            button.display = action.id in shown
            label = _label(action, self.counts.get(action.id, 0), short=not apart, in_hand=button.has_focus)
            # A button of the toolkit pads its words on both sides, unless it is told its width.
            button.styles.line_pad = 1 if apart else 0
            button.styles.width = "auto" if apart else len(label.plain) + 1
            relabel(button, label)

    def _fitting(self, columns: int) -> Collection[str]:
        fitting: list[Action] = []
        for action in sorted(self.actions, key=lambda each: NEEDED.index(each.id)):
            if self._width([*fitting, action], short=True) + len(fitting) + 1 <= columns:
                fitting.append(action)
        return {each.id for each in fitting}

    def _width(self, actions: Collection[Action], *, short: bool) -> int:
        return sum(len(_label(each, self.counts.get(each.id, 0), short=short).plain) for each in actions)


def _label(action: Action, number: int, *, short: bool = False, in_hand: bool = False) -> Content:
    """`F4 Findings 2`; in short words `F3 Go`. A quiet key would be lost on the ground of the button in hand."""
    words = action.words.split()[0] if short else action.words
    key = action.shown.replace("Ctrl+", "^")
    return Content.assemble(
        (f"{key} ", "" if in_hand else "$quiet"), (f"{words} {number}" if number else words, "bold")
    )
