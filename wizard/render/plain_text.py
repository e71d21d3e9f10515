"""People's own text shown literally, how many columns it takes, and lengths kept whole where lines are broken."""

from __future__ import annotations

import re
import unicodedata
from typing import Final

_UNSEEN: Final = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})
"""Kinds of characters that have no shape of their own, or would move, hide or turn round their neighbours."""


def literal(text: str) -> str:
    """`text` with every unseen character written out: an escape code as `\\x1b`, a line feed as `\\x0a`."""
    if text.isascii() and text.isprintable():
        # Nearly every text there is, and nothing unseen among those letters.
        return text
    return "".join(_written(each) if unicodedata.category(each) in _UNSEEN else each for each in text)


def _written(character: str) -> str:
    code = ord(character)
    if code <= 0xFF:
        return f"\\x{code:02x}"
    return f"\\u{code:04x}" if code <= 0xFFFF else f"\\U{code:08x}"


def cell_len(text: str) -> int:
    """Columns that `text` takes on a terminal: two for a wide character, none for a combining mark."""
    if text.isascii():
        return len(text)
    return sum(_cells(each) for each in text)


def _cells(character: str) -> int:
    if unicodedata.combining(character):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def clipped(text: str, columns: int) -> str:
    """`text` cut to `columns`, ending in … where something was left off; "" for no columns."""
    if cell_len(text) <= columns:
        return text
    kept = ""
    for each in text:
        if cell_len(kept) + _cells(each) > columns - 1:
            break
        kept += each
    return f"{kept}…" if columns > 0 else ""


NO_BREAK_SPACE: Final = "\N{NO-BREAK SPACE}"
"""A blank at which no line ends."""
_IN_A_LENGTH: Final = re.compile(
    r"(?<=\d) (?=\d+/\d|(?:in|ft|yd|mm|cm|m)\b)|(?<=≈) |(?<=\d['′]) (?=\d)|(?<=\d) (?=of \d)|(?<=\d of) (?=\d)"
)
"""The blanks of a length: before its fraction, before its unit, after its ≈, between its feet and its inches; and those
of `2 of 4`."""


def with_whole_lengths(text: str) -> str:
    """`text` with the blanks inside its lengths made unbreakable: a fraction left alone on a line would be misread."""
    return _IN_A_LENGTH.sub(NO_BREAK_SPACE, text)
