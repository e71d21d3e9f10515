"""From the bytes of a file to its tables, or one sentence on what keeps it from being TOML; and where each key is in
its text, which the parser of the standard library does not say."""

from __future__ import annotations

import re
import sys
import tomllib
from collections.abc import Iterator, Sequence
from typing import Any, Final

from msgspec import Struct

from wizard.project.problems import Problems, whole
from wizard.project.value_faults import Unquoted
from wizard.trade.fields import Path
from wizard.trade.formatting import text_beside

LARGEST: Final = 1_000_000
"""Most bytes of a project file."""
MOST_DOTS: Final = 2000
"""Most dots in one line. A key with more would keep the parser busy for hours; no note is as long."""

_TEXT: Final = "|".join(
    (
        r'"""(?:[^"\\]|\\.|"(?!""))*(?:"{3,5})?',
        r"'''(?:[^']|'(?!''))*(?:'{3,5})?",
        r'"(?:[^"\\\n]|\\[^\n])*"?',
        r"'[^'\n]*'?",
        r"#[^\n]*",
    )
)
"""The four kinds of text, the long ones first, their last quote there or not; and comments."""

_BRACKETS: Final = re.compile(rf"{_TEXT}|[\[\]{{}}]", re.DOTALL)
"""Brackets, and what brackets inside it do not count."""
_NESTING: Final = {"[": 1, "{": 1, "]": -1, "}": -1}
_LONG_NUMBER: Final = re.compile(rf"{_TEXT}|(?:[0-9]_?){{{sys.get_int_max_str_digits() + 1},}}", re.DOTALL)
"""A number that cannot be read, and what such digits inside it do not count."""
_TOKEN: Final = re.compile(rf"{_TEXT}|[\[\]{{}}=,.\n]|[^\s\[\]{{}}=,.#\"']+", re.DOTALL)
"""A text, a comment, a sign, or a run of other characters; blanks lie between."""
_PLACE: Final = re.compile(r"^(.*) \(at (?:line (\d+), column (\d+)|end of document)\)$", re.DOTALL)


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
        found = f"byte {error.start + 1} of the file, {data[error.start]:#04x}"
        says = f"There is a character in this line that is not UTF-8 ({found}): save it as UTF-8."
        return whole(says, _line(data, error.start))
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
        depth += _NESTING.get(match[0], 0)
        # Far more than a project needs, far less than the parser takes.
        if depth > 20:
            line = text.count("\n", 0, match.start()) + 1
            return whole("Lists or tables are nested too deep: a project needs two levels at most.", line)
    return None


def _line(data: bytes, at: int) -> int:
    return data.count(b"\n", 0, at) + 1


def _not_toml(message: str, text: str) -> Problems:
    match = _PLACE.match(message)
    if match is None:
        return whole(f"This is not TOML: {message[:80]}.")
    # How the parser's reason begins, and the reason in plain words.
    known = (line.split(" | ") for line in text_beside(__file__, "toml_faults.txt").splitlines())
    reason = next((words for start, words in known if match[1].startswith(start)), match[1][:80])
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

Token = tuple[str, int]
"""A piece of a text, and its line."""


class Places(Struct, frozen=True):
    """Lines of a text, from 1, by the path of what stands there; list items count from 1."""

    lines: dict[Path, int]
    has_comments: bool

    def line(self, path: Path) -> int | None:
        """The line of `path`, else of the nearest table or list above it; None when nothing of it stands there."""
        return next((self.lines[path[:at]] for at in range(len(path), 0, -1) if path[:at] in self.lines), None)


def places(text: str) -> Places:
    """The places in `text`, which must be TOML. What is inside an item, or a table in one line, is not told apart."""
    lines, rows, table, tokens = dict[Path, int](), dict[Path, int](), Path(), list(_tokens(text))
    for statement in _statements(tokens):
        line = statement[0][1]
        texts = [each for each, _ in statement]
        if texts[0] == "[":
            table = path = _in_last_row(_key(texts), rows, anew=texts[1] == "[")
        else:
            equals = texts.index("=")
            path = (*table, *_key(texts[:equals]))[:DEEPEST]
            lines |= {(*path, str(number)): at for number, at in enumerate(_items(statement[equals + 1 :]), 1)}
        for depth in range(1, len(path) + 1):
            lines.setdefault(path[:depth], line)
    return Places(lines, any(each[0] == "#" for each, _ in tokens))


def _tokens(text: str) -> Iterator[Token]:
    """Each token with its line."""
    line = 1
    for match in _TOKEN.finditer(text):
        yield match[0], line
        line += match[0].count("\n")


def _statements(tokens: Sequence[Token]) -> Iterator[list[Token]]:
    """The tokens of each header, and of each key with its value, without comments."""
    statement, depth = list[Token](), 0
    for text, line in (*tokens, ("\n", 0)):
        depth += _NESTING.get(text, 0)
        if text[0] not in "#\n":
            statement.append((text, line))
        elif statement and not depth:
            yield statement
            statement = []


def _key(texts: Sequence[str]) -> Path:
    """The names among the tokens of a key or a header, their quotes taken off."""
    names = [each for each in texts if each not in "[.]"][:DEEPEST]
    return tuple(str(tomllib.loads(f"name = {each}")["name"]) if each[0] in "\"'" else each for each in names)


def _in_last_row(key: Path, rows: dict[Path, int], *, anew: bool) -> Path:
    """The path of a table: one below an array of tables belongs to the last of them. `anew`: it is one more of them."""
    path: Path = ()
    for at, name in enumerate(key, 1):
        path = (*path, name)
        if at == len(key) and anew:
            rows[path] = rows.get(path, 0) + 1
        if path in rows and (at < len(key) or anew):
            path = (*path, str(rows[path]))
    return path


def _items(value: Sequence[Token]) -> Iterator[int]:
    """The line of each item of a value that is a list."""
    depth, before = 0, ""
    for text, line in value if value[0][0] == "[" else ():
        if depth == 1 and before in ("[", ",") and text != "]":
            yield line
        depth += _NESTING.get(text, 0)
        before = text
