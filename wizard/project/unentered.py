"""What was typed into a project's questions and not entered: kept beside the project, in a hidden file of its own."""

from __future__ import annotations

from pathlib import Path
from typing import Final

import msgspec
from msgspec import Struct

from wizard.project.atomic import Access, put

LARGEST: Final = 65_536
"""Bytes of such a file at most: a larger one is not ours."""


class Text(Struct, frozen=True):
    """Text in the field of a question."""

    typed: str
    answer: str = ""
    """The answer it was typed over, as typed; empty for none."""


class Unentered(Struct, frozen=True):
    """All of it."""

    at: str = ""
    """Key of the question whose field was typed in last; empty for none of them."""
    texts: dict[str, Text] = {}
    """Key of a question -> what is in its field."""


def read_unentered(project: Path) -> Unentered:
    """What is kept beside a project; nothing where there is no such file, or none that can be read."""
    path = _path(project)
    try:
        if not path.is_file() or path.stat().st_size > LARGEST:
            return Unentered()
        return msgspec.json.decode(path.read_bytes(), type=Unentered)
    except (OSError, msgspec.MsgspecError):
        return Unentered()


def write_unentered(project: Path, unentered: Unentered, access: Access | None) -> None:
    """Keep it beside a project, its mode that of `access`; nothing to keep removes the file. OSError when that fails.

    It outlasts the program, though not a power cut: it is written while somebody types, who would notice the wait.
    """
    if unentered.texts:
        put(_path(project), msgspec.json.encode(unentered), access=access, sync=False)
    else:
        _path(project).unlink(missing_ok=True)


def _path(project: Path) -> Path:
    return project.with_name(f".{project.name}.typed")
