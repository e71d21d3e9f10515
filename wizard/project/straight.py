"""Reading tables that are as they should be, value by value as the notes beside their types say.

Nearly every file is, and so is nearly every answer. What is wrong with one that is not is found by
:mod:`wizard.project.checking`, at once and in order; loading that for a file without a fault took a sixth of every
start. The tests hold the two together: each takes what the other takes, and makes the same of it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache, lru_cache
from typing import Any, Literal, NoReturn, TypeVar, get_args, get_origin

from wizard.project.keys import bare, fields_of, is_list, is_mapping, is_table
from wizard.project.notes import AtMost, Exactly, Reads, notes_of
from wizard.project.tables import Table
from wizard.project.typed.misread import Misread

T = TypeVar("T", bound=Table)
Reader = Callable[[Any], Any]
REMEMBERED = 4096
"""Texts of one kind remembered with what was read of them: lengths and names come again from file to file."""


class Crooked(Exception):  # noqa: N818  (it is no error: only the word that this way leads no further)
    """Something is not as it should be."""

    def __init__(self, value: object, misread: Misread | None = None) -> None:
        super().__init__()
        self.value = value
        """What stands there."""
        self.misread = misread
        """Why it cannot be read; None where it is not even of the kind that is read there."""
        self.path: tuple[str, ...] = ()
        """Where it stands, list items counted from 1."""

    def under(self, name: str) -> Crooked:
        """The same, of what stands at `name`."""
        self.path = (name, *self.path)
        return self


def straight(kind: type[T], values: object) -> T:
    """The table that plain `values` make, as in the file. Raises Crooked where anything is not as it should be."""
    if isinstance(values, kind):
        return values
    if not isinstance(values, Mapping):
        raise Crooked(values)
    readers = _readers(kind)
    read = {name: under(name, reader, values[name]) for name, reader in readers.items() if name in values}
    if len(read) != len(values):
        raise Crooked(values)
    return kind(**read)


def under(name: str, reader: Reader, value: Any) -> Any:
    """What `reader` makes of the value that stands at `name`; what is not as it should be is told with its place."""
    try:
        return reader(value)
    except Crooked as crooked:
        raise crooked.under(name) from None


@cache
def _readers(kind: type[Table]) -> dict[str, Reader]:
    """How each key of a table is read."""
    return {name: _reader(each) for name, each in fields_of(kind).items()}


def _reader(kind: Any) -> Reader:
    """How what stands in the file is read as `kind`; None, which no file holds, is never asked for."""
    notes = notes_of(kind)
    kind = bare(kind)
    for note in notes:
        if isinstance(note, Reads):
            return _by(note.read)
        if isinstance(note, Exactly):
            return _exactly(kind, note.then)
    most = next((each.number for each in notes if isinstance(each, AtMost)), None)
    if is_table(kind):
        return lambda value: straight(kind, value)
    if is_mapping(kind):
        key, inside = (_reader(each) for each in get_args(kind))
        return _mapping(key, inside, most)
    if is_list(kind):
        return _list(_reader(get_args(kind)[0]), most)
    return _choice(frozenset(get_args(kind))) if get_origin(kind) is Literal else _unknown(kind)


def _by(read: Callable[[Any], Any]) -> Reader:
    remembered = lru_cache(maxsize=REMEMBERED)(read)

    def reader(value: Any) -> Any:
        try:
            # Text alone: of true and 1, which are told apart here, a memory would make one.
            return remembered(value) if type(value) is str else read(value)
        except Misread as misread:
            raise Crooked(value, misread) from None

    return reader


def _exactly(kind: type, then: Callable[[Any], Any] | None) -> Reader:
    look = _by(then) if then else None

    def reader(value: Any) -> Any:
        if not isinstance(value, kind):
            raise Crooked(value)
        return look(value) if look else value

    return reader


def _mapping(key: Reader, inside: Reader, most: int | None) -> Reader:
    def reader(value: Any) -> Any:
        if not isinstance(value, Mapping) or (most is not None and len(value) > most):
            raise Crooked(value)
        return {under(name, key, name): under(name, inside, each) for name, each in value.items()}

    return reader


def _list(item: Reader, most: int | None) -> Reader:
    def reader(value: Any) -> Any:
        if not isinstance(value, list | tuple) or (most is not None and len(value) > most):
            raise Crooked(value)
        return tuple(under(str(number), item, each) for number, each in enumerate(value, 1))

    return reader


def _choice(choices: frozenset[str]) -> Reader:
    def reader(value: Any) -> Any:
        if not isinstance(value, str) or value not in choices:
            raise Crooked(value)
        return value

    return reader


def _unknown(kind: Any) -> NoReturn:
    raise TypeError(f"nothing says how {kind} is read")
