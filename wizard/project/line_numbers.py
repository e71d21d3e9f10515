"""Where each key of a TOML text stands, and whether it holds comments. For text that is known to be TOML: the parser
of the standard library says what is in it, but not where."""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_right
from typing import Final

from msgspec import Struct

from wizard.trade.fields import Path

DEEPEST: Final = 8
"""Keys deeper than this are no project's, and not looked for."""

_BLANK: Final = re.compile(r"[ \t]*")
_GAP: Final = re.compile(r"[ \t\r\n]*")
_COMMENT: Final = re.compile(r"#[^\n]*")
_BARE_KEY: Final = re.compile(r"[A-Za-z0-9_-]+")
_BARE_VALUE: Final = re.compile(r"[^,\]}\n#]*")
TEXTS: Final = (
    re.compile(r'"""(?:[^"\\]|\\.|"(?!""))*(?:"{3,5})?', re.DOTALL),
    re.compile(r"'''(?:[^']|'(?!''))*(?:'{3,5})?", re.DOTALL),
    re.compile(r'"(?:[^"\\\n]|\\[^\n])*"?'),
    re.compile(r"'[^'\n]*'?"),
)
"""The four kinds of text, the long ones first, their last quote there or not."""


class Places(Struct, frozen=True):
    """Lines of a text, from 1, by the path of what stands there; list items count from 1."""

    lines: dict[Path, int]
    has_comments: bool

    def line(self, path: Path) -> int | None:
        """The line of `path`, else of the nearest table or list above it; None when nothing of it stands there."""
        return next((self.lines[path[:at]] for at in range(len(path), 0, -1) if path[:at] in self.lines), None)


def places(text: str) -> Places:
    """The places in `text`, which must be TOML, its lists and tables not opened more than a few dozen deep."""
    walk = _Walk(text)
    walk.statements()
    return Places(walk.lines, walk.comments)


class _Walk:
    """One walk through the text, from its beginning to its end."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.lines: dict[Path, int] = {}
        self.comments = False
        self._breaks = [match.start() for match in re.finditer("\n", text)]
        self._rows: dict[Path, int] = {}

    def statements(self) -> None:
        header: Path = ()
        self._gap()
        while self.at < len(self.text):
            if self.text[self.at] == "[":
                header = self._header()
            else:
                self._pair(header)
            self._gap()

    def _header(self) -> Path:
        rows = self.text.startswith("[[", self.at)
        start = self.at
        self.at += 2 if rows else 1
        path = self._in_last_row(self._key())
        self.at += 2 if rows else 1
        if rows:
            self._rows[path] = self._rows.get(path, 0) + 1
            self._note(path, start)
            path = (*path, str(self._rows[path]))
        self._note(path, start)
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
        start = self.at
        path = table + self._key()
        self._note(path, start)
        self.at += 1
        self._value(path)

    def _value(self, path: Path) -> None:
        self._skip(_BLANK)
        match self.text[self.at]:
            case "[":
                self._list(path)
            case "{":
                self._inline(path)
            case '"' | "'":
                self._string()
            case _:
                self._skip(_BARE_VALUE)

    def _list(self, path: Path) -> None:
        self._open()
        item = 0
        while self.text[self.at] != "]":
            item += 1
            inside = (*path[: DEEPEST + 1], str(item))
            self._note(inside, self.at)
            self._value(inside)
            self._comma()
        self.at += 1

    def _inline(self, path: Path) -> None:
        self._open()
        while self.text[self.at] != "}":
            self._pair(path[: DEEPEST + 1])
            self._comma()
        self.at += 1

    def _open(self) -> None:
        self.at += 1
        self._gap()

    def _comma(self) -> None:
        self._gap()
        if self.text[self.at] == ",":
            self._open()

    def _key(self) -> Path:
        """A dotted key, its quotes taken off; stands behind it, and behind blanks, afterwards."""
        names: list[str] = []
        while True:
            self._skip(_BLANK)
            names.append(self._name())
            self._skip(_BLANK)
            if self.text[self.at] != ".":
                return tuple(names)
            self.at += 1

    def _name(self) -> str:
        if self.text[self.at] in "\"'":
            raw = self._string()
            return str(tomllib.loads(f"name = {raw}")["name"])
        return self._skip(_BARE_KEY)

    def _string(self) -> str:
        match = next(match for kind in TEXTS if (match := kind.match(self.text, self.at)))
        self.at = match.end()
        return match[0]

    def _skip(self, what: re.Pattern[str]) -> str:
        match = what.match(self.text, self.at)
        if match is None:
            raise ValueError(f"not TOML at character {self.at}")
        self.at = match.end()
        return match[0]

    def _gap(self) -> None:
        """Over blanks, ends of lines and comments."""
        self._skip(_GAP)
        while self.text.startswith("#", self.at):
            self.comments = True
            self._skip(_COMMENT)
            self._skip(_GAP)

    def _note(self, path: Path, start: int) -> None:
        """Remember where `path` stands first, and every table above it that has no line of its own yet."""
        line = bisect_right(self._breaks, start - 1) + 1 if start else 1
        for depth in range(1, min(len(path), DEEPEST) + 1):
            self.lines.setdefault(path[:depth], line)
