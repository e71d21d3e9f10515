"""Reading plain numbers, percentages, counts, money, and yes or no, as people type them."""

from __future__ import annotations

import re
import unicodedata
from decimal import Decimal
from typing import Final

from wizard.project.parse.amounts import amount, whole
from wizard.project.parse.misread import Misread, Wanted, quoted
from wizard.project.parse.tokens import Token, Typed, tidied, tokens
from wizard.trade.fields import Money, TypedNumber
from wizard.trade.formatting import number

NUMBER: Final = Wanted("a number", "2 1/2")
PERCENT: Final = Wanted("a percentage", "3 %")
WHOLE: Final = Wanted("a whole number", "3")
MONEY: Final = Wanted("a sum of money", "18.50")

MOST_FIGURES: Final = 12
"""Most figures of a sum of money before its decimal sign: beyond that, decimal arithmetic would round."""
MOST_DECIMALS: Final = 4
"""Most figures of a price behind its decimal sign."""

_PERCENT: Final = re.compile(r" *(%|per ?cent)$", re.IGNORECASE)
_TIMES: Final = re.compile(r" *(x|×|times)$", re.IGNORECASE)
_COMMA: Final = re.compile(r"^([0-9]+),([0-9]+)$")
_WORDS: Final = {"yes": True, "y": True, "no": False, "n": False}


def read_number(text: str) -> TypedNumber:
    """A number that is not below zero: `2.5`, `2,5`, `2 1/2`, `5/2`. Raises Misread for anything else."""
    typed = tidied(text, NUMBER)
    return TypedNumber.of(amount(_numbers(typed), typed), typed.text)


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
    return TypedNumber.of(share, typed.text if typed.text[-1] in "%tT" else f"{typed.text} %")


def read_whole(text: str) -> int:
    """A whole number that is not below zero. Raises Misread for anything else."""
    typed = tidied(text, WHOLE)
    return whole(_numbers(typed), typed)


def _without_sign(text: str) -> Typed:
    """A sum of money as it is kept: the sign of the currency is the job's, and not each price's. Raises Misread."""
    bare = text.strip()
    for end in (0, -1):
        if bare and unicodedata.category(bare[end]) == "Sc":
            bare = (bare[1:] if end == 0 else bare[:-1]).strip()
            break
    return tidied(bare or text, MONEY)


def read_money(text: str) -> Money:
    """A sum of money, at most MOST_DECIMALS decimals: `18.50`, `18,5`; its sign may stand at either end. Raises
    Misread."""
    typed = _without_sign(text)
    found = _numbers(typed)
    if any(each.kind in "/f" for each in found):
        raise typed.misread("contains a fraction: type money with decimals.")
    amount(found, typed)
    figures, _, decimals = found[0].text.replace(",", ".").partition(".")
    if len(decimals) > MOST_DECIMALS:
        raise typed.misread(f"has {len(decimals)} decimals: type at most {MOST_DECIMALS}.")
    if len(figures.lstrip("0")) > MOST_FIGURES:
        raise typed.misread(f"is too large: type at most {MOST_FIGURES} digits before the decimal sign.")
    return Money.of(Decimal(f"{figures or 0}.{decimals}" if decimals else figures), typed.text)


def read_yes_no(text: str) -> bool:
    """True for `yes` or `y`, False for `no` or `n`, in large or small letters. Raises Misread for anything else."""
    word = text.strip().lower()
    if not word:
        raise Misread("Nothing was typed: type yes or no.", "yes")
    if word not in _WORDS:
        raise Misread(f"{quoted(text.strip())} is neither yes nor no.", "yes")
    return _WORDS[word]


def _numbers(typed: Typed) -> list[Token]:
    """The pieces of a text without a unit or a word."""
    found = tokens(typed)
    word = next((each.text for each in found if each.kind == "u"), None)
    if word is not None:
        raise typed.misread(f"contains a word or a unit ({word}): type only {typed.wanted.noun}.")
    return found
