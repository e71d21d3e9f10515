"""The one place where screens and dialogs open and close: one after the other, and each answers once.

Opening and closing take the toolkit several turns. Each change here begins when the one before is done: nothing is
looked for in a screen that is only half there, and no answer goes to a screen that is already gone.
"""

from __future__ import annotations

import asyncio
from collections import deque
from collections.abc import Awaitable, Callable
from functools import partial
from typing import Any, TypeVar

from textual.app import App
from textual.dom import DOMNode
from textual.screen import Screen

from wizard.screens.base_screen import is_idle, wait_until

T = TypeVar("T")


class DialogHost:
    """Opens and closes the screens of an app."""

    def __init__(self, app: App[Any]) -> None:
        self._app = app
        self._answered: dict[Screen[Any], Callable[[Any], object]] = {}
        """What is told the answer of each screen that has not answered yet, the lowest first."""
        self._changes: deque[Callable[[], Awaitable[None]]] = deque()
        self.changing = False
        """True while something opens or closes."""
        self._task: asyncio.Task[None] | None = None

    @property
    def unanswered(self) -> tuple[Screen[Any], ...]:
        """Every screen that is open or about to be, the lowest first."""
        return tuple(self._answered)

    def open(self, screen: Screen[T], answered: Callable[[T], object] | None = None) -> None:
        """Open `screen` over what is there; `answered` is told its answer once it is closed."""
        self._answered[screen] = answered or _ignore
        self._change(partial(self._push, screen))

    def close(self, screen: Screen[T], answer: T) -> None:
        """Close `screen` with its answer, and every screen over it without one. A second answer does nothing."""
        answered = self._answered.pop(screen, None)
        if answered is not None:
            self._change(partial(self._pop, screen))
            self._change(partial(_tell, answered, answer))

    def close_all(self) -> None:
        """Close everything without an answer; what is opened next is the only one."""
        self._changes.clear()
        self._answered.clear()
        self._change(self._pop_all)

    def stop(self) -> None:
        """Open and close nothing more, as the app ends: what is under way would wait for it for ever."""
        self._changes.clear()
        if self._task is not None:
            self._task.cancel()

    def _change(self, change: Callable[[], Awaitable[None]]) -> None:
        self._changes.append(change)
        if not self.changing:
            # From Python 3.12 on the task may begin, and even end, before it is returned.
            self.changing = True
            self._task = asyncio.create_task(self._one_by_one(), name="dialog host")

    async def _one_by_one(self) -> None:
        with self._app._context():
            while self._changes:
                try:
                    await self._changes.popleft()()
                except Exception as fault:
                    self._app._handle_exception(fault)
        self.changing = False

    async def _push(self, screen: Screen[Any]) -> None:
        await self._app.push_screen(screen)
        await self._idle()

    async def _pop(self, screen: Screen[Any]) -> None:
        while screen in self._app.screen_stack:
            self._answered.pop(self._app.screen, None)
            await self._app.pop_screen()
        await self._idle()

    async def _idle(self) -> None:
        await wait_until(lambda: is_idle(self._app))

    async def _pop_all(self) -> None:
        while len(self._app.screen_stack) > 1:
            await self._app.pop_screen()


def open_screen(node: DOMNode, screen: Screen[T], answered: Callable[[T], object] | None = None) -> None:
    """Open `screen` over what is there; `answered` is told its answer once it is closed."""
    host_of(node.app).open(screen, answered)


def close_screen(screen: Screen[T], answer: T) -> None:
    """Close `screen` with its answer. A second answer does nothing."""
    host_of(screen.app).close(screen, answer)


def host_of(app: App[Any]) -> DialogHost:
    """The host of an app."""
    host: DialogHost = app.dialogs  # type: ignore[attr-defined]
    return host


async def _tell(answered: Callable[[Any], object], answer: object) -> None:
    answered(answer)


def _ignore(_: object) -> None:
    """Nobody waits for the answer."""
