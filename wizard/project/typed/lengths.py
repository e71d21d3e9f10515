"""Reading a length as people type it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Final

from wizard.project.typed.amounts import amount
from wizard.project.typed.misread import Misread, Wanted, quoted
from wizard.project.typed.other_units import NoLengthError, inches_in
from wizard.project.typed.tidy import tidied
from wizard.project.typed.tokens import Token, Typed, tokens
from wizard.trade.lengths import UNITS, Length, total
from wizard.trade.printing import exact

EXAMPLES: Final[dict[str | None, str]] = {
    None: "12 1/2 in",
    "in": "12 1/2 in",
    "ft": "6 ft 8 1/2 in",
    "yd": "2 1/4 yd",
    "mm": "318 mm",
    "cm": "31.8 cm",
    "m": "2.045 m",
}
"""A length that would be taken, by the job's unit."""

WORDS: Final[dict[str, str]] = {
    **dict.fromkeys(("in", "ins", "inch", "inches", '"'), "in"),
    **dict.fromkeys(("ft", "foot", "feet", "'"), "ft"),
    **dict.fromkeys(("yd", "yds", "yard", "yards"), "yd"),
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), "mm"),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), "cm"),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), "m"),
}
"""Every word and mark for our six units, in small letters."""

FAMILIES: Final = (("yd", "ft", "in"), ("m", "cm", "mm"))
"""Units that may stand together in one length, larger first."""

KNOWN: Final = "in, ft, yd, mm, cm, m or another unit of length"


@dataclass(frozen=True)
class Part:
    """A number and its unit; a length has one, or several of one family."""

    value: Fraction
    unit: str
    text: str
    """The number as typed."""


def read_length(text: str, unit: str | None, *, zero: bool = False) -> Length:
    """The exact length that `text` says, in `unit` (a key of UNITS) where it names none; with None it must name one.

    `80 1/2`, `80-1/2"`, `80½ in`, `6' 8 1/2"`, `6 ft 8.5`, `2 1/4 yd`, `204,5 cm`, `2.045 m`, `1 m 20 cm`, typographic
    primes and quotes. Raises Misread with a sentence and an example for anything else, and for zero unless `zero`.
    """
    return parsed(text, unit, zero=zero)[1]


def parsed(text: str, unit: str | None, *, zero: bool = False) -> tuple[str, Length]:
    """The text as it is kept, which always names its unit, and the length it says; raises as :func:`read_length`."""
    wanted = Wanted("a length", EXAMPLES[unit])
    tidy = tidied(text, wanted)
    bare = Typed(tidy, wanted)
    found = tokens(bare)
    named = any(each.kind == "u" for each in found)
    typed = bare if named else Typed(tidy, wanted, unit)
    groups = _groups(found, typed)
    if not named and unit is None:
        raise typed.misread("has no unit: write it behind the number.")
    length = _sum(groups, typed)
    if not length and not zero:
        raise typed.misread("is zero: here it must be more than nothing.")
    return typed.with_unit(tidy), length


def _groups(found: list[Token], typed: Typed) -> list[tuple[list[Token], list[Token]]]:
    """Numbers with the unit words behind them, in order; the last may have no unit words."""
    groups: list[tuple[list[Token], list[Token]]] = []
    for each in found:
        if each.kind == "u" and groups:
            groups[-1][1].append(each)
        elif each.kind == "u":
            raise typed.misread("has its unit in front: write the number first.")
        elif not groups or groups[-1][1]:
            groups.append(([each], []))
        else:
            groups[-1][0].append(each)
    return groups


def _sum(groups: list[tuple[list[Token], list[Token]]], typed: Typed) -> Length:
    if len(groups) == 1:
        numbers, words = groups[0]
        return Length(amount(numbers, typed) * _inches(words, typed))
    parts = _parts(groups, typed)
    _check_order(parts, typed)
    _check_whole(parts, typed)
    length = total(Length.of(each.value, each.unit) for each in parts)
    _check_carry(parts, length, typed)
    return length


def _inches(words: list[Token], typed: Typed) -> Fraction:
    """Inches in one of the unit that `words` name; in the unit that is put behind, where there are none."""
    if not words:
        return UNITS[typed.unit or ""]
    own = _own_unit(words)
    return UNITS[own] if own else _other(words, typed)


def _own_unit(words: list[Token]) -> str | None:
    word = words[0].text.rstrip(".")
    # Mm is a megametre, not a millimetre with a capital.
    return WORDS.get(word if word == "Mm" else word.lower()) if len(words) == 1 else None


def _other(words: list[Token], typed: Typed) -> Fraction:
    name = " ".join(each.text.rstrip(".") for each in words)
    try:
        return inches_in(name.replace(" ", "_"))
    except NoLengthError as no:
        raise typed.wanted.misread(f"{quoted(name)} {no}: use {KNOWN}.") from None


def _parts(groups: list[tuple[list[Token], list[Token]]], typed: Typed) -> list[Part]:
    parts: list[Part] = []
    for numbers, words in groups:
        unit = _unit_in_row(numbers, words, parts, typed)
        if parts and parts[-1].unit == "ft" and numbers[0].kind == "-" and typed.tight(numbers[0]):
            numbers = numbers[1:]
        value = amount(numbers, typed)
        parts.append(Part(value, unit, typed.text[numbers[0].start : numbers[-1].end]))
    return parts


def _unit_in_row(numbers: list[Token], words: list[Token], before: list[Part], typed: Typed) -> str:
    """The unit of one part of a length in several; inches where none stands behind feet."""
    if words:
        own = _own_unit(words)
        if own is None:
            _other(words, typed)
            raise typed.misread("joins units that do not go together: yd, ft and in do, and m, cm and mm.")
        return own
    if before[-1].unit == "ft":
        return "in"
    raise _unit_left_out(amount(numbers, typed), before[-1].unit, typed)


def _unit_left_out(value: Fraction, last: str, typed: Typed) -> Misread:
    """The question which unit is meant: of those that follow `last`, what stays below one `last`."""
    family = next(each for each in FAMILIES if last in each)
    smaller = [each for each in family[family.index(last) + 1 :] if value * UNITS[each] < UNITS[last]]
    readings = tuple(f"{typed.text} {each}" for each in smaller)
    if not readings:
        return typed.misread("has several numbers: give one at a time.")
    return typed.misread("does not say what its last number counts: name the unit.", readings)


def _check_order(parts: list[Part], typed: Typed) -> None:
    units = [each.unit for each in parts]
    family = next(each for each in FAMILIES if units[0] in each)
    if not set(units) <= set(family):
        raise typed.misread("joins units that do not go together: yd, ft and in do, and m, cm and mm.")
    places = [family.index(each) for each in units]
    if places != sorted(set(places)):
        raise typed.misread("has its units out of order: the larger comes first, and each only once.")


def _check_whole(parts: list[Part], typed: Typed) -> None:
    if any(not each.text.isdecimal() for each in parts[:-1]):
        raise typed.misread("has a fraction before its last unit: only the last number may have one.")


def _check_carry(parts: list[Part], length: Length, typed: Typed) -> None:
    """A smaller unit that makes up a whole larger one is more likely a slip: ask."""
    for larger, smaller in pairwise(parts):
        if Length.of(smaller.value, smaller.unit) >= Length.of(1, larger.unit):
            reading = exact(length, parts[-1].unit)
            much = f"{smaller.text} {smaller.unit} is a whole {larger.unit} or more"
            raise typed.misread(f"looks like a slip, for {much}: is {reading} meant?", (reading,))
