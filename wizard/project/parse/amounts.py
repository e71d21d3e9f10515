"""The numbers in what was typed: `80`, `80.5`, `80,5`, `1/2`, `80 1/2`, `80-1/2`, `80½`. Always fractions."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Final

from wizard.project.parse.misread import Misread
from wizard.project.parse.tokens import Token, Typed
from wizard.trade.formatting import mixed

_WHOLE: Final = re.compile(r"[0-9]+")
_DECIMAL: Final = re.compile(r"([0-9]*)[.,]([0-9]+)")
_ASKED: Final = re.compile(r"(?!0,)[0-9]{1,3},[0-9]{3}|(?!0,)[0-9]+,[0-9]{4,}")
"""A comma before three figures may mark off thousands, and before more it may stand in the wrong place; before either
a nought alone can only be followed by decimals."""
_COMMAS: Final = re.compile(r"[1-9][0-9]{0,2}(,[0-9]{3})+(\.[0-9]+)?")
_SPACED: Final = re.compile(r"[1-9][0-9]{0,2} [0-9]{3}")
_POINTS: Final = re.compile(r"[1-9][0-9]{0,2}(\.[0-9]{3})+,[0-9]+")
MOST_FIGURES: Final = 15
"""Most figures of one number. A tape shows seven; what is worked from a length that was typed may need twice that."""
_ROUNDED: Final = 4
"""Decimals of what is offered for a number with too many."""


def amount(found: list[Token], typed: Typed) -> Fraction:
    """The number that `found` makes up, not below zero; raises Misread where it makes up none, or more than one."""
    match "".join(each.kind for each in found):
        case "n":
            return _number(found[0], typed)
        case "f":
            return _ready_made(found[0])
        case "n/n":
            return _fraction(found, typed)
        case "nn/n":
            return _mixed(found[0], _fraction(found[1:], typed), found, typed)
        case "nf":
            return _mixed(found[0], _ready_made(found[1]), found, typed)
        case "n-n/n" if typed.tight(found[1]):
            return _mixed(found[0], _fraction(found[2:], typed), found, typed)
        case "n-f" if typed.tight(found[1]):
            return _mixed(found[0], _ready_made(found[2]), found, typed)
        case "nn" if _SPACED.fullmatch(typed.text[found[0].start : found[1].end]):
            raise _thousands(found, typed)
        case pattern:
            raise typed.misread(_what_is_wrong(pattern))


def whole(found: list[Token], typed: Typed, otherwise: str = "is not a whole number.") -> int:
    """The whole number that `found` makes up; raises Misread, saying `otherwise`, for a number of another kind."""
    if any(each.kind != "n" for each in found):
        raise typed.misread(otherwise)
    if len(found) == 1 and _COMMAS.fullmatch(found[0].text):
        raise _bad_number(found[0], typed)
    value = amount(found, typed)
    if not _WHOLE.fullmatch(found[0].text):
        raise typed.misread(otherwise)
    return value.numerator


def _number(token: Token, typed: Typed) -> Fraction:
    text = token.text
    whole_number, decimal = _WHOLE.fullmatch(text), _DECIMAL.fullmatch(text)
    if (whole_number or decimal) and _figures(text) > MOST_FIGURES:
        raise _too_many_figures(token, typed)
    if whole_number:
        return Fraction(int(text))
    if _ASKED.fullmatch(text):
        raise _two_readings(token, typed)
    if decimal:
        return Fraction(int(decimal[1] + decimal[2]), 10 ** len(decimal[2]))
    raise _bad_number(token, typed)


def _figures(text: str) -> int:
    return sum(map(str.isdigit, text.lstrip("0")))


def _too_many_figures(token: Token, typed: Typed) -> Misread:
    figures, _, decimals = token.text.replace(",", ".").partition(".")
    stem = f"has a number with {_figures(token.text)} digits, and {MOST_FIGURES} is the most"
    if not decimals or len(figures) > MOST_FIGURES - _ROUNDED:
        return typed.misread(f"{stem}.", once_taken=True)
    near = str(round(Fraction(f"{figures or 0}.{decimals}") * 10**_ROUNDED)).rjust(_ROUNDED + 1, "0")
    shorter = f"{near[:-_ROUNDED]}.{near[-_ROUNDED:]}".rstrip("0").rstrip(".")
    return typed.asked(stem, typed.instead(token, shorter), once_taken=True)


def _two_readings(token: Token, typed: Typed) -> Misread:
    whole_part, _, decimals = token.text.partition(",")
    large = (whole_part + decimals).lstrip("0") or "0"
    small = f"{whole_part.lstrip('0') or '0'}.{decimals}".rstrip("0").rstrip(".")
    # An earlier version asked only where thousands may be marked off.
    usual = len(decimals) == 3 and whole_part[0] != "0"
    readings = [typed.instead(token, each) for each in (large, small)]
    return typed.asked("can be read in two ways", *readings, once_taken=not usual)


def _thousands(found: list[Token], typed: Typed) -> Misread:
    span = Token("n", "", found[0].start, found[1].end)
    return typed.asked("has a thousands separator", typed.instead(span, found[0].text + found[1].text))


def _bad_number(token: Token, typed: Typed) -> Misread:
    text = token.text
    if _COMMAS.fullmatch(text) or _POINTS.fullmatch(text):
        plain = text.replace(",", "") if _COMMAS.fullmatch(text) else text.replace(".", "").replace(",", ".")
        return typed.asked("has a thousands separator", typed.instead(token, plain))
    if text.endswith((".", ",")) and _WHOLE.fullmatch(text[:-1]):
        return typed.misread("has a decimal sign with nothing after it.")
    return typed.misread("has too many decimal signs.")


def _whole_part(token: Token, typed: Typed) -> Fraction:
    value = _number(token, typed)
    if not _WHOLE.fullmatch(token.text):
        raise typed.misread("mixes a decimal with a fraction: type one or the other.")
    return value


def _fraction(found: list[Token], typed: Typed) -> Fraction:
    upper, lower = (_whole_part(each, typed) for each in (found[0], found[2]))
    if not lower:
        raise typed.misread("divides by zero: the lower number of a fraction must be 1 or more.")
    return upper / lower


def _ready_made(token: Token) -> Fraction:
    upper, lower = token.text.split("/")
    return Fraction(int(upper), int(lower))


def _mixed(token: Token, fraction: Fraction, found: list[Token], typed: Typed) -> Fraction:
    value = _whole_part(token, typed) + fraction
    if fraction < 1:
        return value
    raise not_less_than_one(value, Token("n", "", token.start, found[-1].end), typed)


def not_less_than_one(value: Fraction, span: Token, typed: Typed, *, once_taken: bool = False) -> Misread:
    """The question about a fraction that should be less than one; `span` is what counts `value` in all."""
    reading = typed.instead(span, mixed(value))
    return typed.asked("has a fraction that is 1 or more", reading, once_taken=once_taken)


def _what_is_wrong(pattern: str) -> str:
    if pattern.startswith("/") or pattern.endswith("/"):
        return "has an unfinished fraction: type a number on each side of the slash."
    if "-" in pattern and pattern not in ("n-n", "n-n/n", "n-f"):
        return "has a hyphen in the wrong place: it goes between a whole number and its fraction."
    if "-" in pattern:
        return "contains a hyphen: do you mean a sum, or a fraction? Work it out, or type a space instead."
    if re.search(r"/[nf]?/|f/|/f", pattern):
        return "has too many slashes: a fraction has one."
    if pattern.count("/") + pattern.count("f") > 1:
        return "has two fractions: type one."
    return "has several numbers: type one at a time."
