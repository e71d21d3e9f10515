"""The refusal: one sentence, an example of what would do and, where two things may be meant, both of them."""

from __future__ import annotations

from typing import Final

from msgspec import Struct

MOST_QUOTED: Final = 40
"""Longest text repeated in a sentence, in characters."""


class Misread(ValueError):  # noqa: N818  (the word of this house, wherever a refusal is caught)
    """What was typed cannot be taken. `str()` gives the sentence, and the example unless the sentence has it."""

    def __init__(self, sentence: str, example: str, readings: tuple[str, ...] = ()) -> None:
        super().__init__(sentence, example, readings)
        self.sentence = sentence
        """Says what was found and what is wanted; ends with a full stop or a question mark."""
        self.example = example
        """A text that would be taken."""
        self.readings = readings
        """What may have been meant, each a text that would be taken; empty when nothing can be offered."""

    def __str__(self) -> str:
        if self.readings or f'"{self.example}"' in self.sentence:
            return self.sentence
        return f"{self.sentence} For example: {self.example}"


class Wanted(Struct, frozen=True):
    """What is being read, for the sentences."""

    noun: str
    """With its article: `a length`."""
    example: str
    """A text that would be taken."""

    def misread(self, sentence: str, readings: tuple[str, ...] = ()) -> Misread:
        """The refusal with this example; where there are readings, the first of them is the example."""
        return Misread(sentence, readings[0] if readings else self.example, readings)


def quoted(text: str) -> str:
    """`text` between quotes, cut short, with what cannot be shown replaced: safe in any sentence."""
    plain = "".join(each if each.isprintable() else "\N{REPLACEMENT CHARACTER}" for each in text[:MOST_QUOTED])
    return f"“{plain}…”" if len(text) > MOST_QUOTED else f"“{plain}”"
