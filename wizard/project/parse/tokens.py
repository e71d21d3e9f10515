"""What was typed: tidied, hopeless characters refused, and taken apart into numbers, ready-made fractions, slashes,
hyphens and unit words.

Never NFKC: it would make `80½` into `801⁄2`.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from typing import Final, Literal

from msgspec import Struct

from wizard.project.parse.misread import Misread, Wanted, asked, quoted

Kind = Literal["n", "f", "/", "-", "u"]
"""A number, a ready-made fraction, a slash, a hyphen, a unit word or mark."""

_PIECE: Final = re.compile(
    r"(?P<n>[.,]*[0-9][0-9.,]*)|(?P<u>[^\W\d\u00bc-\u00be\u2150-\u215f\u2189]+\.?|['\"])|(?P<sign>\S)"
)
"""Ready-made fractions count as word characters in a pattern, so they are kept out of the unit words."""
_ALONE: Final[dict[str, Kind]] = {"/": "/", "-": "-"}


class Token(Struct, frozen=True):
    """One piece of the text, with where it stands."""

    kind: Kind
    text: str
    start: int
    end: int


class Typed(Struct, frozen=True):
    """A tidied text, what it should be, and the unit put behind it where none was typed."""

    text: str
    wanted: Wanted
    unit: str | None = None

    def misread(self, sentence: str, *, once_taken: bool = False) -> Misread:
        """The refusal; `sentence` begins after the text itself."""
        return Misread(f"{quoted(self.text)} {sentence}", self.wanted.example, once_taken=once_taken)

    def asked(self, stem: str, *readings: str, once_taken: bool = False) -> Misread:
        """The question which of the readings is meant; `stem` begins after the text itself."""
        return asked(f"{quoted(self.text)} {stem}", readings, once_taken=once_taken)

    def with_unit(self, text: str) -> str:
        """`text` with the unit behind it where none was typed."""
        return f"{text} {self.unit}" if self.unit else text

    def instead(self, text: str, *found: Token) -> str:
        """The whole text with `text` in the place of what was found in a row: what may have been meant."""
        return self.with_unit(self.text[: found[0].start] + text + self.text[found[-1].end :])

    def tight(self, token: Token) -> bool:
        """True when no space stands before or behind `token`."""
        return " " not in self.text[token.start - 1 : token.end + 1]


def is_vulgar(character: str) -> bool:
    """True for one of the ready-made fractions, like ½."""
    return unicodedata.decomposition(character).startswith("<fraction>")


def tokens(typed: Typed) -> list[Token]:
    """The pieces of the text in order; raises Misread for a sign that has no place in it."""
    found: list[Token] = []
    for match in _PIECE.finditer(typed.text):
        if match["sign"]:
            found += _signs(match, typed)
        else:
            found.append(Token("n" if match["n"] else "u", match[0], match.start(), match.end()))
    return found


def _signs(match: re.Match[str], typed: Typed) -> list[Token]:
    sign, start, end = match[0], match.start(), match.end()
    if sign == "⅟":
        return [Token("n", "1", start, end), Token("/", "/", start, end)]
    if kind := _ALONE.get(sign):
        return [Token(kind, sign, start, end)]
    if is_vulgar(sign):
        return [Token("f", unicodedata.normalize("NFKD", sign).replace("⁄", "/"), start, end)]
    if sign in ",.":
        raise typed.misread(f"has a {'comma' if sign == ',' else 'point'} that is not a decimal sign: leave it out.")
    raise typed.misread(f'contains an unexpected "{sign}".')


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
_REFUSED: Final = (
    (re.compile(r"∞|\b(inf|infinity|infinite|nan)\b", re.IGNORECASE), "is not a number that can be measured."),
    (re.compile(r"\A[^\d\u00bc-\u00be\u2150-\u215f\u2189]*\Z"), "has no number in it."),
    (re.compile(r"\A[-−—]"), "is below zero: {noun} cannot be negative."),
    (re.compile(r"\A[≈~<>≤≥±∼]"), "is not exact ({found}): type the number alone."),
    (re.compile(r"[0-9.,]e[+-]?[0-9]", re.IGNORECASE), "is written with an exponent: type the number in full."),
    (
        re.compile(r"[+*×÷^=()·−—]|[0-9] *x *[0-9]", re.IGNORECASE),
        "contains a sum: work it out and type the result.",
    ),
    (
        re.compile(r"[0-9] *(m|cm|mm)[23]$", re.IGNORECASE),
        "looks like an area or a volume: type {noun}.",
    ),
)
"""What no length or number has in it, and what is said of it; the first that is found."""


def tidied(text: str, wanted: Wanted) -> Typed:
    """`text` as it is kept: one plain space where there was any white space, plain quotes, slashes and hyphens.

    Raises Misread for nothing, for too much, and for what no length or number has in it.
    """
    trimmed = text.strip()
    if not trimmed:
        raise Misread(f"Nothing was typed: type {wanted.noun}.", wanted.example)
    behind = _UNIT_BEHIND.search(trimmed[-3:])
    count = len(trimmed) - (len(behind[0]) if behind else 0)
    if count > LONGEST:
        raise Misread(f"That is {count} characters: type at most {LONGEST}.", wanted.example)
    typed = Typed(" ".join(trimmed.split()).translate(_PLAIN).replace("''", '"'), wanted)
    if unseen := next((each for each in typed.text if not each.isprintable()), ""):
        raise Misread(f"It contains an invisible character (U+{ord(unseen):04X}): type it again.", wanted.example)
    for found, says in _faults(typed.text):
        raise typed.misread(says.format(found=found, noun=wanted.noun))
    if len(trimmed.splitlines()) > 1:
        raise typed.asked("contains a line break", typed.text, once_taken=True)
    return typed


def _faults(tidy: str) -> Iterator[tuple[str, str]]:
    """What does not belong into a length or number, each with what is said of it."""
    for each in tidy:
        category = unicodedata.category(each)
        if each in "²³":
            yield each, "has a raised {found}, as in areas and volumes: type {noun}."
        elif not each.isascii() and category in ("Nd", "Nl", "No") and not is_vulgar(each):
            yield each, "contains a digit other than 0 to 9 ({found}): type plain digits."
        elif category == "Sc":
            yield each, "contains a currency sign ({found}): leave it out."
    yield from ((match[0], says) for pattern, says in _REFUSED if (match := pattern.search(tidy)))
