"""The projects of a folder, other TOML files passed over. A list of thousands comes one by one, each file read once."""

from __future__ import annotations

import os
import re
import stat
from collections.abc import Callable
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from msgspec import Struct

from wizard.project.keys import LONGEST_FILE_NAME, numbered, slug
from wizard.project.marks import unmarked
from wizard.project.problems import Problems
from wizard.project.project import Project
from wizard.project.reading import read
from wizard.project.store import open_project
from wizard.project.toml_lines import LARGEST

_SNIFFED: Final = 65_536
"""Bytes looked at to tell whether a file is a project."""
_HEADER: Final = re.compile(rb"^[ \t]*\[", re.MULTILINE)
_FORMAT: Final = re.compile(rb"^(\xef\xbb\xbf|\xff\xfe|\xfe\xff)?[ \t]*format[ \t]*=", re.MULTILINE)
_TABLES: Final = re.compile(rb"^[ \t]*\[[ \t]*(survey|cloth|allowances|fullness)[ \t]*[.\]]", re.MULTILINE)
_TEMPLATE: Final = re.compile(rb"^[ \t]*template[ \t]*=[ \t]*true", re.MULTILINE)


class Found(Struct, frozen=True):
    """One project file."""

    path: Path
    project: Project | Problems
    """What it says, or what is wrong with it."""
    changed_at: datetime
    """When it was last changed, universal time."""


class Candidate(Struct, frozen=True):
    """A file that may be a project by its name; nothing of it was read yet."""

    path: Path
    changed_at: datetime
    """When it was last changed, universal time."""


def candidates(folder: Path) -> tuple[Candidate, ...]:
    """The files of a folder that may be projects, last changed first. OSError when the folder cannot be read."""
    with os.scandir(folder) as entries:
        found = [(-about.st_mtime, entry.name) for entry in entries if (about := _about(entry))]
    return tuple(Candidate(folder / name, datetime.fromtimestamp(-before, UTC)) for before, name in sorted(found))


def project_in(candidate: Candidate) -> Found | None:
    """The project in a file, broken or not; None where it holds something else, or a template."""
    found = _read(candidate, _is_ours)
    return None if found is None or (isinstance(found.project, Project) and found.project.template) else found


def find_projects(folder: Path) -> tuple[Found, ...]:
    """The projects of a folder, broken ones too, last changed first. Templates are left out. OSError when the folder
    cannot be read."""
    return tuple(found for each in candidates(folder) if (found := project_in(each)))


def find_templates(folder: Path) -> tuple[Found, ...]:
    """The templates of a folder that can be read, last changed first. OSError when the folder cannot be read."""
    found = (_read(each, _TEMPLATE.search) for each in candidates(folder))
    return tuple(each for each in found if each and isinstance(each.project, Project) and each.project.template)


def template_called(folder: Path, name: str) -> Project | None:
    """The template of that name in a folder; None when there is none that can be read."""
    with suppress(OSError):
        found = (each.project for each in sorted(find_templates(folder), key=lambda each: each.path))
        return next((each for each in found if isinstance(each, Project) and each.name == name), None)
    return None


def home_folder(cwd: Path) -> Path:
    """Where projects are kept: `projects` in the folder one stands in, or that folder itself."""
    kept = cwd / "projects"
    return kept if kept.is_dir() else cwd


def named(folder: Path) -> Path:
    """The folder by a name: its own in place of `.`."""
    return folder if folder.name else Path(folder.resolve().name)


def new_path(folder: Path, name: str) -> Path:
    """A file for a project called `name` that is not there yet: `juniper-loft.toml`, `juniper-loft-2.toml`."""
    names = numbered(slug(name, "project", LONGEST_FILE_NAME))
    # A link that leads nowhere is there too: what is written to it would be elsewhere.
    return next(path for each in names if not os.path.lexists(path := folder / f"{each}.toml"))


def _about(entry: os.DirEntry[str]) -> os.stat_result | None:
    """What is known of a file that may be a project by its name; None of any other, or a link that leads nowhere."""
    if not entry.name.endswith(".toml") or entry.name.startswith("."):
        return None
    try:
        about = entry.stat()
    except OSError:
        return None
    return about if stat.S_ISREG(about.st_mode) else None


def _read(candidate: Candidate, wanted: Callable[[bytes], object]) -> Found | None:
    """The file read once; None where its beginning is not `wanted`, or it is gone.

    One that may not be read may be ours, and is given with its problem, so that it does not seem to be gone.
    """
    path = candidate.path
    try:
        with path.open("rb") as stream:
            data = stream.read(LARGEST + 1)
    except FileNotFoundError:
        return None
    except OSError:
        data = None
    if data is not None and not wanted(data[:_SNIFFED]):
        return None
    if data is None or len(data) > LARGEST:
        project = open_project(path)
    else:
        read_so = read(data)
        project = read_so if isinstance(read_so, Problems) else unmarked(read_so)
    return Found(path, project, candidate.changed_at)


def _is_ours(data: bytes) -> bool:
    """True for a file that says a format before its first table, or has a table of ours: broken files count too."""
    data = data.replace(b"\0", b"")
    top = _HEADER.search(data)
    return bool(_FORMAT.search(data, 0, top.start() if top else len(data)) or _TABLES.search(data))
