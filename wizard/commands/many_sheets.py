"""Sheets of many jobs in one go: each is read, planned, written and forgotten; a bad file keeps no other back."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Final, TextIO

from wizard.commands.exits import Exit
from wizard.commands.progress import Progress
from wizard.commands.reading import open_draft, tell_problems
from wizard.commands.sheet import save
from wizard.project.finished_steps import as_done
from wizard.project.jobs import best_plan_of
from wizard.project.problems import Problems
from wizard.render.figure_text import counted
from wizard.render.formats import Request, render
from wizard.render.plain_text import literal
from wizard.render.sheet_names import ENDINGS

GRAVEST_FIRST: Final = (Exit.BAD_FILE, Exit.NOT_SAVED, Exit.UNFINISHED)


def run(files: Sequence[Path], folder: Path, request: Request, talk: TextIO, *, replace: bool) -> Exit:
    """Write each file's sheets into `folder`, which is made if need be; gives the gravest status met."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as problem:
        print(f"railskirt: {literal(str(folder))} cannot be a folder: {problem.strerror or problem}.", file=talk)
        return Exit.NOT_SAVED
    progress = Progress(len(files), talk)
    met: Counter[Exit] = Counter()
    for path, target in _targets(files, folder, ENDINGS[request.form]):
        met[_one(path, target, files, request, progress, replace=replace)] += 1
        progress.done()
    progress.clear()
    print(f"railskirt: {_summary(met, folder)}", file=talk)
    return next((each for each in GRAVEST_FIRST if met[each]), Exit.OK)


def _targets(files: Sequence[Path], folder: Path, ending: str) -> Iterator[tuple[Path, Path]]:
    """Each file with where its sheets go: named after it, with a number where that name is given away already."""
    taken: set[str] = set()
    for path in files:
        name, number = path.stem, 1
        while name.casefold() in taken:
            number += 1
            name = f"{path.stem}-{number}"
        taken.add(name.casefold())
        yield path, folder / f"{name}{ending}"


def _one(
    path: Path, target: Path, files: Sequence[Path], request: Request, progress: Progress, *, replace: bool
) -> Exit:
    draft = open_draft(path)
    if isinstance(draft, Problems):
        progress.clear()
        tell_problems(path, draft, progress.talk)
        return Exit.BAD_FILE
    plan = as_done(best_plan_of(draft), draft)
    text = render(plan, request)
    # Only a file of that very name can be one of the projects.
    projects = [each for each in files if each.name == target.name]
    refused = save(target, text, projects, progress.talk, replace=replace)
    return refused or (Exit.OK if plan.complete else Exit.UNFINISHED)


def _summary(met: Counter[Exit], folder: Path) -> str:
    count = met[Exit.OK] + met[Exit.UNFINISHED]
    parts = [f"sheets of {counted(count, 'job')} written to {literal(str(folder))}"]
    if met[Exit.UNFINISHED]:
        parts.append(f"{met[Exit.UNFINISHED]} of them unfinished")
    if met[Exit.BAD_FILE]:
        parts.append(f"{counted(met[Exit.BAD_FILE], 'file')} could not be read")
    if met[Exit.NOT_SAVED]:
        parts.append(f"{counted(met[Exit.NOT_SAVED], 'sheet')} could not be written")
    return ", ".join(parts) + "."
