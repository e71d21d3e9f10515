"""Telling what was edited by hand: a saved file holds a short mark of each part as it was written, under
`progress.written`. A part that has another mark now was edited since. Laying the text out otherwise changes no mark."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping
from typing import Any, Final

from msgspec.structs import replace

from wizard.project.encode import plain
from wizard.project.project import Project

SHORT: Final = 4
"""Figures of a mark, of sixteen each: one edit in 65 536 goes unseen."""
OURS: Final = frozenset({"at", "written"})
"""Keys of `progress` that are no answers."""


def marked(project: Project) -> Project:
    """The project as it goes into its file, with the marks of all its parts."""
    return _with(project, " ".join(f"{part}={mark}" for part, mark in _marks(project).items()))


def unmarked(project: Project) -> Project:
    """The project as it is worked on."""
    return project if project.progress.written is None else _with(project, None)


def edited(project: Project) -> tuple[str, ...]:
    """The keys of the parts that are not as they were written, as `survey.section.left`; none for a file without
    marks, which somebody wrote from the beginning."""
    if project.progress.written is None:
        return ()
    before = dict(each.rpartition("=")[::2] for each in project.progress.written.split())
    now = _marks(project)
    return tuple(part for part in {**before, **now} if before.get(part) != now.get(part))


def mark_of(values: Any) -> str:
    """A short mark of plain tables, the same in whatever order their keys stand."""
    return hashlib.sha256(json.dumps(values, sort_keys=True, default=str).encode()).hexdigest()


def _with(project: Project, written: str | None) -> Project:
    return replace(project, progress=replace(project.progress, written=written))


def _marks(project: Project) -> dict[str, str]:
    return {part: mark_of(values)[:SHORT] for part, values in _parts(plain(project)) if values}


def _parts(table: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    """The parts by their keys: what stands at the top as `job`, each section and each layer by itself."""
    tables = {name: each for name, each in table.items() if isinstance(each, dict)}
    survey, cloth, progress = (tables.pop(each, {}) for each in ("survey", "cloth", "progress"))
    yield "job", {name: each for name, each in table.items() if not isinstance(each, dict)}
    yield "survey", {name: each for name, each in survey.items() if name != "section"}
    for name, each in survey.get("section", {}).items():
        yield f"survey.section.{name}", {"": each}
    for name, each in cloth.items():
        yield f"cloth.{name}", {"": each}
    yield "progress", {name: each for name, each in progress.items() if name not in OURS}
    yield from tables.items()
