"""Opening the screens under a pilot, and looking at what a person would see."""

from __future__ import annotations

from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from pathlib import Path
from time import monotonic

import pytest
from textual.pilot import Pilot
from textual.screen import ModalScreen
from textual.widget import Widget

from tests.screens.screen_texts import worded
from wizard.screens.app import SkirtApp
from wizard.screens.job_screen import JobScreen

SIZES = ((60, 20), (80, 24), (120, 40))
"""Works, good, better."""

EVERY_SIZE = (SIZES[0], *(pytest.param(size, marks=pytest.mark.long) for size in SIZES[1:]))
"""For a test a size: the smallest window shows most faults, the others are long runs."""

PATIENCE = 60
"""Seconds until something that does not come is given up: far more than it takes."""


@asynccontextmanager
async def opened(path: Path, size: tuple[int, int] = (80, 24), faults: int = 0) -> AsyncIterator[Pilot[int]]:
    """The app on a project file, or on a folder, once it shows what it opens on. `faults`: how many it survives."""
    app = SkirtApp(path, None) if path.is_dir() else SkirtApp(path.parent, path)
    async with app.run_test(size=size, notifications=True) as pilot:
        await pilot.pause()
        yield pilot
    assert len(survived(app)) == faults, survived(app)


def survived(app: SkirtApp) -> list[str]:
    """What was said of each fault of the program that did not end it."""
    return [each for each in app.parting if worded("fault") in each]


def app_of(pilot: Pilot[int]) -> SkirtApp:
    """The app, as what it is."""
    assert isinstance(pilot.app, SkirtApp)
    return pilot.app


def job(pilot: Pilot[int]) -> JobScreen:
    """The job's screen, whatever lies over it."""
    return next(each for each in pilot.app.screen_stack if isinstance(each, JobScreen))


def seen(pilot: Pilot[int]) -> str:
    """All the text on the screen, line by line."""
    app = pilot.app
    strips = app.screen._compositor.render_strips(app.size)
    return "\n".join("".join(segment.text for segment in strip) for strip in strips)


def wholly_visible(widget: Widget) -> bool:
    """True when no part of the widget is cut off or scrolled away."""
    found = widget.screen.find_widget(widget)
    return bool(found.region.area) and found.visible_region == found.region


def focused(pilot: Pilot[int]) -> str | None:
    """Id of what has the focus."""
    return pilot.app.screen.focused.id if pilot.app.screen.focused else None


async def until(pilot: Pilot[int], wanted: Callable[..., bool]) -> None:
    """Wait for `wanted`, however slow the machine is; fails when it never comes."""
    end = monotonic() + PATIENCE
    while not wanted():
        assert monotonic() < end, f"it never came; on the screen was:\n{seen(pilot)}"
        await pilot.pause(0.02)


async def settled(pilot: Pilot[int]) -> None:
    """Wait until nothing is being worked out beside the screen, and what came of it is on it."""
    for _ in range(2):
        # What one found may set another on its way.
        await until(pilot, lambda: all(each.is_finished for each in pilot.app.workers))
        await pilot.pause(0.06)


async def heeded(pilot: Pilot[int]) -> None:
    """Wait until a finding under the answer counts as seen: what is typed before is left out."""
    await until(pilot, lambda: monotonic() >= job(pilot).pages.hand.unseen_until)


async def sees(pilot: Pilot[int], text: str) -> None:
    """Wait until `text` is on the screen."""
    await until(pilot, lambda: text in seen(pilot))


async def at(pilot: Pilot[int], place: str, focus: str | None = None) -> None:
    """Wait until one stands at `place` of the interview, with the focus on `focus` and nothing over it."""
    await until(pilot, lambda: _stands(pilot, place, focus))


def _stands(pilot: Pilot[int], place: str, focus: str | None) -> bool:
    screen = pilot.app.screen
    return isinstance(screen, JobScreen) and screen.session.at == place and focus in (None, focused(pilot))


async def over(pilot: Pilot[int]) -> ModalScreen[object]:
    """Wait for a dialog over the screen that has the focus somewhere."""
    await until(pilot, lambda: isinstance(pilot.app.screen, ModalScreen) and pilot.app.screen.focused is not None)
    assert isinstance(pilot.app.screen, ModalScreen)
    return pilot.app.screen


async def typed(pilot: Pilot[int], text: str) -> None:
    """Type `text` key by key."""
    for each in text:
        await pilot.press("space" if each == " " else each)
    await pilot.pause()


async def clear_field(pilot: Pilot[int]) -> None:
    """Take out what is in the field."""
    await pilot.press("end", "ctrl+u")


async def press(pilot: Pilot[int], text: str) -> None:
    """Click on the first place of `text` on the screen."""
    await sees(pilot, text)
    row, line = next((row, line) for row, line in enumerate(seen(pilot).splitlines()) if text in line)
    await pilot.click(offset=(line.index(text) + len(text) // 2, row))
