"""People's own text shown literally, and how many columns it takes."""

from __future__ import annotations

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


def cells(text: str) -> int:
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
    if cells(text) <= columns:
        return text
    kept = ""
    for each in text:
        if cells(kept) + _cells(each) > columns - 1:
            break
        kept += each
    return f"{kept}…" if columns > 0 else ""
