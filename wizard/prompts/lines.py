"""Lines in and lines out. Nothing but text and line feeds is ever written: no colour, no moving about."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Iterable
from typing import Final, TextIO

from wizard.prompts.order import order_in
from wizard.prompts.speech import in_lines, spoken

READABLE: Final = (20, 80)
"""Fewest and most columns of a line; longer ones are hard to follow."""


class InputEnded(Exception):  # noqa: N818  (no fault: whoever typed has gone)
    """There is nothing more to read: Ctrl+D, or the end of a script."""


class Lines:
    """Asks on `target` and reads from `source`."""

    def __init__(self, source: TextIO, target: TextIO, columns: int = READABLE[1], *, edited: bool = False) -> None:
        self._source, self._target = source, target
        self._edited = edited
        """True when the line can be edited while it is typed, by the terminal's usual keys."""
        self._shown = source.isatty()
        """True when the terminal shows what is typed; what comes from a script is written out here."""
        self._put_back: str | None = None
        self.columns = max(READABLE[0], min(READABLE[1], columns))

    def say(self, *texts: str) -> None:
        """Print each text, a sentence a line."""
        for text in texts:
            self.put(in_lines(text, self.columns))

    def put(self, lines: Iterable[str]) -> None:
        """Print lines that are laid out already."""
        for line in lines:
            print(line, file=self._target)

    def gap(self) -> None:
        """An empty line, before something new."""
        print(file=self._target)

    def ask(self, prompt: str) -> str:
        """What is typed after `prompt`, without its line end. InputEnded when there is nothing more."""
        if self._put_back is not None:
            line, self._put_back = self._put_back, None
            return line
        return self._read(f"{spoken(prompt)} ")

    @property
    def waiting(self) -> bool:
        """True while an order that was typed in a list waits to be carried out."""
        return self._put_back is not None

    def put_back(self, line: str) -> None:
        """Let `line` be what is typed next."""
        self._put_back = line

    def pick(self, prompt: str, count: int) -> int | None:
        """The place, from 0, of what is picked by its number from 1; None when nothing is.

        An empty line picks nothing; neither does an order, which is then carried out.
        """
        while True:
            line = self.ask(prompt).strip()
            if not line:
                return None
            if order_in(line):
                self.put_back(line)
                return None
            if line.isdecimal() and len(line) < 5 and 1 <= int(line) <= count:
                return int(line) - 1
            self.say(f"Not in the list: “{line}”. Give a number from 1 to {count}, or an empty line to leave the list.")

    def _read(self, prompt: str) -> str:
        try:
            line = self._line(prompt)
        except KeyboardInterrupt:
            self.gap()
            raise
        if not line:
            self.gap()
            raise InputEnded
        line = line.rstrip("\r\n")
        if not self._shown:
            print(spoken(line), file=self._target)
        return line

    def _line(self, prompt: str) -> str:
        """A line with its line end; empty when there is none any more."""
        if self._edited:
            try:
                return input(prompt) + "\n"
            except EOFError:
                return ""
        print(prompt, end="", file=self._target, flush=True)
        return self._source.readline()


def lines_here() -> Lines:
    """The lines of this process: standard input and output."""
    reconfigure = getattr(sys.stdin, "reconfigure", None)
    if reconfigure is not None:
        # A byte that is no letter is read as what it looks like, and refused or shown like anything else typed.
        reconfigure(errors="backslashreplace")
    return Lines(sys.stdin, sys.stdout, shutil.get_terminal_size().columns, edited=_can_edit())


def _can_edit() -> bool:
    """True when the line is read through the system's line editor; a dumb terminal edits its lines itself."""
    if os.environ.get("TERM", "dumb") == "dumb" or not (sys.stdin.isatty() and sys.stdout.isatty()):
        return False
    try:
        import readline
    except ImportError:
        return False
    for setting in ("enable-bracketed-paste off", "enable-meta-key off", "bell-style none"):
        # Each of these would write codes that a braille line or a speech synthesiser shows as signs.
        readline.parse_and_bind(f"set {setting}")
    return True
