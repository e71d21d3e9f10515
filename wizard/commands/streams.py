"""Standard output and error: plain signs for letters they lack, remarks they cannot take, a line of progress."""

from __future__ import annotations

import codecs
import json
import os
import re
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stderr
from typing import Any, Final, TextIO, cast

NAME: Final = "railskirt.plain"
"""What the handler is registered under, for a stream's `errors`."""

PLAIN: Final[dict[str, str]] = {
    **dict.fromkeys("│┃║┊", "|"),
    **dict.fromkeys("─━═┄╌", "-"),
    **dict.fromkeys("┌┐└┘├┤┬┴┼┏┓┗┛┣┫┳┻╋╔╗╚╝╠╣╦╩╬", "+"),
    **dict(zip("▲▼◄►░≈·×÷−–—…“”‘’", "^v<>/~-x/---.\"\"''", strict=True)),
}
"""Sign -> one plain letter, so that nothing moves in a drawing or a table."""


def plain_signs(error: UnicodeError) -> tuple[str, int]:
    """Codec error handler: the plain sign where there is one, else the letter's number, as `\\xf6`."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    found = error.object[error.start : error.end]
    plain = "".join(PLAIN.get(each, each) for each in found)
    return plain.encode("ascii", "backslashreplace").decode("ascii"), error.end


codecs.register_error(NAME, plain_signs)


def fitting(text: str, form: str, out: TextIO) -> str:
    """A sheet as an output of few letters takes it and its form still says the same: a letter's number in HTML and SVG,
    its code in JSON. For people's text and for UTF-8 there is nothing to do."""
    if form not in ("html", "svg", "json") or (out.encoding or "utf-8").lower().replace("-", "") == "utf8":
        return text
    if form == "json":
        return re.sub(r"[^\x00-\x7f]+", lambda found: json.dumps(found[0])[1:-1], text)
    return text.encode("ascii", "xmlcharrefreplace").decode("ascii")


def let_go(stream: TextIO) -> None:
    """Point an output that accepts nothing more at the null device, so that the interpreter's last flush succeeds."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, stream.fileno())
    os.close(nowhere)


@contextmanager
def talk_may_be_lost() -> Iterator[None]:
    """Inside, messages that standard error cannot take, as on a full disk, are lost and change no exit status."""
    with redirect_stderr(cast("TextIO", _Talk(sys.stderr))) as talk:
        try:
            yield
        finally:
            talk.flush()


class _Talk:
    """A stream that drops what it cannot write."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream

    def write(self, text: str) -> int:
        """Write what can be written."""
        try:
            self._stream.write(text)
        except OSError:
            let_go(self._stream)
        return len(text)

    def flush(self) -> None:
        """Flush what can be flushed."""
        try:
            self._stream.flush()
        except OSError:
            let_go(self._stream)

    def __getattr__(self, name: str) -> Any:
        return getattr(self._stream, name)


BAR: Final = 30
"""Columns of the bar."""
PAUSE: Final = 0.1
"""Seconds between two drawings."""


class Progress:
    """How many of all are done, with a bar, on one line of a terminal; nothing elsewhere."""

    def __init__(self, count: int) -> None:
        self.count = count
        self.at, self.shown, self.next = 0, 0, 0.0
        """Done so far; columns on the line; when it is drawn next."""

    def done(self) -> None:
        """Count one more, and draw the line again from time to time."""
        self.at += 1
        if sys.stderr.isatty() and (now := time.monotonic()) >= self.next:
            self.next = now + PAUSE
            full = BAR * self.at // self.count
            words = f"railskirt: [{'#' * full}{'.' * (BAR - full)}] {self.at} of {self.count}"
            self.shown = len(words)
            print(f"\r{words}", end="", file=sys.stderr, flush=True)

    def clear(self) -> None:
        """Erase the line, so that the next message has a line to itself; the bar is drawn again after it."""
        if self.shown:
            print("\r" + " " * self.shown + "\r", end="", file=sys.stderr, flush=True)
            self.shown, self.next = 0, 0.0
