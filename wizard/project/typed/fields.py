"""Typed values as fields of a table: text in the file, exact values in memory, text again when written.

Every kind of field with its limits, declared once. They are so wide that no bed, cloth or curtain is refused; what is
only surprising is asked about by the trade's findings. A length in a file must name its unit.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Final

from wizard.project.notes import Reads
from wizard.project.typed.limits import FULLNESS, LENGTH, MONEY, NUMBER, PERCENT, Kind, Limits, Scale
from wizard.project.typed.misread import Misread
from wizard.project.typed.values import TypedLength, TypedMoney, TypedNumber, TypedPercent, Unusable, Value

if TYPE_CHECKING:
    from pydantic import GetJsonSchemaHandler
    from pydantic.json_schema import JsonSchemaValue
    from pydantic_core import CoreSchema


class Field(Reads, frozen=True, eq=False):
    """How a typed value is read from a file: a text that was once taken there is kept as Unusable, and not refused."""

    limits: Limits

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        return dict(self.limits.shape())

    def or_hole(self) -> Field:
        """The same in a list, where "" is a reading that is not taken yet."""
        read = self.read
        return Field(lambda value: None if value == "" else read(value), {}, self.limits)


def _field(limits: Limits) -> Field:
    says = f"Write {limits.kind.written}."

    def check(value: object) -> Value | Unusable:
        text = value.text if isinstance(value, Value | Unusable) else value
        if not isinstance(text, str):
            raise Misread(says, limits.scales[0].example)
        try:
            return limits.of(text)
        except Misread as misread:
            if misread.once_taken:
                return Unusable(text)
            raise

    return Field(check, {}, limits)


def _length(noun: str, inches: tuple[str, str, str], metric: tuple[str, str, str], none: str | None = None) -> Field:
    """A length from the least to the most, with an example. From nothing on, zero may be said too: `none` says so."""
    return _field(Limits(noun, LENGTH, (Scale(*inches), Scale(*metric)), none))


def _plain(noun: str, kind: Kind, least: str, most: str, example: str, too_little: str = "") -> Field:
    return _field(Limits(noun, kind, (Scale(least, most, example),), too_little=too_little))


RULER: Final = _length("a ruler mark", ("1/128 in", "4 in", "1/16 in"), ("0.1 mm", "10 cm", "1 mm"))
RUN: Final = _length("a run", ("1/2 in", "200 ft", "76 5/8 in"), ("1 cm", "60 m", "194.5 cm"))
DROP: Final = _length("a drop", ("1/4 in", "400 in", "12 1/4 in"), ("5 mm", "10 m", "31 cm"))
ALONG: Final = _length("a place along a run", ("0 in", "200 ft", "38 in"), ("0 cm", "60 m", "97 cm"), "")
LEG: Final = _length("a staple leg", ("1/32 in", "10 in", "3/8 in"), ("1 mm", "25 cm", "10 mm"))

_ALLOWED: Final = _length("an allowance", ("0 in", "40 in", "1/2 in"), ("0 cm", "1 m", "1.5 cm"), "")
_AT_A_POST: Final = _length("a measure at a post", ("0 in", "200 in", "1/2 in"), ("0 cm", "5 m", "1 cm"), "")
_CUT_ALONG: Final = ("0 in", "1100 yd", "1 yd"), ("0 cm", "1000 m", "90 cm")

_Length = TypedLength | Unusable

RulerField = Annotated[_Length, RULER]
RunField = Annotated[_Length, RUN]
AlongField = Annotated[_Length, ALONG]
RailField = Annotated[_Length, _length("a rail", ("1/64 in", "40 in", "1 1/8 in"), ("0.3 mm", "1 m", "28 mm"))]
"""How thick a rail is."""
GapField = Annotated[_Length, _length("a gap under the hem", ("0 in", "40 in", "1/4 in"), ("0 cm", "1 m", "5 mm"), "")]
HeightField = Annotated[_Length, _length("a height", ("0 in", "400 in", "2 in"), ("0 cm", "10 m", "5 cm"), "")]
ThingHeightField = Annotated[_Length, _length("a height", ("0 in", "400 in", "8 in"), ("0 cm", "10 m", "20 cm"), "")]
ThingField = Annotated[_Length, _length("a thing in the way", ("1/16 in", "200 ft", "3 in"), ("1 mm", "60 m", "8 cm"))]
OverlapField = Annotated[_Length, _length("an overlap", ("0 in", "200 in", "2 in"), ("0 cm", "5 m", "5 cm"), "")]
ReturnField = Annotated[_Length, _length("a return", ("1/16 in", "200 in", "1 1/2 in"), ("1 mm", "5 m", "4 cm"))]
ShortField = Annotated[
    _Length, _length("a gap beside a post", ("1/16 in", "200 in", "11 in"), ("1 mm", "5 m", "28 cm"))
]
PostField = Annotated[_Length, _length("a post", ("1/16 in", "200 in", "2 1/2 in"), ("1 mm", "5 m", "6.5 cm"))]
AtPostField = Annotated[_Length, _AT_A_POST]
WidthField = Annotated[_Length, _length("a cloth width", ("1 in", "400 in", "54 in"), ("2 cm", "10 m", "140 cm"))]
RepeatField = Annotated[
    _Length,
    _length("a pattern repeat", ("1/8 in", "200 in", "25 1/4 in"), ("3 mm", "5 m", "64 cm"), "in for no pattern"),
]
OwnedField = Annotated[
    _Length, _length("a length of cloth", ("1/2 in", "1100 yd", "3 yd"), ("1 cm", "1000 m", "2.7 m"))
]
DamageFromField = Annotated[_Length, _length("a place on the cloth", *_CUT_ALONG, "")]
DamageToField = Annotated[_Length, _length("a place on the cloth", *_CUT_ALONG)]
ShopField = Annotated[
    _Length, _length("what a shop cuts in", ("1/16 in", "1100 yd", "1/8 yd"), ("1 mm", "1000 m", "10 cm"))
]
LapField = Annotated[_Length, _length("a lap", ("1/64 in", "40 in", "1/2 in"), ("0.3 mm", "1 m", "1 cm"))]
AllowanceField = Annotated[_Length, _ALLOWED]
ToleranceField = Annotated[_Length, _length("a tolerance", ("0 in", "40 in", "1/4 in"), ("0 cm", "1 m", "6 mm"), "")]
PieceField = Annotated[_Length, _length("a least piece", ("0 in", "400 in", "6 in"), ("0 cm", "10 m", "15 cm"), "")]
TapeField = Annotated[_Length, _length("a tape", ("1/8 in", "40 in", "2 in"), ("3 mm", "1 m", "5 cm"))]
SpoolField = Annotated[_Length, _length("a spool", ("1 yd", "100000 yd", "100 yd"), ("1 m", "100000 m", "100 m"))]
SpacingField = Annotated[_Length, _length("a spacing", ("1/8 in", "400 in", "2 in"), ("3 mm", "10 m", "5 cm"))]

_NARROWER: Final = "is under 1: the skirt would be narrower than its rail."
FullnessField = Annotated[TypedNumber | Unusable, _plain("a fullness", FULLNESS, "1", "20", "2.5", _NARROWER)]
ThreadField = Annotated[TypedNumber | Unusable, _plain("thread over seam", NUMBER, "1/4", "100", "2 1/2")]
ShrinkageField = Annotated[TypedPercent | Unusable, _plain("a shrinkage", PERCENT, "0 %", "75 %", "3 %")]
WasteField = Annotated[TypedPercent | Unusable, _plain("waste", PERCENT, "0 %", "95 %", "15 %")]
PriceField = Annotated[TypedMoney | Unusable, _plain("a price", MONEY, "0", "1000000", "18.50")]


def _told(value: object) -> TypedLength:
    text = value.text if isinstance(value, TypedLength) else value
    if not isinstance(text, str):
        raise Misread(f"Write {LENGTH.written}.", "12 1/2 in")
    return TypedLength.of(text, None, zero=True)


ToldField = Annotated[
    TypedLength, Reads(_told, {"type": "string", "description": "A length.", "examples": ["12 1/2 in"]})
]
"""A length of the plan, which nobody types: without limits."""
