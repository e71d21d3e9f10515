"""Text in large figures and letters, as large as the space allows and never cut.

The shapes are drawn in `styles/large_signs.txt`: a sign, a blank, and its rows with a bar between them. They are five
rows high, a sixth where a letter goes below the line, and use full and half blocks only, which the font of a Linux
console has too. A stroke is two cells wide or one row high, so that it is as thick both ways.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache, lru_cache
from pathlib import Path
from typing import Final

ROWS: Final = 5
"""Rows above the line, which every shape has."""
SIZES: Final = (4, 3, 2, 1)
"""How many times the drawn shapes; the last is as they were drawn."""
_SHAPES: Final = Path(__file__).parent.with_name("styles") / "large_signs.txt"
_ALIKE: Final = str.maketrans("“”‘’–—−", "\"\"''---")
"""Signs that are large as another one is."""
_APART: Final = "  "
"""Between two signs as drawn."""
_UPPER: Final = str.maketrans("▀▄", "█ ")
_LOWER: Final = str.maketrans("▀▄", " █")
"""What of each block is in the upper and in the lower half of its row."""
_BLOCKS: Final = {"██": "█", "█ ": "▀", " █": "▄", "  ": " "}
"""An upper and a lower half -> the block of both."""


@cache
def shapes() -> dict[str, tuple[str, ...]]:
    """Sign -> its rows, all of one width."""
    found = {each[0]: each[2:].split("|") for each in _SHAPES.read_text(encoding="utf-8").split("\n") if each}
    return {sign: tuple(row.ljust(max(map(len, rows))) for row in rows) for sign, rows in found.items()}


def shape_of(sign: str) -> tuple[str, ...] | None:
    """The rows of a sign, a capital as its small letter; None for one that was never drawn."""
    return shapes().get(sign.translate(_ALIKE).lower())


def can_be_large(text: str) -> bool:
    """True when every sign of `text` is drawn."""
    return bool(text.strip()) and all(shape_of(each) for each in text)


def width(text: str, size: int) -> int:
    """Columns that `text` takes on one row of signs."""
    return len(_rows(text)[0]) * size


@lru_cache(maxsize=64)
def in_blocks(text: str, size: int) -> tuple[str, ...]:
    """`text` on one row of signs, in lines of blocks; nothing below the line where no letter goes there."""
    halves = [row.translate(half) for row in _rows(text) for half in (_UPPER, _LOWER)]
    grown = ["".join(each * size for each in half) for half in halves for _ in range(size)]
    pairs = zip(grown[::2], grown[1::2], strict=True)
    lines = ["".join(_BLOCKS[one + other] for one, other in zip(*pair, strict=True)) for pair in pairs]
    while len(lines) > ROWS * size and not lines[-1].strip():
        lines.pop()
    return tuple(lines)


@lru_cache(maxsize=256)
def _rows(text: str) -> tuple[str, ...]:
    """The rows of a text as drawn, six of them."""
    drawn = [shape_of(each) or ("",) for each in text]
    filled = [(*rows, *[" " * len(rows[0])] * (ROWS + 1 - len(rows))) for rows in drawn]
    return tuple(_APART.join(row) for row in zip(*filled, strict=True))


def large_figure(text: str, size: int, columns: int) -> list[str] | None:
    """A figure at a size on one row. None where it does not fit, or is not drawn; at the least size its unit then
    follows in plain letters, or it goes on at the next row."""
    if not can_be_large(text):
        return None
    if width(text, size) <= columns:
        return list(in_blocks(text, size))
    amount, _, unit = text.rpartition(" ")
    if size > SIZES[-1]:
        return None
    if amount and width(amount, size) + 1 + len(unit) <= columns:
        *lines, last = in_blocks(amount, size)
        return [*lines, f"{last} {unit}"]
    return _stacked(text, size, columns)


def large_words(text: str, columns: int, rows: int) -> list[str] | None:
    """`text` at the greatest size that fits, broken at blanks; None where it cannot be large in that space."""
    if not can_be_large(text):
        return None
    found = (_stacked(text, size, columns) for size in SIZES)
    return next((lines for lines in found if lines and len(lines) <= rows), None)


def _stacked(text: str, size: int, columns: int) -> list[str] | None:
    """`text` on as few rows of signs as it needs, an empty line between; None when a word is too wide."""
    rows: list[str] = []
    for word in text.split(" "):
        longer = f"{rows[-1]} {word}" if rows else word
        if rows and width(longer, size) <= columns:
            rows[-1] = longer
        else:
            rows.append(word)
    return None if any(width(each, size) > columns for each in rows) else _apart(in_blocks(each, size) for each in rows)


def _apart(blocks: Iterable[Iterable[str]]) -> list[str]:
    return [line for number, block in enumerate(blocks) for line in ([""] if number else []) + list(block)]
