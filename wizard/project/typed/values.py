"""Values that remember how they were typed. Two are equal when both the text and the value are."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from msgspec import Struct

from wizard.project.typed.lengths import parsed
from wizard.project.typed.numbers import NUMBER, PERCENT, read_money, read_number, read_percent, tidied_money
from wizard.project.typed.tidy import tidied
from wizard.trade.lengths import Length


class Unusable(Struct, frozen=True):
    """A text in a file that an earlier version took and this one does not. It stays in the file as it was until another
    is typed; the figures above it wait."""

    text: str


class TypedLength(Struct, frozen=True):
    """A length and its text, which always names its unit and reads back to the same length."""

    text: str
    value: Length

    @classmethod
    def of(cls, text: str, unit: str | None, *, zero: bool = False) -> TypedLength:
        """`text` read in `unit` where it names none (None: it must); tidied, and the unit put behind where it was left
        out. Raises Misread as `read_length` does."""
        return cls(*parsed(text, unit, zero=zero))


class TypedNumber(Struct, frozen=True):
    """A plain number and its text."""

    text: str
    value: Fraction

    @classmethod
    def of(cls, text: str) -> TypedNumber:
        """Raises Misread as `read_number` does."""
        return cls(tidied(text, NUMBER), read_number(text))


class TypedPercent(Struct, frozen=True):
    """A share, 3 % being 3/100, and its text, which always ends in the sign."""

    text: str
    value: Fraction

    @classmethod
    def of(cls, text: str) -> TypedPercent:
        """Raises Misread as `read_percent` does."""
        value = read_percent(text)
        tidy = tidied(text, PERCENT)
        return cls(tidy if tidy[-1] in "%tT" else f"{tidy} %", value)


class TypedMoney(Struct, frozen=True):
    """A sum of money and its text."""

    text: str
    value: Decimal

    @classmethod
    def of(cls, text: str) -> TypedMoney:
        """Raises Misread as `read_money` does."""
        return cls(tidied_money(text), read_money(text))


Value = TypedLength | TypedNumber | TypedPercent | TypedMoney
