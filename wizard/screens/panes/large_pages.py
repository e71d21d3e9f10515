"""A step of the work in pages for large figures, and as much of a page as the screen holds."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Final

from msgspec import Struct
from textual.content import Content

from wizard.screens.glyphs import CAUTION
from wizard.screens.panes.large_text import SIZES, large_figure, large_words
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

    def lines(self, size: int, columns: int) -> list[Content] | None:
        """The words, the figure at a size, the words; None where it does not fit at that size."""
        large = large_figure(self.figure, size, columns)
        return None if large is None else self.around(large, columns)

    def around(self, figure: Sequence[str], columns: int) -> list[Content]:
        """The figure in these lines between its words."""
        before, after = (
            [Content.styled(line, "bold") for line in in_lines(plain(each), columns)]
            for each in (self.before, self.after)
        )
        return [*before, *(Content.styled(line, "$accent") for line in figure), *after]


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
    heading, words = "", list[str]()
    for line, following in zip(step.lines, (*step.lines[1:], ""), strict=True):
        if figures := figures_in(line):
            found += [Page(tuple(words))] if words else []
            found.append(Page((heading, line) if heading else (line,), figures))
            words = []
        elif line.endswith(":") and following:
            heading = line
        else:
            heading = ""
            words.append(line)
    found += [Page(tuple(words))] if words else []
    return tuple(found) or (Page((step.title,)),)


def figures_in(line: str) -> tuple[Said, ...]:
    """The lengths of a line, else the number it begins with; nothing where there is neither."""
    found = list(_LENGTH.finditer(line)) or list(_COUNT.finditer(line))
    begins = [0, *(each.end() for each in found)]
    before = [line[begin : each.start()].strip(" ,;:.") for begin, each in zip(begins, found, strict=False)]
    after = [""] * (len(found) - 1) + [line[begins[-1] :].strip(" ,;:.")]
    return tuple(Said(one, each[0], other) for one, each, other in zip(before, found, after, strict=False))


class Leaf(Struct, frozen=True):
    """One fill of the screen."""

    page: int
    """Which page it is of."""
    content: Content


def leaves_of(step: Step, columns: int, rows: int) -> tuple[Leaf, ...]:
    """A step laid out for a space; each of its pages makes at least one leaf."""
    pages = enumerate(pages_of(step))
    return tuple(Leaf(number, content) for number, page in pages for content in _leaves(page, columns, rows))


def _leaves(page: Page, columns: int, rows: int) -> Iterator[Content]:
    if not page.figures:
        yield _sentences(page, columns, rows)
    above = [Content.styled(line, "$quiet") for each in page.words[:-1] for line in in_lines(plain(each), columns)]
    left = page.figures
    while left:
        count, lines = _fill(left, columns, rows - len(above))
        yield Content("\n").join([*above, *lines])
        left = left[count:]


def _fill(figures: Sequence[Said], columns: int, rows: int) -> tuple[int, list[Content]]:
    """As many figures as there is space for, at least one, all at the greatest size that fits."""
    for count in range(len(figures), 0, -1):
        for size in SIZES:
            blocks = [each.lines(size, columns) for each in figures[:count]]
            lines = [line for block in blocks for line in block or ()]
            if None not in blocks and len(lines) <= rows:
                return count, lines
    first = figures[0]
    return 1, first.lines(SIZES[-1], columns) or first.around([first.figure], columns)


def _sentences(page: Page, columns: int, rows: int) -> Content:
    """Sentences without a figure: in large letters where all of them fit, else as plain bold text."""
    large = None if page.caution else large_words(" ".join(page.words), columns, rows)
    if large:
        return Content("\n".join(large))
    mark, style = (f"{CAUTION} ", "bold $warning") if page.caution else ("", "bold")
    return Content.styled(
        "\n\n".join("\n".join(in_lines(plain(f"{mark}{each}"), columns)) for each in page.words), style
    )
