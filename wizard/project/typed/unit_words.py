"""The words and marks that stand for units of length."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from wizard.project.typed.misread import quoted
from wizard.project.typed.other_units import UNKNOWN, NoLengthError, inches_in, is_loaded
from wizard.project.typed.tokens import Token, Typed

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

MILE: Final = "mi"
"""The one other unit of length whose name begins a word of ours, `millimetre`; its size is told here, so that typing
that word waits for no library."""

HALF_TYPED: Final = frozenset(word[:end] for word in WORDS for end in range(1, len(word))) - {*WORDS, MILE}
"""What one of our words is while it is typed. Some of it names things that are no lengths, and none is looked up."""

KNOWN: Final = "in, ft, yd, mm, cm, m or another unit of length"


def own_unit(words: list[Token]) -> str | None:
    """The one of our six units that `words` name, in large or small letters; None for any other."""
    word = words[0].text.rstrip(".")
    # Mm is a megametre, not a millimetre with a capital.
    return WORDS.get(word if word == "Mm" else word.lower()) if len(words) == 1 else None


def waits_for_library(words: list[Token]) -> bool:
    """True when `words` name a unit that has to be looked up in a library that is not loaded yet."""
    return own_unit(words) is None and _name(words).lower() not in {*HALF_TYPED, MILE} and not is_loaded()


def inches_in_other(words: list[Token], typed: Typed) -> Fraction:
    """Inches in one of another unit of length, exactly; raises Misread for what is none."""
    name = _name(words)
    try:
        return _looked_up(name)
    except NoLengthError as no:
        raise typed.wanted.misread(f"{quoted(name)} {no}: use {KNOWN}.") from None


def _name(words: list[Token]) -> str:
    return " ".join(each.text.rstrip(".") for each in words)


def _looked_up(name: str) -> Fraction:
    if name.lower() == MILE:
        return Fraction(63_360)
    if name.lower() in HALF_TYPED:
        raise NoLengthError(UNKNOWN)
    return inches_in(name.replace(" ", "_"))
