"""Pictures of the screens, compared with those kept beside this file: where what stands beside what tells more than an
assertion. Colours are held in test_contrast.py, what fits into which window in test_window_sizes.py."""

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
from tests.screens.pilots import EVERY_SIZE, job, over, sees, settled
from tests.screens.screen_texts import worded
from wizard.screens.app import SkirtApp
from wizard.screens.themes import LIGHT

pytestmark = pytest.mark.pictures

Compare = Callable[..., bool]
Before = Callable[[Pilot[int]], Awaitable[None]]


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


def app_on(until: str | None, light: bool = False) -> SkirtApp:
    app = SkirtApp(Path("projects"), job_file(Path("projects/juniper-loft.toml"), until))
    if light:
        app.theme = LIGHT
    return app


def ready(*keys: str, text: str) -> Before:
    """Press `keys` once the job is there, and wait for `text`; the cursor stands still."""

    async def before(pilot: Pilot[int]) -> None:
        await sees(pilot, "Juniper loft")
        job(pilot).query_one("#field", Input).cursor_blink = False
        await pilot.press(*keys)
        await sees(pilot, text)
        for each in pilot.app.screen.query(Input):
            each.cursor_blink = False
        await settled(pilot)

    return before


@pytest.mark.parametrize("size", EVERY_SIZE, ids=lambda each: f"{each[0]}x{each[1]}")
def test_a_page_looks_as_it_did(snap_compare: Compare, size: tuple[int, int]) -> None:
    before = ready(text=worded("drop in the middle"))
    assert snap_compare(app_on("survey.section.left.drop.2"), terminal_size=size, run_before=before)


@pytest.mark.parametrize(
    ("until", "keys", "text"),
    [
        ("survey.rail", ("2",), "(•) veneered"),
        ("fullness.how", (), "Recommended: "),
        ("ways.face", (), "Recommended: "),
        (None, ("f7",), "Cut list"),
        (None, ("f9",), "[ ] Buy"),
        ("fullness.how", ("f3",), "Go to"),
    ],
    ids=["choice", "fullness", "ways", "cutting", "work", "go to"],
)
def test_each_kind_of_view_looks_as_it_did(
    snap_compare: Compare, until: str | None, keys: tuple[str, ...], text: str
) -> None:
    assert snap_compare(app_on(until), terminal_size=(80, 24), run_before=ready(*keys, text=text))


def test_the_list_of_projects_looks_as_it_did(snap_compare: Compare) -> None:
    for name, place in (("larch-attic", "survey.floor"), ("juniper-loft", None)):
        path = job_file(Path(f"projects/{name}.toml"), place)
        os.utime(path, (NOON.timestamp(), NOON.timestamp()))

    async def before(pilot: Pilot[int]) -> None:
        await sees(pilot, "larch-attic.toml")
        await settled(pilot)

    assert snap_compare(SkirtApp(Path("projects")), terminal_size=(80, 24), run_before=before)


def test_a_refused_answer_looks_as_it_did(snap_compare: Compare) -> None:
    async def before(pilot: Pilot[int]) -> None:
        await ready(text=worded("drop in the middle"))(pilot)
        await pilot.press("a", "space", *"lot", "enter")
        await sees(pilot, refusal_text("no number", "a lot"))
        await settled(pilot)

    assert snap_compare(app_on("survey.section.left.drop.2"), terminal_size=(80, 24), run_before=before)


def test_why_looks_as_it_did(snap_compare: Compare) -> None:
    async def before(pilot: Pilot[int]) -> None:
        await ready("f2", text="So far")(pilot)
        await over(pilot)
        await pilot.press("down", "down", "down", "enter")
        await sees(pilot, "Worked from")
        await settled(pilot)

    assert snap_compare(app_on(None), terminal_size=(80, 24), run_before=before)


def test_a_question_in_large_figures_looks_as_it_did(snap_compare: Compare) -> None:
    async def before(pilot: Pilot[int]) -> None:
        await ready("ctrl+f", *"12", "space", *"1/8", text="≈ 308 mm")(pilot)
        await settled(pilot)

    assert snap_compare(app_on("survey.section.left.drop.2"), terminal_size=(60, 20), run_before=before)


def test_a_step_in_large_figures_looks_as_it_did(snap_compare: Compare) -> None:
    async def before(pilot: Pilot[int]) -> None:
        await ready("f9", "ctrl+f", "f8", text="2 of ")(pilot)

    assert snap_compare(app_on(None, light=True), terminal_size=(120, 40), run_before=before)


def test_the_picture_of_the_readme(snap_compare: Compare) -> None:
    app = app_on("survey.section.left.drop.2")
    assert snap_compare(app, terminal_size=(100, 32), run_before=ready(text=worded("drop in the middle")))
