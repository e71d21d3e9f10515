"""A step of the work in pages for large figures, as large as the space allows and never cut.

The shapes are drawn in `styles/large_signs.txt`: a sign, a blank, and its rows with a bar between them. They are five
rows high, a sixth where a letter goes below the line, and use full and half blocks only, which the font of a Linux
console has too. A stroke is two cells wide or one row high, so that it is as thick both ways.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator, Sequence
from functools import cache, lru_cache
from itertools import chain, product, zip_longest
from pathlib import Path
from typing import Final

from msgspec import Struct
from textual.content import Content

from wizard.screens.screen_text import CAUTION, in_lines, plain
from wizard.trade.plan_records import Step

ROWS: Final = 5
"""Rows above the line, which every shape has."""
SIZES: Final = (4, 3, 2, 1)
"""How many times the drawn shapes; the last is as they were drawn."""
_SHAPES: Final = Path(__file__).parent.with_name("styles") / "large_signs.txt"
_ALIKE: Final = str.maketrans("“”‘’–—−", "\"\"''---")
"""Signs that are large as another one is."""
_HALVES: Final = (str.maketrans("▀▄", "█ "), str.maketrans("▀▄", " █"))
"""What of each block is in the upper and in the lower half of its row."""
_BLOCKS: Final = {"██": "█", "█ ": "▀", " █": "▄", "  ": " "}
"""An upper and a lower half -> the block of both."""


@cache
def shapes() -> dict[str, tuple[str, ...]]:
    """Sign -> its rows, all of one width."""
    found = {each[0]: each[2:].split("|") for each in _SHAPES.read_text(encoding="utf-8").split("\n") if each}
    return {sign: tuple(row.ljust(max(map(len, rows))) for row in rows) for sign, rows in found.items()}


def width(text: str, size: int) -> int:
    """Columns that `text` takes on one row of signs; endlessly many where one was never drawn."""
    rows = _rows(text)
    return len(rows[0]) * size if rows else sys.maxsize


def in_blocks(text: str, size: int) -> tuple[str, ...]:
    """`text` on one row of signs, in lines of blocks; nothing below the line where no letter goes there."""
    halves = [row.translate(half) for row in _rows(text) or () for half in _HALVES]
    grown = ["".join(each * size for each in half) for half in halves for _ in range(size)]
    pairs = zip(grown[::2], grown[1::2], strict=True)
    lines = ["".join(_BLOCKS[one + other] for one, other in zip(*pair, strict=True)) for pair in pairs]
    while len(lines) > ROWS * size and not lines[-1].strip():
        lines.pop()
    return tuple(lines)


@lru_cache(maxsize=256)
def _rows(text: str) -> tuple[str, ...] | None:
    """The rows of a text as drawn, six of them, a capital as its small letter; None where a sign of it was never drawn,
    or there is none."""
    drawn = [shapes().get(each) for each in text.translate(_ALIKE).lower()]
    if not text.strip() or None in drawn:
        return None
    filled = [(*rows, *[" " * len(rows[0])] * (ROWS + 1 - len(rows))) for rows in drawn if rows]
    return tuple("  ".join(row) for row in zip(*filled, strict=True))


def large_figure(text: str, size: int, columns: int) -> list[str] | None:
    """A figure at a size on one row. None where it does not fit, or is not drawn; at the least size its unit then
    follows in plain letters, or it goes on at the next row."""
    whole, (amount, _, unit) = width(text, size) <= columns, text.rpartition(" ")
    if not whole and size == SIZES[-1] and width(amount, size) + 1 + len(unit) <= columns:
        *lines, last = in_blocks(amount, size)
        return [*lines, f"{last} {unit}"]
    return _stacked(text, size, columns) if whole or size == SIZES[-1] else None


def large_words(text: str, columns: int, rows: int) -> list[str] | None:
    """`text` at the greatest size that fits, broken at blanks; None where it cannot be large in that space."""
    found = (_stacked(text, size, columns) for size in SIZES)
    return next((lines for lines in found if lines and len(lines) <= rows), None)


def _stacked(text: str, size: int, columns: int) -> list[str] | None:
    """`text` on as few rows of signs as it needs, an empty line between; None when a word is too wide."""
    rows = [""]
    for word in text.split(" "):
        longer = f"{rows[-1]} {word}".strip()
        if width(longer, size) <= columns:
            rows[-1] = longer
        else:
            rows.append(word)
    fits = all(width(each, size) <= columns for each in rows)
    return [line for each in rows for line in ("", *in_blocks(each, size))][1:] if fits else None


_AMOUNT: Final = r"\d+(?:[.,]\d+)?(?: \d+/\d+|/\d+)?"
_LENGTH: Final = re.compile(
    rf"((?:≈ )?(?:{_AMOUNT} (?:yd|ft) )?{_AMOUNT} (?:mm|cm|m|ft|yd|in(?! order\b))\b)"  # “1 to 4 in order” is none
)
_COUNT: Final = re.compile(r"^(\d+)(?= [a-z])")
"""What a line begins with when it says how many: `41 staples, in this order`."""


class Said(Struct, frozen=True):
    """A figure to be shown large, and the words of its line before and behind it."""

    before: str
    figure: str
    after: str = ""

    def lines(self, size: int, columns: int) -> list[Content]:
        """The words, the figure at a size, the words; nothing where it does not fit at that size. What does not fit at
        any is in plain letters, at the size 0."""
        figure = large_figure(self.figure, size, columns) if size else [self.figure]
        before, after = (in_lines(plain(each), columns) for each in (self.before, self.after))
        styled = [(before, "bold"), (figure or [], "$accent"), (after, "bold")]
        return [Content.styled(line, style) for lines, style in styled for line in lines if figure]


class Page(Struct, frozen=True):
    """What belongs together: the cautions, sentences without a figure, or one line and what it is about."""

    words: tuple[str, ...]
    """Whole sentences."""
    figures: tuple[Said, ...] = ()
    caution: bool = False
    """True for what has to be read before the step is begun."""


def pages_of(step: Step) -> tuple[Page, ...]:
    """All pages of a step, at least one: a page for each line with figures under its heading, the lines between share
    one."""
    found = [Page(tuple(each.sentence for each in step.cautions), caution=True)] if step.cautions else []
    heading, words, lines = "", list[str](), (*step.lines, *step.listed)
    for line, following in zip_longest(lines, lines[1:]):
        if figures := figures_in(line):
            found += [Page(tuple(words))] if words else []
            found.append(Page((heading, line) if heading else (line,), figures))
            words = []
        else:
            heading = line if line.endswith(":") and following else ""
            words += [] if heading else [line]
    found += [Page(tuple(words))] if words else []
    return tuple(found) or (Page((step.title,)),)


def figures_in(line: str) -> tuple[Said, ...]:
    """The lengths of a line, else the number it begins with; nothing where there is neither."""
    parts = next((found for each in (_LENGTH, _COUNT) if len(found := each.split(line)) > 1), [])
    words = [each.strip(" ,;:.") for each in parts]
    return tuple(map(Said, words[::2], words[1::2], [*[""] * (len(words) // 2 - 1), *words[-1:]]))


class Leaf(Struct, frozen=True):
    """One fill of the screen."""

    page: int
    """Which page it is of."""
    content: Content


def leaves_of(step: Step, columns: int, rows: int) -> Iterator[Leaf]:
    """A step laid out for a space; each of its pages makes at least one leaf."""
    for number, page in enumerate(pages_of(step)):
        if not page.figures:
            yield Leaf(number, _sentences(page, columns, rows))
        above = [Content.styled(line, "$quiet") for each in page.words[:-1] for line in in_lines(plain(each), columns)]
        left = page.figures
        while left:
            count, lines = _fill(left, columns, rows - len(above))
            yield Leaf(number, Content("\n").join([*above, *lines]))
            left = left[count:]


def _fill(figures: Sequence[Said], columns: int, rows: int) -> tuple[int, list[Content]]:
    """As many figures as there is space for, at least one, all at the greatest size that fits."""
    for count, size in product(range(len(figures), 0, -1), SIZES):
        blocks = [each.lines(size, columns) for each in figures[:count]]
        if all(blocks) and sum(map(len, blocks)) <= rows:
            return count, [*chain.from_iterable(blocks)]
    return 1, figures[0].lines(SIZES[-1], columns) or figures[0].lines(0, columns)


def _sentences(page: Page, columns: int, rows: int) -> Content:
    """Sentences without a figure: in large letters where all of them fit, else as plain bold text."""
    large = None if page.caution else large_words(" ".join(page.words), columns, rows)
    if large:
        return Content("\n".join(large))
    mark, style = (f"{CAUTION} ", "bold $warning") if page.caution else ("", "bold")
    sentences = ("\n".join(in_lines(plain(f"{mark}{each}"), columns)) for each in page.words)
    return Content.styled("\n\n".join(sentences), style)
