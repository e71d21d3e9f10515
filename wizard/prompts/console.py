"""Lines in and lines out, and the orders among them: `back`, or `.back` where any text is an answer.

Only text and line feeds are ever written, and no sign that a speaking program stumbles over: no colour, no drawing, a
sentence a line, a row of a table a line. No answer begins as an order with a full stop does: `.5` is half an inch."""

from __future__ import annotations

import os
import re
import shutil
import sys
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from functools import cache
from importlib.resources import files
from typing import Final, TextIO, TypeVar

from wizard.render.plain_text import literal
from wizard.render.text_page import Page, wrapped
from wizard.trade.field_names import first_up

T = TypeVar("T")

_WORD: Final = re.compile(r"\s*(\.?)([A-Za-z][\w-]*)\s*(.*?)\s*")
_DOUBLED: Final = re.compile(r"\s*\.\.[A-Za-z]")
HELP: Final = "?"


@cache
def _words() -> dict[str, str]:
    text = files(__package__).joinpath("words.txt").read_text(encoding="utf-8")
    return dict(line.split(": ", 1) for line in text.splitlines() if not line.startswith("#"))


def said(key: str, *values: object) -> str:
    """What `words.txt` has at a key, with what the job says in it. KeyError for none."""
    return _words()[key].format(*values)


Order = tuple[str, str]
"""The name of an order, and the text after it."""


Do = Callable[[T, str], None]
"""Carries an order out: takes what it is done to, and the text after it. Its docstring is its help, in the imperative,
and its name the order's."""


def called(do: Do[T]) -> str:
    """The name of an order. An underscore keeps it apart from the language's own words."""
    return do.__name__.rstrip("_")


def help_line(do: Do[T]) -> str:
    """`back: Go to the page before.`."""
    return f"{called(do)}: {' '.join((do.__doc__ or '').split())}"


def order_in(line: str, names: Collection[str] = ()) -> Order | None:
    """The order in a line: `?`, one that begins with a full stop, or one of `names`; None for an answer."""
    if line.strip() == HELP:
        return "help", HELP
    found = _WORD.fullmatch(line)
    if found is None or not (found[1] or found[2].casefold() in names):
        return None
    return found[2].casefold(), found[3]


def answer_in(line: str) -> str:
    """The answer in a line that holds no order: of two full stops before a letter the first is taken off."""
    text = line.strip()
    return text[1:] if _DOUBLED.match(text) else text


def meant(orders: Iterable[Do[T]], name: str) -> Do[T] | str:
    """The order of that name, else the only one that begins so; a sentence where there is none, or several."""
    known = {called(each): each for each in orders}
    begun = [name] if name in known else [each for each in known if each.startswith(name)]
    if len(begun) == 1:
        return known[begun[0]]
    return said("several orders", ", ".join(begun)) if begun else said("no order", name)


def numbered(text: str, count: int) -> int | None:
    """The place, from 0, that a number from 1 to `count` names; None for any other text."""
    return int(text) - 1 if text.isdecimal() and len(text) < 5 and 1 <= int(text) <= count else None


READABLE: Final = (20, 80)
"""Fewest and most columns of a line; longer ones are hard to follow."""


