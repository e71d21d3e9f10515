"""Signs for an output that has few letters: what it cannot show comes out plain, and ends no run."""

from __future__ import annotations

import codecs
from typing import Final

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
