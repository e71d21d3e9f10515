"""The projects of a folder in plain lines: stage, last change, next action."""

from __future__ import annotations

import os
import sys
from collections import Counter
from collections.abc import Sequence
from pathlib import Path

from wizard.commands.check import tell_problems
from wizard.commands.exits import Exit, say
from wizard.commands.streams import Progress
from wizard.interview.project_summary import summary_of
from wizard.project.folder import Candidate, Found, candidates, home_folder, project_in
from wizard.project.parse.misread import shortened
from wizard.project.problems import Problems
from wizard.render.plain_text import literal


def run(folder: Path | None) -> Exit:
    """List `folder`, or the home folder; files that look like projects and cannot be read are told of apart."""
    where = folder or home_folder(Path())
    name = literal(str(where))
    if not os.path.isdir(where):
        return say(f"there is no folder {shortened(name)}.", Exit.BAD_FILE)
    try:
        files = candidates(where)
    except OSError as problem:
        return say(f"could not read the folder {name}: {problem.strerror}.", Exit.BAD_FILE)
    told = _tell_all(files)
    if not told:
        say(f"no projects in {name} yet. Start one: railskirt new NAME")
    return Exit.BAD_FILE if told[False] else Exit.OK


def _tell_all(files: Sequence[Candidate]) -> Counter[bool]:
    """Tell each project as soon as it is read; how many could be, and how many could not."""
    progress, told = Progress(len(files)), Counter[bool]()
    for each in files:
        found = project_in(each)
        if found is not None:
            if sys.stdout.isatty() or isinstance(found.project, Problems):
                progress.clear()
            told[_tell(found)] += 1
        progress.done()
    progress.clear()
    return told


def _tell(found: Found) -> bool:
    if isinstance(found.project, Problems):
        tell_problems(found.path, found.project, sys.stderr)
        return False
    about = summary_of(found.project)
    lines = (
        literal(str(found.path)),
        f"  {literal(found.project.name or 'no name yet')}",
        f"  {about.stage}, last changed {found.changed_at.astimezone():%Y-%m-%d %H:%M}",
        f"  next: {literal(about.next_action)}",
    )
    # At once: whoever reads this through a pipe need not wait for thousands.
    print("\n".join(lines), flush=True)
    return True
