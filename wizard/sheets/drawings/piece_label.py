"""What is written on a piece of a drawing on paper: number, size, and whose it is, as large as there is room for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

from msgspec import Struct

from wizard.sheets.cut_order import Numbered
from wizard.sheets.figure_text import bare
from wizard.sheets.plain import cells, literal
from wizard.sheets.scene import Box, Pen, Size, Words
from wizard.sheets.svg import SIZES
from wizard.trade.lengths import Length
from wizard.trade.printing import Ruler

LETTER: Final = Fraction(3, 5)
"""About how wide a letter is, in parts of its height."""
LINE: Final = Fraction(5, 4)
"""How high a line is, in parts of its lettering."""
USUAL: Final[Size] = "usual"
LARGE: Final[Size] = "large"
LARGEST: Final[Size] = "largest"

Line = tuple[str, Size]


class Labels(Struct, frozen=True):
    """The pen for the labels of one drawing."""

    names: Mapping[str, str]
    """Part id -> what it is called."""
    ruler: Ruler
    pixel: Length
    """What a unit of the picture is in the drawing."""

    def on(self, each: Numbered, box: Box) -> Iterator[Words]:
        """The lines on a piece that is drawn as `box`, in its middle."""
        lines = self._lines(each, box)
        down = box.y + (box.height - self._tall(lines)) / 2
        for text, size in lines:
            room = self._tall([(text, size)])
            pen: Pen = "line" if size == USUAL else "picked"
            yield Words(box.x + box.width / 2, down + room / 2, text, "middle", pen, size=size)
            down += room

    def _lines(self, each: Numbered, box: Box) -> list[Line]:
        """Number first, then size, then name: on lines of their own, on one line, or as much as finds room."""
        wide, long = bare(each.piece.width, self.ruler), bare(each.piece.cut, self.ruler)
        name = f"{self.names.get(each.piece.strip, each.piece.strip)} {each.piece.order}/{each.of}"
        size, number = f"{wide} × {long}", (str(each.number), LARGEST)
        ways: tuple[list[Line], ...] = (
            [number, (size, LARGE), (name, USUAL)],
            [(f"{each.number}:  {size}", LARGE), (name, USUAL)],
            [number, (size, LARGE)],
            [(f"{each.number}:  {size}", LARGE)],
            [number, (size, USUAL), (name, USUAL)],
            [number, (size, USUAL)],
            [number, (f"{wide} ×", USUAL), (long, USUAL)],
            [number],
        )
        fitting = (lines for lines in ways if self._tall(lines) <= box.height and self._wide(lines) <= box.width)
        return next(fitting, [(number[0], USUAL)])

    def _tall(self, lines: list[Line]) -> Length:
        return self.pixel * (sum(SIZES[size] for _, size in lines) * LINE)

    def _wide(self, lines: list[Line]) -> Length:
        return self.pixel * (max(cells(literal(text)) * SIZES[size] for text, size in lines) * LETTER)
