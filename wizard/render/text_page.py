"""Plain lines of a given width: headings, paragraphs, pairs, tables. Every text is made literal on its way in."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import zip_longest
from typing import Final

from msgspec import Struct

from wizard.render.plain_text import NO_BREAK_SPACE, cell_len, literal, with_whole_lengths
from wizard.trade.formatting import Ruler

GAP: Final = 2
"""Blanks between the columns of a table."""
LABEL: Final = 16
"""Width of a label, so that the values beside them line up."""


class Page(Struct, frozen=True):
    """Lays out blocks in lines."""

    columns: int
    """At least 40."""
    ruler: Ruler

    def heading(self, text: str) -> list[str]:
        """A block's heading, with a blank line before and after."""
        words = f"── {literal(text)} "
        return ["", words + "─" * max(2, self.columns - cell_len(words)), ""]

    def subheading(self, text: str) -> list[str]:
        """A smaller heading, with a blank line before it."""
        lines = self.para(text)
        return ["", *lines, "╌" * cell_len(lines[-1])]

    def para(self, text: str, first: str = "") -> list[str]:
        """Text broken into lines; `first` is printed before the first line, and the others are indented by as much."""
        indent = " " * cell_len(first)
        broken = list(wrapped(literal(text), self.columns - len(indent))) or [""]
        return [f"{indent if number else first}{line}".rstrip() for number, line in enumerate(broken)]

    def paras(self, texts: Iterable[str], first: str) -> list[str]:
        """Several paragraphs, one after the other."""
        return [line for text in texts for line in self.para(text, first)]

    def pair(self, label: str, value: str) -> list[str]:
        """A label with its value beside it."""
        label = literal(label)
        if cell_len(label) > LABEL:
            return [*self.para(label), *self.para(value, " " * (LABEL + GAP))]
        return self.para(value, label + " " * (LABEL + GAP - cell_len(label)))

    def table(self, heads: Sequence[str], rows: Iterable[Sequence[str]], left: Sequence[int] = (0,)) -> list[str]:
        """Rows under their heads; those in `left` begin at the left of their column, the others end at its right.

        Where the page is too narrow each row becomes a few lines, with the heads as labels.
        """
        heads, *made = ([literal(each) for each in row] for row in (heads, *rows))
        widths = [max(cell_len(row[at]) for row in [heads, *made]) for at in range(len(heads))]
        # Heads and columns of words are broken into lines, the widest first, but no word and no length is.
        least = [_least(heads[at], [row[at] for row in made], words=at in left) for at in range(len(heads))]
        for _ in range(sum(widths) + GAP * (len(widths) - 1) - self.columns):
            free = [at for at, floor in enumerate(least) if widths[at] > floor]
            if not free:
                return self._stacked(heads, made)
            widths[max(free, key=lambda at: widths[at])] -= 1
        rule = ["─" * width for width in widths]
        return [line for row in [heads, rule, *made] for line in _row(row, widths, left)]

    def _stacked(self, heads: Sequence[str], rows: list[list[str]]) -> list[str]:
        lines: list[str] = []
        for first, *values in rows:
            lines += self.para(first or heads[0])
            for head, value in zip(heads[1:], values, strict=True):
                lines += self.para(value, f"  {head}  ".ljust(LABEL + GAP)) if value else []
        return lines


def _least(head: str, cells: Sequence[str], *, words: bool) -> int:
    """How narrow a column may get: its head is broken at blanks, its cells only where they are words."""
    parts = [*_words(head), *(part for each in cells for part in (_words(each) if words else [each]))]
    return max((cell_len(part) for part in parts), default=0)


def _row(row: Sequence[str], widths: Sequence[int], left: Sequence[int]) -> Iterator[str]:
    """The row in as many lines as its longest cell takes; figures stand in its first line."""
    broken = [list(wrapped(each, width)) for each, width in zip(row, widths, strict=True)]
    for cells in zip_longest(*broken, fillvalue=""):
        padded = (
            each + " " * (width - cell_len(each)) if at in left else " " * (width - cell_len(each)) + each
            for at, (each, width) in enumerate(zip(cells, widths, strict=True))
        )
        yield (" " * GAP).join(padded).rstrip()


def wrapped(text: str, columns: int, size: Callable[[str], int | Fraction] = cell_len) -> Iterator[str]:
    """`text` in lines of at most `columns` (at least one), broken at blanks, and longer words anywhere.

    `size`: how much a text takes, where that is not counted in columns.
    """
    line = ""
    for word in (part for each in _words(text) for part in _broken(each, columns, size)):
        if line and size(f"{line} {word}") > columns:
            yield line
            line = word
        else:
            line = f"{line} {word}" if line else word
    if line:
        yield line


def _words(text: str) -> list[str]:
    """The words of a text; a length with its sign, its fraction and its unit counts as one."""
    return [word.replace(NO_BREAK_SPACE, " ") for word in with_whole_lengths(" ".join(text.split())).split(" ")]


def _broken(word: str, columns: int, size: Callable[[str], int | Fraction]) -> Iterator[str]:
    part = ""
    for letter in word:
        if part and size(part + letter) > columns:
            yield part
            part = ""
        part += letter
    yield part
