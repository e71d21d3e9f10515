"""Reading a project file: a project, or every problem of the file at once, each with its key, line and a way out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, Final

from wizard.project.decode import DecodeError, decode
from wizard.project.problems import Problem, Problems, in_order, of_fault
from wizard.project.project import FORMAT, Project
from wizard.project.toml_lines import Places, places, tables_of, text_of
from wizard.project.value_faults import Fault, found, in_units
from wizard.trade.formatting import is_metric

MOST_TOLD: Final = 500
"""Most problems told of one file: one with more is hardly meant to be a project."""


def read(data: bytes) -> Project | Problems:
    """The project that the bytes of a file say, or all that is to be mended in it. Never raises, whatever the bytes."""
    text = text_of(data)
    if isinstance(text, Problems):
        return text
    tables = tables_of(text)
    if isinstance(tables, Problems):
        return tables
    wrong = _format_problem(tables, text)
    if wrong and "format" in tables:
        return in_order([wrong])
    values = {"format": FORMAT, **tables}
    try:
        project = decode(Project, values)
    except DecodeError as error:
        return in_order([*_problems(error.faults, values, places(text)), *([wrong] if wrong else [])])
    return in_order([wrong]) if wrong else project


def has_comments(data: bytes) -> bool:
    """True when the bytes of a readable file hold comments; a # inside text is none."""
    text = text_of(data) if b"#" in data else None
    return isinstance(text, str) and places(text).has_comments


def _problems(faults: Sequence[Fault], values: dict[str, Any], where: Places) -> Iterator[Problem]:
    metric = is_metric(values.get("show"), values.get("standard"))
    for each in faults[:MOST_TOLD]:
        yield of_fault(in_units(each, Project, metric=metric), where.line(each.path))
    if more := len(faults[MOST_TOLD:]):
        yield Problem("", None, f"There are {more} more problems in this file: is it the right one?")


def _format_problem(tables: dict[str, Any], text: str) -> Problem | None:
    """What is wrong with the format, which decides whether the rest can be understood at all."""
    if "format" not in tables:
        return Problem("format", 1, "The file does not say its format. A project begins with format = 1")
    said = tables["format"]
    number = said if isinstance(said, int) and not isinstance(said, bool) else 0
    if 1 <= number <= FORMAT:
        return None
    says = f"Found {found(said)}: the format is a number from 1, without quotes. For example: format = {FORMAT}"
    if number > FORMAT:
        which = f"format {number}" if number < 10**6 else "a much newer format"
        says = f"This file has {which}; this railskirt reads formats up to {FORMAT}. A newer railskirt may read it."
    return Problem("format", places(text).line(("format",)), says)
