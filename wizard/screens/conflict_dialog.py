"""A change could not be saved: another hand was in the file, and whose is to stand? Or it cannot be written."""

from __future__ import annotations

from typing import ClassVar, Literal

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.widgets import Static

from wizard.questions.outcome import Conflict
from wizard.screens.dialogs import Dialog, plain_button
from wizard.screens.literal import words

MEND = "Your answer is kept here. Put that right beside the wizard, then try again."
Whose = Literal["mine", "theirs"]


class ConflictDialog(Dialog[Whose | None]):
    """Gives whose is to stand; None leaves both as they are, and the answer unsaved."""

    LONG: ClassVar[dict[str, int]] = {".reading": 100}

    def __init__(self, conflict: Conflict) -> None:
        super().__init__("Not saved", None)
        self.conflict = conflict

    def inside(self) -> ComposeResult:
        """What happened."""
        with VerticalScroll(classes="reading", can_focus=False):
            mend = "" if self.conflict.by_hand else f"\n\n{MEND}"
            yield Static(words(self.conflict.sentence + mend))

    def buttons(self) -> ComposeResult:
        """Both ways, and neither."""
        if self.conflict.by_hand:
            yield plain_button("Read the file again", "theirs")
        yield plain_button("Write my answer over it" if self.conflict.by_hand else "Try again", "mine")
        yield plain_button("Close", "close")

    def on_mount(self) -> None:
        """The way that loses nothing of another's is first."""
        self.query_one("#theirs" if self.conflict.by_hand else "#mine").focus()

    def pressed(self, button: str) -> None:
        """Whose."""
        self.answer("mine" if button == "mine" else "theirs" if button == "theirs" else None)
