"""Typed values as fields of a table: text in the file, exact values in memory, text again when written.

A length in a file must name its unit. Every refusal is one sentence with an example.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Final

from wizard.project.notes import Reads
from wizard.project.typed.misread import Misread
from wizard.project.typed.values import TypedLength, TypedMoney, TypedNumber, TypedPercent

Value = TypedLength | TypedNumber | TypedPercent | TypedMoney


def _text(read: Callable[[str], Value], instead: str, description: str, examples: tuple[str, ...]) -> Reads:
    """How one kind of typed value is read from text; `instead` is the sentence for a value that is none."""

    def check(value: object) -> Value:
        text = value.text if isinstance(value, Value) else value
        if isinstance(text, str):
            return read(text)
        raise Misread(instead, examples[0])

    return Reads(check, {"type": "string", "description": description, "examples": list(examples)})


def _length(text: str) -> TypedLength:
    return TypedLength.of(text, None)


def _length_or_zero(text: str) -> TypedLength:
    return TypedLength.of(text, None, zero=True)


_LENGTH_TEXT: Final = 'Write a length as text with its unit, like "12 1/2 in".'
_LENGTH_EXAMPLES: Final = ("12 1/2 in", "6' 8 1/2\"", "2 1/4 yd", "31.8 cm")

LENGTH: Final = _text(_length, _LENGTH_TEXT, "A length with its unit, more than nothing.", _LENGTH_EXAMPLES)
_OR_NOTHING: Final = (*_LENGTH_EXAMPLES, "0 in")
LENGTH_OR_ZERO: Final = _text(_length_or_zero, _LENGTH_TEXT, "A length with its unit, or 0 in.", _OR_NOTHING)
NUMBER: Final = _text(
    TypedNumber.of,
    'Write a number as text between quotes, like "2 1/2".',
    "A number that is not below zero.",
    ("2 1/2", "2.5"),
)
PERCENT: Final = _text(
    TypedPercent.of,
    'Write a percentage as text between quotes, like "3 %".',
    "A percentage under 100.",
    ("3 %", "2.5 %"),
)
MONEY: Final = _text(
    TypedMoney.of,
    'Write money as text between quotes, like "18.50".',
    "A sum of money, without its sign.",
    ("18.50", "4"),
)

LengthField = Annotated[TypedLength, LENGTH]
LengthOrZeroField = Annotated[TypedLength, LENGTH_OR_ZERO]
NumberField = Annotated[TypedNumber, NUMBER]
PercentField = Annotated[TypedPercent, PERCENT]
MoneyField = Annotated[TypedMoney, MONEY]
