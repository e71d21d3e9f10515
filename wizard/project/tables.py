"""What the tables of a project file are made of: their common base, names, notes, ids, lists with holes, counts."""

# In the modules of the tables annotations are not postponed: pydantic would compile each anew, at every start.

import re
import unicodedata
from collections.abc import Callable
from datetime import UTC, datetime
from typing import Annotated, Any, ClassVar, Final

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field, Strict, WithJsonSchema

from wizard.project.typed.fields import LengthField, LengthOrZeroField
from wizard.project.typed.misread import Misread, quoted
from wizard.project.typed.numbers import read_whole

LONGEST_NAME: Final = 200
LONGEST_NOTE: Final = 1000
LONGEST_MARKS: Final = 10_000
LONGEST_ID: Final = 40
MOST_ITEMS: Final = 40
"""Most readings of one list, and most sections, posts, things in the way or owned lengths of one table."""
MOST_WHOLE: Final = 1_000_000

_UNSEEN: Final = ("Cc", "Cs", "Zl", "Zp")
_TURNING: Final = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
"""Characters that turn the direction of what follows: they would garble every line they are shown in."""


class Table(BaseModel):
    """One table of the project file: frozen, every key optional, unknown keys refused."""

    # Made ready when it is first used: most tables only ever are as part of the whole file.
    model_config = ConfigDict(frozen=True, extra="forbid", hide_input_in_errors=True, defer_build=True)
    builds: ClassVar[Callable[..., Any] | None] = None
    """What of the job it becomes; None when the arithmetic is not told of it."""


def _text(longest: int, example: str) -> Callable[[object], str]:
    def check(text: object) -> str:
        if not isinstance(text, str):
            raise Misread("Write text between quotes.", example)
        if not text.strip():
            raise Misread("There is nothing in it: leave it out where there is nothing to say.", example)
        if len(text) > longest:
            raise Misread(f"That is {len(text)} characters: {longest} at most.", example)
        for each in text:
            if unicodedata.category(each) in _UNSEEN or each in _TURNING:
                raise Misread(f"There is a character in it that cannot be shown (U+{ord(each):04X}).", example)
        return text

    return check


def _id(pattern: str, longest: int, says: str, example: str) -> Callable[[object], str]:
    shape = re.compile(pattern)

    def check(text: object) -> str:
        if not isinstance(text, str):
            raise Misread("Write text between quotes.", example)
        if len(text) > longest:
            raise Misread(f"{quoted(text)} is {len(text)} characters: an id has {longest} at most.", example)
        if not shape.fullmatch(text):
            raise Misread(f"{quoted(text)} is no id: {says}.", example)
        return text

    return check


def _shaped(pattern: str, longest: int) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "pattern": f"^{pattern}$", "maxLength": longest})


def _whole(value: object) -> object:
    if isinstance(value, bool) or not isinstance(value, int | str):
        raise Misread("Write a whole number, without quotes.", "1000")
    number = read_whole(value) if isinstance(value, str) else value
    if not 0 <= number <= MOST_WHOLE:
        raise Misread(f"A whole number from 0 to {MOST_WHOLE:_} is wanted.".replace("_", " "), "1000")
    return number


def _some(number: int) -> int:
    if not number:
        raise Misread("A pack holds one or more.", "1000")
    return number


def _moment(moment: datetime) -> datetime:
    example = "2026-03-02 10:42:00Z"
    if moment.tzinfo is None:
        raise Misread("The time does not say where it is the time: put Z behind it for universal time.", example)
    try:
        return moment.astimezone(UTC).replace(microsecond=0)
    except OverflowError:
        raise Misread("That is beyond the calendar.", example) from None


def _hole(value: object) -> object:
    return None if value == "" else value


Name = Annotated[str, BeforeValidator(_text(LONGEST_NAME, "Juniper loft"))]
Note = Annotated[str, BeforeValidator(_text(LONGEST_NOTE, "second width has a slub, turned inside"))]
Marks = Annotated[str, BeforeValidator(_text(LONGEST_MARKS, "job=3f2a survey=91c0"))]
Currency = Annotated[str, BeforeValidator(_text(8, "$"))]
_ID: Final = r"[a-z0-9][a-z0-9-]*"
_STEP_ID: Final = r"[a-z0-9][a-z0-9:/-]*"
_FINDING_ID: Final = r"[a-z0-9][a-z0-9_.:/-]*"
_ID_IS: Final = "small letters a to z, figures and hyphens, and no hyphen in front"

Id = Annotated[str, BeforeValidator(_id(_ID, LONGEST_ID, _ID_IS, "centre-leg")), _shaped(_ID, LONGEST_ID)]
StepId = Annotated[
    str,
    BeforeValidator(_id(_STEP_ID, 120, "small letters a to z, figures, and : / - behind them", "hem:face:left")),
    _shaped(_STEP_ID, 120),
]
FindingId = Annotated[
    str,
    BeforeValidator(
        _id(_FINDING_ID, 200, "small letters a to z, figures, and . _ : / - behind them", "run-differs:left")
    ),
    _shaped(_FINDING_ID, 200),
]
Flag = Annotated[bool, Strict()]
Whole = Annotated[
    int, BeforeValidator(_whole), WithJsonSchema({"type": "integer", "minimum": 0, "maximum": MOST_WHOLE})
]
Pack = Annotated[Whole, AfterValidator(_some), WithJsonSchema({"type": "integer", "minimum": 1, "maximum": MOST_WHOLE})]
Moment = Annotated[datetime, Strict(), AfterValidator(_moment)]

Readings = Annotated[
    tuple[Annotated[LengthField | None, BeforeValidator(_hole)], ...],
    Field(max_length=MOST_ITEMS),
]
"""Lengths in order; one not taken yet is "" in the file and None here."""
Places = Annotated[
    tuple[Annotated[LengthOrZeroField | None, BeforeValidator(_hole)], ...],
    Field(max_length=MOST_ITEMS),
]
"""The same, and a length may be nothing."""
