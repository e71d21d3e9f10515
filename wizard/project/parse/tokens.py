"""What was typed, taken apart into numbers, ready-made fractions, slashes, hyphens and unit words."""

from __future__ import annotations

import re
import unicodedata
from typing import Final, Literal

from msgspec import Struct

from wizard.project.parse.misread import Asked, Misread, Wanted, quoted

Kind = Literal["n", "f", "/", "-", "u"]
"""A number, a ready-made fraction, a slash, a hyphen, a unit word or mark."""

_PIECE: Final = re.compile(
    r"(?P<n>[.,]*[0-9][0-9.,]*)|(?P<u>[^\W\d\u00bc-\u00be\u2150-\u215f\u2189]+\.?|['\"])|(?P<sign>\S)"
)
"""Ready-made fractions count as word characters in a pattern, so they are kept out of the unit words."""
_ONE_OVER: Final = "⅟"


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

    def asked(self, stem: str, *readings: str, once_taken: bool = False) -> Asked:
        """The question which of the readings is meant; `stem` begins after the text itself."""
        return Asked(f"{quoted(self.text)} {stem}", readings, once_taken=once_taken)

    def with_unit(self, text: str) -> str:
        """`text` with the unit behind it where none was typed."""
        return f"{text} {self.unit}" if self.unit else text

    def instead(self, token: Token, text: str) -> str:
        """The whole text with `text` in the place of `token`: what may have been meant."""
        return self.with_unit(self.text[: token.start] + text + self.text[token.end :])

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
        found += _signs(match, typed) if match["sign"] else [_token(match)]
    return found


def _token(match: re.Match[str]) -> Token:
    return Token("n" if match["n"] else "u", match[0], match.start(), match.end())


def _signs(match: re.Match[str], typed: Typed) -> list[Token]:
    sign, start, end = match[0], match.start(), match.end()
    if sign == _ONE_OVER:
        return [Token("n", "1", start, end), Token("/", "/", start, end)]
    if sign == "/":
        return [Token("/", sign, start, end)]
    if sign == "-":
        return [Token("-", sign, start, end)]
    if is_vulgar(sign):
        return [Token("f", unicodedata.normalize("NFKD", sign).replace("⁄", "/"), start, end)]
    if sign in ",.":
        raise typed.misread(f"has a {'comma' if sign == ',' else 'point'} that is not a decimal sign: leave it out.")
    raise typed.misread(f'contains an unexpected "{sign}".')
