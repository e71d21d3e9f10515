"""Our colours: undyed linen by day, ink by night, and one theme without colours of its own for plain terminals."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from textual.theme import Theme

DARK: Final = "railskirt-evening"
LIGHT: Final = "railskirt-morning"
PLAIN: Final = "railskirt-plain"

THEMES: Final = (
    Theme(
        name=DARK,
        primary="#9bbde0",
        secondary="#c8b48a",
        accent="#e3b778",
        warning="#e8a860",
        error="#f4a094",
        success="#a9ca8f",
        foreground="#ece6d8",
        background="#1d2028",
        surface="#262a34",
        panel="#2e333f",
        dark=True,
        variables={
            "block-cursor-background": "#394050",
            "block-cursor-foreground": "#fffaf0",
            "block-cursor-blurred-background": "#2e333f",
            "button-cursor": "#e3b778",
            "button-cursor-ink": "#1d2028",
            "border": "#e3b778",
            "border-blurred": "#565e70",
            "input-cursor-background": "#ece6d8",
            "input-selection-background": "#4a5162",
            "input-cursor-foreground": "#1d2028",
            "quiet": "#bdc2cd",
            "rule": "#4a5162",
        },
    ),
    Theme(
        name=LIGHT,
        primary="#2c5a86",
        secondary="#6b5524",
        accent="#7d420e",
        warning="#7a4800",
        error="#a12d22",
        success="#33602a",
        foreground="#2a2822",
        background="#f8f4ea",
        surface="#fffdf6",
        panel="#ece5d4",
        dark=False,
        variables={
            "block-cursor-background": "#e3d5b4",
            "block-cursor-foreground": "#1d1b16",
            "block-cursor-blurred-background": "#ece5d4",
            "button-cursor": "#8a4b12",
            "button-cursor-ink": "#fffdf6",
            "border": "#8a4b12",
            "border-blurred": "#b9ad93",
            "input-cursor-background": "#2a2822",
            "input-selection-background": "#e3d5b4",
            "input-cursor-foreground": "#fffdf6",
            "quiet": "#5a5445",
            "rule": "#c9bfa8",
        },
    ),
    Theme(
        name=PLAIN,
        primary="ansi_default",
        secondary="ansi_default",
        accent="ansi_yellow",
        warning="ansi_yellow",
        error="ansi_red",
        success="ansi_green",
        foreground="ansi_default",
        background="ansi_default",
        surface="ansi_default",
        panel="ansi_default",
        dark=True,
        ansi=True,
        variables={
            "ansi-background": "ansi_default",
            "ansi-foreground": "ansi_default",
            "block-cursor-background": "ansi_default",
            "block-cursor-foreground": "ansi_default",
            "block-cursor-text-style": "reverse",
            "button-cursor": "ansi_default",
            "button-cursor-ink": "ansi_default",
            "block-cursor-blurred-background": "ansi_default",
            "block-cursor-blurred-text-style": "bold",
            "border": "ansi_default",
            "border-blurred": "ansi_default",
            "input-cursor-text-style": "reverse",
            "quiet": "ansi_default",
            "rule": "ansi_default",
        },
    ),
)

_LIGHT_GROUNDS: Final = ("7", "15")
"""The last number of COLORFGBG for a light ground: white and bright white."""


def first_theme(environ: Mapping[str, str]) -> str:
    """The theme to open with: plain where colour is refused or poor, else after the ground the terminal says it has."""
    if "NO_COLOR" in environ or environ.get("TERM", "") in ("linux", "vt100", "vt220"):
        return PLAIN
    return LIGHT if environ.get("COLORFGBG", "").rpartition(";")[2] in _LIGHT_GROUNDS else DARK


def other_theme(name: str) -> str:
    """Light for dark and the other way about."""
    return DARK if name == LIGHT else LIGHT
