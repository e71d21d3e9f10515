"""Pictures of the screens, compared with those kept beside this file: where what stands beside what tells more than an
assertion. Colours are held in test_colours.py, what fits into which window in test_window_sizes.py."""

from __future__ import annotations

import os
import time
from collections.abc import Awaitable, Callable, Iterator
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from tests.project.refusal_texts import refusal_text
from tests.screens.jobs import NOON, job_file
from tests.screens.pilots import EVERY_SIZE, Screens, Size
from tests.screens.screen_texts import worded
from wizard.screens.app import SkirtApp
from wizard.screens.themes import LIGHT

pytestmark = pytest.mark.pictures

Compare = Callable[..., bool]
Keys = tuple[tuple[str, ...], str]
"""Keys, and the text that is waited for then."""

MIDDLE = "survey.section.left.drop.2"
THERE: Keys = ((), worded("drop in the middle"))


@pytest.fixture(autouse=True)
def still(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Iterator[None]:
    """The same picture on every machine: no colours refused, no other time zone, a short path."""
    for name in ("NO_COLOR", "COLORFGBG"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.setenv("TZ", "UTC")
    time.tzset()
    monkeypatch.chdir(tmp_path)
    (tmp_path / "projects").mkdir()
    yield
    monkeypatch.undo()
    time.tzset()


def app_on(until: str | None) -> SkirtApp:
    return SkirtApp(Path("projects"), job_file(Path("projects/juniper-loft.toml"), until))


def ready(*steps: Keys) -> Callable[[Pilot[int]], Awaitable[None]]:
    """Press keys once the job is there, and wait for the text that they bring; the cursor stands still."""

    async def before(pilot: Pilot[int]) -> None:
        it = Screens(pilot, Path())
        await it.sees("Juniper loft")
        for keys, text in steps:
            await it.press(*keys, sees=text)
            for each in it.top.query(Input):
                each.cursor_blink = False
        await it.settled()

    return before


@pytest.mark.parametrize("size", EVERY_SIZE, ids=lambda each: f"{each[0]}x{each[1]}")
def test_a_page_looks_as_it_did(snap_compare: Compare, size: Size) -> None:
    assert snap_compare(app_on(MIDDLE), terminal_size=size, run_before=ready(THERE))


VIEWS: dict[str, tuple[str | None, tuple[int, int], tuple[Keys, ...]]] = {
    "choice": ("survey.rail", (80, 24), ((("2",), "(•) veneered"),)),
    "fullness": ("fullness.how", (80, 24), (((), "Recommended: "),)),
    "ways": ("ways.face", (80, 24), (((), "Recommended: "),)),
    "cutting": (None, (80, 24), ((("f7",), "Cut list"),)),
    "work": (None, (80, 24), ((("f9",), "[ ] Buy"),)),
    "go to": ("fullness.how", (80, 24), ((("f3",), "Go to"),)),
    "refused": (MIDDLE, (80, 24), (THERE, (("a", "space", *"lot", "enter"), refusal_text("no number", "a lot")))),
    "why": (None, (80, 24), ((("f2",), "Why?"), (("down", "down", "down", "enter"), "Worked from"))),
    "large question": (MIDDLE, (60, 20), (THERE, (("ctrl+f", *"12", "space", *"1/8"), "≈ 308 mm"))),
}


@pytest.mark.parametrize(("until", "size", "steps"), VIEWS.values(), ids=VIEWS)
def test_each_kind_of_view_looks_as_it_did(
    snap_compare: Compare, until: str | None, size: Size, steps: tuple[Keys, ...]
) -> None:
    assert snap_compare(app_on(until), terminal_size=size, run_before=ready(*steps))


def test_a_step_in_large_figures_looks_as_it_did(snap_compare: Compare) -> None:
    app = app_on(None)
    app.theme = LIGHT
    assert snap_compare(app, terminal_size=(120, 40), run_before=ready((("f9", "ctrl+f", "f8"), "2 of ")))


def test_the_list_of_projects_looks_as_it_did(snap_compare: Compare) -> None:
    for name, place in (("larch-attic", "survey.floor"), ("juniper-loft", None)):
        path = job_file(Path(f"projects/{name}.toml"), place)
        os.utime(path, (NOON.timestamp(), NOON.timestamp()))
    before = ready(((), "larch-attic.toml"))
    assert snap_compare(SkirtApp(Path("projects")), terminal_size=(80, 24), run_before=before)


def test_the_picture_of_the_readme(snap_compare: Compare) -> None:
    assert snap_compare(app_on(MIDDLE), terminal_size=(100, 32), run_before=ready(THERE))
