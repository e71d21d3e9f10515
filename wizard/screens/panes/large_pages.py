"""A step of the work in pages for large figures, and as much of a page as the screen holds."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Final

from msgspec import Struct
from textual.content import Content

from wizard.screens.glyphs import CAUTION
from wizard.screens.panes.large_text import SIZES, can_be_large, in_blocks, set_large, stacked, width
from wizard.screens.screen_text import in_lines, plain
from wizard.trade.plan_records import Step

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
    """A page for each line with figures, under its heading; lines of words alone share a page."""
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


class Leaf(Struct, frozen=True):
    """One fill of the screen."""

    page: int
    """Which page it is of."""
    first: int
    """The first figure on it, by its number on the page."""
    content: Content


def leaves_of(pages: Sequence[Page], columns: int, rows: int) -> tuple[Leaf, ...]:
    """All pages laid out for a room; each makes at least one leaf."""
    return tuple(leaf for number, page in enumerate(pages) for leaf in _leaves(number, page, columns, rows))


def _leaves(number: int, page: Page, columns: int, rows: int) -> Iterator[Leaf]:
    if not page.figures:
        yield Leaf(number, 0, _sentences(page, columns, rows))
        return
    above = page.words[:-1]
    space = rows - sum(len(_wrapped(each, columns)) for each in above)
    first = 0
    for figures in _shared_out(page.figures, columns, space):
        size = _size(figures, columns, space)
        lines = [Content.styled(line, "$quiet") for each in above for line in _wrapped(each, columns)]
        lines += [line for each in figures for line in _figure(each, size, columns)]
        yield Leaf(number, first, Content("\n").join(lines))
        first += len(figures)


def _sentences(page: Page, columns: int, rows: int) -> Content:
    """Sentences without a figure: in large letters where all of them fit, else as plain bold text."""
    if page.caution:
        return Content.styled(_apart([f"{CAUTION} {each}" for each in page.words], columns), "bold $warning")
    large = set_large(" ".join(page.words), columns, rows)
    return Content("\n".join(large)) if large else Content.styled(_apart(page.words, columns), "bold")


def _apart(sentences: Sequence[str], columns: int) -> str:
    """The sentences with an empty line between them."""
    return "\n\n".join("\n".join(_wrapped(each, columns)) for each in sentences)


def _shared_out(figures: Sequence[Said], columns: int, rows: int) -> Iterator[Sequence[Said]]:
    """The figures in runs that the room holds at the least size, one at least in each."""
    run: list[Said] = []
    for each in figures:
        if run and _height([*run, each], 1, columns) > rows:
            yield run
            run = []
        run.append(each)
    yield run


def _size(figures: Sequence[Said], columns: int, rows: int) -> int:
    """The greatest size that all of them have room for, else the least."""
    fitting = (
        size
        for size in SIZES
        if all(width(each.figure, size) <= columns for each in figures) and _height(figures, size, columns) <= rows
    )
    return next(fitting, SIZES[-1])


def _height(figures: Sequence[Said], size: int, columns: int) -> int:
    return sum(len(_figure(each, size, columns)) for each in figures)


def _figure(said: Said, size: int, columns: int) -> list[Content]:
    """The words before a figure, the figure, the words behind it."""
    lines = [Content.styled(line, "bold") for line in _wrapped(said.before, columns)]
    lines += [Content.styled(line, "$accent") for line in large_lines(said.figure, size, columns)]
    return lines + [Content.styled(line, "bold") for line in _wrapped(said.after, columns)]


def large_lines(text: str, size: int, columns: int) -> list[str]:
    """`text` at a size; one too wide for the row has its unit in plain letters behind it, else goes on several rows."""
    if not can_be_large(text):
        return _wrapped(text, columns)
    if width(text, size) <= columns:
        return list(in_blocks(text, size))
    amount, _, unit = text.rpartition(" ")
    if amount and width(amount, size) + 1 + len(unit) <= columns:
        *lines, last = in_blocks(amount, size)
        return [*lines, f"{last} {unit}"]
    broken = set_large(text, columns, 4 * len(text.split(" ")) * len(stacked([in_blocks("0", size)])))
    return broken or _wrapped(text, columns)


def _wrapped(text: str, columns: int) -> list[str]:
    return in_lines(plain(text), max(columns, 1)) if text else []
