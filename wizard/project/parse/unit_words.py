"""The words and marks for units of length, and what any other unit measures, for the sentence that refuses it.

Pint knows the others and is loaded only when asked. Only a name goes to Pint, looked up as a name; no typed text ever
reaches an expression parser.
"""

from __future__ import annotations

import re
from difflib import get_close_matches
from fractions import Fraction
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Final

from wizard.project.parse.misread import Misread, quoted
from wizard.project.parse.tokens import Token, Typed
from wizard.trade.formatting import METRIC

if TYPE_CHECKING:
    from pint import UnitRegistry

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

_MILE: Final = "mi"
"""The one other unit of length whose name begins a word of ours, `millimetre`: it is known without a library."""

_HALF_TYPED: Final = frozenset(word[:end] for word in WORDS for end in range(1, len(word))) - WORDS.keys()
"""What one of our words is while it is typed. Some of it names things that are no lengths, and none is looked up."""

_SHORT: Final = 3
"""Words as short as this are like too many others."""
_LIKE: Final = 4 / 5
"""How alike a word and one of ours have to be for that to be what was meant: `inchs`, `metrs`."""

TAKEN: Final = "in, ft, yd, mm, cm, dm or m"


def own_unit(words: list[Token]) -> str | None:
    """The one of our seven units that `words` name, in large or small letters; None for any other."""
    word = words[0].text.rstrip(".")
    return None if len(words) > 1 or word in _CAPITAL_M else WORDS.get(word.lower())


def waits_for_library(words: list[Token]) -> bool:
    """True when it takes a library that is not loaded yet to say what `words` name."""
    return own_unit(words) is None and not _is_known_here(_name(words)) and not is_loaded()


def not_taken(words: list[Token], typed: Typed) -> Misread:
    """The refusal of words that are none of our units; with what is meant where that is plain."""
    name = _name(words)
    if name in _CAPITAL_M:
        meant, what = _CAPITAL_M[name]
        return typed.asked(f"has a capital M, {what}", typed.instead(words[0], meant), once_taken=True)
    kind = "length" if name.lower() == _MILE else "" if _is_known_here(name) else kind_of_unit(name)
    near = get_close_matches(name.lower(), [each for each in WORDS if len(each) > _SHORT], 1, _LIKE)
    if near and len(words) == 1 and kind in ("", "length"):
        return typed.asked(
            f"has an unknown unit ({name})", typed.instead(words[0], near[0]), once_taken=kind == "length"
        )
    says = f"is a unit of {kind}, not of length" if kind else "is not a known unit"
    says = "is not accepted here" if kind == "length" else says
    return Misread(f"{quoted(name)} {says}: use {TAKEN}.", typed.wanted.example, once_taken=kind == "length")


@lru_cache(maxsize=4096)
def is_metric(text: str) -> bool:
    """True for a length in metres or parts of one, as far as its words say."""
    return any(WORDS.get(each) in METRIC for each in re.findall(r"[a-z]+", text.lower()))


def _is_known_here(name: str) -> bool:
    return name in _CAPITAL_M or name.lower() in _HALF_TYPED


def _name(words: list[Token]) -> str:
    return " ".join(each.text.rstrip(".") for each in words)


_UNIT_NAME: Final = re.compile(r"[A-Za-z\u00b5\u03bc][A-Za-z_\u00b5\u03bc]*")
_METRE: Final = "meter"
"""Pint's name for the one length that takes prefixes: else `5 pins` would be so many picoinches."""

_KINDS: Final = (
    *("mass", "time", "temperature", "current", "substance", "luminosity"),
    *("area", "volume", "speed", "force", "energy", "power", "pressure"),
)
"""What units measure besides length, as Pint names it."""


def kind_of_unit(name: str) -> str:
    """What the unit of that name (its words with spaces between) measures: `length`, `mass`; empty for no unit."""
    under = name.replace(" ", "_")
    prefix, unit = _found(under) if _UNIT_NAME.fullmatch(under) else ("", "")
    kind = _measured_by(unit) if unit else ""
    return "" if kind == "length" and prefix and unit != _METRE else kind


def is_loaded() -> bool:
    """True once a name was looked up: the first takes about a second, the others none."""
    return _registry.cache_info().currsize > 0


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
    kinds = ("length", *_KINDS)
    return next((each for each in kinds if registry.get_dimensionality(f"[{each}]") == dimensions), "another kind")


@cache
def _registry() -> UnitRegistry[Fraction]:
    """Pint's stock units, loaded once."""
    from pint import UnitRegistry

    registry: UnitRegistry[Fraction] = UnitRegistry(non_int_type=Fraction)
    return registry
