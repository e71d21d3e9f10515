"""A project as plain tables, lists and text, and as the bytes of its file.

The keys are in one fixed order and a list is on one line, so that anybody can read the file.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from functools import cache, lru_cache
from typing import Any, Final

import tomli_w

from wizard.project.parse.field_values import Value
from wizard.trade.fields import NotTaken, Record, fields_of

REMEMBERED: Final = 2048
"""Values whose text is remembered: every answer writes the whole file, and nearly all of it is as before."""

WIDEST: Final = 110
"""A list that makes a longer line than this gets a line for each item."""


def plain(record: Record) -> dict[str, Any]:
    """`record` as in the file, in the order of its fields; what says nothing is left out, but for the format."""
    held = ((name, getattr(record, name), empty) for name, empty in _empty(type(record)).items())
    return {
        name: plain_value(value)
        for name, value, empty in held
        if name == "format" or (value is not empty and value != empty)
    }


@cache
def _empty(kind: type[Record]) -> dict[str, Any]:
    """Field -> its value when nothing is said."""
    empty = kind()
    return {name: getattr(empty, name) for name in fields_of(kind)}


def plain_value(value: Any) -> Any:
    """One value of a record as in the file."""
    if isinstance(value, Value | NotTaken):
        return value.text
    if isinstance(value, Record):
        return plain(value)
    if isinstance(value, Mapping):
        return {name: plain_value(each) for name, each in value.items()}
    if isinstance(value, tuple):
        return ["" if each is None else plain_value(each) for each in value]
    return value


def encode(record: Record) -> bytes:
    """The bytes of the file, UTF-8. Reading them gives the same project; encoding that gives the same bytes."""
    return "".join(_blocks(plain(record), ())).encode()


def _blocks(table: dict[str, Any], path: tuple[str, ...]) -> list[str]:
    """The lines of a table and of those below it, each table under its own name."""
    lines = [_pair(name, each) for name, each in table.items() if not isinstance(each, dict)]
    head = [f"\n[{'.'.join(map(_name, path))}]\n"] if path and (lines or not table) else []
    below = [_blocks(each, (*path, name)) for name, each in table.items() if isinstance(each, dict)]
    return [*head, *lines, *(line for block in below for line in block)]


def _pair(name: str, value: Any) -> str:
    if isinstance(value, list):
        line = f"{_name(name)} = [{', '.join(map(_value, value))}]\n"
        return line if len(line) <= WIDEST else tomli_w.dumps({name: value})
    return f"{_name(name)} = {_value(value)}\n"


@lru_cache(maxsize=REMEMBERED, typed=True)
def _value(value: Any) -> str:
    """A text, a number, true, false or a moment as it is written."""
    return tomli_w.dumps({"": value}).removeprefix('"" = ').rstrip("\n")


@lru_cache(maxsize=REMEMBERED)
def _name(name: str) -> str:
    """A key as it is written: bare, or between quotes."""
    return tomli_w.dumps({name: True}).removesuffix(" = true\n")


def mark_of(values: Any) -> str:
    """A short mark of plain tables, the same in whatever order their keys stand."""
    return hashlib.sha256(json.dumps(values, sort_keys=True, default=str).encode()).hexdigest()
