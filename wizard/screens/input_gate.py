"""Keys and clicks one at a time: the next is delivered when all that the last one set off is done.

The toolkit hands a key on as soon as it comes, though the one before may still be opening a dialog, closing one or
changing a list: it would arrive at what is no longer there, or not there yet.
"""

from __future__ import annotations

import asyncio
from collections import deque
from typing import Any, Final

from textual import events
from textual.app import App
from textual.message import Message

from wizard.screens.base_screen import is_idle, wait_until
from wizard.screens.dialog_host import DialogHost

INPUT: Final = (events.InputEvent, events.Paste)


class InputGate:
    """Holds back, in order, what is typed, clicked and pasted while the app is busy."""

    def __init__(self, app: App[Any], dialogs: DialogHost) -> None:
        self._app, self._dialogs = app, dialogs
        self._waiting: deque[Message] = deque()
        self._let_in: Message | None = None
        self._delivering = False
        self._task: asyncio.Task[None] | None = None

    def holds(self, event: Message) -> bool:
        """True for an event that has to wait: it is delivered later. To be asked of every event the app gets."""
        if not isinstance(event, INPUT) or event.is_forwarded:
            return False
        if event is self._let_in:
            self._let_in = None
            return False
        # The event in hand is the one message that the app is at work on.
        if not self._delivering and self._ready(at_hand=1):
            return False
        if self._waiting and isinstance(event, events.MouseMove) and isinstance(self._waiting[-1], events.MouseMove):
            self._waiting.pop()
        self._waiting.append(event)
        if not self._delivering:
            # From Python 3.12 on the task may begin, and even end, before it is returned.
            self._delivering = True
            self._task = asyncio.create_task(self._deliver(), name="input gate")
        return True

    def clear(self) -> None:
        """Forget what waits."""
        self._waiting.clear()

    async def _deliver(self) -> None:
        while self._waiting and self._app.is_running:
            await wait_until(self._ready)
            if self._waiting:
                self._let_in = self._waiting.popleft()
                self._app.post_message(self._let_in)
        self._delivering = False

    def _ready(self, at_hand: int = 0) -> bool:
        return not self._dialogs.changing and is_idle(self._app, at_hand)
