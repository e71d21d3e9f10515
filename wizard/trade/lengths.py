"""Exact lengths.

A :class:`Length` is the value only, a rational number of inches; how somebody typed it is the project's affair.
1 in = 25.4 mm and 1 yd = 36 in, exactly (international yard and pound agreement of 1959).
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import Final, overload

Exact = int | Fraction
"""What a length may be scaled by. Never a float."""


def exact_number(value: object) -> Fraction:
    """Give `value` as a fraction; raise TypeError for anything that is not exact (floats, booleans, strings)."""
    if type(value) is Fraction:
        return value
    if isinstance(value, bool) or not isinstance(value, int | Fraction):
        raise TypeError(f"exact numbers only, not {type(value).__name__}")
    return Fraction(value)


class Length:
    """An exact length. `inches` is a Fraction; may be negative in a difference, never a float."""

    __slots__ = ("inches",)
    inches: Fraction

    def __init__(self, inches: Exact) -> None:
        object.__setattr__(self, "inches", exact_number(inches))

    @classmethod
    def of(cls, amount: Exact, unit: str) -> Length:
        """`amount` of `unit`, one of the keys of UNITS; KeyError for another unit."""
        return cls(exact_number(amount) * UNITS[unit])

    @property
    def mm(self) -> Fraction:
        """The length in millimetres, exactly."""
        return self.inches * Fraction(127, 5)

    def in_unit(self, unit: str) -> Fraction:
        """The length in `unit`, one of the keys of UNITS, exactly."""
        return self.inches / UNITS[unit]

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError("a Length cannot be changed")

    def __reduce__(self) -> tuple[type[Length], tuple[Fraction]]:
        return (Length, (self.inches,))

    def __repr__(self) -> str:
        return f"Length({self.inches!s} in)"

    def __hash__(self) -> int:
        return hash(("Length", self.inches))

    def __bool__(self) -> bool:
        return bool(self.inches)

    def __eq__(self, other: object) -> bool:
        return self.inches == other.inches if isinstance(other, Length) else NotImplemented

    def __lt__(self, other: Length) -> bool:
        return self.inches < other.inches if isinstance(other, Length) else NotImplemented

    def __le__(self, other: Length) -> bool:
        return self.inches <= other.inches if isinstance(other, Length) else NotImplemented

    def __gt__(self, other: Length) -> bool:
        return self.inches > other.inches if isinstance(other, Length) else NotImplemented

    def __ge__(self, other: Length) -> bool:
        return self.inches >= other.inches if isinstance(other, Length) else NotImplemented

    def __add__(self, other: Length) -> Length:
        return _length(self.inches + other.inches) if isinstance(other, Length) else NotImplemented

    def __sub__(self, other: Length) -> Length:
        return _length(self.inches - other.inches) if isinstance(other, Length) else NotImplemented

    def __neg__(self) -> Length:
        return _length(-self.inches)

    def __abs__(self) -> Length:
        return _length(abs(self.inches))

    def __mul__(self, other: Exact) -> Length:
        return _length(self.inches * exact_number(other))

    __rmul__ = __mul__

    @overload
    def __truediv__(self, other: Length) -> Fraction: ...
    @overload
    def __truediv__(self, other: Exact) -> Length: ...
    def __truediv__(self, other: Length | Exact) -> Length | Fraction:
        if isinstance(other, Length):
            return self.inches / other.inches
        return _length(self.inches / exact_number(other))


def _length(inches: Fraction) -> Length:
    """A Length of what is a fraction already: sums and products are made by the thousand."""
    made = object.__new__(Length)
    object.__setattr__(made, "inches", inches)
    return made


UNITS: Final[dict[str, Fraction]] = {
    "in": Fraction(1),
    "ft": Fraction(12),
    "yd": Fraction(36),
    "mm": Fraction(5, 127),
    "cm": Fraction(50, 127),
    "m": Fraction(5000, 127),
}
"""Inches in one of each unit, exact."""

ZERO: Final = Length(0)


def total(lengths: Iterable[Length]) -> Length:
    """The sum, exact; ZERO for none."""
    return Length(sum((each.inches for each in lengths), Fraction(0)))


def ceiling(number: Fraction) -> int:
    """The least whole number that is not below `number`."""
    return -(-number.numerator // number.denominator)


def round_up(length: Length, step: Length) -> Length:
    """The least multiple of `step` not below `length`: for cuts and purchases. `step` > 0."""
    return step * ceiling(length / step)


def round_down(length: Length, step: Length) -> Length:
    """The greatest multiple of `step` not above `length`: for usable widths and owned lengths. `step` > 0."""
    ratio = length / step
    return step * (ratio.numerator // ratio.denominator)


def round_nearest(length: Length, step: Length) -> Length:
    """The nearest multiple of `step`, ties to the even one (the rule of ASTM E29): for marks. `step` > 0."""
    return step * round(length / step)
