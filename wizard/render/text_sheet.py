"""Sheets as text: for the terminal, the printer and the wall."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from itertools import pairwise
from typing import Final

from wizard.render.document import (
    Block,
    Cards,
    CautionedStep,
    Drawing,
    Heading,
    Note,
    Notes,
    Pairs,
    Para,
    Points,
    Steps,
    Table,
    Ticks,
    with_cautions,
)
from wizard.render.drawings.roll_on_screen import squared_end
from wizard.render.drawings.scene import Box, Scene
from wizard.render.drawings.scene_text import row_of, to_cells
from wizard.render.figure_text import time_text, unitless
from wizard.render.plain_text import cell_len
from wizard.render.sheet_header import header_blocks, header_of
from wizard.render.sheet_kinds import sheets_of
from wizard.render.sheet_names import SheetId
from wizard.render.text_page import Page
from wizard.trade.formatting import ruler_of
from wizard.trade.plan_records import Plan


def text_sheets(plan: Plan, columns: int, only: Collection[SheetId] | None = None, date: str | None = None) -> str:
    """The sheets named in `only`, or the usual ones, in lines of at most `columns` characters, at least 40.

    The same plan and date, the same text. An unfinished plan prints what is known and names what is missing.
    """
    page, header = Page(columns, ruler_of(plan.job)), header_of(plan, date)
    lines = [*_title(header.name, page), *lines_of(header_blocks(plan, header), page)]
    for sheet in sheets_of(plan, only):
        lines += ["", *_title(sheet.title, page), *page.para(f"{header.name}, {header.short}."), ""]
        lines += lines_of(sheet.blocks, page)
    # Blocks and headings each ask for a blank line of their own; one is enough.
    return "".join(f"{line}\n" for before, line in pairwise(["", *lines]) if line or before)


def _title(text: str, page: Page) -> list[str]:
    return [*page.para(text), "═" * page.columns]


WAY_UP: Final = "▲ this way up"
TICK: Final = "[ ] "
TICKED: Final = "[x] "
UNDER: Final = "    "
SIGNS: Final = {"caution": "! ", "missing": "? ", "changed": "* "}
"""What is printed before a caution, a missing answer, and a change in a finished step."""


def lines_of(blocks: Sequence[Block], page: Page) -> list[str]:
    """All of it, a blank line between two that follow one another; a heading brings its own."""
    lines: list[str] = []
    for before, each in zip((None, *blocks), blocks, strict=False):
        if before is not None and not isinstance(before, Heading) and not isinstance(each, Heading):
            lines.append("")
        lines += _lines(each, page)
    return lines


def _lines(each: Block, page: Page) -> list[str]:  # noqa: C901  one line for each kind of block
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
            return page.paras((text for _, text in items), TICK)
        case Points(kind, texts):
            return page.paras(texts, SIGNS[kind])
        case Steps(steps):
            return _apart(_step(each, page) for each in with_cautions(steps))
        case Notes(notes):
            return _apart(_note(note, page) for note in notes)
        case Cards(cards):
            return _apart(
                page.para(card.title) + page.paras((*card.lines, *([WAY_UP] * card.way_up)), UNDER) for card in cards
            )
        case Drawing():
            return drawn(each, page)


def _apart(groups: Iterable[list[str]]) -> list[str]:
    """Groups of lines with a blank line between them."""
    return [line for number, group in enumerate(groups) for line in ([""] if number else []) + group]


def _step(each: CautionedStep, page: Page) -> list[str]:
    step, time = each.step, time_text(each.step)
    return [
        *page.paras(each.before, f"  {SIGNS['caution']}"),
        *(page.para(each.changed, f"  {SIGNS['changed']}") if each.changed else []),
        *page.para(f"{step.title} ({time})" if time else step.title, TICKED if step.done else TICK),
        *page.paras(step.lines, UNDER),
        *(line for label, text in each.kit for line in page.para(text, f"{UNDER}{label}: ")),
    ]


def _note(each: Note, page: Page) -> list[str]:
    title = page.para(f"{each.title}: {each.text}")
    return title + page.paras(each.lines, UNDER) + page.para(each.small, f"{UNDER}{each.label}")


MEASURE: Final = 11
"""Columns of the running measure, at least."""
WIDEST: Final = 72


def drawn(drawing: Drawing, page: Page) -> list[str]:
    """A drawing in characters, as wide as the page; a roll has the running measure beside it."""
    scene, rows = drawing.scene, drawing.rows
    if not drawing.measured:
        return to_cells(scene, min(page.columns, WIDEST), rows)
    measures = _measures(scene, rows, page)
    margin = max(MEASURE, *(cell_len(text) + 1 for text in measures.values()))
    lines = to_cells(scene, min(page.columns - margin, WIDEST), rows)
    beside = (measures.get(number, "") for number in range(rows))
    return [f"{' ' * (margin - 1 - cell_len(text))}{text} {line}" for text, line in zip(beside, lines, strict=True)]


def _measures(scene: Scene, rows: int, page: Page) -> dict[int, str]:
    """Line -> what the running measures are there, for the ends of the pieces. Of several on one line those of cuts
    right across are kept, else the first: where cloth is lost between two pieces, both matter."""
    pieces = [shape for shape in scene.shapes if isinstance(shape, Box) and shape.fill == "none"]
    ends = {end for each in pieces for end in (each.y, each.y + each.height)}
    through = {end: any(each.y < end < each.y + each.height for each in pieces) for end in ends}
    found: dict[int, list[str]] = {}
    for end in sorted(ends, key=lambda end: (through[end], end)):
        here = found.setdefault(row_of(scene, end, rows), [])
        if not here or not through[end]:
            here.append(unitless(end - squared_end(scene), page.ruler))
    return {line: _listed(texts, page.columns // 2) for line, texts in found.items()}


def _listed(texts: list[str], columns: int) -> str:
    """The measures of one line, in at most `columns`; where they do not fit, the first and the last of them."""
    text = ", ".join(texts)
    return text if cell_len(text) <= columns else f"{texts[0]} … {texts[-1]}"
