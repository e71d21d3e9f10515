"""Sheets as text: for the terminal, the printer and the wall."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from itertools import pairwise
from typing import Final

from wizard.render.document import (
    Block,
    Cards,
    Drawing,
    Heading,
    Note,
    Pairs,
    Para,
    Points,
    Table,
    TrueScale,
    Work,
    WorkStep,
)
from wizard.render.drawings.scene_text import to_cells
from wizard.render.sheet_header import SheetHeader, header_blocks, header_of, header_of_all
from wizard.render.sheet_kinds import Sheet, order_sheet, sheets_of
from wizard.render.sheet_names import SheetId
from wizard.render.text_page import Page
from wizard.trade.formatting import ruler_of
from wizard.trade.plan_records import Plan


def text_sheets(plan: Plan, columns: int, only: Collection[SheetId] | None = None, date: str | None = None) -> str:
    """The sheets named in `only`, or the usual ones, in lines of at most `columns` characters, at least 40.

    The same plan and date, the same text. An unfinished plan prints what is known and names what is missing.
    """
    header = header_of(plan, date)
    return _whole(header, header_blocks(plan, header), sheets_of(plan, only), Page(columns, ruler_of(plan.job)))


def text_orders(plans: Sequence[Plan], columns: int, date: str | None = None) -> str:
    """One order list for several jobs, in lines of at most `columns` characters."""
    header, page = header_of_all(plans, date), Page(columns, ruler_of(plans[0].job))
    return _whole(header, [], [order_sheet(plans)], page)


def _whole(header: SheetHeader, notes: Sequence[Block], sheets: Iterable[Sheet], page: Page) -> str:
    lines = [*_title(header.name, page), *lines_of(notes, page)]
    for sheet in sheets:
        lines += ["", *_title(sheet.title, page), *page.para(f"{header.name}, {header.short}."), ""]
        lines += lines_of(sheet.blocks, page)
    # Blocks and headings each ask for a blank line of their own; one is enough.
    return "".join(f"{line}\n" for before, line in pairwise(["", *lines]) if line or before)


def _title(text: str, page: Page) -> list[str]:
    return [*page.para(text), "═" * page.columns]


WAY_UP: Final = "▲ this way up"
TICK: Final = "[ ] "
TICKED: Final = "[x] "
BLANK: Final = "______"
"""Where something is written in."""
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
            return page.table(each.heads, _boxed(each), (0, *each.left) if each.boxes else each.left)
        case Points(kind, texts):
            return page.paras(texts, SIGNS[kind])
        case Work(steps):
            return _apart(_step(step, page) for step in steps)
        case Note():
            return _note(each, page)
        case Cards(cards):
            return _apart(
                page.para(card.title) + page.paras((*card.lines, *([WAY_UP] * card.way_up)), UNDER) for card in cards
            )
        case TrueScale():
            return []
        case Drawing():
            return drawn(each, page)


def _boxed(table: Table) -> list[list[str]]:
    """The rows with a box at the beginning of each that has one, and lines to write on."""
    rows = [[BLANK if at in table.blank and not cell else cell for at, cell in enumerate(row)] for row in table.rows]
    return [[f"{TICK}{first}", *cells] for first, *cells in rows] if table.boxes else rows


def _apart(groups: Iterable[list[str]]) -> list[str]:
    """Groups of lines with a blank line between them."""
    return [line for number, group in enumerate(groups) for line in ([""] if number else []) + group]


def _step(each: WorkStep, page: Page) -> list[str]:
    boxes = " ".join(f"{(TICKED if box.ticked else TICK)}{box.label}".strip() for box in each.boxes)
    title = f"{each.title} ({each.time})" if each.time else each.title
    # One box stands before the title, several under it.
    heading = page.para(title, f"{boxes} ") if len(each.boxes) == 1 else [*page.para(title), *page.para(boxes, UNDER)]
    return [
        *page.paras(each.cautions, f"  {SIGNS['caution']}"),
        *(page.para(f"as before: {each.as_before}", f"  {SIGNS['caution']}") if each.as_before else []),
        *(page.para(each.changed, "  * ") if each.changed else []),
        *heading,
        *(line for part in each.body for line in _part(part, page)),
        *(line for note in each.notes for line in page.para(note, f"{UNDER}note: ")),
    ]


def _part(part: str | Table, page: Page) -> list[str]:
    if isinstance(part, str):
        return page.para(part, UNDER)
    lines = Page(page.columns - len(UNDER), page.ruler).table(part.heads, part.rows, part.left)
    return ["", *(f"{UNDER}{line}" for line in lines), ""]


def _note(each: Note, page: Page) -> list[str]:
    title = page.para(f"{each.title}: {each.text}")
    return title + page.paras(each.lines, UNDER) + page.para(each.small, UNDER)


WIDEST: Final = 72
"""Columns of a drawing, at most."""


def drawn(drawing: Drawing, page: Page) -> list[str]:
    """A drawing in characters, as wide as the page, what it means under it."""
    lines = to_cells(drawing.scene, min(page.columns, WIDEST), drawing.rows)
    return [*page.para(drawing.scene.title), *lines, *(line for words in drawing.legend for line in page.para(words))]
