"""The answers to pick, in words, by the type of the field they go into; what they say is in `choices.txt`."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from wizard.interview.question import Choice
from wizard.trade import job_fields
from wizard.trade.formatting import text_beside


def words_for(offered: tuple[Choice, ...], value: str) -> str:
    """The words of a value; the value itself when it is not among those offered."""
    return next((each.words for each in offered if each.value == value), value)


def _read() -> Iterator[tuple[object, tuple[Choice, ...]]]:
    for block in text_beside(__file__, "choices.txt").split("\n\n"):
        name, *lines = block.strip().splitlines()
        if not name.startswith("#"):
            pairs = (line.partition(" | ") for line in lines)
            yield getattr(job_fields, name), tuple(Choice(value, words or value) for value, _, words in pairs)


CHOICES: Final = dict(_read())
"""Type of a field -> its values with their words, in the order in which they are offered."""
