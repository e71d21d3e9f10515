"""Reading a length as people type it: the words and marks for its units, and what any other unit measures, for the
sentence that refuses it.

Pint knows the others and is loaded only when asked. Only a name goes to Pint, looked up as a name; no typed text ever
reaches an expression parser.
"""

from __future__ import annotations

import re
from difflib import get_close_matches
from fractions import Fraction
from functools import cache, lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from msgspec.structs import replace

from wizard.project.parse.misread import Misread, Wanted, quoted
from wizard.project.parse.number_text import amount, not_less_than_one, whole
from wizard.project.parse.tokens import Token, Typed, tidied, tokens
from wizard.trade.formatting import METRIC, exact, number
from wizard.trade.lengths import UNITS, Length, total

if TYPE_CHECKING:
    from pint import UnitRegistry

Group = tuple[list[Token], list[Token]]
"""Numbers, and the unit words behind them."""

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
        named = [words for _, words in _groups(tokens(typed), typed) if words]
    except Misread:
        return False
    # The first name that is looked up takes about a second, the others none.
    is_loaded = _registry.cache_info().currsize > 0
    return not is_loaded and any(own_unit(each) is None and not _is_known_here(_name(each)) for each in named)


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
        factor = UNITS[_unit(words, typed) if words else typed.unit or ""]
        return Length(amount(numbers, typed) * factor)
    units = [_unit(words, typed) for _, words in groups if words]
    _check_order(units, typed)
    numbers_of = [_after_feet(numbers, unit, typed) for (numbers, _), unit in zip(groups, ["", *units], strict=False)]
    values = [Fraction(whole(each, typed, _BROKEN_EARLY)) for each in numbers_of[:-1]]
    values.append(amount(numbers_of[-1], typed))
    if len(units) < len(groups):
        units.append(_unit_left_out(values[-1], units[-1], typed))
    _check_carry(values, units, typed)
    # Behind a larger unit a fraction alone is less than one; an earlier version took any.
    if values[-1] >= 1 and [each.kind for each in numbers_of[-1]] == ["n", "/", "n"]:
        raise not_less_than_one(values[-1], numbers_of[-1], typed, once_taken=True)
    return total(map(Length.of, values, units))


def _unit(words: list[Token], typed: Typed) -> str:
    """The unit that `words` name; raises Misread for any that is not ours."""
    unit = own_unit(words)
    if unit is None:
        raise not_taken(words, typed)
    return unit


def _check_order(units: list[str], typed: Typed) -> None:
    family = next(each for each in FAMILIES if units[0] in each)
    if not set(units) <= set(family):
        raise typed.misread("mixes units that do not go together: use yd, ft and in, or m, dm, cm and mm.")
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


EXAMPLES: Final[dict[str | None, str]] = {
    None: "12 1/2 in",
    "in": "12 1/2 in",
    "ft": "6 ft 8 1/2 in",
    "yd": "2 1/4 yd",
    "mm": "318 mm",
    "cm": "31.8 cm",
    "dm": "3.2 dm",
    "m": "2.045 m",
}
"""A length that would be taken, by the job's unit."""

WORDS: Final[dict[str, str]] = {
    **dict.fromkeys(("in", "ins", "inch", "inches", '"'), "in"),
    **dict.fromkeys(("ft", "foot", "feet", "'"), "ft"),
    **dict.fromkeys(("yd", "yds", "yard", "yards"), "yd"),
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), "mm"),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), "cm"),
    **dict.fromkeys(("dm", "decimetre", "decimetres", "decimeter", "decimeters"), "dm"),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), "m"),
}
"""Every word and mark for our seven units, in small letters."""

FAMILIES: Final = (("yd", "ft", "in"), ("m", "dm", "cm", "mm"))
"""Units that may stand together in one length, larger first."""

_CAPITAL_M: Final = {
    "M": ("m", "which is not a unit of length"),
    "Mm": ("mm", "which makes it millions of metres"),
    "mM": ("mm", "which is not a unit of length"),
}
"""Where a capital counts: word -> the unit that is meant, nearly always, and what is typed instead."""

