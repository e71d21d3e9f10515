"""What keeps a file from being read: every problem of it at once."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from datetime import datetime
from typing import Final

from msgspec import Struct

from wizard.project.keys import kind_at
from wizard.project.parse.misread import shortened
from wizard.project.project import Project
from wizard.project.value_faults import Fault, with_example
from wizard.trade.fields import is_mapping, is_table

_BARE: Final = re.compile(r"[A-Za-z0-9_-]+")


class Problem(Struct, frozen=True):
    """One thing to mend."""

    key: str
    """Dotted key; empty when it is the file as a whole."""
    line: int | None
    """Line of the file, from 1; None when it is the file as a whole."""
    sentence: str
    """What was found and what would do, with an example."""


class Problems(Struct, frozen=True):
    """All that is to be mended, in the order of the lines."""

    all: tuple[Problem, ...]

    @property
    def lines(self) -> list[str]:
        """Each in a line, with its place in the file as far as that is known: `Line 3: survey.rail: sentence`."""
        parts = ((f"Line {each.line}" if each.line else "", each.key, each.sentence) for each in self.all)
        return [": ".join(filter(None, each)) for each in parts]


def whole(sentence: str, line: int | None = None) -> Problems:
    """The one problem of a file that can be read no further."""
    return Problems((Problem("", line, sentence),))


def in_order(problems: Iterable[Problem]) -> Problems:
    """Each once, by line, those of the file as a whole behind; a key or an id of any length is cut short."""
    short = [Problem(shortened(each.key), each.line, shortened(each.sentence)) for each in problems]
    return Problems(tuple(sorted(dict.fromkeys(short), key=lambda each: (each.line is None, each.line or 0, each.key))))


def of_fault(fault: Fault, line: int | None) -> Problem:
    """The problem a fault is in a file, its example written as a line of one."""
    return Problem(fault.key, line, with_example(fault.sentence, _as_line(fault)))


def _as_line(fault: Fault) -> str:
    """The example as it would stand in the file: `width = "54 in"`. None where the sentence shows one already."""
    kind = kind_at(Project, fault.path)
    if not fault.example or fault.readings or _quoted(fault.example) in fault.sentence:
        return ""
    if kind is None or is_table(kind) or is_mapping(kind):
        return fault.example
    written = fault.example if kind in (bool, int, datetime) or fault.example[:1] == "[" else _quoted(fault.example)
    name = fault.path[-1]
    if name.isdecimal():
        return written
    return f"{name if _BARE.fullmatch(name) else _quoted(name)} = {written}"


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)
