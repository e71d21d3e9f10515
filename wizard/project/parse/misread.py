"""The refusal: one sentence, an example of what would do and, where two things may be meant, both of them."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Final

from msgspec import Struct

MOST_QUOTED: Final = 40
"""Longest text repeated in a sentence, in characters."""


MOST_NAMED: Final = 250
"""Longest word repeated in a sentence, in characters: a key, or the name of a file."""
_ENDLESS: Final = re.compile(rf"\S{{{MOST_NAMED + 1},}}")


class Misread(ValueError):  # noqa: N818  (the word of this house, wherever a refusal is caught)
    """What was typed cannot be taken. `str()` gives the sentence, and the example unless the sentence has it."""

    def __init__(
        self, sentence: str, example: str, readings: tuple[str, ...] = (), *, once_taken: bool = False, stem: str = ""
    ) -> None:
        super().__init__(sentence, example, readings)
        self.sentence = sentence
        """Says what was found and what would do; ends with a full stop or a question mark."""
        self.example = example
        """A text that would be taken."""
        self.readings = readings
        """What may have been meant, each a text that would be taken; empty when nothing can be offered."""
        self.once_taken = once_taken
        """True for what an earlier version took: a file that holds it still opens, with an error at that key."""
        self.stem = stem
        """Of a question which reading is meant: what was found, without a full stop."""

    def __str__(self) -> str:
        if self.readings or f'"{self.example}"' in self.sentence:
            return self.sentence
        return f"{self.sentence} For example: {self.example}"

    def at_field(self, takes: Callable[[str], bool], example: str, says: str) -> Misread:
        """The same at a field that `takes` only some texts: a question is about those of its readings, and none where
        it takes none. `says`: what it takes, a whole sentence."""
        if left := tuple(each for each in self.readings if takes(each)):
            return asked(self.stem, left, once_taken=self.once_taken)
        return Misread(f"{self.stem}. {says}" if self.stem else self.sentence, example, once_taken=self.once_taken)


def asked(stem: str, readings: tuple[str, ...], *, once_taken: bool = False) -> Misread:
    """The question which of some readings is meant. `stem` says what was found, without a full stop."""
    sentence = f"{stem}: do you mean {' or '.join(readings)}?"
    return Misread(sentence, readings[0], readings, once_taken=once_taken, stem=stem)


class Wanted(Struct, frozen=True):
    """What is being read, for the sentences."""

    noun: str
    """With its article: `a length`."""
    example: str
    """A text that would be taken."""


def quoted(text: str) -> str:
    """`text` between quotes, cut short, with what cannot be shown replaced: safe in any sentence."""
    plain = "".join(each if each.isprintable() else "\N{REPLACEMENT CHARACTER}" for each in text[:MOST_QUOTED])
    return f"“{plain}…”" if len(text) > MOST_QUOTED else f"“{plain}”"


def shortened(text: str) -> str:
    """`text` with every word in it that is longer than a key or a name can be cut short, ending in an ellipsis."""
    return _ENDLESS.sub(lambda match: f"{match[0][:MOST_NAMED]}…", text)