_HALF_TYPED: Final = frozenset(word[:end] for word in WORDS for end in range(1, len(word))) - WORDS.keys()
"""What one of our words is while it is typed. Some of it names things that are no lengths, and none is looked up."""


def own_unit(words: list[Token]) -> str | None:
    """The one of our seven units that `words` name, in large or small letters; None for any other."""
    word = words[0].text.rstrip(".")
    return None if len(words) > 1 or word in _CAPITAL_M else WORDS.get(word.lower())


def not_taken(words: list[Token], typed: Typed) -> Misread:
    """The refusal of words that are none of our units; with what is meant where that is plain."""
    name = _name(words)
    if name in _CAPITAL_M:
        meant, what = _CAPITAL_M[name]
        return typed.asked(f"has a capital M, {what}", typed.instead(meant, words[0]), once_taken=True)
    # The mile is the one other unit of length whose name begins a word of ours, `millimetre`.
    kind = "length" if name.lower() == "mi" else "" if _is_known_here(name) else kind_of_unit(name)
    # Short words are like too many others. One that is meant differs in a letter or two: `inchs`, `metrs`.
    near = get_close_matches(name.lower(), [each for each in WORDS if len(each) > 3], 1, 4 / 5)
    if near and len(words) == 1 and kind in ("", "length"):
        meant = typed.instead(near[0], words[0])
        return typed.asked(f"has an unknown unit ({name})", meant, once_taken=kind == "length")
    says = f"is a unit of {kind}, not of length" if kind else "is not a known unit"
    says = "is not accepted here" if kind == "length" else says
    says = f"{quoted(name)} {says}: use in, ft, yd, mm, cm, dm or m."
    return Misread(says, typed.wanted.example, once_taken=kind == "length")


@lru_cache(maxsize=4096)
def is_metric(text: str) -> bool:
    """True for a length in metres or parts of one, as far as its words say."""
    return any(WORDS.get(each) in METRIC for each in re.findall(r"[a-z]+", text.lower()))


def _is_known_here(name: str) -> bool:
    return name in _CAPITAL_M or name.lower() in _HALF_TYPED


def _name(words: list[Token]) -> str:
    return " ".join(each.text.rstrip(".") for each in words)


_UNIT_NAME: Final = re.compile(r"[A-Za-z\u00b5\u03bc][A-Za-z_\u00b5\u03bc]*")

_KINDS: Final = (
    *("length", "mass", "time", "temperature", "current", "substance", "luminosity"),
    *("area", "volume", "speed", "force", "energy", "power", "pressure"),
)
"""What units measure, as Pint names it."""


def kind_of_unit(name: str) -> str:
    """What the unit of that name (its words with spaces between) measures: `length`, `mass`; empty for no unit."""
    under = name.replace(" ", "_")
    prefix, unit = _found(under) if _UNIT_NAME.fullmatch(under) else ("", "")
    kind = _measured_by(unit) if unit else ""
    # The metre is the one length that takes prefixes: else `5 pins` would be so many picoinches.
    return "" if kind == "length" and prefix and unit != "meter" else kind


def _found(name: str) -> tuple[str, str]:
    """Pint's own prefix and name for `name`, as typed or else in small letters; both empty if it knows none."""
    for each in (name, name.lower()):
        for prefix, unit, _ in _registry().parse_unit_name(each):
            return prefix, unit
    return "", ""


def _measured_by(unit: str) -> str:
    """What `unit` measures, in words."""
    registry = _registry()
    dimensions = registry.get_dimensionality(registry.UnitsContainer({unit: 1}))
    if not dimensions:
        return "angle or number"
    return next((each for each in _KINDS if registry.get_dimensionality(f"[{each}]") == dimensions), "another kind")


@cache
def _registry() -> UnitRegistry[Fraction]:
    """Pint's stock units, loaded once."""
    from pint import UnitRegistry

    registry: UnitRegistry[Fraction] = UnitRegistry(non_int_type=Fraction)
    return registry
