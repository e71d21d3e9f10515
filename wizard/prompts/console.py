"""Lines in and lines out, and the commands among them: a full stop and a letter, as in `.back`.

Nothing but text and line feeds is ever written: no colour, no moving about. No answer begins as a command does: `.5`
is half an inch."""

from __future__ import annotations

import os
import re
import shutil
import sys
from collections.abc import Callable, Iterable, Sequence
from typing import Final, Generic, TextIO, TypeVar

from msgspec import Struct

from wizard.prompts.speech import in_lines, spoken

T = TypeVar("T")

_ORDER: Final = re.compile(r"\s*\.([A-Za-z][\w-]*)\s*(.*?)\s*")
_DOUBLED: Final = re.compile(r"\s*\.\.[A-Za-z]")


class Command(Struct, Generic[T], frozen=True):
    """One thing that can be done, in one place for reading, doing and helping."""

    name: str
    """Typed after a full stop; its beginning is enough when nothing else begins so."""
    after: str
    """What may be typed behind it, in words; empty for nothing."""
    says: str
    """One sentence for the help."""
    group: str
    """Heading in the help."""
    do: Callable[[T, str], None]
    """Takes what it is done to, and what was typed behind it."""


def command_in(line: str) -> tuple[str, str] | None:
    """The command in a line and the text after it; None for an answer."""
    found = _ORDER.fullmatch(line)
    return (found[1].casefold(), found[2]) if found else None


def answer_in(line: str) -> str:
    """The answer in a line that holds no order: of two full stops before a letter the first is taken off."""
    text = line.strip()
    return text[1:] if _DOUBLED.match(text) else text


def meant(orders: Sequence[Command[T]], name: str) -> tuple[Command[T], ...]:
    """The orders that `name` may mean: the one of that name, else all that begin so."""
    exact = tuple(each for each in orders if each.name == name)
    return exact or tuple(each for each in orders if each.name.startswith(name))


def unclear(found: Sequence[Command[T]], name: str) -> str:
    """What is said when a name means no order, or several."""
    if found:
        return f"Several begin so: {', '.join(f'.{each.name}' for each in found)}. Type one letter more."
    return (
        f"There is no .{name} here. Type .help for all there is; "
        f"to answer with text that begins with a full stop, type two: ..{name}"
    )


def help_lines(orders: Sequence[Command[T]]) -> list[str]:
    """Every order with what it does, group by group."""
    lines: list[str] = []
    for group in dict.fromkeys(each.group for each in orders):
        lines.append(f"{group}:")
        lines += [help_line(each) for each in orders if each.group == group]
    return lines


def help_line(order: Command[T]) -> str:
    """`.go PLACE: Lists every question and step…`."""
    return f".{order.name}{f' {order.after}' if order.after else ''}: {order.says}"


READABLE: Final = (20, 80)
"""Fewest and most columns of a line; longer ones are hard to follow."""


def numbered(text: str, count: int) -> int | None:
    """The place, from 0, that a number from 1 to `count` names; None for any other text."""
    return int(text) - 1 if text.isdecimal() and len(text) < 5 and 1 <= int(text) <= count else None


class InputEnded(Exception):  # noqa: N818  (no fault: whoever typed has gone)
    """There is nothing more to read: Ctrl+D, or the end of a script."""


class Console:
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

    def choose(self, prompt: str, choices: Sequence[str]) -> int | None:
        """Print `choices` with their numbers; the place, from 0, of the one that is picked, or None."""
        self.say(*(f"{number}. {each}" for number, each in enumerate(choices, 1)))
        return self.pick(prompt, len(choices))

    def pick(self, prompt: str, count: int) -> int | None:
        """The place, from 0, of what is picked by its number from 1; None when nothing is.

        An empty line picks nothing; neither does an order, which is then carried out.
        """
        while True:
            line = self.ask(prompt).strip()
            if not line:
                return None
            if command_in(line):
                self.put_back(line)
                return None
            picked = numbered(line, count)
            if picked is not None:
                return picked
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


def console_here() -> Console:
    """The lines of this process: standard input and output."""
    reconfigure = getattr(sys.stdin, "reconfigure", None)
    if reconfigure is not None:
        # A byte that is no letter is read as what it looks like, and refused or shown like anything else typed.
        reconfigure(errors="backslashreplace")
    return Console(sys.stdin, sys.stdout, shutil.get_terminal_size().columns, edited=_can_edit())


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
