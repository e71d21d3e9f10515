"""How a field of the job is declared: once, where its record is, with all that is known of it.

    hem: Annotated[Length | None, Field("depth of the hem", ALLOWANCE, lengths("1/2 in", "1.5 cm"))] = None

The type says what the arithmetic gets. The note beside it says what may be written there, the usual value in inches and
in metric, and the name in words; the text under it says what it means. Reader, writer, schema, interview and arithmetic
take each of these from here. What a text means is read by `wizard.project`; this module knows no text but the limits.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal
from fractions import Fraction
from functools import cache, reduce
from inspect import get_annotations
from types import UnionType
from typing import Annotated, Any, ClassVar, Final, Literal, TypeVar, Union, get_args, get_origin

from msgspec import Struct

from wizard.trade.lengths import Length

Standard = Literal["inches", "metric"]
"""Which column of the usual values is used."""
Path = tuple[str, ...]
"""The names of a dotted key; items of a list count from 1."""
Usual = Length | Fraction | bool | str | tuple[Length, ...]
Pair = tuple[Usual, Usual]
"""A usual value in inches and in metric."""

MOST_ITEMS: Final = 40
"""Most items of any list, and most sections, posts, things in the way or owned lengths in one table."""


class Record(Struct, frozen=True):
    """One table of the project file: frozen, and every key may be missing."""

    order: ClassVar[tuple[str, ...]] = ()
    """The keys in the order of the file, where that is not the order of the fields."""


class TypedNumber(Fraction):
    """A number that remembers how it was typed. Equal to the same number typed otherwise."""

    __slots__ = ("text",)
    text: str


class Money(Decimal):
    """A sum of money that remembers how it was typed. Equal to the same sum typed otherwise."""

    __slots__ = ("text",)
    text: str


Number = TypeVar("Number", TypedNumber, Money)


def with_text(value: Number, text: str) -> Number:
    """`value`, typed as `text`."""
    value.text = text
    return value


class NotTaken(Struct, frozen=True):
    """A text in a file that an earlier version took and this one does not. It stays in the file until another is typed
    there; the figures that need it wait. A project may hold one in place of a value; a job never does."""

    text: str


# Notes are equal only to themselves: some hold what cannot be hashed.


class Scale(Struct, frozen=True):
    """The least, the most and a likely example, as one would type them."""

    least: str
    most: str
    example: str


class Limits(Struct, frozen=True, eq=False, dict=True):
    """What may be typed at one kind of field."""

    noun: str
    """With its article: `a pattern repeat`."""
    kind: Literal["length", "number", "fullness", "percent", "money"]
    scales: tuple[Scale, ...]
    """Of a length in inches and in metric, of which the wider counts; of anything else one."""
    none: str | None = None
    """What zero means: `for no pattern`. None where nothing, or less than the least, is not taken."""
    too_little: str = ""
    """Why less is too little, where that is more than common sense; it follows the text."""


class Text(Struct, frozen=True, eq=False):
    """Text of one line."""

    longest: int
    example: str


class Ident(Struct, frozen=True, eq=False):
    """An id: text of one shape."""

    pattern: str
    longest: int
    says: str
    """The shape in words."""
    example: str


class Count(Struct, frozen=True, eq=False):
    """A whole number from 0, or from 1 with `says` for why 0 is none."""

    says: str = ""


class AtMost(Struct, frozen=True, eq=False):
    """No table keyed by ids holds more than this."""

    number: int


class NotInFile(Struct, frozen=True, eq=False):
    """The field is worked out from the file and not written there."""


class Reads(Struct, frozen=True, eq=False):
    """What `read` takes, for the few fields that are like no other. It gives the value or raises."""

    read: Callable[[Any], Any]
    shape: Mapping[str, Any]
    """What may be written there, as JSON Schema."""


Kind = Limits | Text | Ident | Count | Reads


class Field(Struct, frozen=True, eq=False):
    """The declaration of one field."""

    words: str
    """Its name in words; `{end}` stands for the end of a section it is at."""
    kind: Kind | None = None
    """What may be written there, where the type does not say it all."""
    usual: Usual | Pair | None = None
    """Used where the maker says nothing; None where it must be asked. One that is the same in inches and in metric is
    written once."""
    inner: Usual | Pair | None = None
    """The same for an inner layer, where it is another."""


def lengths(inch: str, metric: str) -> tuple[Length, Length]:
    """A usual length in both systems: `lengths("1/2 in", "1.5 cm")`."""
    (one, unit), (other, metric_unit) = inch.split(), metric.split()
    return Length.of(Fraction(one), unit), Length.of(Fraction(other), metric_unit)


def length(noun: str, inch: tuple[str, str, str], metric: tuple[str, str, str], none: str | None = None) -> Limits:
    """A length from the least to the most, with an example, in both systems."""
    return Limits(noun, "length", (Scale(*inch), Scale(*metric)), none)


@cache
def notes_of(kind: Any) -> tuple[Any, ...]:
    """The notes beside a type, those inside an `... | None` too."""
    if get_origin(kind) is Annotated:
        inner, *notes = get_args(kind)
        return (*notes_of(inner), *notes)
    optional = [each for each in get_args(kind) if each is not type(None)] if type(None) in get_args(kind) else []
    return notes_of(optional[0]) if optional else ()


@cache
def bare(kind: Any) -> Any:
    """`kind` without its notes and without None."""
    if get_origin(kind) is Annotated:
        return bare(get_args(kind)[0])
    if get_origin(kind) in (Union, UnionType):
        return bare(next(each for each in get_args(kind) if each is not type(None)))
    return kind


@cache
def fields_of(kind: type[Record]) -> Mapping[str, Any]:
    """The keys of a table, in order, each with its type and the notes beside it."""
    every = {name: _annotation(kind, name) for name in kind.order or kind.__struct_fields__}
    return {name: each for name, each in every.items() if not any(isinstance(n, NotInFile) for n in notes_of(each))}


def _annotation(kind: type[Record], name: str) -> Any:
    return next(found[name] for each in kind.__mro__ if name in (found := get_annotations(each)))


def is_table(kind: Any) -> bool:
    """True for a table with keys of its own."""
    return isinstance(kind, type) and issubclass(kind, Record)


def is_mapping(kind: Any) -> bool:
    """True for a table keyed by ids."""
    return get_origin(kind) is Mapping


def is_list(kind: Any) -> bool:
    """True for a list."""
    return get_origin(kind) is tuple


def item_of(kind: Any) -> Any:
    """The type of a mapping's values or a list's items, with its notes."""
    return get_args(kind)[1 if is_mapping(kind) else 0]


@cache
def type_at(root: type[Record], path: Path) -> Any:
    """The type at a path, with its notes; None where there is nothing."""
    return reduce(lambda kind, name: _inside(bare(kind), name), path, root)


def _inside(kind: Any, name: str) -> Any:
    if is_table(kind):
        return fields_of(kind).get(name)
    if is_mapping(kind):
        return item_of(kind)
    if is_list(kind) and name.isascii() and name.isdigit() and name[0] != "0" and int(name) <= MOST_ITEMS:
        return item_of(kind)
    return None


@cache
def field_in(kind: type[Record], name: str) -> Field | None:
    """The declaration of a field of a record; None where it has none."""
    return next((each for each in notes_of(fields_of(kind).get(name)) if isinstance(each, Field)), None)


def kind_of(annotation: Any) -> Kind | None:
    """What may be written where a type with these notes is, beyond the type itself."""
    kinds = (note.kind if isinstance(note, Field) else note for note in notes_of(annotation))
    return next((each for each in kinds if isinstance(each, Kind)), None)


# Every kind of value that is typed, with its limits. They are so wide that no bed, cloth or curtain is refused; what is
# only surprising is asked about by the findings. A length in a file must name its unit.

RULER: Final = length("a ruler mark", ("1/128 in", "4 in", "1/16 in"), ("0.1 mm", "10 cm", "1 mm"))
RUN: Final = length("a run", ("1/2 in", "200 ft", "76 5/8 in"), ("1 cm", "60 m", "194.5 cm"))
DROP: Final = length("a drop", ("1/4 in", "400 in", "12 1/4 in"), ("5 mm", "10 m", "31 cm"))
ALONG: Final = length("a place along a run", ("0 in", "200 ft", "38 in"), ("0 cm", "60 m", "97 cm"), "")
RAIL: Final = length("a rail", ("1/64 in", "40 in", "1 1/8 in"), ("0.3 mm", "1 m", "28 mm"))
"""How thick a rail is."""
GAP: Final = length("a gap under the hem", ("0 in", "40 in", "1/4 in"), ("0 cm", "1 m", "5 mm"), "")
HEIGHT: Final = length("a height", ("0 in", "400 in", "2 in"), ("0 cm", "10 m", "5 cm"), "")
THING_HEIGHT: Final = length("a height", ("0 in", "400 in", "8 in"), ("0 cm", "10 m", "20 cm"), "")
THING: Final = length("a thing in the way", ("1/16 in", "200 ft", "3 in"), ("1 mm", "60 m", "8 cm"))
OVERLAP: Final = length("an overlap", ("0 in", "200 in", "2 in"), ("0 cm", "5 m", "5 cm"), "")
RETURN: Final = length("a return", ("1/16 in", "200 in", "1 1/2 in"), ("1 mm", "5 m", "4 cm"))
SHORT: Final = length("a gap beside a post", ("1/16 in", "200 in", "11 in"), ("1 mm", "5 m", "28 cm"))
POST: Final = length("a post", ("1/16 in", "200 in", "2 1/2 in"), ("1 mm", "5 m", "6.5 cm"))
AT_POST: Final = length("a measure at a post", ("0 in", "200 in", "1/2 in"), ("0 cm", "5 m", "1 cm"), "")
WIDTH: Final = length("a cloth width", ("1 in", "400 in", "54 in"), ("2 cm", "10 m", "140 cm"))
REPEAT: Final = length(
    "a pattern repeat", ("1/8 in", "200 in", "25 1/4 in"), ("3 mm", "5 m", "64 cm"), "in for no pattern"
)
OWNED: Final = length("a length of cloth", ("1/2 in", "1100 yd", "3 yd"), ("1 cm", "1000 m", "2.7 m"))
DAMAGE_FROM: Final = length("a place on the cloth", ("0 in", "1100 yd", "1 yd"), ("0 cm", "1000 m", "90 cm"), "")
DAMAGE_TO: Final = length("a place on the cloth", ("0 in", "1100 yd", "1 yd"), ("0 cm", "1000 m", "90 cm"))
SHOP_STEP: Final = length("a shop's step", ("1/16 in", "1100 yd", "1/8 yd"), ("1 mm", "1000 m", "10 cm"))
LAP: Final = length("a lap", ("1/64 in", "40 in", "1/2 in"), ("0.3 mm", "1 m", "1 cm"))
ALLOWANCE: Final = length("an allowance", ("0 in", "40 in", "1/2 in"), ("0 cm", "1 m", "1.5 cm"), "")
TOLERANCE: Final = length("a tolerance", ("0 in", "40 in", "1/4 in"), ("0 cm", "1 m", "6 mm"), "")
PIECE: Final = length("the narrowest piece", ("0 in", "400 in", "6 in"), ("0 cm", "10 m", "15 cm"), "")
TAPE: Final = length("a tape", ("1/8 in", "40 in", "2 in"), ("3 mm", "1 m", "5 cm"))
SPOOL: Final = length("a spool", ("1 yd", "100000 yd", "100 yd"), ("1 m", "100000 m", "100 m"))
SPACING: Final = length("a spacing", ("1/8 in", "400 in", "2 in"), ("3 mm", "10 m", "5 cm"))
LEG: Final = length("a staple leg", ("1/32 in", "10 in", "3/8 in"), ("1 mm", "25 cm", "10 mm"))

_NARROWER: Final = "is under 1: the skirt would be narrower than its rail."
FULLNESS: Final = Limits("a fullness", "fullness", (Scale("1", "20", "2.5"),), too_little=_NARROWER)
THREAD: Final = Limits("thread per seam", "number", (Scale("1/4", "100", "2 1/2"),))
SHRINKAGE: Final = Limits("a shrinkage", "percent", (Scale("0 %", "75 %", "3 %"),))
WASTE: Final = Limits("waste", "percent", (Scale("0 %", "95 %", "15 %"),))
PRICE: Final = Limits("a price", "money", (Scale("0", "1000000", "18.50"),))
