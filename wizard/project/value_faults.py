"""What is wrong with a value, in one clear sentence: what was found, what would do, with an example."""

from __future__ import annotations

from datetime import date, datetime, time
from difflib import get_close_matches
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from wizard.project.keys import joined, kind_at, limits_at, names_in
from wizard.project.parse.field_values import example_of
from wizard.project.parse.misread import Misread, quoted
from wizard.trade.fields import MOST_ITEMS, Path, Record, is_list, is_table

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
    names = names_in(kind)
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
    return fault if limits is None else replace(fault, example=example_of(limits, metric=metric))


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
