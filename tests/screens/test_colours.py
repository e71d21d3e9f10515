"""Text can be read: every piece on the screen stands out from its ground by 4.5 to 1 at least, as WCAG 2 asks (1.4.3).

What lies behind a dialog is out of use for as long, and is left out as the same rule does. Poor terminals get the
colours and signs that they have.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from rich.color import Color
from rich.segment import Segment
from textual.color import Color as ScreenColor
from textual.screen import ModalScreen

from tests.screens.jobs import job_file
from tests.screens.pilots import Screens, opened
from tests.screens.screen_texts import worded
from wizard.screens.screen_text import CONSOLE, ConsoleSigns
from wizard.screens.themes import DARK, LIGHT, PLAIN, THEMES, first_theme, other_theme

ENOUGH = 4.5
INKS = ("foreground", "primary", "accent", "warning", "error", "success", "quiet")
GROUNDS = ("background", "surface", "panel", "block-cursor-background", "block-cursor-blurred-background")
PAIRS = (
    ("block-cursor-foreground", "block-cursor-background"),
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


def pieces(it: Screens) -> list[Segment]:
    """What can be read and is in use: the dialog's box where there is one, else the whole screen."""
    screen = it.top
    region = screen.query_one(".box").region if isinstance(screen, ModalScreen) else screen.region
    strips = screen._compositor.render_strips(it.app.size)[region.y : region.bottom]
    return [each for strip in strips for each in strip.crop(region.x, region.right)]


def poor(it: Screens) -> list[str]:
    found = []
    for text, style, _ in pieces(it):
        if not set(text) - DRAWN - {" "} or style is None or style.color is None or style.bgcolor is None:
            continue
        ratio = contrast(tuple(style.color.get_truecolor()), tuple(style.bgcolor.get_truecolor()))
        if ratio < ENOUGH:
            found.append(f"{text.strip()!r}: {style.color.name} on {style.bgcolor.name}, {ratio:.2f}")
    return found


@pytest.mark.long
@pytest.mark.parametrize("theme", [DARK, LIGHT])
async def test_every_text_on_the_screens_can_be_read(tmp_path: Path, theme: str) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "fullness.how"), (120, 40)) as it:
        it.app.theme = theme
        await it.sees("recommended")
        assert poor(it) == []
        await it.over("f2")
        await it.pilot.pause()
        assert poor(it) == []
        await it.press("enter", sees="Worked from")
        assert poor(it) == []
        await it.press("escape", "escape")
        for key, text in (("f3", worded("search")), ("f4", "Findings"), ("ctrl+s", "Write"), ("ctrl+q", "Leave?")):
            await it.over(key)
            await it.sees(text)
            for _ in range(3):
                assert poor(it) == [], key
                await it.press("tab")
                await it.pilot.pause()
            await it.press("escape")
            await it.on_the_job()
        await it.press("tab", "tab")
        await it.pilot.pause()
        assert poor(it) == [], "a button of the foot that has the focus"
        it.job.show()
        await it.typed("much", "enter", sees="For example")
        assert poor(it) == []
        for key, text in (("f9", "Start timer"), ("f7", worded("still needed"))):
            await it.press(key, sees=text)
            assert poor(it) == [], key


# On terminals that have few colours and signs.
def test_every_sign_that_is_replaced_is_one_that_a_linux_console_has() -> None:
    for sign in CONSOLE.values():
        assert len(chr(sign).encode("cp437")) == 1


def test_signs_are_replaced_one_for_one_so_that_nothing_moves() -> None:
    replaced = ConsoleSigns().apply([Segment("● Survey ━━╌╌ ╭─╮")], ScreenColor.parse("black"))
    assert [each.text for each in replaced] == ["■ Survey ──·· ┌─┐"]


@pytest.mark.parametrize(
    ("environ", "theme"),
    [
        ({}, DARK),
        ({"COLORFGBG": "0;15"}, LIGHT),
        ({"COLORFGBG": "0;default;7"}, LIGHT),
        ({"COLORFGBG": "15;0"}, DARK),
        ({"COLORFGBG": "nonsense"}, DARK),
        ({"NO_COLOR": ""}, PLAIN),
        ({"TERM": "linux"}, PLAIN),
        ({"TERM": "xterm"}, PLAIN),
        ({"TERM": "xterm", "COLORFGBG": "0;15"}, LIGHT),
        ({"TERM": "xterm", "COLORTERM": "truecolor"}, DARK),
        ({"TERM": "xterm-256color"}, DARK),
        ({"TERM": "linux", "COLORFGBG": "0;15"}, PLAIN),
    ],
)
def test_the_first_theme_follows_what_the_terminal_says_of_itself(environ: dict[str, str], theme: str) -> None:
    assert first_theme(environ) == theme


def test_light_and_dark_take_turns() -> None:
    assert [other_theme(DARK), other_theme(LIGHT), other_theme(PLAIN)] == [LIGHT, DARK, LIGHT]
