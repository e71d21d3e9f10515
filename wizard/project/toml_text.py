"""From the bytes of a file to its tables, or one sentence on what keeps it from being TOML; and where each key is in
its text, which the parser of the standard library does not say."""

from __future__ import annotations

import re
import sys
import tomllib
from collections.abc import Iterator
from typing import Any, Final

from msgspec import Struct

from wizard.project.problems import Problems, whole
from wizard.project.value_faults import Unquoted
from wizard.trade.fields import Path

LARGEST: Final = 1_000_000
"""Most bytes of a project file."""
MOST_DOTS: Final = 2000
"""Most dots in one line. A key with more would keep the parser busy for hours; no note is as long."""

DEEPEST_LIST: Final = 20
"""Most lists or tables opened inside each other: far more than a project needs, far less than the parser takes."""

TEXTS: Final = (
    re.compile(r'"""(?:[^"\\]|\\.|"(?!""))*(?:"{3,5})?', re.DOTALL),
    re.compile(r"'''(?:[^']|'(?!''))*(?:'{3,5})?", re.DOTALL),
    re.compile(r'"(?:[^"\\\n]|\\[^\n])*"?'),
    re.compile(r"'[^'\n]*'?"),
)
"""The four kinds of text, the long ones first, their last quote there or not."""

_BRACKETS: Final = re.compile("|".join([*(each.pattern for each in TEXTS), r"#[^\n]*", r"[\[\]{}]"]), re.DOTALL)
"""Brackets, and what brackets inside it do not count: text and comments, finished or not."""
_LONG_NUMBER: Final = re.compile(
    "|".join([*(each.pattern for each in TEXTS), r"#[^\n]*", rf"(?:[0-9]_?){{{sys.get_int_max_str_digits() + 1},}}"]),
    re.DOTALL,
)
"""A number that cannot be read, and what such digits inside it do not count: text and comments."""
_PLACE: Final = re.compile(r"^(.*) \(at (?:line (\d+), column (\d+)|end of document)\)$", re.DOTALL)
_REASONS: Final = (
    ("Cannot", "this key or table is in the file already"),
    ("Duplicate", "this key is in the file already"),
    ("Expected '='", "there is no = after the key"),
    ("Expected ']", "the name of a table is not closed with ]"),
    ("Expected newline", 'there is something after the value; write a " inside text as \\"'),
    ("Invalid statement", "begin the line with a key, with [ or with #"),
    ("Invalid initial", "write a key with letters, digits, - and _, or put it between quotes"),
    ("Invalid value", "the value cannot be read; put text between quotes"),
    ("Invalid date", "there is no such date or time"),
    ("Illegal character '\\n'", "the quote at the end of the text is missing"),
    ("Unterminated", "the quote at the end of the text is missing"),
    ("Unclosed array", "a list has a comma missing, or is not closed with ]"),
    ("Unclosed inline", "a table in one line is not closed with }"),
    ("Unescaped", "write a backslash in text twice, \\\\"),
)
"""How the parser's reason begins -> the reason in plain words."""


def text_of(data: bytes) -> str | Problems:
    """The text of a file, ends of lines made one; a problem when it is no text, too much of it or none."""
    if len(data) > LARGEST:
        return too_large(len(data))
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return whole("The file is written in UTF-16: save it as UTF-8.", 1)
    if b"\0" in data:
        return whole("There is a NUL byte in this line: a project is a text file.", _line(data, data.index(b"\0")))
    try:
        text = data.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        return _not_utf8(data, error.start)
    if not text.strip():
        return whole("The file is empty: a project begins with format = 1")
    return text


def too_large(size: int) -> Problems:
    """The problem of a file of so many bytes."""
    return whole(f"The file has {size} bytes: a project has {LARGEST} at most. Is it the right file?")


def tables_of(text: str) -> dict[str, Any] | Problems:
    """The tables of a text, numbers with decimals as they are written; a problem when it is not TOML."""
    if problem := _too_deep(text):
        return problem
    try:
        return tomllib.loads(text, parse_float=Unquoted)
    except tomllib.TOMLDecodeError as error:
        return _not_toml(str(error), text)
    except ValueError:
        return whole("There is a number with thousands of digits in this line.", _line_of_long_number(text))


def _too_deep(text: str) -> Problems | None:
    """What lies deeper than the parser takes in good time, or at all."""
    for number, row in enumerate(text.split("\n"), start=1):
        if row.count(".") > MOST_DOTS:
            return whole(f"There are more than {MOST_DOTS} dots in this line: no key is that deep.", number)
    depth = 0
    for match in _BRACKETS.finditer(text):
        depth += {"[": 1, "{": 1, "]": -1, "}": -1}.get(match[0], 0)
        if depth > DEEPEST_LIST:
            line = text.count("\n", 0, match.start()) + 1
            return whole("Lists or tables are nested too deep: a project needs two levels at most.", line)
    return None


def _not_utf8(data: bytes, at: int) -> Problems:
    found = f"byte {at + 1} of the file, {data[at]:#04x}"
    return whole(f"There is a character in this line that is not UTF-8 ({found}): save it as UTF-8.", _line(data, at))


def _line(data: bytes, at: int) -> int:
    return data.count(b"\n", 0, at) + 1


def _not_toml(message: str, text: str) -> Problems:
    match = _PLACE.match(message)
    if match is None:
        return whole(f"This is not TOML: {message[:80]}.")
    reason = next((words for start, words in _REASONS if match[1].startswith(start)), match[1][:80])
    if match[1] == "Invalid value" and not match[2]:
        reason = "a value or a list is not finished"
    line = int(match[2]) if match[2] else text.rstrip("\n").count("\n") + 1
    where = f" at character {match[3]}" if match[3] else " at the end of the file"
    return whole(f'This is not TOML{where}: {reason}. A line looks like name = "Juniper loft"', line)


def _line_of_long_number(text: str) -> int:
    """The line of the first number with more digits than Python reads, outside of text and comments."""
    return next(text.count("\n", 0, each.start()) + 1 for each in _LONG_NUMBER.finditer(text) if each[0][0].isdigit())


DEEPEST: Final = 8
"""Keys deeper than this are no project's, and not looked for."""

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
