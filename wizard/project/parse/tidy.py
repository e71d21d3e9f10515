"""The first look at what was typed: trimmed, its quotes and primes made plain, hopeless characters refused.

Never NFKC: it would make `80½` into `801⁄2`.
"""

from __future__ import annotations

import re
import unicodedata
from typing import Final

from wizard.project.parse.misread import Wanted, quoted

LONGEST: Final = 40
"""Most characters a person may type for one length or number."""

_UNIT_BEHIND: Final = re.compile(r" ?([a-z]{1,2}|%)$", re.IGNORECASE)
"""Not counted, so that a text stays short enough when a unit is put behind it to keep it."""

_PLAIN: Final = str.maketrans(
    dict.fromkeys("′‘’‛ʹʼ´`", "'")
    | dict.fromkeys("″“”„‟ʺ", '"')
    | dict.fromkeys("⁄∕", "/")
    | dict.fromkeys("‐‑‒–", "-")
)
_ROUGH: Final = "≈~<>≤≥±∼"
_POWERS: Final = "²³"
_EXPONENT: Final = re.compile(r"[0-9.,]e[+-]?[0-9]", re.IGNORECASE)
_ENDLESS: Final = re.compile(r"∞|\b(inf|infinity|infinite|nan)\b", re.IGNORECASE)
_SUM: Final = re.compile(r"[+*×÷^=()·−—]|[0-9] *x *[0-9]", re.IGNORECASE)
_SQUARED: Final = re.compile(r"[0-9] *(m|cm|mm)[23]$", re.IGNORECASE)


def is_vulgar(character: str) -> bool:
    """True for one of the ready-made fractions, like ½."""
    return unicodedata.decomposition(character).startswith("<fraction>")


def tidied(text: str, wanted: Wanted) -> str:
    """`text` as it is kept: one plain space where there was any white space, plain quotes, slashes and hyphens.

    Raises Misread for nothing, for too much, and for what no length or number has in it.
    """
    trimmed = text.strip()
    if not trimmed:
        raise wanted.misread(f"Nothing was typed: type {wanted.noun}.")
    behind = _UNIT_BEHIND.search(trimmed[-3:])
    count = len(trimmed) - (len(behind[0]) if behind else 0)
    if count > LONGEST:
        raise wanted.misread(f"That is {count} characters: type at most {LONGEST}.")
    tidy = " ".join(trimmed.split()).translate(_PLAIN).replace("''", '"')
    _refuse_unseen(tidy, wanted)
    _refuse_characters(tidy, wanted)
    _refuse_notations(tidy, wanted)
    if len(trimmed.splitlines()) > 1:
        raise wanted.asked(f"{quoted(tidy)} contains a line break", tidy, once_taken=True)
    return tidy


def _refuse_unseen(tidy: str, wanted: Wanted) -> None:
    for each in tidy:
        if not each.isprintable():
            raise wanted.misread(f"It contains an invisible character (U+{ord(each):04X}): type it again.")


def _refuse_characters(tidy: str, wanted: Wanted) -> None:
    for each in tidy:
        if each in _POWERS:
            raise wanted.misread(f"{quoted(tidy)} has a raised {each}, as in areas and volumes: type {wanted.noun}.")
        if not each.isascii() and unicodedata.category(each) in ("Nd", "Nl", "No") and not is_vulgar(each):
            raise wanted.misread(f"{quoted(tidy)} contains a digit other than 0 to 9 ({each}): type plain digits.")
        if unicodedata.category(each) == "Sc":
            raise wanted.misread(f"{quoted(tidy)} contains a currency sign ({each}): leave it out.")


def _refuse_notations(tidy: str, wanted: Wanted) -> None:
    if _ENDLESS.search(tidy):
        raise wanted.misread(f"{quoted(tidy)} is not a number that can be measured.")
    if not any(each.isdigit() or is_vulgar(each) for each in tidy):
        raise wanted.misread(f"{quoted(tidy)} has no number in it.")
    if tidy[0] in "-−—":
        raise wanted.misread(f"{quoted(tidy)} is below zero: {wanted.noun} cannot be negative.")
    if tidy[0] in _ROUGH:
        raise wanted.misread(f"{quoted(tidy)} is not exact ({tidy[0]}): type the number alone.")
    if _EXPONENT.search(tidy):
        raise wanted.misread(f"{quoted(tidy)} is written with an exponent: type the number in full.")
    if _SUM.search(tidy):
        raise wanted.misread(f"{quoted(tidy)} contains a sum: work it out and type the result.")
    if _SQUARED.search(tidy):
        raise wanted.misread(f"{quoted(tidy)} looks like an area or a volume: type {wanted.noun}.")
