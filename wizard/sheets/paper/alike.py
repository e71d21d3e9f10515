"""Short lines of a step that begin alike, such as a hem's measures: paper sets them beside one another."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Final

from wizard.sheets.plain import cells

LEAST: Final = 4
"""Fewer lines than this stay as they are."""
LONGEST: Final = 36
"""Letters in a line that finds room in half the width of a page."""


def alike(lines: Sequence[str]) -> Iterator[tuple[str, ...]]:
    """The lines in order, those of a run together, every other alone: a run has one first word, and short lines."""
    for word, group in groupby(lines, _begins):
        run = tuple(group)
        if word and len(run) >= LEAST:
            yield run
        else:
            yield from ((line,) for line in run)


def _begins(line: str) -> str:
    """The first word of a short line; nothing for a long one."""
    return line.partition(" ")[0] if cells(line) <= LONGEST else ""
