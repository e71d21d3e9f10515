"""What a sheet would replace: whether the file is a sheet of this program too, and what kind of file it is if not."""

from __future__ import annotations

import re
import stat
from pathlib import Path
from typing import Final

from msgspec import Struct

_SNIFFED: Final = 1 << 14
"""Bytes looked at to tell what a file is."""

_MARK: Final = r"[0-9A-Z]{4}-[0-9A-Z]{4}\b"
_SHEETS: Final = tuple(
    re.compile(each, re.DOTALL)
    for each in (
        rf'<!DOCTYPE html>\n<html [^>]*data-mark="{_MARK}',
        rf"<svg xmlns=.*plan mark {_MARK}",
        rf'\{{\s*"format": \d+,\s*"plan_mark": "{_MARK}',
        r"project,plan mark,layer,",
        rf".*?\n═{{20,}}\n.*\b[Pp]lan\s+mark\s+{_MARK}",
    )
)
"""How a sheet begins: HTML, SVG, JSON, CSV and text."""

NOT_OURS: Final = "not a sheet of this program"


class Existing(Struct, frozen=True):
    """The file that stands where a sheet is to be written."""

    words: str
    """What it is: `a hidden text file, not a sheet of this program`."""
    expendable: bool
    """True when nothing is lost but an earlier sheet."""


def existing(path: Path) -> Existing | None:
    """What there is at `path`, links followed; None for nothing. OSError or ValueError when no file is called so."""
    try:
        mode = path.stat().st_mode
    except (FileNotFoundError, NotADirectoryError):
        return None
    if not stat.S_ISREG(mode):
        # It is written to, not replaced.
        return Existing("a folder" if stat.S_ISDIR(mode) else "a pipe or a device", True)
    try:
        with path.open("rb") as stream:
            head = stream.read(_SNIFFED)
    except PermissionError:
        return Existing(f"a file that you may not read, {NOT_OURS}", False)
    if not head:
        return Existing("an empty file", True)
    if _is_sheet(head):
        return Existing("a sheet of this program", True)
    return Existing(f"{_kind(path.name, mode, head)}, {NOT_OURS}", False)


def _is_sheet(head: bytes) -> bool:
    text = head.decode("utf-8", "replace").replace("\r\n", "\n")
    return any(each.match(text) for each in _SHEETS)


def _kind(name: str, mode: int, head: bytes) -> str:
    """A regular file in a few words, by its name, its mode and how it begins."""
    hidden = "hidden " if name.startswith(".") else ""
    kind = "text file" if _is_text(head) else "file that is not text"
    runs = " that can be run as a program" if mode & 0o111 else ""
    return f"a {hidden}{kind}{runs}"


def _is_text(head: bytes) -> bool:
    # The last character may be cut off.
    return b"\0" not in head and "\ufffd" not in head.decode("utf-8", "replace").rstrip("\ufffd")
