"""Values in a file that an earlier version took and this one does not: where they stand, and why they are not used.

One way for all of them, a length beyond its limits as well as one in a unit that is no longer taken: the file opens,
the text stays in it as it was until another is typed, the figures above it wait, and a finding at the key says why.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, TypeVar

from wizard.project.keys import Path, limits_at
from wizard.project.tables import Table
from wizard.project.typed import Misread, Unusable

T = TypeVar("T")


def typed_in(value: Any, kind: type[T], path: Path = ()) -> Iterator[tuple[Path, T]]:
    """Every value of a kind in a table, a list or a value that stands at `path`, with its own path."""
    if isinstance(value, kind):
        yield path, value
    elif isinstance(value, Table):
        for name in value.__struct_fields__:
            yield from typed_in(getattr(value, name), kind, (*path, name))
    elif isinstance(value, Mapping):
        for name, each in value.items():
            yield from typed_in(each, kind, (*path, name))
    elif isinstance(value, tuple):
        for number, each in enumerate(value, 1):
            yield from typed_in(each, kind, (*path, str(number)))


def unusable_at(table: Table, path: Path) -> Iterator[tuple[Path, Unusable]]:
    """Every value that cannot be used in what stands at a path in a table."""
    here: Any = table
    for name in path:
        if isinstance(here, tuple):
            here = here[int(name) - 1] if int(name) <= len(here) else None
        else:
            here = here.get(name) if isinstance(here, Mapping) else getattr(here, name, None)
    return typed_in(here, Unusable, path)


def why_unusable(root: type[Table], path: Path, text: str, *, metric: bool) -> Misread:
    """Why `text` is not taken at `path`, in the job's own system."""
    limits = limits_at(root, path)
    if limits is None:
        raise TypeError(f"nothing is read at {path}")
    try:
        limits.of(text, metric=metric)
    except Misread as misread:
        return misread
    raise ValueError(f"{text} is taken at {path}")
