"""Our colours: undyed linen by day, ink by night, and one theme without colours of its own for plain terminals."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from textual.theme import Theme

DARK: Final = "railskirt-evening"
LIGHT: Final = "railskirt-morning"
PLAIN: Final = "railskirt-plain"

_DEFAULT: Final = "ansi_default"
"""The terminal's own colour."""

_COLOURS: Final = {
    "primary": ("#9bbde0", "#2c5a86", _DEFAULT),
    "secondary": ("#c8b48a", "#6b5524", _DEFAULT),
    "accent": ("#e3b778", "#7d420e", "ansi_yellow"),
    "warning": ("#e8a860", "#7a4800", "ansi_yellow"),
    "error": ("#f4a094", "#a12d22", "ansi_red"),
    "success": ("#a9ca8f", "#33602a", "ansi_green"),
    "foreground": ("#ece6d8", "#2a2822", _DEFAULT),
    "background": ("#1d2028", "#f8f4ea", _DEFAULT),
    "surface": ("#262a34", "#fffdf6", _DEFAULT),
    "panel": ("#2e333f", "#ece5d4", _DEFAULT),
}
"""A colour of Textual's themes -> its value in the dark, the light and the plain one."""

_VARIABLES: Final = {
    "ansi-background": (None, None, _DEFAULT),
    "ansi-foreground": (None, None, _DEFAULT),
    "block-cursor-background": ("#394050", "#e3d5b4", _DEFAULT),
    "block-cursor-foreground": ("#fffaf0", "#1d1b16", _DEFAULT),
    "block-cursor-text-style": (None, None, "reverse"),
    "block-cursor-blurred-background": ("#2e333f", "#ece5d4", _DEFAULT),
    "block-cursor-blurred-text-style": (None, None, "bold"),
    "button-cursor": ("#e3b778", "#8a4b12", _DEFAULT),
    "button-cursor-ink": ("#1d2028", "#fffdf6", _DEFAULT),
    "border": ("#e3b778", "#8a4b12", _DEFAULT),
    "border-blurred": ("#565e70", "#b9ad93", _DEFAULT),
    "input-cursor-background": ("#ece6d8", "#2a2822", None),
    "input-cursor-foreground": ("#1d2028", "#fffdf6", None),
    "input-cursor-text-style": (None, None, "reverse"),
    "input-selection-background": ("#4a5162", "#e3d5b4", None),
    "quiet": ("#bdc2cd", "#5a5445", _DEFAULT),
    "rule": ("#4a5162", "#c9bfa8", _DEFAULT),
}
"""A variable of the style sheets -> its value in each theme; None leaves it to Textual."""


def _theme(column: int, name: str) -> Theme:
    """The theme that a column of the tables describes."""
    variables = {key: value for key, values in _VARIABLES.items() if (value := values[column]) is not None}
    colours = {key: values[column] for key, values in _COLOURS.items()}
    return Theme(name, **colours, dark=name != LIGHT, ansi=name == PLAIN, variables=variables)  # type: ignore[arg-type]


THEMES: Final = tuple(_theme(column, name) for column, name in enumerate((DARK, LIGHT, PLAIN)))

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
