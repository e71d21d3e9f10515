"""The one place where screens and dialogs open and close, one after the other, and where keys and clicks wait for it.

Opening and closing take the toolkit several turns. Each change here begins when the one before is done: nothing is
looked for in a screen that is only half there, each dialog answers once, and no answer goes to a screen that is already
gone. The toolkit hands a key on as soon as it comes, though the one before may still be opening a dialog, closing one
or changing a list: here the next is delivered when all that the last one set off is done.
"""

from __future__ import annotations

import asyncio
from collections import deque
from collections.abc import Awaitable, Callable, Iterator, Sequence
from functools import partial
from typing import Any, Final, Generic, TypeVar

from textual import events
from textual.app import App, ComposeResult
from textual.dom import DOMNode
from textual.message import Message
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


Do = Callable[[], Awaitable[None]]


class OneByOne:
    """What is to be done, each when the one before is done."""

    def __init__(self, app: App[Any], name: str) -> None:
        self.app, self.name = app, name
        self.waiting: deque[Do] = deque()
        self.at_work = False
        self._task: asyncio.Task[None] | None = None

    def add(self, do: Do) -> None:
        """Do it when its turn comes."""
        self.waiting.append(do)
        if not self.at_work:
            # From Python 3.12 on the task may begin, and even end, before it is returned.
            self.at_work = True
            self._task = asyncio.create_task(self._do_all(), name=self.name)

    def stop(self) -> None:
        """Do nothing more, as the app ends: what is under way would wait for it for ever."""
        self.waiting.clear()
        if self._task is not None:
            self._task.cancel()

    async def _do_all(self) -> None:
        with self.app._context():
            while self.waiting:
                try:
                    await self.waiting.popleft()()
                except Exception as fault:
                    self.app._handle_exception(fault)
        self.at_work = False


class DialogHost:
    """Opens and closes the screens of an app."""

    def __init__(self, app: App[Any]) -> None:
        self._app = app
        self._answered: dict[Screen[Any], Callable[[Any], object]] = {}
        """What is told the answer of each screen that has not answered yet, the lowest first."""
        self.changes = OneByOne(app, "dialog host")

    @property
    def unanswered(self) -> tuple[Screen[Any], ...]:
        """Every screen that is open or about to be, the lowest first."""
        return tuple(self._answered)

    def open(self, screen: Screen[T], answered: Callable[[T], object] | None = None) -> None:
        """Open `screen` over what is there; `answered` is told its answer once it is closed."""
        self._answered[screen] = answered or (lambda _: None)
        self.changes.add(partial(self._push, screen))

    def close(self, screen: Screen[T], answer: T) -> None:
        """Close `screen` with its answer, and every screen over it without one. A second answer does nothing."""
        answered = self._answered.pop(screen, None)
        if answered is not None:
            self.changes.add(partial(self._pop, screen))
            self.changes.add(partial(_tell, answered, answer))

    def close_all(self) -> None:
        """Close everything without an answer; what is opened next is the only one."""
        self.changes.waiting.clear()
        self._answered.clear()
        self.changes.add(self._pop_all)

    async def _push(self, screen: Screen[Any]) -> None:
        await self._app.push_screen(screen)
        await wait_until(partial(is_idle, self._app))

    async def _pop(self, screen: Screen[Any]) -> None:
        while screen in self._app.screen_stack:
            self._answered.pop(self._app.screen, None)
            await self._app.pop_screen()
        await wait_until(partial(is_idle, self._app))

    async def _pop_all(self) -> None:
        while len(self._app.screen_stack) > 1:
            await self._app.pop_screen()


async def _tell(answered: Callable[[Any], object], answer: object) -> None:
    answered(answer)


def open_screen(node: DOMNode, screen: Screen[T], answered: Callable[[T], object] | None = None) -> None:
    """Open `screen` over what is there; `answered` is told its answer once it is closed."""
    node.app.dialogs.open(screen, answered)  # type: ignore[attr-defined]


def close_screen(screen: Screen[T], answer: T) -> None:
    """Close `screen` with its answer. A second answer does nothing."""
    screen.app.dialogs.close(screen, answer)  # type: ignore[attr-defined]


INPUT: Final = (events.InputEvent, events.Paste)


class InputGate:
    """Holds back, in order, what is typed, clicked and pasted while the app is busy."""

    def __init__(self, app: App[Any], dialogs: DialogHost) -> None:
        self._app, self._dialogs = app, dialogs
        self.held = OneByOne(app, "input gate")
        self._last: Message | None = None
        self._next: Message | None = None
        self._let_in: Message | None = None

    def holds(self, event: Message) -> bool:
        """True for an event that has to wait: it is delivered later. To be asked of every event the app gets."""
        if not isinstance(event, INPUT) or event.is_forwarded:
            return False
        if event is self._let_in:
            self._let_in = None
            return False
        # The event in hand is the one message that the app is at work on.
        if not self.held.at_work and self._ready(at_hand=1):
            return False
        if self.held.waiting and isinstance(event, events.MouseMove) and isinstance(self._last, events.MouseMove):
            self.held.waiting.pop()
        self._last = event
        self.held.add(partial(self._deliver, event))
        return True

    def clear(self) -> None:
        """Forget what waits."""
        self.held.waiting.clear()
        self._next = None

    async def _deliver(self, event: Message) -> None:
        self._next = event
        await wait_until(self._ready)
        if self._next is event:
            self._let_in = event
            self._app.post_message(event)

    def _ready(self, at_hand: int = 0) -> bool:
        return not self._dialogs.changes.at_work and is_idle(self._app, at_hand)
