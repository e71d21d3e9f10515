"""The file was changed by another hand: whose is to stand?"""

from __future__ import annotations

from typing import ClassVar, Literal

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.widgets import Static

from wizard.screens.dialogs import Dialog, plain_button
from wizard.screens.literal import words

Whose = Literal["mine", "theirs"]


class ConflictDialog(Dialog[Whose | None]):
    """Gives whose is to stand; None leaves both as they are, and the answer unsaved."""

    LONG: ClassVar[dict[str, int]] = {".reading": 100}

    def __init__(self, sentence: str) -> None:
        super().__init__("Not saved", None)
        self.sentence = sentence

    def inside(self) -> ComposeResult:
        """What happened."""
        with VerticalScroll(classes="reading", can_focus=False):
            yield Static(words(self.sentence))

    def buttons(self) -> ComposeResult:
        """Both ways, and neither."""
        yield plain_button("Read the file again", "theirs")
        yield plain_button("Write my answer over it", "mine")
        yield plain_button("Close", "close")

    def on_mount(self) -> None:
        """The way that loses nothing of another's is first."""
        self.query_one("#theirs").focus()

    def pressed(self, button: str) -> None:
        """Whose."""
        self.dismiss("mine" if button == "mine" else "theirs" if button == "theirs" else None)
