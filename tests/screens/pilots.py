"""The app under a pilot: keys pressed, text typed, and what a person sees of it."""

from __future__ import annotations

import tomllib
from collections.abc import AsyncIterator, Callable
from contextlib import AbstractAsyncContextManager, asynccontextmanager
from pathlib import Path
from time import monotonic
from typing import Any

import pytest
from textual.pilot import Pilot
from textual.screen import ModalScreen, Screen
from textual.widget import Widget

from tests.screens.jobs import job_file
from tests.screens.screen_texts import worded
from wizard.interview.session import Session
from wizard.screens.app import SkirtApp
from wizard.screens.job_screen import JobScreen
from wizard.screens.keymap import Keys

FROM_TEMPLATE = ("\nname =", '\nbegan_from = "Usual"\nname =')
"""What makes of a job one that was begun from a template, as an edit of its file."""

Size = tuple[int, int]
"""Columns and rows."""

SIZES = ((60, 20), (80, 24), (120, 40))
"""Works, good, better."""

EVERY_SIZE = (SIZES[0], *(pytest.param(size, marks=pytest.mark.long) for size in SIZES[1:]))
"""For a test a size: the smallest window shows most faults, the others are long runs."""

PATIENCE = 60
"""Seconds until something that does not come is given up: far more than it takes."""


