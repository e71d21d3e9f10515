"""Where lines end on the screens: at blanks, but never inside a length. `79` at the end of a line with `1/2 in` on the
next would be read as 79."""

from __future__ import annotations

from collections.abc import Callable
from textwrap import wrap
from typing import Final

from textual import content

from wizard.sheets.whole import GLUE, glued

LETTER: Final = "_"
"""Stands for such a blank while line ends are looked for: to the toolkit every blank is a place to end a line."""

_ENDS: Final = "divide_line"
"""What the toolkit calls the function that finds the ends of lines."""
_toolkit_ends: Callable[[str, int, bool], list[int]] | None = vars(content).get(_ENDS)


def in_lines(text: str, columns: int) -> list[str]:
    """`text` in lines of at most `columns`, none of which ends inside a length or at a tied blank; [] for nothing."""
    return [each.replace(GLUE, " ") for each in wrap(glued(text), columns)]


def line_ends(text: str, width: int, fold: bool = True) -> list[int]:
    """Where a line of text is divided to fit `width` cells, as the toolkit asks it of its own function."""
    if _toolkit_ends is None or (len(text) <= width and text.isascii()):
        return []
    return _toolkit_ends(glued(text).replace(GLUE, LETTER), width, fold)


def keep_lengths_whole() -> None:
    """Have whatever the toolkit puts on a screen end its lines so. The text itself, which may be copied, stays.

    A toolkit that has no such function any more ends its lines in its own way.
    """
    if _toolkit_ends is not None:
        vars(content)[_ENDS] = line_ends
