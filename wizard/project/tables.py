"""What the tables of a project file are made of: their common base, names, notes, ids, lists with holes, counts."""

# In the modules of the tables annotations are not postponed: they are read as they stand, at every start.

import re
import unicodedata
from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Annotated, Any, ClassVar, Final

from msgspec import Struct

from wizard.project.notes import AtMost, Exactly, Reads
from wizard.project.typed.fields import ALONG, DROP, LEG, RUN
from wizard.project.typed.misread import Misread, quoted
from wizard.project.typed.numbers import read_whole
from wizard.project.typed.values import TypedLength, Unusable

if TYPE_CHECKING:
    from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
    from pydantic.json_schema import JsonSchemaValue
    from pydantic_core import CoreSchema

LONGEST_NAME: Final = 200
LONGEST_NOTE: Final = 1000
LONGEST_MARKS: Final = 10_000
LONGEST_ID: Final = 40
MOST_ITEMS: Final = 40
"""Most readings of one list, and most sections, posts, things in the way or owned lengths of one table."""
MOST_LENGTHS: Final = 400
"""Most lengths that a finished step keeps: a few for each section."""
MOST_WHOLE: Final = 1_000_000

_UNSEEN: Final = ("Cc", "Cs", "Zl", "Zp")
_TURNING: Final = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
"""Characters that turn the direction of what follows: they would garble every line they are shown in."""


class Table(Struct, frozen=True):
    """One table of the project file: frozen, every key optional, unknown keys refused."""

    builds: ClassVar[Callable[..., Any] | None] = None
    """What of the job it becomes; None when the arithmetic is not told of it."""

    @classmethod
    def __get_pydantic_core_schema__(cls, source: Any, handler: "GetCoreSchemaHandler") -> "CoreSchema":
        from wizard.project.checking import schema_of

        return schema_of(cls, handler)

    @classmethod
    def __get_pydantic_json_schema__(cls, schema: "CoreSchema", handler: "GetJsonSchemaHandler") -> "JsonSchemaValue":
        from wizard.project.checking import shape_of

        return shape_of(cls, schema, handler)


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


def _whole(value: object) -> int:
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


def _words(longest: int, example: str) -> Reads:
    return Reads(_text(longest, example), {"type": "string"})


def _named(pattern: str, longest: int, says: str, example: str) -> Reads:
    shape = {"type": "string", "pattern": f"^{pattern}$", "maxLength": longest}
    return Reads(_id(pattern, longest, says, example), shape)


def _number_from(least: int) -> Mapping[str, Any]:
    return {"type": "integer", "minimum": least, "maximum": MOST_WHOLE}


Name = Annotated[str, _words(LONGEST_NAME, "Juniper loft")]
Note = Annotated[str, _words(LONGEST_NOTE, "second width has a slub, turned inside")]
Marks = Annotated[str, _words(LONGEST_MARKS, "job=3f2a survey=91c0")]
Currency = Annotated[str, _words(8, "$")]
_ID_IS: Final = "small letters a to z, figures and hyphens, and no hyphen in front"
_STEP_ID_IS: Final = "small letters a to z, figures, and : / - behind them"
_FINDING_ID_IS: Final = "small letters a to z, figures, and . _ : / - behind them"
_FINDING_ID: Final = r"[a-z0-9][a-z0-9_.:/-]*"
Id = Annotated[str, _named(r"[a-z0-9][a-z0-9-]*", LONGEST_ID, _ID_IS, "centre-leg")]
StepId = Annotated[str, _named(r"[a-z0-9][a-z0-9:/-]*", 120, _STEP_ID_IS, "hem:face:left")]
FindingId = Annotated[str, _named(_FINDING_ID, 200, _FINDING_ID_IS, "run-differs:left")]
FigureId = Annotated[str, _named(_FINDING_ID, 200, _FINDING_ID_IS, "layer.face.cut.left")]
Flag = Annotated[bool, Exactly()]
_WHOLE: Final = Reads(_whole, _number_from(0))
Whole = Annotated[int, _WHOLE]
Pack = Annotated[int, _WHOLE.then(_some, _number_from(1))]
Moment = Annotated[datetime, Exactly(_moment)]

_Length = TypedLength | Unusable | None
"""One not taken yet is "" in the file and None here."""
Runs = Annotated[tuple[Annotated[_Length, RUN.or_hole()], ...], AtMost(MOST_ITEMS)]
Drops = Annotated[tuple[Annotated[_Length, DROP.or_hole()], ...], AtMost(MOST_ITEMS)]
Places = Annotated[tuple[Annotated[_Length, ALONG.or_hole()], ...], AtMost(MOST_ITEMS)]
Legs = Annotated[tuple[Annotated[_Length, LEG.or_hole()], ...], AtMost(MOST_ITEMS)]
