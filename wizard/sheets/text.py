"""Sheets as text: for the terminal, the printer and the wall."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import TextIO

from wizard.sheets.blocks.head import head
from wizard.sheets.kinds.catalogue import sheets_of
from wizard.sheets.kinds.names import SheetId
from wizard.sheets.lines import lines_of
from wizard.sheets.page import Page
from wizard.sheets.stamp import Stamp, stamp_of
from wizard.trade.formatting import ruler_of
from wizard.trade.plan import Plan


def write_text(
    plan: Plan, stream: TextIO, columns: int, only: Collection[SheetId] | None = None, date: str | None = None
) -> None:
    """Write the sheets named in `only`, or the usual ones, in lines of at most `columns` characters, at least 40.

    The same plan and date, the same text. An unfinished plan prints what is known and names what is missing.
    """
    page, stamp = Page(columns, ruler_of(plan.job)), stamp_of(plan, date)
    before = ""
    for line in _lines(plan, page, stamp, only):
        # Matter and headings each ask for a blank line of their own; one is enough.
        if line or before:
            stream.write(f"{line}\n")
        before = line


def _lines(plan: Plan, page: Page, stamp: Stamp, only: Collection[SheetId] | None) -> Iterator[str]:
    yield from _title(stamp.name, page)
    yield from lines_of(head(plan, stamp), page)
    for sheet in sheets_of(plan, only):
        yield from ["", *_title(sheet.title, page), *page.para(f"{stamp.name}, {stamp.short}."), ""]
        yield from lines_of(sheet.matter, page)


def _title(text: str, page: Page) -> list[str]:
    return [*page.para(text), "═" * page.columns]
