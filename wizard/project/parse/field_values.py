"""What a field takes, by its declaration: limits, names, notes, ids and counts.

The file, its JSON Schema, the screens, the plain prompts and `check` all read a value here. Which limits there are is
said in the end of :mod:`wizard.trade.fields`.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from functools import cache, partial
from typing import Any, Final

from wizard.project.parse.length_text import is_metric, read_length
from wizard.project.parse.misread import Misread, quoted
from wizard.project.parse.number_text import fullness_text, read_money, read_number, read_percent, read_whole
from wizard.trade.fields import Count, Ident, Kind, Limits, Money, NotTaken, Reads, Scale, Text, TypedNumber
from wizard.trade.formatting import METRIC
from wizard.trade.lengths import Length

Value = Length | TypedNumber | Money
"""What is typed within limits. Each remembers its text."""

MOST_WHOLE: Final = 1_000_000
_READ: Final[Mapping[str, Callable[[str, str | None, bool], Value]]] = {
    "length": lambda text, unit, zero: read_length(text, unit, zero=zero),
    "number": lambda text, *_: read_number(text),
    "fullness": lambda text, *_: read_number(fullness_text(text)),
    "percent": lambda text, *_: read_percent(text),
    "money": lambda text, *_: read_money(text),
}
_WRITTEN: Final[Mapping[str, str]] = {
    "length": "a length as text with its unit",
    "percent": "a percentage as text between quotes",
    "money": "money as text between quotes",
}
_TURNING: Final = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
"""Characters that turn the direction of what follows: they would garble every line they are shown in."""


def value_within(limits: Limits, text: str, unit: str | None = None, *, metric: bool | None = None) -> Value:
    """The value that `text` says, a length in `unit` (None: it must name its own).

    Raises Misread, whose readings are all taken here. It speaks in the system of `unit`, else as `metric` says, else as
    the text does.
    """
    if unit is not None or metric is None:
        metric = unit in METRIC if unit else is_metric(text)
    scale = scale_of(limits, metric=metric)
    try:
        value = _READ[limits.kind](text, unit, limits.none is not None)
    except Misread as misread:
        takes = _range(limits, scale)
        raise misread.at_field(lambda each: _takes(limits, each, unit), scale.example, takes) from None
    least, most = bounds_of(limits)
    if least <= value <= most or (limits.none is not None and not value):
        return value
    if value < least and limits.too_little:
        raise Misread(f"{quoted(value.text)} {limits.too_little}", scale.example)
    much = "much" if value > most else "little"
    says = f"{quoted(value.text)} is too {much} for {limits.noun}. {_range(limits, scale)}"
    raise Misread(says, scale.example, once_taken=True)


def reader_of(kind: Kind) -> Callable[[Any], Any]:
    """How a value of that kind is read from a file. It raises Misread, but gives NotTaken for a text that an earlier
    version took."""
    return kind.read if isinstance(kind, Reads) else partial(_READERS[type(kind)], kind)


def shape_of(kind: Kind) -> Mapping[str, Any]:
    """What may be written there, as JSON Schema."""
    match kind:
        case Limits():
            ranges = " or ".join(_span(kind, scale) for scale in kind.scales) + _zero(kind)
            says = f"{ranges[:1].upper()}{ranges[1:]}."
            return {"type": "string", "description": says, "examples": [each.example for each in kind.scales]}
        case Ident():
            return {"type": "string", "pattern": f"^{kind.pattern}$", "maxLength": kind.longest}
        case Count():
            return {"type": "integer", "minimum": 1 if kind.says else 0, "maximum": MOST_WHOLE}
        case Reads():
            return kind.shape
    return {"type": "string"}


def read_moment(moment: datetime) -> datetime:
    """A moment in universal time, to the second. Raises Misread for one that does not say where it is the time."""
    example = "2026-03-02 10:42:00Z"
    if moment.tzinfo is None:
        raise Misread("The time has no time zone: put Z after it for universal time.", example)
    try:
        return moment.astimezone(UTC).replace(microsecond=0)
    except OverflowError:
        raise Misread("That is beyond the calendar.", example) from None


def _limited(limits: Limits, value: object) -> Value | NotTaken:
    text = value.text if isinstance(value, Value | NotTaken) else value
    if not isinstance(text, str):
        written = _WRITTEN.get(limits.kind, "a number as text between quotes")
        raise Misread(f"Write {written}.", limits.scales[0].example)
    try:
        return value_within(limits, text)
    except Misread as misread:
        if misread.once_taken:
            return NotTaken(text)
        raise


def scale_of(limits: Limits, *, metric: bool) -> Scale:
    """The limits in one of the systems, with a text that is taken, and likely."""
    return limits.scales[metric and len(limits.scales) > 1]


@cache
def bounds_of(limits: Limits) -> tuple[Any, Any]:
    """The least and the most that is taken, in the wider of the systems."""
    read = _READ[limits.kind]
    spans = [[read(each, None, True) for each in (scale.least, scale.most)] for scale in limits.scales]
    return min(least for least, _ in spans), max(most for _, most in spans)


def _takes(limits: Limits, offer: str, unit: str | None) -> bool:
    try:
        value_within(limits, offer, unit)
    except Misread:
        return False
    return True


def _range(limits: Limits, scale: Scale) -> str:
    return f"It can be {_span(limits, scale)}{_zero(limits)}."


def _span(limits: Limits, scale: Scale) -> str:
    return f"{scale.least} to {scale.most}" if bounds_of(limits)[0] else f"up to {scale.most}"


def _zero(limits: Limits) -> str:
    return f", or 0 {limits.none}" if limits.none and bounds_of(limits)[0] else ""


def _text(kind: Text, text: object) -> str:
    if not isinstance(text, str):
        raise Misread("Write text between quotes.", kind.example)
    if not text.strip():
        raise Misread("It is empty: leave the key out if there is nothing to say.", kind.example)
    if len(text) > kind.longest:
        raise Misread(f"That is {len(text)} characters: {kind.longest} at most.", kind.example)
    for each in text:
        if unicodedata.category(each) in ("Cc", "Cs", "Zl", "Zp") or each in _TURNING:
            raise Misread(f"It contains a character that cannot be shown (U+{ord(each):04X}).", kind.example)
    return text


def _id(kind: Ident, text: object) -> str:
    if not isinstance(text, str):
        raise Misread("Write text between quotes.", kind.example)
    if len(text) > kind.longest:
        raise Misread(f"{quoted(text)} is {len(text)} characters: an id has {kind.longest} at most.", kind.example)
    if not re.fullmatch(kind.pattern, text):
        raise Misread(f"{quoted(text)} is not an id: use {kind.says}.", kind.example)
    return text


def _count(kind: Count, value: object) -> int:
    if isinstance(value, bool) or not isinstance(value, int | str):
        raise Misread("Write a whole number, without quotes.", "1000")
    number = read_whole(value) if isinstance(value, str) else value
    if not 0 <= number <= MOST_WHOLE:
        raise Misread(f"Write a whole number from 0 to {MOST_WHOLE:_}.".replace("_", " "), "1000")
    if not number and kind.says:
        raise Misread(kind.says, "1000")
    return number


_READERS: Final[Mapping[Any, Callable[..., Any]]] = {Limits: _limited, Text: _text, Ident: _id, Count: _count}
"""Kind -> how it is read, given the kind and the value."""
