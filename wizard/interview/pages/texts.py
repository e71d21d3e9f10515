"""What the interview says: titles, sentences, questions and help, read from `texts.txt`."""

from __future__ import annotations

from functools import cache
from typing import Final

from msgspec import Struct

from wizard.trade.formatting import text_beside

NOTHING: Final = "-"


class Text(Struct, frozen=True):
    """What a question says. What is between braces is filled in for the job."""

    label: str
    """On its page."""
    words: str
    """The question."""
    how: str
    """The help."""
    title: str = ""
    """Away from its page; empty where the trade has words for its key."""


class PageText(Struct, frozen=True):
    """What a page says."""

    title: str
    words: str


@cache
def _blocks() -> dict[str, tuple[str, ...]]:
    """Name -> lines."""
    blocks = (block.splitlines() for block in text_beside(__file__, "texts.txt").split("\n\n") if block[:1] != "#")
    return {name: tuple("" if each == NOTHING else each for each in lines) for name, *lines in filter(None, blocks)}


def text_of(name: str) -> Text:
    """What the question of that name says. KeyError for none."""
    return Text(*_blocks()[name])


def title_named(name: str) -> str:
    """The title of the question of that name, which is the same in every job; empty where there is none such."""
    lines = _blocks().get(name, ())
    return lines[3] if len(lines) > 3 and "{" not in lines[3] else ""


def page_text(kind: str) -> PageText:
    """What pages of a kind say. KeyError for none."""
    return PageText(*_blocks()[f"page.{kind}"])
