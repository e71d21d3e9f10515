"""The words and marks that stand for units of length."""

from __future__ import annotations

import re
from difflib import get_close_matches
from functools import lru_cache
from typing import Final

from wizard.project.typed.misread import Misread, quoted
from wizard.project.typed.other_units import is_loaded, kind_of_unit
from wizard.project.typed.tokens import Token, Typed
from wizard.trade.formatting import METRIC

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
    "M": ("m", "which is no unit of length"),
    "Mm": ("mm", "which makes it millions of metres"),
    "mM": ("mm", "which is no unit of length"),
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
            f"has a unit that is not known ({name})", typed.instead(words[0], near[0]), once_taken=kind == "length"
        )
    says = f"is a unit of {kind}, not of length" if kind else "is not a unit known here"
    says = "is a unit that is not taken here" if kind == "length" else says
    return typed.wanted.misread(f"{quoted(name)} {says}: use {TAKEN}.", once_taken=kind == "length")


@lru_cache(maxsize=4096)
def is_metric(text: str) -> bool:
    """True for a length in metres or parts of one, as far as its words say."""
    return any(WORDS.get(each) in METRIC for each in re.findall(r"[a-z]+", text.lower()))


def _is_known_here(name: str) -> bool:
    return name in _CAPITAL_M or name.lower() in _HALF_TYPED


def _name(words: list[Token]) -> str:
    return " ".join(each.text.rstrip(".") for each in words)
