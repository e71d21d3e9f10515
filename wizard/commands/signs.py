"""Signs for an output that has few letters: what it cannot show comes out plain, and ends no run."""

from __future__ import annotations

import codecs
import json
from typing import Final, TextIO

NAME: Final = "railskirt.plain"
"""What the handler is registered under, for a stream's `errors`."""

_UPRIGHT: Final = "│┃║┊"
_LEVEL: Final = "─━═┄╌"
_JOINTS: Final = "┌┐└┘├┤┬┴┼┏┓┗┛┣┫┳┻╋╔╗╚╝╠╣╦╩╬"
PLAIN: Final[dict[str, str]] = {
    **dict.fromkeys(_UPRIGHT, "|"),
    **dict.fromkeys(_LEVEL, "-"),
    **dict.fromkeys(_JOINTS, "+"),
    **dict(zip("▲▼◄►░≈·×÷−–—…“”‘’", "^v<>/~-x/---.\"\"''", strict=True)),
}
"""Sign -> one plain letter, so that nothing moves in a drawing or a table."""


def plain_signs(error: UnicodeError) -> tuple[str, int]:
    """Codec error handler: the plain sign where there is one, else the letter's number, as `\\xf6`."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    found = error.object[error.start : error.end]
    return "".join(PLAIN.get(each) or _numbered(each) for each in found), error.end


def _numbered(letter: str) -> str:
    return letter.encode("ascii", "backslashreplace").decode("ascii")


codecs.register_error(NAME, plain_signs)


def fitting(text: str, form: str, out: TextIO) -> str:
    """A sheet as an output of few letters takes it and its form still says the same: a letter's number in HTML and SVG,
    its code in JSON. For people's text and for UTF-8 there is nothing to do."""
    if form not in _NUMBERED or (out.encoding or "utf-8").lower().replace("-", "") == "utf8":
        return text
    return text.encode("ascii", _NUMBERED[form]).decode("ascii")


def json_codes(error: UnicodeError) -> tuple[str, int]:
    """Codec error handler: letters as JSON writes them, `\\u00f6`, in two parts where one is too small."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    return json.dumps(error.object[error.start : error.end])[1:-1], error.end


_NUMBERED: Final = {"html": "xmlcharrefreplace", "svg": "xmlcharrefreplace", "json": "railskirt.json"}
codecs.register_error(_NUMBERED["json"], json_codes)
