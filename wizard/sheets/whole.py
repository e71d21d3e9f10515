"""Lengths kept whole: their blanks are made unbreakable, wherever lines are broken."""

from __future__ import annotations

import re
from typing import Final

GLUE: Final = "\N{NO-BREAK SPACE}"
"""A blank at which no line ends."""
_IN_A_LENGTH: Final = re.compile(r"(?<=\d) (?=\d+/\d|(?:in|ft|yd|mm|cm|m)\b)|(?<=≈) |(?<=\d['′]) (?=\d)")
"""The blanks of a length: before its fraction, before its unit, after its ≈, between its feet and its inches."""


def glued(text: str) -> str:
    """`text` with the blanks inside its lengths made unbreakable: a fraction left alone on a line would be misread."""
    return _IN_A_LENGTH.sub(GLUE, text)
