"""Changing a table of a project: only the tables that lie on the way to a change are made and checked anew.

What is off the way stays the very same value, so that checking an answer costs as much as the answer, not as the file.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import Any, TypeVar

from msgspec.structs import replace

from wizard.project.keys import Path, is_item
from wizard.project.plain import plain_value, put_in, put_item
from wizard.project.straight import straight, under
from wizard.project.tables import Table

T = TypeVar("T", bound=Table)


def changed(table: T, values: Mapping[Path, object]) -> T:
    """`table` with each value put in at its path, as in the file; None takes out. Paths are known ones.

    Raises Crooked for a value that is not fit; where several are not, for any of them.
    """
    below: dict[str, dict[Path, object]] = {}
    for path, value in values.items():
        below.setdefault(path[0], {})[path[1:]] = value
    new: dict[str, Any] = {}
    checked: dict[str, Any] = {}
    for name, inside in below.items():
        here = getattr(table, name)
        if isinstance(here, Table) and () not in inside:
            new[name] = under(name, partial(changed, here), inside)
        elif _holds_all(here, inside):
            new[name] = under(name, partial(_changed_inside, here), inside)
        else:
            checked[name] = _anew(type(table), table, name, inside)
    given = straight(type(table), {name: value for name, value in checked.items() if value is not None})
    return replace(table, **new, **{name: getattr(given, name) for name in checked})


def _changed_inside(here: Mapping[str, Table], inside: Mapping[Path, object]) -> dict[str, Table]:
    """The tables under ids, those that `inside` has values for changed."""
    return {**here, **{key: under(key, partial(changed, here[key]), each) for key, each in _by_key(inside).items()}}


def _by_key(inside: Mapping[Path, object]) -> dict[str, dict[Path, object]]:
    """The same values under the first name of their paths."""
    found: dict[str, dict[Path, object]] = {}
    for path, value in inside.items():
        found.setdefault(path[0], {})[path[1:]] = value
    return found


def _holds_all(here: object, inside: Mapping[Path, object]) -> bool:
    """True for tables under ids that are all there already, and change inside only."""
    return isinstance(here, Mapping) and all(len(path) > 1 and isinstance(here.get(path[0]), Table) for path in inside)


def _anew(kind: type[Table], table: Table, name: str, inside: Mapping[Path, object]) -> Any:
    """What stands at `name`, as in the file, with the values put in; None when nothing is left."""
    there = plain_value(getattr(table, name))
    holder: dict[str, Any] = {} if there is None else {name: there}
    for path, value in inside.items():
        whole = (name, *path)
        (put_item if is_item(kind, whole) else put_in)(holder, whole, value)
    return holder.get(name)
