"""Reading plain numbers, percentages, counts and money, as people type them: `80`, `80.5`, `80,5`, `1/2`,
`80 1/2`, `80-1/2`, `80½`. Always fractions."""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction
from typing import Final

from wizard.project.parse.misread import Misread, Wanted
from wizard.project.parse.tokens import Token, Typed, tidied, tokens
from wizard.trade.fields import Money, TypedNumber, with_text
from wizard.trade.formatting import mixed, number

NUMBER: Final = Wanted("a number", "2 1/2")
PERCENT: Final = Wanted("a percentage", "3 %")
WHOLE: Final = Wanted("a whole number", "3")
MONEY: Final = Wanted("a sum of money", "18.50")

MOST_BEFORE: Final = 12
"""Most figures of a sum of money before its decimal sign: beyond that, decimal arithmetic would round."""
MOST_DECIMALS: Final = 4
"""Most figures of a price behind its decimal sign."""

_PERCENT: Final = re.compile(r" *(%|per ?cent)$", re.IGNORECASE)
_TIMES: Final = re.compile(r" *(x|×|times)$", re.IGNORECASE)
_COMMA: Final = re.compile(r"^([0-9]+),([0-9]+)$")


def read_number(text: str) -> TypedNumber:
    """A number that is not below zero: `2.5`, `2,5`, `2 1/2`, `5/2`. Raises Misread for anything else."""
    typed = tidied(text, NUMBER)
    return with_text(TypedNumber(amount(_numbers(typed), typed)), typed.text)


def fullness_text(text: str) -> str:
    """A fullness as it is kept, a plain number: `2.5 ×`, `2.5x` and `250 %` are 2.5. Raises Misread as read_number."""
    bare = text.strip()
    if match := _PERCENT.search(bare):
        return number(read_number(bare[: match.start()]) / 100)
    return _TIMES.sub("", bare) or bare


def read_percent(text: str) -> TypedNumber:
    """A share from nothing to under a hundred per cent, the sign left out or not: `3 %` is 3/100. Its own text always
    ends in the sign. Raises Misread."""
    typed = tidied(text, PERCENT)
    # Under a hundred, a comma before three figures can only be a decimal sign.
    bare = Typed(_COMMA.sub(r"\1.\2", _PERCENT.sub("", typed.text)), PERCENT)
    try:
        share = amount(_numbers(bare), bare) / 100
    except Misread as misread:
        for reading in misread.readings:
            read_percent(reading)
        raise
    if share >= 1:
        raise typed.misread("is 100 % or more: type less than 100 %.")
    return with_text(TypedNumber(share), typed.text if typed.text[-1] in "%tT" else f"{typed.text} %")


def read_whole(text: str) -> int:
    """A whole number that is not below zero. Raises Misread for anything else."""
    typed = tidied(text, WHOLE)
    return whole(_numbers(typed), typed)


def read_money(text: str) -> Money:
    """A sum of money, at most MOST_DECIMALS decimals: `18.50`, `18,5`; its sign may stand at either end. Raises
    Misread."""
    bare = text.strip()
    # The sign of the currency is the job's, and not each price's.
    if unicodedata.category(bare[:1] or " ") == "Sc":
        bare = bare[1:].strip()
    elif unicodedata.category(bare[-1:] or " ") == "Sc":
        bare = bare[:-1].strip()
    typed = tidied(bare or text, MONEY)
    found = _numbers(typed)
    if any(each.kind in "/f" for each in found):
        raise typed.misread("contains a fraction: type money with decimals.")
    amount(found, typed)
    figures, _, decimals = found[0].text.replace(",", ".").partition(".")
    if len(decimals) > MOST_DECIMALS:
        raise typed.misread(f"has {len(decimals)} decimals: type at most {MOST_DECIMALS}.")
    if len(figures.lstrip("0")) > MOST_BEFORE:
        raise typed.misread(f"is too large: type at most {MOST_BEFORE} digits before the decimal sign.")
    return with_text(Money(f"{figures or 0}.{decimals}" if decimals else figures), typed.text)


