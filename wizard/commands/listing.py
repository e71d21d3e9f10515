"""The projects of a folder in plain lines: stage, last change, next action."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import TextIO

from wizard.commands.exits import Exit
from wizard.commands.reading import tell_problems
from wizard.project.folder import Found, find_projects, home_folder
from wizard.project.jobs import plan_of
from wizard.project.problems import Problems
from wizard.questions.progress import summary
from wizard.sheets.plain import literal


def run(folder: Path | None, out: TextIO, talk: TextIO) -> Exit:
    """List `folder`, or the home folder, on `out`; files that look like projects and cannot be read go to `talk`."""
    where = folder or home_folder(Path())
    if not where.is_dir():
        print(f"railskirt: there is no folder {literal(str(where))}.", file=talk)
        return Exit.BAD_FILE
    try:
        found = find_projects(where)
    except OSError as problem:
        print(f"railskirt: could not read the folder {literal(str(where))}: {problem.strerror}.", file=talk)
        return Exit.BAD_FILE
    if not found:
        print(f"railskirt: no projects in {literal(str(where))} yet. Begin one: railskirt new NAME", file=talk)
    return Exit.BAD_FILE if not all([_tell(each, out, talk) for each in found]) else Exit.OK


def _tell(found: Found, out: TextIO, talk: TextIO) -> bool:
    if isinstance(found.draft, Problems):
        tell_problems(found.path, found.draft, talk)
        return False
    about = summary(found.draft, plan_of(found.draft))
    print(literal(str(found.path)), file=out)
    print(f"  {literal(found.draft.name or 'no name yet')}", file=out)
    print(f"  {about.stage}, last changed {moment(found.changed_at)}", file=out)
    print(f"  next: {literal(about.next_action)}", file=out)
    return True


def moment(when: datetime) -> str:
    """A time as a person here reads it: `2026-03-02 10:42`, by the clock of this computer."""
    return f"{when.astimezone():%Y-%m-%d %H:%M}"
