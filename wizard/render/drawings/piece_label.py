"""What is written on a piece of a drawing on paper: number, size, section and way up, as large as fits."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import product, zip_longest
from typing import Final, Literal

from msgspec import Struct

from wizard.render.cut_order import CutPiece
from wizard.render.drawings.lettering import lettering_width, shortened
from wizard.render.drawings.scene import Box, Label, Pen, Shape, Size, Stroke
from wizard.render.drawings.scene_svg import HEAD, SIZES
from wizard.render.figure_text import unitless
from wizard.render.plain_text import literal
from wizard.trade.formatting import Ruler
from wizard.trade.lengths import Length

LINE: Final = Fraction(5, 4)
"""How high a line is, in parts of its lettering."""
EDGE: Final = 4
"""Nothing is written nearer to a piece's edge, in units of the picture."""
LONGEST, SHORTEST = 48, 16
"""How long an arrow for the way up may be."""
COLUMN: Final = HEAD + 2 * EDGE
"""What an arrow takes beside the lines."""
Line = tuple[str, Size]
Arrow = Literal["beside", "under", "none"]
"""Where the arrow for the way up is drawn."""
WITH: Final[tuple[Arrow, ...]] = ("beside", "under")
WITHOUT: Final[tuple[Arrow, ...]] = ("none",)
WHOLE, SHORT = "whole", "short"
"""How a name is written."""
Way = tuple[list[Line], Arrow]


class PieceLabels(Struct, frozen=True):
    """Writes the labels of one layer's pieces."""

    names: Mapping[str, str]
    """Part id -> what it is called."""
    ruler: Ruler
    up: str
    """An arrow for the way up, in the drawing: ↑ or ↓."""

    def on(self, each: CutPiece, box: Box, pixel: Length) -> Iterator[Shape]:
        """The lines on a piece that is drawn as `box`, in its middle, and its arrow. `pixel`: a unit of the picture."""
        wide, high = box.width / pixel, box.height / pixel
        least: Way = ([(str(each.number), "usual")], "none")
        lines, arrow = next((way for way in self._ways(each, wide) if _fits(way, wide, high)), least)
        taken, long = _tall(lines), _long(arrow, lines, high)
        top = (high - taken - (EDGE + long if arrow == "under" else 0)) / 2
        x = (wide + COLUMN) / 2 if arrow == "beside" else wide / 2
        yield from _written(lines, box, pixel, (x, top))
        if arrow == "beside":
            yield self._arrow(box, pixel, Fraction(COLUMN, 2), (high - long) / 2, long)
        elif arrow == "under":
            yield self._arrow(box, pixel, x, top + taken + EDGE, long)

    def _arrow(self, box: Box, pixel: Length, right: Fraction, down: Fraction, long: Fraction) -> Stroke:
        x, upper, lower = box.x + pixel * right, box.y + pixel * down, box.y + pixel * (down + long)
        tail, head = (upper, lower) if self.up == "↓" else (lower, upper)
        return Stroke(x, tail, x, head, "heavy", "end")

    def _ways(self, each: CutPiece, wide: Fraction) -> Iterator[Way]:
        """Every way of writing it, the fullest first: the name, then the arrow, then the size may be left out."""
        number: Line = (str(each.number), "largest")
        for arrows, named in product((WITH, WITHOUT), (WHOLE, SHORT, "")):
            made = [[(lines, arrow) for lines in self._lines(each, wide - _column(arrow), named)] for arrow in arrows]
            yield from (way for alike in zip_longest(*made) for way in alike if way is not None)
        yield from (([number], arrow) for arrow in (*WITH, *WITHOUT))

    def _lines(self, each: CutPiece, width: Fraction, named: str) -> Iterator[list[Line]]:
        """Number first, then size, then, if it is `named`, the name: on lines of their own, or on one line."""
        wide, long = unitless(each.piece.width, self.ruler), unitless(each.piece.cut, self.ruler)
        size, name = f"{wide} × {long}", self._name(each, width, named)
        number: Line = (str(each.number), "largest")
        at_once = f"{each.number}:  {size}"
        below: list[Line] = [(name, "usual")] if named else []
        if name or not named:
            yield [number, (size, "large"), *below]
            yield [(at_once, "large"), *below]
            yield [number, (size, "usual"), *below]
            yield [number, (f"{wide} ×", "usual"), (long, "usual"), *below]
            yield [(at_once, "usual"), *below]
        beside = self._name(each, width - lettering_width(f"{at_once}  ", SIZES["usual"]), named) if named else ""
        if beside:
            yield [(f"{at_once}  {beside}", "usual")]

    def _name(self, each: CutPiece, width: Fraction, named: str) -> str:
        name, end = self.names.get(each.piece.strip, each.piece.strip), f" {each.piece.order}/{each.of}"
        return f"{literal(name)}{end}" if named == WHOLE else shortened(name, width, SIZES["usual"], end)


def _written(lines: list[Line], box: Box, pixel: Length, place: tuple[Fraction, Fraction]) -> Iterator[Label]:
    """Lines one under the other; `place`: their middle and their top on the piece, in units of the picture."""
    x, down = place
    for line in lines:
        text, size = line
        pen: Pen = "line" if size == "usual" else "picked"
        middle = box.y + pixel * (down + _tall([line]) / 2)
        yield Label(box.x + pixel * x, middle, text, "middle", pen, size=size)
        down += _tall([line])


def _fits(way: Way, wide: Fraction, high: Fraction) -> bool:
    lines, arrow = way
    broadest = max(lettering_width(text, SIZES[size], bold=size != "usual") for text, size in lines)
    tall_enough = _tall(lines) <= high - EDGE and (arrow == "none" or _long(arrow, lines, high) >= SHORTEST)
    return tall_enough and broadest <= wide - _column(arrow)


def _column(arrow: Arrow) -> int:
    """What the lines leave free of a piece's width."""
    return 2 * EDGE + (COLUMN if arrow == "beside" else 0)


def _long(arrow: Arrow, lines: list[Line], high: Fraction) -> Fraction:
    """How long the arrow is."""
    return min(Fraction(LONGEST), high - 2 * EDGE - (_tall(lines) + EDGE if arrow == "under" else 0))


def _tall(lines: list[Line]) -> Fraction:
    return sum(SIZES[size] for _, size in lines) * LINE
