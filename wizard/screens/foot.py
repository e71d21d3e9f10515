"""The foot of every screen: a button for each deed that has one, with its key where there is room."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import HorizontalGroup
from textual.content import Content
from textual.widgets import Button

from wizard.screens.deeds import Deed, Room, action_of, deeds_in
from wizard.screens.dialogs import relabel


class Foot(HorizontalGroup):
    """The buttons. Each runs the action of its name."""

    def __init__(self, room: Room) -> None:
        super().__init__(id="foot")
        self.deeds = tuple(each for each in deeds_in(room) if each.button)
        self.counts: dict[str, int] = {}

    def compose(self) -> ComposeResult:
        """One line of buttons."""
        for deed in self.deeds:
            button = Button(self._label(deed), id=f"do-{deed.id}", compact=True)
            button.tooltip = Content(f"{deed.says} ({deed.shown})")
            yield button

    def count(self, deed_id: str, number: int) -> None:
        """Put `number` behind a button's words; nothing for 0."""
        self.counts[deed_id] = number
        self._write()

    def on_resize(self) -> None:
        """Keys are named where there is room for them."""
        self._write()

    def on_button_pressed(self, event: Button.Pressed) -> None:
        """Do what the button says."""
        event.stop()
        deed = next(each for each in self.deeds if event.button.id == f"do-{each.id}")
        self.call_later(self.screen.run_action, action_of(deed))

    def _write(self) -> None:
        for deed in self.deeds:
            relabel(self.query_one(f"#do-{deed.id}", Button), self._label(deed))

    def _label(self, deed: Deed) -> Content:
        number = self.counts.get(deed.id, 0)
        words = f"{deed.words} {number}" if number else deed.words
        key = deed.shown.replace("Ctrl+", "^")
        if self.app.size.width < self._needed():
            return Content(words)
        return Content.assemble((f"{key} ", "$quiet"), (words, "bold"))

    def _needed(self) -> int:
        """Columns that all labels take with their keys, a number behind one of them."""
        return sum(len(each.words) + len(each.shown.replace("Ctrl+", "^")) + 3 for each in self.deeds) + 2
