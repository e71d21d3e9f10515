"""The plan so far in lines of a width: labels at the left, values in line behind them, each going on under itself."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from textual.content import Content

from wizard.screens.breaking import in_lines
from wizard.screens.glyphs import CHANGED
from wizard.screens.literal import cut_to, filled, plain
from wizard.screens.so_far import Row
from wizard.sheets.plain import cells
from wizard.sheets.whole import GLUE

LABEL = 11
"""Columns that labels have at least, so that the values stand in line."""


def lines_of(rows: Sequence[Row], columns: int) -> Iterator[Content]:
    """One of each row, as high as it needs."""
    for heading, group in _under_headings(rows):
        yield from ([] if heading is None else [_heading(heading)])
        at = _values_at(group, columns)
        yield from (_line(each, at, columns) for each in group)


def _under_headings(rows: Sequence[Row]) -> Iterator[tuple[Row | None, list[Row]]]:
    """Each heading with its rows; None for rows before the first."""
    heading, group = None, list[Row]()
    for row in rows:
        if row.label.startswith(" "):
            group.append(row)
            continue
        if heading is not None or group:
            yield heading, group
        heading, group = row, []
    yield heading, group


def _heading(row: Row) -> Content:
    value = Content.styled(f"  {plain(row.value)}", "$quiet") if row.value else ""
    return Content.assemble((plain(row.label), "bold"), value)


def _values_at(group: Sequence[Row], columns: int) -> int:
    """The column at which the values of a group stand: behind the longest label that leaves its own value room."""
    whole = (cells(each.label) + 1 for each in group if cells(each.label) + 1 + cells(_value(each)) <= columns)
    return max((LABEL, *whole))


def _line(row: Row, at: int, columns: int) -> Content:
    value = _value(row)
    # Where both do not fit the label is cut, and takes what the value leaves.
    begin = max(min(max(at, cells(row.label) + 1), columns - cells(value)), LABEL)
    label = Content.styled(filled(cut_to(row.label, begin - 1), begin), "$quiet")
    told = Content.styled(_going_on(value, begin, columns), "bold $accent" if row.changed else "")
    was = f"\n{' ' * begin}{_going_on(f'was {plain(row.was)}', begin, columns)}" if row.was else ""
    return Content.assemble(label, told, (was, "$quiet"))


def _value(row: Row) -> str:
    return f"{plain(row.value or '')}{f'{GLUE}{CHANGED}' if row.changed else ''}"


def _going_on(text: str, begin: int, columns: int) -> str:
    """`text` from the column `begin` on, and from there again where it is longer than its place."""
    room = max(columns - begin, LABEL)
    lines = in_lines(text, room) if cells(text) > room else [text.replace(GLUE, " ")]
    return f"\n{' ' * begin}".join(lines)
