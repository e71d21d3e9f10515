"""Typed values as fields of a model: text in the file, exact values in memory, text again when written.

A length in a file must name its unit. Every refusal is one sentence with an example; the error's context carries
`sentence`, `example` and `readings`.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any, Final

from msgspec import Struct
from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from wizard.project.typed.misread import Misread
from wizard.project.typed.values import TypedLength, TypedMoney, TypedNumber, TypedPercent

Value = TypedLength | TypedNumber | TypedPercent | TypedMoney


class AsText(Struct, frozen=True):
    """How one kind of typed value is read from a file and described in the schema."""

    read: Callable[[str], Value]
    instead: str
    """The sentence for a value that is no text."""
    description: str
    examples: tuple[str, ...]

    def check(self, value: Any) -> Value:
        """`value` read; raises PydanticCustomError with the sentence."""
        try:
            return self.read(value.text if isinstance(value, Value) else self._text(value))
        except Misread as misread:
            raise _refusal(misread) from None

    def _text(self, value: object) -> str:
        if isinstance(value, str):
            return value
        raise Misread(self.instead, self.examples[0])

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        write = core_schema.plain_serializer_function_ser_schema(_text_of, return_schema=core_schema.str_schema())
        return core_schema.no_info_plain_validator_function(self.check, serialization=write)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        return {"type": "string", "description": self.description, "examples": list(self.examples)}


def _text_of(value: Value) -> str:
    return value.text


def _refusal(misread: Misread) -> PydanticCustomError:
    parts = {"sentence": misread.sentence, "example": misread.example, "readings": misread.readings}
    return PydanticCustomError("misread", "{whole}", {"whole": str(misread), **parts})


def _length(text: str) -> TypedLength:
    return TypedLength.of(text, None)


def _length_or_zero(text: str) -> TypedLength:
    return TypedLength.of(text, None, zero=True)


_LENGTH_TEXT: Final = 'Write a length as text with its unit, like "12 1/2 in".'
_LENGTH_EXAMPLES: Final = ("12 1/2 in", "6' 8 1/2\"", "2 1/4 yd", "31.8 cm")

LengthField = Annotated[
    TypedLength,
    AsText(_length, _LENGTH_TEXT, "A length with its unit, more than nothing.", _LENGTH_EXAMPLES),
]
LengthOrZeroField = Annotated[
    TypedLength,
    AsText(_length_or_zero, _LENGTH_TEXT, "A length with its unit, or 0 in.", (*_LENGTH_EXAMPLES, "0 in")),
]
NumberField = Annotated[
    TypedNumber,
    AsText(
        TypedNumber.of,
        'Write a number as text between quotes, like "2 1/2".',
        "A number that is not below zero.",
        ("2 1/2", "2.5"),
    ),
]
PercentField = Annotated[
    TypedPercent,
    AsText(
        TypedPercent.of,
        'Write a percentage as text between quotes, like "3 %".',
        "A percentage under 100.",
        ("3 %", "2.5 %"),
    ),
]
MoneyField = Annotated[
    TypedMoney,
    AsText(
        TypedMoney.of,
        'Write money as text between quotes, like "18.50".',
        "A sum of money, without its sign.",
        ("18.50", "4"),
    ),
]
