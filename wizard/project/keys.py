"""Dotted keys of the project file, and what kind of thing stands at each: told from the tables themselves."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import UnionType
from typing import Annotated, Any, Final, Union, get_args, get_origin

from wizard.project.notes import notes_of
from wizard.project.tables import MOST_ITEMS, Table
from wizard.project.typed.fields import Field
from wizard.project.typed.limits import Limits
from wizard.project.typed.misread import quoted

Path = tuple[str, ...]
_PLAIN: Final = re.compile(r"[A-Za-z0-9_:/-]+")
_ITEM: Final = re.compile(r"[1-9][0-9]?")


def split(key: str) -> Path:
    """The names a dotted key is made of. What stands behind `kept.` is one name: a finding's id may hold dots."""
    first, dot, rest = key.partition(".")
    return (first, rest) if first == "kept" and dot else tuple(key.split("."))


def joined(path: Path) -> str:
    """The dotted key; a name no key should have is put between quotes, so that it can be shown."""
    names = [name if _PLAIN.fullmatch(name) else quoted(name) for name in path]
    return ".".join(path if path[:1] == ("kept",) and path[1:] and path[1].isprintable() else names)


def kind_at(root: type[Table], path: Path) -> Any:
    """What stands at `path`: a table's class, a mapping, a list, or a value's class; None when the key is not known."""
    kind: Any = root
    for name in path:
        kind = _inside(kind, name)
    return kind


def limits_at(root: type[Table], path: Path) -> Limits | None:
    """What may be typed at `path`; None where no length, number, percentage or sum of money is."""
    holder = kind_at(root, path[:-1])
    if is_table(holder):
        kind = holder.__annotations__.get(path[-1])
    else:
        kind = get_args(holder)[0] if is_list(holder) else None
    return next((each.limits for each in notes_of(kind) if isinstance(each, Field)), None)


def is_known(root: type[Table], path: Path) -> bool:
    """True when a file may hold something at `path`; list items count from 1."""
    return kind_at(root, path) is not None


def is_item(root: type[Table], path: Path) -> bool:
    """True when `path` names an item of a list."""
    return is_list(kind_at(root, path[:-1]))


def names_in(kind: Any) -> tuple[str, ...]:
    """The keys of a table's class; none for anything else."""
    return kind.__struct_fields__ if is_table(kind) else ()


def fields_of(kind: type[Table]) -> dict[str, Any]:
    """The keys of a table, in order, each with its type and the notes beside it."""
    return {name: kind.__annotations__[name] for name in kind.__struct_fields__}


def is_table(kind: Any) -> bool:
    """True for a table with keys of its own."""
    return isinstance(kind, type) and issubclass(kind, Table)


def is_mapping(kind: Any) -> bool:
    """True for a table keyed by ids."""
    return get_origin(kind) is Mapping


def is_list(kind: Any) -> bool:
    """True for a list."""
    return get_origin(kind) is tuple


def item_of(kind: Any) -> Any:
    """What the values of a mapping or the items of a list are."""
    return bare(get_args(kind)[1 if is_mapping(kind) else 0])


def bare(kind: Any) -> Any:
    """`kind` without its notes and without None."""
    if get_origin(kind) is Annotated:
        return bare(get_args(kind)[0])
    if get_origin(kind) in (Union, UnionType):
        return bare(next(each for each in get_args(kind) if each is not type(None)))
    return kind


def _inside(kind: Any, name: str) -> Any:
    if is_table(kind):
        return bare(kind.__annotations__[name]) if name in kind.__struct_fields__ else None
    if is_mapping(kind):
        return item_of(kind)
    if is_list(kind) and _ITEM.fullmatch(name) and int(name) <= MOST_ITEMS:
        return item_of(kind)
    return None
