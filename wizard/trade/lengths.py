"""Exact lengths.

A :class:`Length` is a rational number of inches. One that somebody typed remembers the text; that makes no difference
to what it equals, and sums forget it.
1 in = 25.4 mm and 1 yd = 36 in, exactly (international yard and pound agreement of 1959).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from fractions import Fraction
from math import gcd
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
    """An exact length. `inches` is a Fraction; may be negative in a difference, never a float.

    Kept as two whole numbers in lowest terms: sums and comparisons are made by the ten thousand, and are several times
    as fast on these as on fractions.
    """

    __slots__ = ("_over", "_text", "_under")
    _over: int
    """Numerator, in inches."""
    _under: int
    """Denominator, above nothing."""
    _text: str

    def __init__(self, inches: Exact, text: str = "") -> None:
        exactly = exact_number(inches)
        _set_over(self, exactly.numerator)
        _set_under(self, exactly.denominator)
        _set_text(self, text)

    @classmethod
    def of(cls, amount: Exact, unit: str) -> Length:
        """`amount` of `unit`, one of the keys of UNITS; KeyError for another unit."""
        return cls(exact_number(amount) * UNITS[unit])

    def typed(self, text: str) -> Length:
        """The same length, typed as `text`."""
        return Length(self.inches, text)

    @property
    def text(self) -> str:
        """As it was typed, with its unit; in inches where nobody typed it."""
        return self._text or f"{self.inches} in"

    @property
    def inches(self) -> Fraction:
        """The length in inches, exactly."""
        return Fraction(self._over, self._under)

    @property
    def mm(self) -> Fraction:
        """The length in millimetres, exactly."""
        return Fraction(self._over * 127, self._under * 5)

    def in_unit(self, unit: str) -> Fraction:
        """The length in `unit`, one of the keys of UNITS, exactly."""
        one = UNITS[unit]
        return Fraction(self._over * one.denominator, self._under * one.numerator)

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError("a Length cannot be changed")

    def __reduce__(self) -> tuple[Callable[[Fraction, str], Length], tuple[Fraction, str]]:
        return (Length, (self.inches, self._text))

    def __repr__(self) -> str:
        return f"Length({self.inches!s} in)"

    def __hash__(self) -> int:
        return hash(("Length", self._over, self._under))

    def __bool__(self) -> bool:
        return self._over != 0

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Length):
            return NotImplemented
        return self._over == other._over and self._under == other._under

    def __lt__(self, other: Length) -> bool:
        return self._over * other._under < other._over * self._under if isinstance(other, Length) else NotImplemented

    def __le__(self, other: Length) -> bool:
        return self._over * other._under <= other._over * self._under if isinstance(other, Length) else NotImplemented

    def __gt__(self, other: Length) -> bool:
        return self._over * other._under > other._over * self._under if isinstance(other, Length) else NotImplemented

    def __ge__(self, other: Length) -> bool:
        return self._over * other._under >= other._over * self._under if isinstance(other, Length) else NotImplemented

    def __add__(self, other: Length) -> Length:
        if not isinstance(other, Length):
            return NotImplemented
        return _length(self._over * other._under + other._over * self._under, self._under * other._under)

    def __sub__(self, other: Length) -> Length:
        if not isinstance(other, Length):
            return NotImplemented
        return _length(self._over * other._under - other._over * self._under, self._under * other._under)

    def __neg__(self) -> Length:
        return _length(-self._over, self._under)

    def __abs__(self) -> Length:
        return _length(abs(self._over), self._under)

    def __mul__(self, other: Exact) -> Length:
        if type(other) is int:
            return _length(self._over * other, self._under)
        by = exact_number(other)
        return _length(self._over * by.numerator, self._under * by.denominator)

    __rmul__ = __mul__

    @overload
    def __truediv__(self, other: Length) -> Fraction: ...
    @overload
    def __truediv__(self, other: Exact) -> Length: ...
    def __truediv__(self, other: Length | Exact) -> Length | Fraction:
        if isinstance(other, Length):
            return Fraction(self._over * other._under, self._under * other._over)
        by = exact_number(other)
        if not by:
            raise ZeroDivisionError("a length divided by nothing")
        return self * Fraction(by.denominator, by.numerator)


_set_over: Final = Length.__dict__["_over"].__set__
_set_under: Final = Length.__dict__["_under"].__set__
_set_text: Final = Length.__dict__["_text"].__set__


def _length(over: int, under: int) -> Length:
    """The length of `over` / `under` inches. `under` > 0."""
    common = gcd(over, under)
    made = object.__new__(Length)
    _set_over(made, over // common)
    _set_under(made, under // common)
    _set_text(made, "")
    return made


UNITS: Final[dict[str, Fraction]] = {
    "in": Fraction(1),
    "ft": Fraction(12),
    "yd": Fraction(36),
    "mm": Fraction(5, 127),
    "cm": Fraction(50, 127),
    "dm": Fraction(500, 127),
    "m": Fraction(5000, 127),
}
"""Inches in one of each unit, exact."""

ZERO: Final = Length(0)


def total(lengths: Iterable[Length]) -> Length:
    """The sum, exact; ZERO for none."""
    return sum(lengths, ZERO)


def ceiling(number: Fraction) -> int:
    """The least whole number that is not below `number`."""
    return -(-number.numerator // number.denominator)


def steps_up(length: Length, step: Length) -> int:
    """The least number of steps that is not below `length`. `step` > 0."""
    over, under = _ratio(length, step)
    return -(-over // under)


def steps_down(length: Length, step: Length) -> int:
    """The most steps that go into `length`. `step` > 0."""
    over, under = _ratio(length, step)
    return over // under


def round_up(length: Length, step: Length) -> Length:
    """The least multiple of `step` not below `length`: for cuts and purchases. `step` > 0."""
    return step * steps_up(length, step)


def round_down(length: Length, step: Length) -> Length:
    """The greatest multiple of `step` not above `length`: for usable widths and owned lengths. `step` > 0."""
    return step * steps_down(length, step)


def round_nearest(length: Length, step: Length) -> Length:
    """The nearest multiple of `step`, ties to the even one (the rule of ASTM E29): for marks. `step` > 0."""
    over, under = _ratio(length, step)
    below, rest = divmod(over, under)
    up = 2 * rest > under or (2 * rest == under and below % 2 == 1)
    return step * (below + up)


def _ratio(length: Length, step: Length) -> tuple[int, int]:
    """How often `step` goes into `length`, as numerator and denominator, not in lowest terms."""
    return length._over * step._under, length._under * step._over
