"""Text can be read: every piece on the screen stands out from its ground by 4.5 to 1 at least, as WCAG 2 asks (1.4.3).

What lies behind a dialog is out of use for as long, and is left out as the same rule does.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from rich.color import Color
from rich.segment import Segment
from textual.pilot import Pilot
from textual.screen import ModalScreen

from tests.screens.jobs import job_file
from tests.screens.pilots import job, opened, over, sees, typed, until
from tests.screens.screen_texts import worded
from wizard.screens.themes import DARK, LIGHT, THEMES

ENOUGH = 4.5
INKS = ("foreground", "primary", "accent", "warning", "error", "success", "quiet")
GROUNDS = ("background", "surface", "panel")
PAIRS = (
    ("block-cursor-foreground", "block-cursor-background"),
    ("quiet", "block-cursor-background"),
    ("accent", "block-cursor-background"),
    ("foreground", "block-cursor-blurred-background"),
    ("button-cursor-ink", "button-cursor"),
    ("input-cursor-foreground", "input-cursor-background"),
    ("foreground", "input-selection-background"),
)
DRAWN = set(map(chr, range(0x2500, 0x25A0)))
"""Lines and blocks: strokes of drawings, rules and scroll bars, which are no text."""


def light_of(part: int) -> float:
    share = part / 255
    return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4


@cache
def contrast(one: tuple[int, int, int], other: tuple[int, int, int]) -> float:
    """The contrast ratio of WCAG 2: 1 for the same colour, 21 for black on white."""
    lights = sorted(0.2126 * light_of(r) + 0.7152 * light_of(g) + 0.0722 * light_of(b) for r, g, b in (one, other))
    return (lights[1] + 0.05) / (lights[0] + 0.05)


@cache
def parts(colour: str) -> tuple[int, int, int]:
    red, green, blue = Color.parse(colour).get_truecolor()
    return red, green, blue


def test_the_sum_is_that_of_the_standard() -> None:
    assert contrast((0, 0, 0), (255, 255, 255)) == pytest.approx(21)
    assert contrast((119, 119, 119), (255, 255, 255)) == pytest.approx(4.48, abs=0.01)


@pytest.mark.parametrize("name", [DARK, LIGHT])
def test_every_ink_of_a_theme_can_be_read_on_every_ground(name: str) -> None:
    theme = next(each for each in THEMES if each.name == name)
    colours = {**{each: getattr(theme, each, None) for each in (*INKS, *GROUNDS)}, **theme.variables}
    pairs = [*((ink, ground) for ink in INKS for ground in GROUNDS), *PAIRS]
    poor = {pair: contrast(parts(colours[pair[0]]), parts(colours[pair[1]])) for pair in pairs}
    assert {pair: ratio for pair, ratio in poor.items() if ratio < ENOUGH} == {}


def pieces(pilot: Pilot[int]) -> list[Segment]:
    """What can be read and is in use: the dialog's box where there is one, else the whole screen."""
    screen = pilot.app.screen
    region = screen.query_one(".box").region if isinstance(screen, ModalScreen) else screen.region
    strips = screen._compositor.render_strips(pilot.app.size)[region.y : region.bottom]
    return [each for strip in strips for each in strip.crop(region.x, region.right)]


def poor(pilot: Pilot[int]) -> list[str]:
    found = []
    for text, style, _ in pieces(pilot):
        if not set(text) - DRAWN - {" "} or style is None or style.color is None or style.bgcolor is None:
            continue
        ratio = contrast(tuple(style.color.get_truecolor()), tuple(style.bgcolor.get_truecolor()))
        if ratio < ENOUGH:
            found.append(f"{text.strip()!r}: {style.color.name} on {style.bgcolor.name}, {ratio:.2f}")
    return found


@pytest.mark.long
@pytest.mark.parametrize("theme", [DARK, LIGHT])
async def test_every_text_on_the_screens_can_be_read(tmp_path: Path, theme: str) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "fullness.how"), (120, 40)) as pilot:
        pilot.app.theme = theme
        await sees(pilot, "recommended")
        assert poor(pilot) == []
        await pilot.press("f2")
        await over(pilot)
        await pilot.pause()
        assert poor(pilot) == []
        await pilot.press("enter")
        await sees(pilot, "Worked from")
        assert poor(pilot) == []
        await pilot.press("escape", "escape")
        for key, text in (("f3", worded("search")), ("f4", "Findings"), ("ctrl+s", "Write"), ("ctrl+q", "Leave?")):
            await pilot.press(key)
            await over(pilot)
            await sees(pilot, text)
            for _ in range(3):
                assert poor(pilot) == [], key
                await pilot.press("tab")
                await pilot.pause()
            await pilot.press("escape")
            await until(pilot, lambda: pilot.app.screen is job(pilot))
        await pilot.press("tab", "tab")
        await pilot.pause()
        assert poor(pilot) == [], "a button of the foot that has the focus"
        job(pilot).show()
        await typed(pilot, "much")
        await pilot.press("enter")
        await sees(pilot, "For example")
        assert poor(pilot) == []
        for key, text in (("f9", "Start timer"), ("f7", worded("still needed"))):
            await pilot.press(key)
            await sees(pilot, text)
            assert poor(pilot) == [], key
