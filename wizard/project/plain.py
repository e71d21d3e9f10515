"""A draft as plain tables, lists and text, as in the file; and changing one value in them."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any, Final

from msgspec.structs import asdict

from wizard.project.tables import Table
from wizard.project.typed import TypedLength, TypedMoney, TypedNumber, TypedPercent, Unusable

_TYPED: Final = (TypedLength, TypedMoney, TypedNumber, TypedPercent, Unusable)
ALWAYS: Final = frozenset({"format"})
"""Keys written even when they hold what they would hold anyway."""


def plain(table: Table) -> dict[str, Any]:
    """`table` as in the file, in the order of its fields; what says nothing is left out."""
    held = ((name, getattr(table, name), usual) for name, usual in _usual(type(table)).items())
    return {
        name: plain_value(value)
        for name, value, usual in held
        if name in ALWAYS or (value is not usual and value != usual)
    }


@cache
def _usual(kind: type[Table]) -> dict[str, Any]:
    """Field -> what it holds when nothing is said."""
    return asdict(kind())


def plain_value(value: Any) -> Any:
    """One value of a table as in the file."""
    if isinstance(value, str):
        return value
    if isinstance(value, _TYPED):
        return value.text
    if isinstance(value, Table):
        return plain(value)
    if isinstance(value, Mapping):
        return {name: plain_value(each) for name, each in value.items()}
    if isinstance(value, tuple):
        return ["" if each is None else plain_value(each) for each in value]
    return value


def put_in(table: dict[str, Any], path: tuple[str, ...], value: object) -> None:
    """Set `value` at `path` in plain tables, making the tables above it; None takes out what is there."""
    here: Any = table
    for name in path[:-1]:
        if value is None and name not in here:
            return
        here = here.setdefault(name, {})
    if value is None:
        here.pop(path[-1], None)
    else:
        here[path[-1]] = value


def put_item(table: dict[str, Any], path: tuple[str, ...], value: object) -> None:
    """Set the item of a list; `path` ends in its number, from 1.

    The list grows holes ("") up to the item. Taken out, an item leaves a hole, and holes at the end go.
    """
    items = list(at(table, path[:-1]) or [])
    number = int(path[-1])
    items += [""] * (number - len(items))
    items[number - 1] = "" if value is None else value
    while value is None and items and items[-1] == "":
        items.pop()
    put_in(table, path[:-1], items or None)


def at(table: dict[str, Any], path: tuple[str, ...]) -> Any:
    """What stands at `path` in plain tables, list items counted from 1; None when there is nothing."""
    here: Any = table
    for name in path:
        if isinstance(here, list):
            here = here[int(name) - 1] if name.isdecimal() and 1 <= int(name) <= len(here) else None
        else:
            here = here.get(name) if isinstance(here, dict) else None
    return here
