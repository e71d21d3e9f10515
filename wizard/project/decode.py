"""Decoding a file without a fault, value by value as its records declare.

Nearly every file is such, and so is nearly every answer. What is wrong with any other is found by
:mod:`wizard.project.validate`, at once and in order; loading that for a file without a fault took a sixth of every
start. The tests hold the two together: each takes what the other takes, and makes the same of it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime
from functools import cache, lru_cache
from typing import Any, Literal, NoReturn, TypeVar, get_args, get_origin

from wizard.project.parse.field_values import read_moment, reader_of
from wizard.project.parse.misread import Misread
from wizard.trade.fields import (
    MOST_ITEMS,
    AtMost,
    Record,
    bare,
    fields_of,
    is_list,
    is_mapping,
    is_table,
    kind_of,
    notes_of,
)

T = TypeVar("T", bound=Record)
Reader = Callable[[Any], Any]
REMEMBERED = 4096
"""Texts of one kind remembered with their values: lengths and names come again from file to file."""


class DecodeError(Exception):
    """Something in the file is wrong; `validate` says what."""

    def __init__(self, value: object, misread: Misread | None = None) -> None:
        super().__init__()
        self.value = value
        """The value in the file."""
        self.misread = misread
        """Why it cannot be read; None where it is not even of the right type."""
        self.path: tuple[str, ...] = ()
        """Where it is, list items counted from 1."""

    def under(self, name: str) -> DecodeError:
        """The same for the value at `name`."""
        self.path = (name, *self.path)
        return self


def decode(kind: type[T], values: object) -> T:
    """The record that plain `values`, as in the file, make. Raises DecodeError where anything is wrong."""
    if isinstance(values, kind):
        return values
    if not isinstance(values, Mapping):
        raise DecodeError(values)
    readers = _readers(kind)
    read = {name: under(name, reader, values[name]) for name, reader in readers.items() if name in values}
    if len(read) != len(values):
        raise DecodeError(values)
    return kind(**read)


def under(name: str, reader: Reader, value: Any) -> Any:
    """What `reader` makes of the value at `name`; an error says where it is."""
    try:
        return reader(value)
    except DecodeError as error:
        raise error.under(name) from None


@cache
def _readers(kind: type[Record]) -> dict[str, Reader]:
    """How each key of a record is read."""
    return {name: _reader(each) for name, each in fields_of(kind).items()}


def _reader(annotation: Any) -> Reader:
    """How a value in the file is read as that type; None, which no file holds, is never asked for."""
    declared, kind = kind_of(annotation), bare(annotation)
    if declared is not None and not is_list(kind):
        return _by(reader_of(declared))
    if kind is bool:
        return _where(lambda value: isinstance(value, bool))
    if kind is datetime:
        return _where(lambda value: isinstance(value, datetime), _by(read_moment))
    if is_table(kind):
        return lambda value: decode(kind, value)
    if is_mapping(kind):
        most = next((each.number for each in notes_of(annotation) if isinstance(each, AtMost)), None)
        key, inside = (_reader(each) for each in get_args(kind))
        return _mapping(key, inside, most)
    if is_list(kind):
        return _list(_item(get_args(kind)[0]))
    return _choice(frozenset(get_args(kind))) if get_origin(kind) is Literal else _unknown(kind)


def _item(annotation: Any) -> Reader:
    """Of an item of a list of readings "" is one not taken yet, and None here."""
    reader = _reader(annotation)
    if kind_of(annotation) is None:
        return reader
    return lambda value: None if value == "" else reader(value)


def _by(read: Callable[[Any], Any]) -> Reader:
    remembered = lru_cache(maxsize=REMEMBERED)(read)

    def reader(value: Any) -> Any:
        try:
            # Text alone: a memory would take true and 1 for the same.
            return remembered(value) if type(value) is str else read(value)
        except Misread as misread:
            raise DecodeError(value, misread) from None

    return reader


def _where(fits: Callable[[Any], bool], then: Reader = lambda value: value) -> Reader:
    """Reads what `fits` only."""

    def reader(value: Any) -> Any:
        if not fits(value):
            raise DecodeError(value)
        return then(value)

    return reader


def _mapping(key: Reader, inside: Reader, most: int | None) -> Reader:
    return _where(
        lambda value: isinstance(value, Mapping) and (most is None or len(value) <= most),
        lambda value: {under(name, key, name): under(name, inside, each) for name, each in value.items()},
    )


def _list(item: Reader) -> Reader:
    return _where(
        lambda value: isinstance(value, list | tuple) and len(value) <= MOST_ITEMS,
        lambda value: tuple(under(str(number), item, each) for number, each in enumerate(value, 1)),
    )


def _choice(choices: frozenset[str]) -> Reader:
    return _where(lambda value: isinstance(value, str) and value in choices)


def _unknown(kind: Any) -> NoReturn:
    raise TypeError(f"nothing says how {kind} is read")
