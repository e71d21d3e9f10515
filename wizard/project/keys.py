"""Dotted keys of the project file, and the type at each: told from the records themselves."""

from __future__ import annotations

import re
from typing import Any, Final

from wizard.project.parse.misread import quoted
from wizard.trade.fields import Limits, Path, Record, bare, fields_of, is_list, is_table, kind_of, type_at

_PLAIN: Final = re.compile(r"[A-Za-z0-9_:/-]+")


def split(key: str) -> Path:
    """The names in a dotted key. What follows `kept.` is one name: a finding's id may hold dots."""
    first, dot, rest = key.partition(".")
    return (first, rest) if first == "kept" and dot else tuple(key.split("."))


def joined(path: Path) -> str:
    """The dotted key; a name no key should have is put between quotes, so that it can be shown."""
    names = [name if _PLAIN.fullmatch(name) else quoted(name) for name in path]
    return ".".join(path if path[:1] == ("kept",) and path[1:] and path[1].isprintable() else names)


def kind_at(root: type[Record], path: Path) -> Any:
    """The type at `path` without its notes: a record, a mapping, a list or a value; None when the key is not known."""
    found = type_at(root, path)
    return None if found is None else bare(found)


def limits_at(root: type[Record], path: Path) -> Limits | None:
    """What may be typed at `path`; None where no length, number, percentage or sum of money is."""
    kind = kind_of(type_at(root, path))
    return kind if isinstance(kind, Limits) else None


def is_item(root: type[Record], path: Path) -> bool:
    """True when `path` names an item of a list."""
    return is_list(kind_at(root, path[:-1]))


def names_in(kind: Any) -> tuple[str, ...]:
    """The keys of a record; none for anything else."""
    return tuple(fields_of(kind)) if is_table(kind) else ()
