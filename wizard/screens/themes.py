"""Our colours: undyed linen by day, ink by night, and one theme without colours of its own for plain terminals."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Final

from textual.theme import Theme

DARK: Final = "railskirt-evening"
LIGHT: Final = "railskirt-morning"
PLAIN: Final = "railskirt-plain"

_SHEET: Final = Path(__file__).parent / "styles" / "colours.txt"
"""In each of its two parts, after a line on what it has: a name and its value in each theme; - leaves it out."""


def _tables() -> Iterator[dict[str, list[str]]]:
    for part in _SHEET.read_text(encoding="utf-8").split("\n\n")[1::2]:
        yield {name: values for name, *values in map(str.split, part.splitlines())}


def _theme(column: int, name: str) -> Theme:
    """The theme that a column of the tables describes."""
    colours, variables = (
        {key: values[column] for key, values in table.items() if values[column] != "-"} for table in _tables()
    )
    return Theme(name, **colours, dark=name != LIGHT, ansi=name == PLAIN, variables=variables)  # type: ignore[arg-type]


THEMES: Final = tuple(_theme(column, name) for column, name in enumerate((DARK, LIGHT, PLAIN)))

_LIGHT_GROUNDS: Final = ("7", "15")
"""The last number of COLORFGBG for a light ground: white and bright white."""


def first_theme(environ: Mapping[str, str]) -> str:
    """The theme to open with: plain where colour is refused or poor, else after the ground the terminal says it has."""
    kind, light = environ.get("TERM", ""), environ.get("COLORFGBG", "").rpartition(";")[2] in _LIGHT_GROUNDS
    # The sixteen colours of a terminal have no two grounds near enough for a list and its line in hand.
    few = kind and not (environ.get("COLORTERM") or kind.endswith(("256color", "kitty", "direct")))
    if "NO_COLOR" in environ or kind in ("linux", "vt100", "vt220") or (few and not light):
        return PLAIN
    return LIGHT if light else DARK


def other_theme(name: str) -> str:
    """Light for dark and the other way about."""
    return DARK if name == LIGHT else LIGHT
