"""The projects of a folder, other TOML files passed over."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from msgspec import Struct

from wizard.project.draft import Draft
from wizard.project.problems import Problems
from wizard.project.store import Store

_SNIFFED: Final = 65_536
"""Bytes looked at to tell whether a file is a project."""
_HEADER: Final = re.compile(rb"^[ \t]*\[", re.MULTILINE)
_FORMAT: Final = re.compile(rb"^(\xef\xbb\xbf|\xff\xfe|\xfe\xff)?[ \t]*format[ \t]*=", re.MULTILINE)
_TABLES: Final = re.compile(rb"^[ \t]*\[[ \t]*(survey|cloth|allowances|fullness)[ \t]*[.\]]", re.MULTILINE)
_TEMPLATE: Final = re.compile(rb"^[ \t]*template[ \t]*=[ \t]*true", re.MULTILINE)


class Found(Struct, frozen=True):
    """One project file."""

    path: Path
    draft: Draft | Problems
    """What it says, or what is wrong with it."""
    changed_at: datetime
    """When it was last changed, universal time."""


def find_projects(folder: Path) -> tuple[Found, ...]:
    """The projects of a folder, broken ones too, last changed first. Templates are left out. OSError when the folder
    cannot be read."""
    return tuple(each for each in _found(folder) if isinstance(each.draft, Problems) or not each.draft.template)


def find_templates(folder: Path) -> tuple[Found, ...]:
    """The templates of a folder that can be read, last changed first. OSError when the folder cannot be read."""
    return tuple(each for each in _found(folder) if isinstance(each.draft, Draft) and each.draft.template)


def template_called(folder: Path, name: str) -> Draft | None:
    """The template of that name in a folder; None when there is none that can be read."""
    files = (each for each in sorted(folder.glob("*.toml")) if _may_be_template(each))
    drafts = (_open(each).draft for each in files)
    return next((each for each in drafts if isinstance(each, Draft) and each.template and each.name == name), None)


def home_folder(cwd: Path) -> Path:
    """Where projects are kept: `projects` in the folder one stands in, or that folder itself."""
    kept = cwd / "projects"
    return kept if kept.is_dir() else cwd


def _found(folder: Path) -> list[Found]:
    files = sorted(each for each in folder.iterdir() if each.suffix == ".toml" and not each.name.startswith("."))
    found = [_open(each) for each in files if each.is_file() and _is_ours(each)]
    return sorted(found, key=lambda each: each.changed_at, reverse=True)


def _open(path: Path) -> Found:
    opened = Store(path).open()
    changed_at = datetime.fromtimestamp(path.stat().st_mtime, UTC)
    return Found(path, opened if isinstance(opened, Problems) else opened.draft, changed_at)


def _may_be_template(path: Path) -> bool:
    """True for a file that says so: only those are read whole, of a folder of a thousand."""
    try:
        with path.open("rb") as stream:
            return _TEMPLATE.search(stream.read(_SNIFFED)) is not None
    except OSError:
        return False


def _is_ours(path: Path) -> bool:
    """True for a file that says a format before its first table, or has a table of ours: broken files count too.

    One that may not be read may be ours, and is listed, so that it does not seem to be gone.
    """
    try:
        with path.open("rb") as stream:
            data = stream.read(_SNIFFED).replace(b"\0", b"")
    except PermissionError:
        return True
    top = _HEADER.search(data)
    return bool(_FORMAT.search(data, 0, top.start() if top else len(data)) or _TABLES.search(data))
