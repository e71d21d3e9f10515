"""Values in a file that an earlier version took and this one does not: where they stand, and why they are not used.

One way for all of them, a length beyond its limits as well as one in a unit that is no longer taken: the file opens,
the text stays in it as it was until another is typed, the figures above it wait, and a finding at the key says why.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from wizard.project.keys import Path, limits_at
from wizard.project.tables import Table
from wizard.project.typed import Misread, TypedLength, Unusable


def lengths_in(value: Any, path: Path = ()) -> Iterator[tuple[Path, TypedLength | Unusable]]:
    """Every length, and whatever cannot be used, in a table, a list or a value that stands at `path`, with its path."""
    if isinstance(value, TypedLength | Unusable):
        yield path, value
    elif value is None or isinstance(value, str | bool):
        return
    elif isinstance(value, Table):
        for name in value.__struct_fields__:
            if (each := getattr(value, name)) is not None:
                yield from lengths_in(each, (*path, name))
    elif isinstance(value, dict):
        for name, each in value.items():
            yield from lengths_in(each, (*path, name))
    elif isinstance(value, tuple):
        for number, each in enumerate(value, 1):
            yield from lengths_in(each, (*path, str(number)))


def unusable_at(table: Table, path: Path = ()) -> Iterator[tuple[Path, Unusable]]:
    """Every value that cannot be used in what stands at a path in a table, with its own path."""
    here: Any = table
    for name in path:
        if isinstance(here, tuple):
            here = here[int(name) - 1] if int(name) <= len(here) else None
        else:
            here = here.get(name) if isinstance(here, Mapping) else getattr(here, name, None)
    return ((place, each) for place, each in lengths_in(here, path) if isinstance(each, Unusable))


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
