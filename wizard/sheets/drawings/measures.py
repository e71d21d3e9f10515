"""Measuring lines with their labels, for sketches in plain units."""

from __future__ import annotations

from fractions import Fraction

from wizard.sheets.scene import Pen, Shape, Stroke, Words
from wizard.trade.lengths import Length

Number = int | Fraction


def u(number: Number) -> Length:
    """So many units of a sketch."""
    return Length(number)


def across(start: Number, end: Number, y: Number, text: str, *, asked: bool = True) -> list[Shape]:
    """A level measure with its label on it."""
    pen: Pen = "picked" if asked else "line"
    middle = Fraction(start + end) / 2
    return [Stroke(u(start), u(y), u(end), u(y), pen, "both"), Words(u(middle), u(y), f" {text} ", "middle", pen)]


def beside(start: Number, end: Number, y: Number, text: str, *, asked: bool = True) -> list[Shape]:
    """A level measure too short for its label, which stands to its right."""
    pen: Pen = "picked" if asked else "line"
    label = Words(u(end + Fraction(1, 2)), u(y), f" {text}", "start", pen)
    return [Stroke(u(start), u(y), u(end), u(y), pen, "both"), label]


def down(x: Number, start: Number, end: Number, text: str, *, asked: bool = True) -> list[Shape]:
    """An upright measure with its label to its right."""
    pen: Pen = "picked" if asked else "line"
    label = Words(u(x + Fraction(1, 2)), u(Fraction(start + end) / 2), f" {text}", "start", pen)
    return [Stroke(u(x), u(start), u(x), u(end), pen, "both"), label]
