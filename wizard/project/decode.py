"""Decoding plain tables, as a file holds them, value by value as the records declare: the record, or all that is wrong.

Nearly every file is without a fault, and so is nearly every answer: what is only said of a faulty one is worked then.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import datetime
from difflib import get_close_matches
from functools import cache, lru_cache, partial
from typing import Any, Final, Literal, TypeVar, cast, get_args, get_origin

from msgspec.structs import replace

from wizard.project.parse.field_values import read_moment, reader_of
from wizard.project.parse.misread import Misread
from wizard.project.value_faults import Fault, found, misread_at, unknown_key
from wizard.trade.fields import (
    MOST_ITEMS,
    AtMost,
    Path,
    Record,
    bare,
    fields_of,
    is_list,
    is_mapping,
    is_table,
    item_of,
    kind_of,
    notes_of,
)
from wizard.trade.lengths import Length

T = TypeVar("T", bound=Record)
Reader = Callable[[Any], Any]
REMEMBERED: Final = 4096
"""Texts of one kind remembered with their values: lengths and names come again from file to file."""
_ITS_NAME: Final = "[]"
"""Example of a table: its name, which is not known where the value is read."""
_TABLE: Final = (Mapping, "write a table, with its own lines below its name.", _ITS_NAME)


class DecodeError(Exception):
    """Something does not fit. `faults`: all of it, in the order of the fields."""

    def __init__(self, *faults: Fault) -> None:
        super().__init__()
        self.faults = faults


def decode(kind: type[T], values: Mapping[str, Any]) -> T:
    """The record that plain `values` make. Raises DecodeError where anything is wrong."""
    try:
        return _record(kind, values)
    except DecodeError as error:
        raise DecodeError(*(_told(each, kind) for each in error.faults)) from None


def put_at(record: T, path: Path, value: Any) -> T:
    """`record` with a plain value at a known path, the tables above it made; None takes out what is there.

    Only what is on the way is made anew; the rest stays the very same values, so that checking an answer costs as much
    as the answer, not as the file. Raises DecodeError for a value that does not fit.
    """
    try:
        return cast("T", _put(type(record), record, path, value))
    except DecodeError as error:
        raise DecodeError(*(_told(each, type(record)) for each in error.faults)) from None


def _put(annotation: Any, here: Any, path: Path, value: Any) -> Any:
    """What is at a place, now `here`, once a value is put in at a path from there."""
    if not path:
        return _reader(annotation)(value)
    kind, name, rest = bare(annotation), path[0], path[1:]
    if is_list(kind):
        return _put_item(_item(item_of(kind)), here, int(name), value)
    if is_mapping(kind):
        if value is None and (name not in here or not rest):
            return {each: inside for each, inside in here.items() if each != name}
        inside = partial(_put, item_of(kind), here.get(name), rest)
        key, new = _all([(name, _reader(get_args(kind)[0]), name), (name, inside, value)])
        return _few({**here, key: new}, "entries", most_of(annotation))
    record = kind() if here is None else here
    if value is None and not rest:
        return replace(record, **{name: getattr(kind(), name)})
    (new,) = _all([(name, partial(_put, fields_of(kind)[name], getattr(record, name), rest), value)])
    return replace(record, **{name: new})


def _put_item(item: Reader, items: tuple[Any, ...], number: int, value: Any) -> tuple[Any, ...]:
    """The items with one put in. The list grows holes up to it; taken out, it leaves one, and holes at the end go."""
    if value is None and number >= len(items):
        left = max((at for at, each in enumerate(items[: number - 1], 1) if each is not None), default=0)
        return items[:left]
    parts = [(str(at), item, "") for at in range(len(items) + 1, number)]
    *holes, new = _all([*parts, (str(number), item, "" if value is None else value)])
    return (*items[: number - 1], *holes, new, *items[number:])


def _told(fault: Fault, root: type[Record]) -> Fault:
    """The same with what only its whole path tells."""
    if not fault.sentence:
        return unknown_key(root, fault.path)
    return replace(fault, example=f"[{fault.key}]") if fault.example == _ITS_NAME else fault


def _record(kind: type[T], values: Any) -> T:
    _exact(*_TABLE, values)
    readers = _readers(kind)
    there = [(name, reader, values[name]) for name, reader in readers.items() if name in values]
    if len(there) != len(values):
        there += [(name, _unknown, None) for name in values if name not in readers]
    return kind(**dict(zip([name for name, *_ in there], _all(there), strict=True)))


@cache
def _readers(kind: type[Record]) -> dict[str, Reader]:
    """How each key of a record is read."""
    return {name: _reader(each) for name, each in fields_of(kind).items()}


def _all(parts: Iterable[tuple[str, Reader, Any]]) -> list[Any]:
    """What each reader makes of the value under that name. Raises DecodeError with the faults of all of them."""
    read, faults = list[Any](), list[Fault]()
    for name, reader, value in parts:
        try:
            read.append(reader(value))
        except DecodeError as error:
            faults += (replace(each, path=(name, *each.path)) for each in error.faults)
    if faults:
        raise DecodeError(*faults)
    return read


@cache
def _reader(annotation: Any) -> Reader:
    """How a value in the file is read as that type; None, which no file holds, is never asked for."""
    declared, kind = kind_of(annotation), bare(annotation)
    if declared is not None and not is_list(kind):
        return _by(reader_of(declared))
    if kind is bool:
        return partial(_exact, bool, "write true or false, without quotes.", "true")
    if kind is datetime:
        moment = partial(_exact, datetime, "write a date and time without quotes.", "2026-03-02 10:42:00Z")
        read = _by(read_moment)
        return lambda value: read(moment(value))
    if is_table(kind):
        return partial(_record, kind)
    if is_mapping(kind):
        key, inside = map(_reader, get_args(kind))
        return partial(_mapping, key, inside, most_of(annotation))
    if is_list(kind):
        example = '["12 in", "12 1/4 in"]' if bare(item_of(kind)) is Length else '["antique"]'
        return partial(_list, _item(item_of(kind)), example)
    if get_origin(kind) is Literal:
        return partial(_choice, get_args(kind))
    raise TypeError(f"nothing says how {kind} is read")


def most_of(annotation: Any) -> int | None:
    """The most entries of a mapping; None where nothing says."""
    return next((each.number for each in notes_of(annotation) if isinstance(each, AtMost)), None)


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
            raise DecodeError(misread_at((), value, misread)) from None

    return reader


def _exact(kind: type | tuple[type, ...], says: str, example: str, value: Any) -> Any:
    """A value of that very type, or of one of those, never what could be made into it."""
    if not isinstance(value, kind):
        raise _wrong(value, says, example)
    return value


def _mapping(key: Reader, inside: Reader, most: int | None, value: Any) -> Any:
    held = _few(_exact(*_TABLE, value), "entries", most)
    read = _all(each for name, inner in held.items() for each in ((name, key, name), (name, inside, inner)))
    return dict(zip(read[::2], read[1::2], strict=True))


def _list(item: Reader, example: str, value: Any) -> Any:
    items = _few(_exact((list, tuple), "write a list between square brackets.", example, value), "items", MOST_ITEMS)
    return tuple(_all((str(number), item, each) for number, each in enumerate(items, 1)))


def _choice(choices: tuple[str, ...], value: Any) -> Any:
    if isinstance(value, str) and value in choices:
        return value
    near = get_close_matches(value.lower(), choices, 1, 0.5) if isinstance(value, str) else []
    *others, last = (f'"{each}"' for each in choices)
    meant = f' Do you mean "{near[0]}"?' if near else ""
    raise _wrong(value, f"the choices are {', '.join(others)} or {last}.{meant}", (near or choices)[0])


def _unknown(_: None) -> Any:
    raise DecodeError(Fault((), ""))


def _wrong(value: Any, says: str, example: str) -> DecodeError:
    return DecodeError(Fault((), f"Found {found(value)}: {says}", example))


def _few(value: Any, what: str, most: int | None) -> Any:
    """A table or a list that does not hold too much."""
    if most is not None and len(value) > most:
        raise DecodeError(Fault((), f"There are {len(value)} {what}: {most} at most."))
    return value
