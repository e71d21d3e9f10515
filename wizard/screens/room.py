"""What every full screen has: the sign that the window is too small, laid over it so that nothing under it is lost."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Generic, TypeVar

from textual.app import ComposeResult
from textual.screen import Screen
from textual.widgets import Static

from wizard.screens.literal import words

T = TypeVar("T")

LEAST_COLUMNS, LEAST_ROWS = 40, 12
TOO_SMALL = f"Make the window larger:\nat least {LEAST_COLUMNS} columns\nby {LEAST_ROWS} lines.\nNothing is lost."


class RoomScreen(Screen[T], Generic[T]):
    """A screen that says so when it has too little room."""

    coming = False
    """True while something is being put up on the screen. Keys wait for it."""

    def compose(self) -> ComposeResult:
        """What the screen holds, and the sign over it."""
        # Known before anything is on it: the styles of what comes are then worked once.
        across, down = self.app.size
        self.add_class(_kind(self.app.HORIZONTAL_BREAKPOINTS, across), _kind(self.app.VERTICAL_BREAKPOINTS, down))
        yield from self.inside()
        yield Static(words(TOO_SMALL), id="too-small")

    def inside(self) -> ComposeResult:
        """What the screen holds."""
        yield from ()


def _kind(kinds: Sequence[tuple[int, str]] | None, cells: int) -> str:
    """The class of a window of so many cells across, or down."""
    return max(each for each in kinds or () if each[0] <= cells)[1]
