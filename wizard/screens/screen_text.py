"""Text on the screens: shown literally, wrapped without splitting a length; its signs, and what replaces them on a
terminal whose font lacks them."""

from __future__ import annotations

from collections.abc import Callable
from textwrap import wrap
from typing import Final

from rich.segment import Segment
from textual import content
from textual.color import Color
from textual.content import Content
from textual.filter import LineFilter

from wizard.render.plain_text import NO_BREAK_SPACE, cell_len, clipped, literal, with_whole_lengths


def plain(text: str) -> str:
    """`text` with every unseen character written out, as `\\x1b` for escape; line ends stay."""
    return "\n".join(literal(each) for each in text.split("\n"))


def one_line(text: str) -> str:
    """`text` on a single line, for names in lists and headers."""
    return literal(text.replace("\n", " "))


def words(text: str) -> Content:
    """`text` as content for a widget: nothing in it is read as markup."""
    return Content(plain(text))


def cut_to(text: str, columns: int) -> str:
    """`text` on one line of at most `columns` columns; an ellipsis marks where it was cut."""
    return clipped(one_line(text), columns)


def filled(text: str, columns: int) -> str:
    """`text` on one line of just `columns` columns: cut, or followed by blanks."""
    line = cut_to(text, columns)
    return line + " " * (columns - cell_len(line))


LETTER: Final = "_"
"""Stands for such a blank while line ends are looked for: to the toolkit every blank is a place to end a line."""

_ENDS: Final = "divide_line"
"""What the toolkit calls the function that finds the ends of lines."""
_toolkit_ends: Callable[[str, int, bool], list[int]] | None = vars(content).get(_ENDS)


def in_lines(text: str, columns: int) -> list[str]:
    """`text` in lines of at most `columns`, none of which ends inside a length or at a tied blank; [] for nothing.

    `79` at the end of a line with `1/2 in` on the next would be read as 79.
    """
    return [each.replace(NO_BREAK_SPACE, " ") for each in wrap(with_whole_lengths(text), columns)]


def line_ends(text: str, width: int, fold: bool = True) -> list[int]:
    """Where a line of text is divided to fit `width` cells, as the toolkit asks it of its own function."""
    if _toolkit_ends is None or (len(text) <= width and text.isascii()):
        return []
    return _toolkit_ends(with_whole_lengths(text).replace(NO_BREAK_SPACE, LETTER), width, fold)


def keep_lengths_whole() -> None:
    """Have whatever the toolkit puts on a screen end its lines so. The text itself, which may be copied, stays.

    A toolkit that has no such function any more ends its lines in its own way.
    """
    if _toolkit_ends is not None:
        vars(content)[_ENDS] = line_ends


def alike(one: object, other: Content) -> bool:
    """True for the same text in the same styles; the toolkit compares the text alone."""
    return isinstance(one, Content) and one.plain == other.plain and one.spans == other.spans


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
