"""How far a command is that takes a while: one line of a terminal; nothing where the remarks go to a file."""

from __future__ import annotations

import time
from typing import Final, TextIO

BAR: Final = 30
"""Columns of the bar."""
PAUSE: Final = 0.1
"""Seconds between two looks of it."""


class Progress:
    """So many of so many, with a bar."""

    def __init__(self, count: int, talk: TextIO) -> None:
        self.count, self.talk = count, talk
        self.at, self.shown, self.next = 0, 0, 0.0
        """Done so far; columns on the line; when it is drawn next."""
        self.watched = talk.isatty()

    def done(self) -> None:
        """One more is done."""
        self.at += 1
        if self.watched and (now := time.monotonic()) >= self.next:
            self.next = now + PAUSE
            self.show()

    def show(self) -> None:
        """Draw it anew."""
        full = BAR * self.at // self.count
        words = f"railskirt: [{'#' * full}{'.' * (BAR - full)}] {self.at} of {self.count}"
        self.talk.write(f"\r{words}")
        self.talk.flush()
        self.shown = len(words)

    def clear(self) -> None:
        """Wipe the line, so that what is said next stands on one of its own; it is drawn again after that."""
        if self.shown:
            self.talk.write("\r" + " " * self.shown + "\r")
            self.talk.flush()
            self.shown, self.next = 0, 0.0
