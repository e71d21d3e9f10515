"""Reading a length as people type it."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from typing import Final

from msgspec.structs import replace

from wizard.project.parse.amounts import amount, not_less_than_one, whole
from wizard.project.parse.misread import Misread, Wanted
from wizard.project.parse.tokens import Token, Typed, tidied, tokens
from wizard.project.parse.unit_words import EXAMPLES, FAMILIES, not_taken, own_unit, waits_for_library
from wizard.trade.formatting import exact, number
from wizard.trade.lengths import UNITS, Length, total

Group = tuple[list[Token], list[Token]]
"""Numbers, and the unit words behind them."""

_NOT_TOGETHER: Final = "mixes units that do not go together: use yd, ft and in, or m, dm, cm and mm."
_BROKEN_EARLY: Final = "has a fraction before its last unit: only the last number may have one."


def read_length(text: str, unit: str | None, *, zero: bool = False) -> Length:
    """The exact length that `text` says, in `unit` (a key of UNITS) where it names none; with None it must name one.
    Its own text is tidied, and always names the unit.

    `80 1/2`, `80-1/2"`, `80½ in`, `6' 8 1/2"`, `6 ft 8.5`, `2 1/4 yd`, `204,5 cm`, `2.045 m`, `1 m 20 cm`, typographic
    primes and quotes. Raises Misread with a sentence and an example for anything else, and for zero unless `zero`.
    """
    wanted = Wanted("a length", EXAMPLES[unit])
    typed = tidied(text, wanted)
    found = tokens(typed)
    named = any(each.kind == "u" for each in found)
    typed = typed if named else replace(typed, unit=unit)
    groups = _groups(found, typed)
    if not named and unit is None:
        raise typed.misread("has no unit: type it after the number.")
    length = _sum(groups, typed)
    if not length and not zero:
        raise typed.misread("is zero: it must be more than 0 here.")
    return length.typed(typed.with_unit(typed.text))


@lru_cache(maxsize=4096)
def in_unit(text: str, unit: str) -> Length | None:
    """The length that the figures of `text`, which name one unit, would say in another; None for a text in several."""
    figures, word = re.fullmatch(r"(.*?) ?([^\W\d]+\.?|['\"])", text), re.findall(r"[^\W\d]+|['\"]", text)
    try:
        return None if figures is None or len(word) > 1 else read_length(figures[1], unit, zero=True)
    except Misread:
        return None


def waits(text: str) -> bool:
    """True when reading `text` as a length would first load the library of units that names one that is not ours."""
    wanted = Wanted("a length", EXAMPLES[None])
    try:
        typed = tidied(text, wanted)
        return any(waits_for_library(words) for _, words in _groups(tokens(typed), typed) if words)
    except Misread:
        return False


def _groups(found: list[Token], typed: Typed) -> list[Group]:
    """Numbers with the unit words behind them, in order; the last may have no unit words."""
    groups: list[Group] = []
    for each in found:
        if each.kind == "u" and groups:
            groups[-1][1].append(each)
        elif each.kind == "u":
            raise typed.misread("starts with a word or a unit: type the number first.")
        elif not groups or groups[-1][1]:
            groups.append(([each], []))
        else:
            groups[-1][0].append(each)
    return groups


def _sum(groups: list[Group], typed: Typed) -> Length:
    """The length, its units looked at before its numbers, so that what is offered instead can be taken."""
    if len(groups) == 1:
        numbers, words = groups[0]
        factor = _inches(words, typed)
        return Length(amount(numbers, typed) * factor)
    units = [_unit(words, typed) for _, words in groups if words]
    _check_order(units, typed)
    numbers_of = [_after_feet(numbers, unit, typed) for (numbers, _), unit in zip(groups, ["", *units], strict=False)]
    values = [Fraction(whole(each, typed, _BROKEN_EARLY)) for each in numbers_of[:-1]]
    values.append(amount(numbers_of[-1], typed))
    if len(units) < len(groups):
        units.append(_unit_left_out(values[-1], units[-1], typed))
    _check_carry(values, units, typed)
    _check_last(numbers_of[-1], values[-1], typed)
    return total(map(Length.of, values, units))


def _inches(words: list[Token], typed: Typed) -> Fraction:
    """Inches in one of the unit that `words` name; in the unit that is put behind, where there are none."""
    if not words:
        return UNITS[typed.unit or ""]
    return UNITS[_unit(words, typed)]


def _unit(words: list[Token], typed: Typed) -> str:
    """The unit that `words` name; raises Misread for any that is not ours."""
    unit = own_unit(words)
    if unit is None:
        raise not_taken(words, typed)
    return unit


def _check_order(units: list[str], typed: Typed) -> None:
    family = next(each for each in FAMILIES if units[0] in each)
    if not set(units) <= set(family):
        raise typed.misread(_NOT_TOGETHER)
    places = [family.index(each) for each in units]
    if places != sorted(set(places)):
        raise typed.misread("has its units out of order: type the larger one first, and each only once.")


def _after_feet(numbers: list[Token], before: str, typed: Typed) -> list[Token]:
    """The numbers without the hyphen of `6'-8"`."""
    joined = before == "ft" and len(numbers) > 1 and numbers[0].kind == "-" and typed.tight(numbers[0])
    return numbers[1:] if joined else numbers


def _unit_left_out(value: Fraction, last: str, typed: Typed) -> str:
    """Inches, where no unit stands behind feet; else the question which is meant, of those that stay below `last`."""
    if last == "ft":
        return "in"
    family = next(each for each in FAMILIES if last in each)
    # A decimetre is taken, but hardly anybody means one without saying so.
    behind = [each for each in family[family.index(last) + 1 :] if each != "dm"]
    smaller = [each for each in behind if value * UNITS[each] < UNITS[last]]
    readings = tuple(f"{typed.text} {each}" for each in smaller)
    if not readings:
        raise typed.misread("has several numbers: type one at a time.")
    raise typed.asked("does not give the unit of its last number", *readings)


def _check_carry(values: list[Fraction], units: list[str], typed: Typed) -> None:
    """A smaller unit that makes up a whole larger one is more likely a slip: ask."""
    for (_, larger), (value, unit) in pairwise(zip(values, units, strict=True)):
        if value * UNITS[unit] >= UNITS[larger]:
            reading = exact(total(map(Length.of, values, units)), units[-1])
            much = f"{number(value)} {unit} is a whole {larger} or more"
            raise typed.asked(f"looks wrong, because {much}", reading)


def _check_last(numbers: list[Token], value: Fraction, typed: Typed) -> None:
    """Behind a larger unit a fraction alone is less than one; an earlier version took any."""
    if value >= 1 and [each.kind for each in numbers] == ["n", "/", "n"]:
        raise not_less_than_one(value, Token("n", "", numbers[0].start, numbers[-1].end), typed, once_taken=True)
