"""How wide lettering is in a picture, whatever typeface shows it; and how text is made to fit."""

from __future__ import annotations

from fractions import Fraction
from itertools import accumulate
from typing import Final

from wizard.render.plain_text import cell_len, literal
from wizard.render.text_page import wrapped

# In hundredths of the letters' height: the wider of what the usual sans-serif faces take, so that a line set by it
# stays inside whichever of them a browser has.
_USUAL: Final = 62
_CAPITAL: Final = 76
_BROAD: Final = 100
_BOLD: Final = Fraction(11, 10)
"""How much wider bold lettering is."""
_OF_KIND: Final = {
    **dict.fromkeys(" .,:;'|!/\\ijlI`", 34),
    **dict.fromkeys("()[]{}ftr-", 42),
    **dict.fromkeys("mMW%@…—", _BROAD),
    **dict.fromkeys("0123456789", 64),
    **dict.fromkeys("w≈×+<>=~^#&", 84),
}
_LEAST_LEFT: Final = 3
"""Fewer letters of a name than this tell nobody which it is."""


def lettering_width(text: str, height: int, *, bold: bool = False) -> Fraction:
    """How wide `text`, as it is shown, may come out in letters of that height; in the units of the height."""
    return Fraction(sum(map(_letter, literal(text))) * height, 100) * (_BOLD if bold else 1)


def _letter(letter: str) -> int:
    if letter in _OF_KIND:
        return _OF_KIND[letter]
    if cell_len(letter) != 1:
        return cell_len(letter) * _BROAD // 2
    return _CAPITAL if letter.isupper() or not letter.isalnum() else _USUAL


def shortened(text: str, width: Fraction, height: int, end: str = "") -> str:
    """`text` with `end` after it, in at most `width`: where it is too long it loses letters, and … shows that.

    "" where hardly a letter would be left of it.
    """
    shown = literal(text)
    if lettering_width(shown + end, height) <= width:
        return shown + end
    left = width - lettering_width("…" + end, height)
    kept = sum(total * height <= left * 100 for total in accumulate(map(_letter, shown)))
    return f"{shown[:kept].rstrip()}…{end}" if kept >= _LEAST_LEFT else ""


def wrapped_lettering(text: str, width: int, height: int, *, bold: bool = False) -> list[str]:
    """`text` in lines of at most `width`, broken at blanks, and longer words anywhere; one line at least."""
    return list(wrapped(literal(text), width, lambda part: lettering_width(part, height, bold=bold))) or [""]
