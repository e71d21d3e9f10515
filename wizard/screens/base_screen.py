"""What every full screen has: a sign that the window is too small, and a test that it is idle."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Iterator, Sequence
from typing import Any, Final, Generic, TypeVar

from textual.app import App, ComposeResult
from textual.message_pump import MessagePump
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Static

from wizard.screens.screen_text import words

T = TypeVar("T")

LEAST_COLUMNS, LEAST_ROWS = 40, 12
TOO_SMALL = f"Make the window larger:\nat least {LEAST_COLUMNS} columns\nby {LEAST_ROWS} lines.\nNothing is lost."


class FullScreen(Screen[T], Generic[T]):
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
    """The class of a window by its columns, or by its lines."""
    return max(each for each in kinds or () if each[0] <= cells)[1]


QUICK_LOOKS: Final = 40
"""Looks at once after each other; then one each NAP seconds."""
NAP: Final = 0.002
MOST_LOOKS: Final = 1000
"""The wait ends after these: a screen that never rests must not stop the keyboard."""


async def wait_until(ready: Callable[[], bool]) -> None:
    """Wait until `ready`, or for so long that it will never be."""
    for look in range(MOST_LOOKS):
        if ready():
            return
        await asyncio.sleep(0 if look < QUICK_LOOKS else NAP)


def is_idle(app: App[Any], at_hand: int = 0) -> bool:
    """False while a message waits, a widget is being mounted, or the screen has to be laid out.

    `at_hand`: how many of the app's own messages do not count.
    """
    if not app.screen_stack:
        return True  # It is ending.
    screen = app.screen
    return (
        _unfinished(app) <= at_hand
        and not screen._layout_required
        and not screen._callbacks
        and not (isinstance(screen, FullScreen) and screen.coming)
        and all(each.is_mounted and not (each.is_running and _unfinished(each)) for each in _widgets(app))
    )


def _widgets(app: App[Any]) -> Iterator[Widget]:
    waiting: list[Widget] = list(app.screen_stack)
    while waiting:
        widget = waiting.pop()
        yield widget
        waiting.extend(widget.children)


def _unfinished(pump: MessagePump) -> int:
    """Messages and callbacks that are not done with, the one it is at work on included."""
    # The toolkit shows only what still waits; what is at work counts too.
    unfinished: int = getattr(pump._message_queue, "_unfinished_tasks", pump.message_queue_size)
    return unfinished + len(pump._next_callbacks)
