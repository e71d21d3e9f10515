"""Text in large figures and letters: their shapes, and text set as large as the space allows, never cut.

The shapes are five rows high, a sixth where a letter goes below the line. They use full and half blocks only, which the
font of a Linux console has too. A stroke is two cells wide or one row high, so that it is as thick both ways. Rows are
written one after the other with a bar between them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import Final

ROWS: Final = 5
"""Rows above the line, which every shape has."""

_FIGURES: Final = {
    "0": "▄████▄|██  ██|██  ██|██  ██|▀████▀",
    "1": "▄██ |▀██ | ██ | ██ |████",
    "2": "▄████▄|▀▀  ██|  ▄██▀|▄██▀  |██████",
    "3": "▄████▄|▀▀  ██|  ███ |▄▄  ██|▀████▀",
    "4": "██  ██|██  ██|▀█████|    ██|    ██",
    "5": "██████|██▄▄▄ |▀▀▀▀██|▄▄  ██|▀████▀",
    "6": "▄████▄|██  ▀▀|█████▄|██  ██|▀████▀",
    "7": "██████|    ██|  ▄██▀| ▄██▀ | ██   ",
    "8": "▄████▄|██  ██| ████ |██  ██|▀████▀",
    "9": "▄████▄|██  ██|▀█████|▄▄  ██|▀████▀",
}

_SIGNS: Final = {
    "/": "   ▄█|  ▄█▀| ▄█▀ |▄█▀  |█▀   ",
    ".": "  |  |  |  |██",
    ",": "  |  |  |  |██|▄▀",
    ":": "  |██|  |  |██",
    ";": "  |██|  |  |██|▄▀",
    "'": "██|▀▀|  |  |  ",
    '"': "██ ██|▀▀ ▀▀|     |     |     ",
    "-": "    |    |▄▄▄▄|    |    ",
    "+": "      |  ██  |██████|  ██  |      ",
    "=": "    |▄▄▄▄|    |████|    ",
    "≈": "      |▄██▄ ▄|▀ ▀██▀|▄██▄ ▄|▀ ▀██▀",
    "×": "      |█▄  ▄█| ▀██▀ |▄█▀▀█▄|      ",
    "%": "██  ▄█| ▀ ▄█▀| ▄█▀  |▄█▀ ▄ |█▀  ██",
    "?": "▄████▄|▀▀  ██|  ▄██▀|  ▀▀  |  ██  ",
    "!": "██|██|██|  |██",
    "(": " ▄█|██ |██ |██ | ▀█",
    ")": "█▄ | ██| ██| ██|█▀ ",
    "$": "▄█████|██ ██ |▀████▄| ██ ██|█████▀",
    "·": "  |  |██|  |  ",
    "_": "     |     |     |     |     |▀▀▀▀▀",
    " ": "  |  |  |  |  ",
}

_LETTERS: Final = {
    "a": "      |▀▀▀▀█▄|▄█████|██  ██|▀█████",
    "b": "██    |█████▄|██  ██|██  ██|█████▀",
    "c": "     |▄████|██   |██   |▀████",
    "d": "    ██|▄█████|██  ██|██  ██|▀█████",
    "e": "      |▄████▄|██▄▄██|██▀▀▀▀|▀█████",
    "f": " ▄███| ██  |████▀| ██  | ██  ",
    "g": "      |▄█████|██  ██|██  ██|▀█████|▄▄▄▄█▀",
    "h": "██    |█████▄|██  ██|██  ██|██  ██",
    "i": "▀▀|██|██|██|██",
    "j": "  ▀▀|  ██|  ██|  ██|  ██|▀██▀",
    "k": "██    |██ ▄█▀|████  |██▀█▄ |██ ▀██",
    "l": "██ |██ |██ |██ |▀██",
    "m": "          |█████████▄|██  ██  ██|██  ██  ██|██  ██  ██",
    "n": "      |█████▄|██  ██|██  ██|██  ██",
    "o": "      |▄████▄|██  ██|██  ██|▀████▀",
    "p": "      |█████▄|██  ██|██  ██|█████▀|██    ",
    "q": "      |▄█████|██  ██|██  ██|▀█████|    ██",
    "r": "     |██▄██|██▀▀ |██   |██   ",
    "s": "      |▄█████|██▄▄▄ |▀▀▀▀██|█████▀",
    "t": " ██  |█████| ██  | ██  | ▀███",
    "u": "      |██  ██|██  ██|██  ██|▀█████",
    "v": "      |██  ██|██  ██|▀█▄▄█▀| ▀██▀ ",
    "w": "          |██  ██  ██|██  ██  ██|██  ██  ██|▀████████▀",
    "x": "      |██  ██| ▀██▀ | ▄██▄ |██  ██",
    "y": "      |██  ██|██  ██|██  ██|▀█████|▄▄▄▄█▀",
    "z": "      |██████|  ▄██▀|▄██▀  |██████",
}

_ALIKE: Final = {"“": '"', "”": '"', "‘": "'", "’": "'", "–": "-", "—": "-", "−": "-"}
"""Signs that are large as another one is."""

SHAPES: Final = {sign: tuple(drawn.split("|")) for sign, drawn in (_FIGURES | _SIGNS | _LETTERS).items()}
"""Sign -> its rows, all of one width."""


def shape_of(sign: str) -> tuple[str, ...] | None:
    """The rows of a sign, a capital as its small letter; None for one that was never drawn."""
    return SHAPES.get(_ALIKE.get(sign, sign).lower())


SIZES: Final = (4, 3, 2, 1)
"""How many times the drawn shapes; the last is as they were drawn, five rows high."""

_APART: Final = 2
"""Cells between two signs as drawn."""

_HALVES: Final = {" ": (False, False), "▀": (True, False), "▄": (False, True), "█": (True, True)}
_BLOCKS: Final = {halves: block for block, halves in _HALVES.items()}

Bits = list[list[bool]]
"""Rows of half cells."""


def can_be_large(text: str) -> bool:
    """True when every sign of `text` is drawn."""
    return bool(text.strip()) and all(shape_of(each) for each in text)


def width(text: str, size: int) -> int:
    """Columns that `text` takes on one row of signs."""
    return (sum(len((shape_of(each) or ("",))[0]) + _APART for each in text) - _APART) * size


def set_large(text: str, columns: int, rows: int) -> list[str] | None:
    """`text` in lines of cells, at the greatest size that fits, broken at spaces where it has to be.

    None when it cannot be large in that room at all: it is then to be shown as plain text, which is never cut.
    """
    if not can_be_large(text):
        return None
    for size in SIZES:
        broken = _broken(text.split(" "), size, columns)
        lines = stacked([in_blocks(each, size) for each in broken])
        if broken and len(lines) <= rows:
            return lines
    return None


def stacked(blocks: Sequence[Sequence[str]]) -> list[str]:
    """Rows of signs one under the other, an empty line between."""
    return [line for number, each in enumerate(blocks) for line in ([""] if number else []) + list(each)]


@lru_cache(maxsize=64)
def in_blocks(text: str, size: int) -> tuple[str, ...]:
    """`text` on one row of signs, in lines of full and half blocks; trailing rows without ink are left out."""
    bits = _bits(text)
    lines = [_line(pair) for pair in _pairs(_grown(bits, size))]
    while len(lines) > ROWS * size and not lines[-1].strip():
        lines.pop()
    return tuple(lines)


def _broken(words: Sequence[str], size: int, columns: int) -> list[str]:
    """The words on as few rows as they need; nothing when a single one is too wide."""
    rows: list[str] = []
    for word in words:
        longer = f"{rows[-1]} {word}" if rows else word
        if rows and width(longer, size) <= columns:
            rows[-1] = longer
        elif width(word, size) <= columns:
            rows.append(word)
        else:
            return []
    return rows


def _bits(text: str) -> Bits:
    """The half cells of a text, six rows of signs high: room for what goes below the line."""
    shapes = [shape_of(each) or () for each in text]
    rows: Bits = [[] for _ in range(2 * (ROWS + 1))]
    for number, shape in enumerate(shapes):
        wide = len(shape[0]) if shape else 0
        for at in range(ROWS + 1):
            drawn = (shape[at] if at < len(shape) else " " * wide) + " " * _APART * (number < len(shapes) - 1)
            for half in (0, 1):
                rows[2 * at + half] += [_HALVES[each][half] for each in drawn]
    return rows


def _grown(bits: Bits, size: int) -> Bits:
    return [[bit for bit in row for _ in range(size)] for row in bits for _ in range(size)]


def _pairs(bits: Bits) -> Iterator[tuple[list[bool], list[bool]]]:
    return zip(bits[::2], bits[1::2], strict=True)


def _line(pair: tuple[list[bool], list[bool]]) -> str:
    return "".join(_BLOCKS[halves] for halves in zip(*pair, strict=True))
