"""The whole plan as text: for the terminal, the printer and the wall."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final, TextIO

from wizard.sheets.blocks.buying import buying, fullness_steps
from wizard.sheets.blocks.hanging import fixings, marks
from wizard.sheets.blocks.head import head
from wizard.sheets.blocks.layers import layers
from wizard.sheets.blocks.measures import measures
from wizard.sheets.blocks.remarks import cautions, findings, missing
from wizard.sheets.blocks.work import work
from wizard.sheets.page import Page
from wizard.trade.plan import Plan
from wizard.trade.rulers import ruler_of

Block = Callable[[Plan, Page], list[str]]

BLOCKS: Final[tuple[Block, ...]] = (
    head, findings, measures, fullness_steps, buying, layers, marks, fixings, cautions, work, missing,
)  # fmt: skip
"""What a sheet holds, in order; a block that has nothing to say gives no lines."""


def write_text(plan: Plan, stream: TextIO, columns: int) -> None:
    """Write the plan to `stream` in lines of at most `columns` characters, at least 40. The same plan, the same text.

    An unfinished plan prints what is known and names what is missing at the end.
    """
    page = Page(columns, ruler_of(plan.job))
    before = ""
    for line in (line for block in BLOCKS for line in block(plan, page)):
        # Blocks and headings each ask for a blank line of their own; one is enough.
        if line or before:
            stream.write(f"{line}\n")
        before = line
