"""Where each key of a TOML text stands, and whether it holds comments. For text that is known to be TOML: the parser
of the standard library says what is in it, but not where."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from typing import Final

from msgspec import Struct

from wizard.trade.fields import Path

DEEPEST: Final = 8
"""Keys deeper than this are no project's, and not looked for."""

TEXTS: Final = (
    re.compile(r'"""(?:[^"\\]|\\.|"(?!""))*(?:"{3,5})?', re.DOTALL),
    re.compile(r"'''(?:[^']|'(?!''))*(?:'{3,5})?", re.DOTALL),
    re.compile(r'"(?:[^"\\\n]|\\[^\n])*"?'),
    re.compile(r"'[^'\n]*'?"),
)
"""The four kinds of text, the long ones first, their last quote there or not."""
_TOKEN: Final = re.compile(
    "|".join([*(each.pattern for each in TEXTS), r"#[^\n]*", r"[\[\]{}=,.\n]", r"[^\s\[\]{}=,.#\"']+"]), re.DOTALL
)
"""A text, a comment, a sign, or a run of other characters; blanks lie between."""


class Places(Struct, frozen=True):
    """Lines of a text, from 1, by the path of what stands there; list items count from 1."""

    lines: dict[Path, int]
    has_comments: bool

    def line(self, path: Path) -> int | None:
        """The line of `path`, else of the nearest table or list above it; None when nothing of it stands there."""
        return next((self.lines[path[:at]] for at in range(len(path), 0, -1) if path[:at] in self.lines), None)


def places(text: str) -> Places:
    """The places in `text`, which must be TOML, its lists and tables not opened more than a few dozen deep."""
    tokens = list(_tokens(text))
    walk = _Walk([each for each in tokens if each[0][0] != "#"])
    walk.statements()
    return Places(walk.lines, len(walk.tokens) - 1 < len(tokens))


def _tokens(text: str) -> Iterator[tuple[str, int]]:
    """Each token with its line."""
    line = 1
    for match in _TOKEN.finditer(text):
        yield match[0], line
        line += match[0].count("\n")


class _Walk:
    """One walk through the tokens, from the first to the last."""

    def __init__(self, tokens: list[tuple[str, int]]) -> None:
        self.tokens = [*tokens, ("", 0)]
        self.at = 0
        self.lines: dict[Path, int] = {}
        self._rows: dict[Path, int] = {}

    def statements(self) -> None:
        header: Path = ()
        while self._next():
            if self._now == "[":
                header = self._header()
            else:
                self._pair(header)

    @property
    def _now(self) -> str:
        return self.tokens[self.at][0]

    def _next(self) -> str:
        """The next token that is no end of a line; "" behind the last."""
        while self._now == "\n":
            self.at += 1
        return self._now

    def _header(self) -> Path:
        line, brackets = self.tokens[self.at][1], 2 if self.tokens[self.at + 1][0] == "[" else 1
        self.at += brackets
        path = self._in_last_row(self._key())
        self.at += brackets
        if brackets == 2:
            self._rows[path] = self._rows.get(path, 0) + 1
            self._note(path, line)
            path = (*path, str(self._rows[path]))
        self._note(path, line)
        return path

    def _in_last_row(self, key: Path) -> Path:
        """A table below an array of tables belongs to the last of them."""
        path: Path = ()
        for at, name in enumerate(key, start=1):
            path = (*path, name)
            if path in self._rows and at < len(key):
                path = (*path, str(self._rows[path]))
        return path

    def _pair(self, table: Path) -> None:
        line = self.tokens[self.at][1]
        path = table + self._key()
        self._note(path, line)
        self.at += 1
        self._value(path)

    def _value(self, path: Path) -> None:
        match self._now:
            case "[":
                for item in self._entries("]"):
                    inside = (*path[: DEEPEST + 1], str(item))
                    self._note(inside, self.tokens[self.at][1])
                    self._value(inside)
            case "{":
                for _ in self._entries("}"):
                    self._pair(path[: DEEPEST + 1])
            case _:
                while self._now not in ("", "\n", ",", "]", "}"):
                    self.at += 1

    def _entries(self, end: str) -> Iterator[int]:
        """Stands at each entry of a list or a table in one line, numbered from 1, then behind its `end`."""
        self.at += 1
        number = 0
        while self._next() != end:
            number += 1
            yield number
            if self._next() == ",":
                self.at += 1
        self.at += 1

    def _key(self) -> Path:
        """A dotted key, its quotes taken off; stands behind it afterwards."""
        names = [self._name()]
        while self._now == ".":
            self.at += 1
            names.append(self._name())
        return tuple(names)

    def _name(self) -> str:
        name = self._now
        self.at += 1
        return str(tomllib.loads(f"name = {name}")["name"]) if name[0] in "\"'" else name

    def _note(self, path: Path, line: int) -> None:
        """Remember where `path` stands first, and every table above it that has no line of its own yet."""
        for depth in range(1, min(len(path), DEEPEST) + 1):
            self.lines.setdefault(path[:depth], line)
