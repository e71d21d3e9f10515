"""Colours and signs on terminals that have few of them."""

from __future__ import annotations

import pytest
from rich.segment import Segment
from textual.color import Color

from wizard.screens.screen_text import CONSOLE, ConsoleSigns
from wizard.screens.themes import DARK, LIGHT, PLAIN, THEMES, first_theme, other_theme


def test_every_sign_that_is_replaced_is_one_that_a_linux_console_has() -> None:
    for sign in CONSOLE.values():
        assert len(chr(sign).encode("cp437")) == 1


def test_signs_are_replaced_one_for_one_so_that_nothing_moves() -> None:
    replaced = ConsoleSigns().apply([Segment("● Survey ━━╌╌ ╭─╮")], Color.parse("black"))
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
        ({"TERM": "linux", "COLORFGBG": "0;15"}, PLAIN),
    ],
)
def test_the_first_theme_follows_what_the_terminal_says_of_itself(environ: dict[str, str], theme: str) -> None:
    assert first_theme(environ) == theme


def test_light_and_dark_take_turns() -> None:
    assert [other_theme(DARK), other_theme(LIGHT), other_theme(PLAIN)] == [LIGHT, DARK, LIGHT]


@pytest.mark.parametrize("theme", [each for each in THEMES if not each.ansi], ids=lambda each: each.name)
def test_every_text_colour_stands_out_from_every_ground(theme: object) -> None:
    from textual.theme import Theme

    assert isinstance(theme, Theme)
    inks = [theme.foreground, theme.primary, theme.accent, theme.warning, theme.error, theme.success]
    inks.append(theme.variables["quiet"])
    cursors = (theme.variables["block-cursor-background"], theme.variables["block-cursor-blurred-background"])
    grounds = [Color.parse(each or "") for each in (theme.background, theme.surface, theme.panel, *cursors)]
    for ink in inks:
        for ground in grounds:
            assert contrast(Color.parse(ink or ""), ground) >= 4.5, (ink, ground)


def contrast(one: Color, other: Color) -> float:
    """Contrast ratio of the web content accessibility guidelines; 4.5 is their level AA for text."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def luminance(colour: Color) -> float:
    parts = [each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in colour.normalized]
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]
