"""Values in a file that an earlier version took and this one does not: where they are, and why they are not used.

One way for all of them, a length beyond its limits as well as one in a unit that is no longer taken: the file opens,
the text stays in it until another is typed, the figures that need it wait, and a finding at the key says why.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from wizard.project.keys import limits_at
from wizard.project.parse.field_values import value_within
from wizard.project.parse.misread import Misread
from wizard.trade.fields import NotTaken, Path, Record, fields_of
from wizard.trade.lengths import Length


def lengths_in(value: Any, path: Path = ()) -> Iterator[tuple[Path, Length | NotTaken]]:
    """Every length, and whatever is not taken, in a record, a list or a value at `path`, with its path."""
    if isinstance(value, Length | NotTaken):
        yield path, value
    elif value is None or isinstance(value, str | bool):
        return
    elif isinstance(value, Record):
        for name in fields_of(type(value)):
            if (each := getattr(value, name)) is not None:
                yield from lengths_in(each, (*path, name))
    elif isinstance(value, dict):
        for name, each in value.items():
            yield from lengths_in(each, (*path, name))
    elif isinstance(value, tuple):
        for number, each in enumerate(value, 1):
            yield from lengths_in(each, (*path, str(number)))


def not_taken_at(record: Record, path: Path = ()) -> Iterator[tuple[Path, NotTaken]]:
    """Every value that is not taken at or below a path in a record, with its own path."""
    here: Any = record
    for name in path:
        if isinstance(here, tuple):
            here = here[int(name) - 1] if int(name) <= len(here) else None
        else:
            here = here.get(name) if isinstance(here, Mapping) else getattr(here, name, None)
    return ((place, each) for place, each in lengths_in(here, path) if isinstance(each, NotTaken))


def why_not_taken(root: type[Record], path: Path, text: str, *, metric: bool) -> Misread:
    """Why `text` is not taken at `path`, in the job's own system."""
    limits = limits_at(root, path)
    if limits is None:
        raise TypeError(f"nothing is read at {path}")
    try:
        value_within(limits, text, metric=metric)
    except Misread as misread:
        return misread
    raise ValueError(f"{text} is taken at {path}")