class Interrupted(Exception):  # noqa: N818  (no fault: something else is wanted)
    """An order was typed where something else was asked for. It is the next line that is read."""


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
        self.names: Collection[str] = ()
        """The orders that need no full stop where a number is asked for."""

    def say(self, *texts: str) -> None:
        """Print each text, a sentence a line."""
        for text in texts:
            self.put(in_lines(text, self.columns))

    def put(self, lines: Iterable[str]) -> None:
        """Print lines that are laid out already."""
        for line in lines:
            print(line, file=self._target)

    def ask(self, prompt: str) -> str:
        """What is typed after `prompt`, without its line end. InputEnded when there is nothing more."""
        if self._put_back is not None:
            line, self._put_back = self._put_back, None
            return line
        try:
            line = self._line(f"{spoken(prompt)} ")
        except KeyboardInterrupt:
            self.put([""])
            raise
        if not line:
            self.put([""])
            raise InputEnded
        line = line.rstrip("\r\n")
        if not self._shown:
            self.put([spoken(line)])
        return line

    def name(self, prompt: str) -> str:
        """Text that names something. An order after a full stop interrupts."""
        line = self.ask(prompt).strip()
        self._heed(order_in(line))
        return line

    def carry_out(self, order: Order, orders: Iterable[Do[T]], on: T) -> None:
        """Carry out an order of those there are; say what is wrong where it is none, or several."""
        found = meant(orders, order[0])
        self.say(found) if isinstance(found, str) else found(on, order[1])

    def choose(self, prompt: str, choices: Sequence[str]) -> int | None:
        """Print `choices` with their numbers; the place, from 0, of the one that is picked, or None."""
        self.say(*(f"{number}. {each}" for number, each in enumerate(choices, 1)))
        return self.pick(prompt, len(choices))

    def pick(self, prompt: str, count: int) -> int | None:
        """The place, from 0, of what is picked by its number from 1; None for an empty line. An order interrupts."""
        while line := self.ask(prompt).strip():
            self._heed(order_in(line, self.names))
            picked = numbered(line, count)
            if picked is not None:
                return picked
            self.say(said("not in the list", line, count))
        return None

    def _heed(self, order: Order | None) -> None:
        if order is not None:
            self._put_back = f".{order[0]} {order[1]}"
            raise Interrupted

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


_ROUNDED: Final = re.compile(r"≈ (?=[\d-])")
_BOTH: Final = re.compile(r" · (?=about |\d|-)")
_SENTENCE: Final = re.compile(r"(?<=[^\d][.!?]) (?=[A-Z“])")
"""Where a sentence ends. A full stop behind a figure may be the number of a list."""
_REASONING: Final = {"−": "minus", "×": "times", "÷": "divided by", "≤": "at most", "≥": "at least"}


def spoken(text: str) -> str:
    """`text` with every control character written out, and `≈` before a figure as a word."""
    return _ROUNDED.sub("about ", literal(text))


def spoken_length(text: str) -> str:
    """A length in both systems, with a comma between them: `12 1/8 in, about 308 mm`."""
    return _BOTH.sub(", ", spoken(text))


def spoken_formula(text: str) -> str:
    """A formula, or its values, with the signs of arithmetic as words."""
    return "".join(_REASONING.get(each, each) for each in spoken(text))


def in_lines(text: str, columns: int) -> Iterator[str]:
    """`text` a sentence a line, in lines of at most `columns`; nothing for nothing."""
    for sentence in _SENTENCE.split(spoken(text)):
        yield from wrapped(sentence, columns)


class SpokenPage(Page, frozen=True):
    """A page for the blocks of the sheet: headings without rules, and each row of a table as a line of its own."""

    def heading(self, text: str) -> list[str]:
        """A blank line and the heading."""
        return ["", *self.para(text)]

    def subheading(self, text: str) -> list[str]:
        """A blank line and the smaller heading."""
        return self.heading(text)

    def para(self, text: str, first: str = "") -> list[str]:
        """A sentence a line; of the text before the first line only words are kept."""
        words = f"{first.strip()} " if any(each.isalpha() for each in first) else ""
        return list(in_lines(f"{words}{text}", self.columns))

    def pair(self, label: str, value: str) -> list[str]:
        """`label: value`."""
        return self.para(f"{first_up(label)}{'' if label.endswith('?') else ':'} {value}")

    def table(self, heads: Sequence[str], rows: Iterable[Sequence[str]], left: Sequence[int] = (0,)) -> list[str]:
        """Each row on a line, every value after its head: `mark 1, tape 4 1/2, flat skirt 11 1/4`."""
        said = (
            ", ".join(f"{head} {value}".strip() for head, value in zip(heads, row, strict=True) if value)
            for row in rows
        )
        return [line for row in said for line in self.para(first_up(row))]