def _numbers(typed: Typed) -> list[Token]:
    """The pieces of a text without a unit or a word."""
    found = tokens(typed)
    word = next((each.text for each in found if each.kind == "u"), None)
    if word is not None:
        raise typed.misread(f"contains a word or a unit ({word}): type only {typed.wanted.noun}.")
    return found


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
    kinds = "".join(each.kind for each in found)
    if kinds in ("n-n/n", "n-f") and typed.tight(found[1]):
        kinds, found = kinds.replace("-", ""), [found[0], *found[2:]]
    match kinds:
        case "n":
            return _number(found[0], typed)
        case "f" | "n/n":
            return _fraction(found, typed)
        case "nf" | "nn/n":
            return _mixed(found, typed)
        case "nn" if _SPACED.fullmatch(typed.text[found[0].start : found[1].end]):
            raise typed.asked("has a thousands separator", typed.instead(found[0].text + found[1].text, *found))
    raise typed.misread(next(says for pattern, says in _WRONG if re.search(pattern, kinds)))


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
    return typed.asked(stem, typed.instead(shorter, token), once_taken=True)


def _two_readings(token: Token, typed: Typed) -> Misread:
    whole_part, _, decimals = token.text.partition(",")
    large = (whole_part + decimals).lstrip("0") or "0"
    small = f"{whole_part.lstrip('0') or '0'}.{decimals}".rstrip("0").rstrip(".")
    # An earlier version asked only where thousands may be marked off.
    usual = len(decimals) == 3 and whole_part[0] != "0"
    readings = [typed.instead(each, token) for each in (large, small)]
    return typed.asked("can be read in two ways", *readings, once_taken=not usual)


def _bad_number(token: Token, typed: Typed) -> Misread:
    text = token.text
    if _COMMAS.fullmatch(text) or _POINTS.fullmatch(text):
        plain = text.replace(",", "") if _COMMAS.fullmatch(text) else text.replace(".", "").replace(",", ".")
        return typed.asked("has a thousands separator", typed.instead(plain, token))
    if text.endswith((".", ",")) and _WHOLE.fullmatch(text[:-1]):
        return typed.misread("has a decimal sign with nothing after it.")
    return typed.misread("has too many decimal signs.")


def _whole_part(token: Token, typed: Typed) -> Fraction:
    value = _number(token, typed)
    if not _WHOLE.fullmatch(token.text):
        raise typed.misread("mixes a decimal with a fraction: type one or the other.")
    return value


def _fraction(found: list[Token], typed: Typed) -> Fraction:
    if len(found) == 1:
        return Fraction(found[0].text)
    upper, lower = (_whole_part(each, typed) for each in (found[0], found[2]))
    if not lower:
        raise typed.misread("divides by zero: the lower number of a fraction must be 1 or more.")
    return upper / lower


def _mixed(found: list[Token], typed: Typed) -> Fraction:
    fraction = _fraction(found[1:], typed)
    value = _whole_part(found[0], typed) + fraction
    if fraction >= 1:
        raise not_less_than_one(value, found, typed)
    return value


def not_less_than_one(value: Fraction, found: list[Token], typed: Typed, *, once_taken: bool = False) -> Misread:
    """The question about a fraction that should be less than one; `found` is what counts `value` in all."""
    reading = typed.instead(mixed(value), *found)
    return typed.asked("has a fraction that is 1 or more", reading, once_taken=once_taken)


_WRONG: Final = (
    ("^/|/$", "has an unfinished fraction: type a number on each side of the slash."),
    ("^(?!n-(n|n/n|f)$).*-", "has a hyphen in the wrong place: it goes between a whole number and its fraction."),
    ("-", "contains a hyphen: do you mean a sum, or a fraction? Work it out, or type a space instead."),
    ("/[nf]?/|f/|/f", "has too many slashes: a fraction has one."),
    ("[/f].*[/f]", "has two fractions: type one."),
    ("", "has several numbers: type one at a time."),
)
"""What is wrong with kinds of tokens that make up no number; the first that is found."""
