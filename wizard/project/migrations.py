"""Bringing the tables of an older format up to the one that is read, a format at a time."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final

Tables = dict[str, Any]
Step = Callable[[Tables], Tables]

MIGRATIONS: Final[Mapping[int, Step]] = {}
"""Format -> what makes tables of the next format out of its tables. Empty as long as there is but one format."""


def bring_up(tables: Tables, to: int, steps: Mapping[int, Step] = MIGRATIONS) -> Tables:
    """`tables` as they are in format `to`, which theirs is not above; the tables handed in stay as they are."""
    for number in range(tables["format"], to):
        tables = {**steps[number](tables), "format": number + 1}
    return tables
