"""A step of the work in pages for large figures: its cautions, then a line at a time with the lengths picked out."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from msgspec import Struct

from wizard.trade.plan import Step

_AMOUNT: Final = r"\d+(?:[.,]\d+)?(?: \d+/\d+|/\d+)?"
_LENGTH: Final = re.compile(
    rf"(?:≈ )?(?:{_AMOUNT} (?:yd|ft) )?{_AMOUNT} (?:mm|cm|m|ft|yd|in(?! order\b))(?![\w])"  # “1 to 4 in order” is none
)
_COUNT: Final = re.compile(r"^\d+(?= [a-z])")
"""What a line begins with when it says how many: `41 staples, in this order`."""


class Said(Struct, frozen=True):
    """A figure to be shown large, and the words of its line before and behind it."""

    before: str
    figure: str
    after: str = ""


class Page(Struct, frozen=True):
    """What is seen at once."""

    words: tuple[str, ...]
    """Whole sentences."""
    figures: tuple[Said, ...] = ()
    caution: bool = False
    """True for what has to be read before the step is begun."""


def pages_of(step: Step) -> tuple[Page, ...]:
    """All pages of a step, at least one."""
    cautions = tuple(each.sentence for each in step.cautions)
    found = [Page(cautions, caution=True)] if cautions else []
    found += _pages(step.lines)
    return tuple(found) or (Page((step.title,)),)


def figures_in(line: str) -> tuple[Said, ...]:
    """The lengths of a line, else the number it begins with; nothing where there is neither."""
    found = list(_LENGTH.finditer(line)) or list(_COUNT.finditer(line))
    ends = [0, *(each.end() for each in found)]
    said = [Said(_trimmed(line[end : each.start()]), each[0]) for end, each in zip(ends, found, strict=False)]
    if said:
        said[-1] = Said(said[-1].before, said[-1].figure, _trimmed(line[ends[-1] :]))
    return tuple(said)


def _pages(lines: tuple[str, ...]) -> Iterator[Page]:
    """A page for each line with figures, under the heading it stands below; lines of words alone go together."""
    heading: tuple[str, ...] = ()
    waiting: list[str] = []
    for line in lines:
        figures = figures_in(line)
        if figures:
            yield from _words(waiting)
            waiting = []
            yield Page((*heading, line), figures)
        elif line.endswith(":"):
            heading = (line,)
        else:
            heading = ()
            waiting.append(line)
    yield from _words(waiting or list(heading if not lines or lines[-1:] == heading else ()))


def _words(lines: list[str]) -> Iterator[Page]:
    if lines:
        yield Page(tuple(lines))


def _trimmed(text: str) -> str:
    return text.strip(" ,;:.")
