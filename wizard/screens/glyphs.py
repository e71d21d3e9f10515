"""The few signs the screens use, and what replaces them on a terminal whose font lacks them.

Every sign is one cell wide on both sides of the table, so nothing moves.
"""

from __future__ import annotations

from typing import Final

from rich.segment import Segment
from textual.color import Color
from textual.filter import LineFilter

DONE: Final = "●"
BEGUN: Final = "◐"
NOT_YET: Final = "○"
HERE: Final = "▸"
CHANGED: Final = "▲"
TICKED: Final = "✔"
CAUTION: Final = "!"
POINT: Final = "·"
FINISHED: Final = "┴"
AT: Final = "▲"
AHEAD: Final = "·"

CONSOLE: Final = (
    str.maketrans("●◐○▸▾▲✔…—–−×“”‘’•▼►◂◄←→↑↓", "■=·>v^x~---x\"\"''*v><<<>^v")
    | str.maketrans("╭╮╰╯━┃╸╺╌┄┊┆┏┓┗┛┣┫┳┻╋┷┯", "┌┐└┘─│──·─││┌┐└┘├┤┬┴┼┴┬")
    | str.maketrans("▔▁▏▕▎▊▂▃▅▆▇", "─_│││█▄▄▄▄█")
)
"""Signs a Linux console's usual font lacks, and what replaces each: code page 437 has the right-hand side."""


class ConsoleSigns(LineFilter):
    """Puts the plain sign for each fine one on the way to the terminal."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        """The same segments with their text put in the console's signs; `background` does not matter here."""
        return [Segment(text.translate(CONSOLE), style, control) for text, style, control in segments]
