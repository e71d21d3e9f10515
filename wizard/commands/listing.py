"""The projects of a folder in plain lines: stage, last change, next action."""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from typing import TextIO

from wizard.commands.check import tell_problems
from wizard.commands.exits import Exit
from wizard.commands.streams import Progress
from wizard.interview.project_summary import summary_of
from wizard.project.folder import Candidate, Found, candidates, home_folder, project_in
from wizard.project.parse.misread import shortened
from wizard.project.problems import Problems
from wizard.render.plain_text import literal


def run(folder: Path | None, out: TextIO, talk: TextIO) -> Exit:
    """List `folder`, or the home folder, on `out`; files that look like projects and cannot be read go to `talk`."""
    where = folder or home_folder(Path())
    if not os.path.isdir(where):
        print(f"railskirt: there is no folder {shortened(literal(str(where)))}.", file=talk)
        return Exit.BAD_FILE
    try:
        files = candidates(where)
    except OSError as problem:
        print(f"railskirt: could not read the folder {literal(str(where))}: {problem.strerror}.", file=talk)
        return Exit.BAD_FILE
    told = _tell_all(files, out, talk)
    if not told:
        print(f"railskirt: no projects in {literal(str(where))} yet. Start one: railskirt new NAME", file=talk)
    return Exit.BAD_FILE if told[False] else Exit.OK


def _tell_all(files: Sequence[Candidate], out: TextIO, talk: TextIO) -> Counter[bool]:
    """Tell each project as soon as it is read; how many could be, and how many could not."""
    progress, told = Progress(len(files), talk), Counter[bool]()
    for each in files:
        found = project_in(each)
        if found is not None:
            if out.isatty() or isinstance(found.project, Problems):
                progress.clear()
            told[_tell(found, out, talk)] += 1
        progress.done()
    progress.clear()
    return told


def _tell(found: Found, out: TextIO, talk: TextIO) -> bool:
    if isinstance(found.project, Problems):
        tell_problems(found.path, found.project, talk)
        return False
    about = summary_of(found.project)
    lines = (
        literal(str(found.path)),
        f"  {literal(found.project.name or 'no name yet')}",
        f"  {about.stage}, last changed {found.changed_at.astimezone():%Y-%m-%d %H:%M}",
        f"  next: {literal(about.next_action)}",
    )
    # At once: whoever reads this through a pipe need not wait for thousands.
    print("\n".join(lines), file=out, flush=True)
    return True
