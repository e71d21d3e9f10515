"""Writing a draft as the file it is kept in: the keys in one fixed order, a list in one line, readable by anybody."""

from __future__ import annotations

from functools import lru_cache
from typing import Any, Final

import tomli_w

from wizard.project.draft import Draft
from wizard.project.plain import plain

REMEMBERED: Final = 2048
"""Lines whose text is remembered: every answer writes the whole file, and nearly all of it is as it was."""

WIDEST: Final = 110
"""A list that makes a longer line than this stands with an item on each line."""


def write(draft: Draft) -> bytes:
    """The bytes of the file, UTF-8. Reading them gives the same draft; writing that gives the same bytes."""
    return "".join(_blocks(plain(draft), ())).encode()


def _blocks(table: dict[str, Any], path: tuple[str, ...]) -> list[str]:
    """The lines of a table and of those below it, each table under its own name."""
    lines = [_pair(name, each) for name, each in table.items() if not isinstance(each, dict)]
    head = [f"\n[{'.'.join(map(_name, path))}]\n"] if path and (lines or not table) else []
    below = [_blocks(each, (*path, name)) for name, each in table.items() if isinstance(each, dict)]
    return [*head, *lines, *(line for block in below for line in block)]


def _pair(name: str, value: Any) -> str:
    if isinstance(value, str):
        return _text_pair(name, value)
    if isinstance(value, list):
        line = f"{_name(name)} = [{', '.join(_value(each) for each in value)}]\n"
        return line if len(line) <= WIDEST else tomli_w.dumps({name: value})
    return tomli_w.dumps({name: value})


@lru_cache(maxsize=REMEMBERED)
def _text_pair(name: str, text: str) -> str:
    return tomli_w.dumps({name: text})


def _value(value: Any) -> str:
    return _text(value) if isinstance(value, str) else _any(value)


@lru_cache(maxsize=REMEMBERED)
def _text(text: str) -> str:
    return _any(text)


def _any(value: Any) -> str:
    return tomli_w.dumps({"": value}).removeprefix('"" = ').rstrip("\n")


@lru_cache(maxsize=REMEMBERED)
def _name(name: str) -> str:
    """A key as it is written: bare, or between quotes."""
    return tomli_w.dumps({name: True}).removesuffix(" = true\n")
