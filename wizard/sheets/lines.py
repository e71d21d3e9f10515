"""A sheet's matter as lines of text, laid out by a page."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from wizard.sheets.blocks.roll_drawing import drawn
from wizard.sheets.figure_text import time_text
from wizard.sheets.matter import (
    Cards,
    Drawing,
    Findings,
    Heading,
    Matter,
    Pairs,
    Para,
    Points,
    Reasons,
    Steps,
    Table,
    Ticks,
)
from wizard.sheets.page import Page
from wizard.sheets.remark_words import level_words
from wizard.sheets.told import Told, told
from wizard.trade.explain import Why
from wizard.trade.plan import Finding

WAY_UP: Final = "▲ this way up"
TICK: Final = "[ ] "
TICKED: Final = "[x] "
SIGNS: Final = {"caution": "! ", "missing": "? ", "changed": "* "}
"""What stands before a caution, what is still to be answered, and what changed in a finished step."""
CHANGED: Final = "Changed since you ticked it:"


def lines_of(matter: Sequence[Matter], page: Page) -> list[str]:
    """All of it, a blank line between two that follow one another; a heading brings its own."""
    lines: list[str] = []
    for before, each in zip((None, *matter), matter, strict=False):
        if before is not None and not isinstance(before, Heading) and not isinstance(each, Heading):
            lines.append("")
        lines += _lines(each, page)
    return lines


def _lines(each: Matter, page: Page) -> list[str]:  # noqa: C901  one line for each kind of matter
    match each:
        case Heading(text, 1):
            return page.heading(text)
        case Heading(text, _):
            return page.subheading(text)
        case Para(text):
            return page.para(text)
        case Pairs(rows):
            return [line for label, value in rows for line in page.pair(label, value)]
        case Table():
            return page.table(each.heads, each.rows, each.left)
        case Ticks(items):
            return [line for item in items for line in page.para(item.text, TICK)]
        case Points(kind, texts):
            return [line for text in texts for line in page.para(text, SIGNS[kind])]
        case Steps(steps):
            return _apart([_step(each, page) for each in told(steps)])
        case Findings(findings):
            return _apart([_finding(finding, page) for finding in findings])
        case Cards(cards):
            return _apart(
                [[*page.para(card.title), *_under((*card.lines, *([WAY_UP] * card.way_up)), page)] for card in cards]
            )
        case Reasons(reasons):
            return _apart([_reason(reason, page) for reason in reasons])
        case Drawing():
            return drawn(each, page)


def _apart(groups: Sequence[list[str]]) -> list[str]:
    """Groups of lines with a blank line between them."""
    return [line for number, group in enumerate(groups) for line in ([""] if number else []) + group]


def _under(texts: Sequence[str], page: Page) -> list[str]:
    return [line for text in texts for line in page.para(text, "    ")]


def _step(each: Told, page: Page) -> list[str]:
    step = each.step
    lines = [line for words in each.before for line in page.para(words, f"  {SIGNS['caution']}")]
    if step.changed:
        lines += page.para(f"{CHANGED} {' '.join(step.changed)}", f"  {SIGNS['changed']}")
    time = f" ({time_text(step)})" if time_text(step) else ""
    lines += [*page.para(f"{step.title}{time}", TICKED if step.done else TICK), *_under(step.lines, page)]
    for label, things in (("tools", step.tools), ("settings", step.settings)):
        if things:
            lines += page.para("; ".join(things), f"    {label}: ")
    return lines + (page.para(step.note, "    note: ") if step.note else [])


def worked_by(reason: Why) -> tuple[str, ...]:
    """Formula and values, where the figure is worked from others; one as it was given has neither."""
    return () if reason.formula == reason.title else (reason.formula, reason.values)


def _reason(each: Why, page: Page) -> list[str]:
    return [
        *page.para(f"{each.title}: {each.result}"),
        *_under((*worked_by(each), f"{each.says} ({each.source})"), page),
    ]


def _finding(each: Finding, page: Page) -> list[str]:
    return [
        *page.para(f"{level_words(each)}: {each.sentence}"),
        *(_under([each.way_out], page) if each.way_out else []),
        *page.para(each.key, "    in the file: "),
    ]
