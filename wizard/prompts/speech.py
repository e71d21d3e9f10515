"""Text made ready to be spoken: no signs that a reader stumbles over, a sentence a line, a table row a line."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from wizard.render.plain_text import literal, with_capital
from wizard.render.text_page import Page, wrapped

_ROUNDED: Final = re.compile(r"≈ (?=[\d-])")
_BOTH: Final = re.compile(r" · (?=about |\d|-)")
_SENTENCE: Final = re.compile(r"(?<=[^\d][.!?]) (?=[A-Z“])")
"""Where a sentence ends. A full stop behind a figure may be the number of a list."""
_REASONING: Final = {"−": "minus", "×": "times", "÷": "divided by", "≤": "at most", "≥": "at least"}


def spoken(text: str) -> str:
    """`text` with every control character written out, and `≈` before a figure as a word."""
    return _ROUNDED.sub("about ", literal(text))


def spoken_length(text: str) -> str:
    """A length in both systems, with a comma between them: `12 1/8 in, about 308 mm`."""
    return _BOTH.sub(", ", spoken(text))


def spoken_formula(text: str) -> str:
    """A formula, or its values, with the signs of arithmetic as words."""
    return "".join(_REASONING.get(each, each) for each in spoken(text))


def in_lines(text: str, columns: int) -> Iterator[str]:
    """`text` a sentence a line, in lines of at most `columns`; nothing for nothing."""
    for sentence in _SENTENCE.split(spoken(text)):
        yield from wrapped(sentence, columns)


class SpokenPage(Page, frozen=True):
    """A page for the blocks of the sheet: headings without rules, and each row of a table as a line of its own."""

    def heading(self, text: str) -> list[str]:
        """A blank line and the heading."""
        return ["", *self.para(text)]

    def subheading(self, text: str) -> list[str]:
        """A blank line and the smaller heading."""
        return ["", *self.para(text)]

    def para(self, text: str, first: str = "") -> list[str]:
        """A sentence a line; of the text before the first line only words are kept."""
        words = f"{first.strip()} " if any(each.isalpha() for each in first) else ""
        return list(in_lines(f"{words}{text}", self.columns))

    def pair(self, label: str, value: str) -> list[str]:
        """`label: value`."""
        return self.para(f"{with_capital(label)}: {value}")

    def table(self, heads: Sequence[str], rows: Iterable[Sequence[str]], left: Sequence[int] = (0,)) -> list[str]:
        """Each row on a line, every value after its head: `mark 1, tape 4 1/2, flat skirt 11 1/4`."""
        return [line for row in rows for line in self.para(_row(heads, row))]


def _row(heads: Sequence[str], row: Sequence[str]) -> str:
    return with_capital(", ".join(f"{head} {value}" for head, value in zip(heads, row, strict=True) if value))