class Screens:
    """The screens of the app, as somebody at the keys has them."""

    def __init__(self, pilot: Pilot[int], path: Path) -> None:
        self.pilot = pilot
        self.path = path

    @property
    def app(self) -> SkirtApp:
        """The app, as what it is."""
        assert isinstance(self.pilot.app, SkirtApp)
        return self.pilot.app

    @property
    def top(self) -> Screen[Any]:
        """The screen or dialog that has the keys."""
        return self.pilot.app.screen

    @property
    def job(self) -> JobScreen:
        """The job's screen, whatever lies over it."""
        return next(each for each in self.pilot.app.screen_stack if isinstance(each, JobScreen))

    @property
    def session(self) -> Session:
        """The session of the job."""
        return self.job.session

    @property
    def seen(self) -> str:
        """All the text on the screen, line by line."""
        strips = self.top._compositor.render_strips(self.app.size)
        return "\n".join("".join(segment.text for segment in strip) for strip in strips)

    @property
    def focused(self) -> str | None:
        """Id of what has the focus."""
        return self.top.focused.id if self.top.focused else None

    def saved(self, key: str = "") -> Any:
        """What the file has at a key; None for nothing."""
        found: Any = tomllib.loads(self.path.read_text(encoding="utf-8"))
        for name in filter(None, key.split(".")):
            found = (found or {}).get(name)
        return found

    async def until(self, wanted: Callable[..., bool]) -> None:
        """Wait for `wanted`, however slow the machine is; fails when it never comes."""
        end = monotonic() + PATIENCE
        while not wanted():
            assert monotonic() < end, f"it never came; on the screen was:\n{self.seen}"
            await self.pilot.pause(0.02)

    async def press(self, *keys: str, at: str = "", focus: str = "", sees: str = "") -> None:
        """Press keys, then wait for a place to be in hand, for the focus, for a text."""
        await self.pilot.press(*keys)
        if at:
            await self.until(lambda: self._stands(at, None))
        if focus:
            await self.until(lambda: self.focused == focus)
        if sees:
            await self.sees(sees)

    async def typed(self, text: str, *keys: str, at: str = "", sees: str = "") -> None:
        """Type `text` key by key, then press keys and wait as `press` does."""
        await self.pilot.press(*("space" if each == " " else each for each in text))
        await self.pilot.pause()
        await self.press(*keys, at=at, sees=sees)

    async def anew(self, text: str, *keys: str, at: str = "", sees: str = "") -> None:
        """Take out what is in the field, and type."""
        await self.pilot.press("end", "ctrl+u")
        await self.typed(text, *keys, at=at, sees=sees)

    async def sees(self, *texts: str) -> None:
        """Wait until each of the texts is on the screen."""
        for text in texts:
            await self.until(lambda text=text: text in self.seen)

    async def sees_no(self, text: str) -> None:
        """Wait until `text` is not on the screen any more."""
        await self.until(lambda: text not in self.seen)

    async def at(self, place: str, focus: str | None = None) -> None:
        """Wait until `place` is in hand, with the focus on `focus` and nothing over it."""
        await self.until(lambda: self._stands(place, focus))

    def _stands(self, place: str, focus: str | None) -> bool:
        if not isinstance(self.top, JobScreen) or focus not in (None, self.focused):
            return False
        return place == (self.job.pages.hand.place if self.job.job.view == "page" else self.session.at)

    async def go(self, place: str) -> None:
        """Go to a place as the search does."""
        self.job.job.go(place)
        await self.until(lambda: self.job.pages.hand.place == place)

    async def shows(self, place: str, focus: str | None = None) -> None:
        """Stand at a place at once, a step of the work too."""
        self.session.go(place)
        self.job.show()
        await self.at(place, focus)

    async def over(self, *keys: str) -> ModalScreen[Any]:
        """Press keys, and wait for a dialog over the screen that has the focus somewhere."""
        await self.pilot.press(*keys)
        await self.until(lambda: isinstance(self.top, ModalScreen) and self.top.focused is not None)
        assert isinstance(self.top, ModalScreen)
        return self.top

    async def search(self, text: str, *keys: str, at: str = "", sees: str = "", key: str = "f3") -> None:
        """Open the search of places, or of what can be done, and type into it."""
        await self.over(key)
        await self.typed(text, *keys, at=at, sees=sees)

    async def on_the_job(self) -> None:
        """Wait until nothing lies over the job's screen."""
        await self.until(lambda: self.top is self.job)

    async def heeded(self) -> None:
        """Wait until a finding under the answer counts as seen: what is typed before is left out."""
        await self.until(lambda: monotonic() >= self.job.pages.hand.unseen_until)

    async def settled(self) -> None:
        """Wait until nothing is being worked out beside the screen, and what came of it is on it."""
        for _ in range(2):
            # What one found may set another on its way.
            await self.until(lambda: all(each.is_finished for each in self.app.workers))
            await self.pilot.pause(0.06)

    async def idle(self) -> None:
        """Wait until all keys are done with."""
        await self.until(lambda: self.app.message_queue_size == 0 and not self.app.input.held.at_work)
        await self.pilot.pause()

    async def click(self, text: str) -> None:
        """Click on the first place of `text` on the screen, or on the widget of an id that begins with `#`."""
        if text.startswith("#"):
            await self.pilot.click(text)
            return
        await self.sees(text)
        row, line = next((row, line) for row, line in enumerate(self.seen.splitlines()) if text in line)
        await self.pilot.click(offset=(line.index(text) + len(text) // 2, row))


@asynccontextmanager
async def opened(
    path: Path, size: Size = (80, 24), *, keys: Keys | None = None, faults: int = 0
) -> AsyncIterator[Screens]:
    """The app on a project file, or on a folder, once it shows what it opens on. `faults`: how many it survives."""
    more = () if keys is None else (keys,)
    app = SkirtApp(path, None, *more) if path.is_dir() else SkirtApp(path.parent, path, *more)
    async with app.run_test(size=size, notifications=True) as pilot:
        await pilot.pause()
        yield Screens(pilot, path)
    assert len(survived(app)) == faults, survived(app)


def loft(
    folder: Path,
    until: str | None = None,
    size: Size = (80, 24),
    *,
    edit: tuple[str, str] = ("", ""),
    keys: Keys | None = None,
    faults: int = 0,
) -> AbstractAsyncContextManager[Screens]:
    """The app on the job of `jobs.py`, at the question `until`, with a text of its file replaced."""
    path = job_file(folder / "loft.toml", until)
    if edit[0]:
        text = path.read_text(encoding="utf-8")
        assert edit[0] in text
        path.write_text(text.replace(*edit), encoding="utf-8")
    return opened(path, size, keys=keys, faults=faults)


def kept_beside(path: Path) -> str:
    """What is kept beside a project of what was typed."""
    beside = path.with_name(f".{path.name}.typed")
    return beside.read_text(encoding="utf-8") if beside.exists() else ""


def survived(app: SkirtApp) -> list[str]:
    """What was said of each fault of the program that did not end it."""
    return [each for each in app.parting if worded("fault") in each]


def wholly_visible(widget: Widget) -> bool:
    """True when no part of the widget is cut off or scrolled away."""
    found = widget.screen.find_widget(widget)
    return bool(found.region.area) and found.visible_region == found.region
