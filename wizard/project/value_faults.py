"""What is wrong with a value, in one clear sentence: what was found, what would do, with an example.

A value that an earlier version took and this one does not, a length beyond its limits as well as one in a unit that is
no longer taken, is no fault of the file: it opens, the text stays in it until another is typed, the figures that need
it wait, and a finding at the key says why.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, datetime, time
from difflib import get_close_matches
from typing import Any, Final

from msgspec import Struct
from msgspec.structs import replace

from wizard.project.keys import joined, kind_at, limits_at
from wizard.project.parse.field_values import scale_of, value_within
from wizard.project.parse.misread import Misread, quoted
from wizard.trade.fields import MOST_ITEMS, NotTaken, Path, Record, fields_of, is_list, is_table
from wizard.trade.lengths import Length

MOST_FIGURES: Final = 20
"""A number longer than this is not repeated in a sentence."""


class Fault(Struct, frozen=True):
    """Something a project cannot hold. `path` counts list items from 1."""

    path: Path
    sentence: str
    example: str = ""
    """A text that would be taken; empty where none can be given."""
    readings: tuple[str, ...] = ()
    """What may have been meant, where two things may be."""

    @property
    def key(self) -> str:
        """The dotted key."""
        return joined(self.path)


class Unquoted(Struct, frozen=True):
    """A number with decimals, as it stands in a file without quotes: never a float."""

    text: str


def unknown_key(root: type[Record], path: Path) -> Fault:
    """The fault of a key that is not known, with the nearest one that is."""
    upto = next(at for at in range(1, len(path) + 1) if kind_at(root, path[:at]) is None)
    known, name = path[: upto - 1], path[upto - 1]
    kind = kind_at(root, known)
    where = f"in {joined(known)}" if known else "at the top of a project"
    if not is_table(kind):
        reach = f"its items are 1 to {MOST_ITEMS}" if is_list(kind) else "it has no keys of its own"
        return Fault(path[:upto], f"There is no {quoted(name)} {where}: {reach}.")
    names = tuple(fields_of(kind))
    near = get_close_matches(name.lower().replace("-", "_").replace(" ", "_"), names, 1, 0.6)
    hint = f"The nearest one is {near[0]}." if near else f"The keys there: {', '.join(names)}."
    return Fault(path[:upto], f"There is no key {quoted(name)} {where}. {hint}", near[0] if near else "")


def misread_at(path: Path, value: object, misread: Misread) -> Fault:
    """The fault of a value that cannot be read. A sentence about text repeats it by itself."""
    says = misread.sentence if isinstance(value, str) else f"Found {found(value)}. {misread.sentence}"
    return Fault(path, says, misread.example, misread.readings)


def in_units(fault: Fault, root: type[Record], *, metric: bool) -> Fault:
    """The same with an example in the job's own units, where nothing else is offered."""
    limits = None if fault.readings else limits_at(root, fault.path)
    return fault if limits is None else replace(fault, example=scale_of(limits, metric=metric).example)


def found(value: object) -> str:
    """What was found, in words that are safe to show: never more of it than a line holds."""
    match value:
        case str():
            return quoted(value)
        case bool():
            return "true" if value else "false"
        case int():
            return f"the number {value}" if abs(value) < 10**MOST_FIGURES else "a very long number"
        case Unquoted(text):
            return f"the number {text[:MOST_FIGURES]}"
    return next((words for kind, words in _NAMED if isinstance(value, kind)), "something else")


_NAMED: Final = (
    (datetime, "a date and time"),
    (date, "a date alone"),
    (time, "a time alone"),
    (list | tuple, "a list"),
    (dict, "a table"),
)
"""What has no words of its own, by its kind; a moment is a date too."""


def with_example(sentence: str, example: str) -> str:
    """The sentence, and the example behind it where there is one and the sentence has not said it already."""
    if not example or f" {example}" in sentence:
        return sentence
    return f"{sentence} For example: {example}"


def lengths_in(value: Any, path: Path = ()) -> Iterator[tuple[Path, Length | NotTaken]]:
    """Every length, and whatever is not taken, in a record, a list or a value at `path`, with its path."""
    if isinstance(value, Length | NotTaken):
        yield path, value
        return
    inside: Mapping[str, Any] = {}
    if isinstance(value, Record):
        inside = {name: each for name in fields_of(type(value)) if (each := getattr(value, name)) is not None}
    elif isinstance(value, Mapping):
        inside = value
    elif isinstance(value, tuple):
        inside = {str(number): each for number, each in enumerate(value, 1)}
    for name, each in inside.items():
        yield from lengths_in(each, (*path, name))


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
