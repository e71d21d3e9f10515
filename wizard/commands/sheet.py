"""`railskirt sheet FILE...`: a job's sheets as text, HTML, SVG, JSON or CSV; of many jobs, into a folder."""

from __future__ import annotations

import datetime
import os
import shutil
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Final

from wizard.commands.check import tell_problems
from wizard.commands.exits import Exit, gravest, say
from wizard.commands.streams import Progress, fitting
from wizard.project.finished_steps import as_done
from wizard.project.keys import numbered
from wizard.project.plan_of_project import at_best, plan_of
from wizard.project.problems import Problems
from wizard.project.store import open_project
from wizard.render.formats import Request, render, render_orders
from wizard.render.plain_text import literal
from wizard.render.sheet_files import missing_words, save_text, usual_date
from wizard.render.sheet_names import ENDINGS, SOME_ONLY, Format
from wizard.trade.formatting import counted
from wizard.trade.plan_records import Plan

if TYPE_CHECKING:
    from argparse import Namespace

TOGETHER: Final[tuple[Format, ...]] = ("text", "html")
"""The forms of an order list."""


def run(options: Namespace) -> Exit:
    """Write the sheets on standard output, or to the file or into the folder asked for."""
    form, files, out = options.form, options.files, options.out
    if options.only is not None and form not in SOME_ONLY:
        return say(f"--only works with --as {', '.join(SOME_ONLY)}, not with {form}.", Exit.USAGE)
    if options.together and (options.only not in (None, ("shop",)) or form not in TOGETHER):
        return say(f"--together makes an order list, as {' or '.join(TOGETHER)}.", Exit.USAGE)
    if out is None and len(files) > 1 and form not in ("text", *options.together * TOGETHER):
        return say(f"several jobs as {form} need a folder, for example: --out sheets", Exit.USAGE)
    # Data carries a date only when it was asked to.
    dated = options.date or usual_date(form, datetime.date.today())
    there = shutil.get_terminal_size().columns if out is None and sys.stdout.isatty() else 80
    # Longer lines than these are hard to read.
    columns = options.columns or max(60, min(120, there))
    request = Request(form, options.only, dated, columns, options.paper, options.labels)
    if options.together:
        return _together(options, request)
    if out is not None and (len(files) > 1 or os.path.isdir(out)):
        return _into_folder(options, request)
    return gravest([_one(path, options, request) for path in files])


def _together(options: Namespace, request: Request) -> Exit:
    """One order list for all jobs; none where a file cannot be read, for it would not be whole."""
    plans = [_plan_in(each) for each in options.files]
    read = [each for each in plans if each is not None]
    if len(read) < len(plans):
        return Exit.BAD_FILE
    if not _written(render_orders(read, request), options):
        return Exit.NOT_SAVED
    return Exit.OK if all(each.complete for each in read) else Exit.UNFINISHED


def _plan_in(path: Path, progress: Progress | None = None) -> Plan | None:
    """The plan of the project at `path` as sheets show it; None, its problems told, where it cannot be read."""
    project = open_project(path)
    if not isinstance(project, Problems):
        return as_done(at_best(plan_of(project)), project)
    if progress:
        progress.clear()
    tell_problems(path, project, sys.stderr)
    return None


def _one(path: Path, options: Namespace, request: Request) -> Exit:
    plan = _plan_in(path)
    if plan is None:
        return Exit.BAD_FILE
    if not _written(render(plan, request), options):
        return Exit.NOT_SAVED
    missing = missing_words(plan)
    return Exit.OK if missing is None else say(f"unfinished: {missing}", Exit.UNFINISHED)


def _written(text: str, options: Namespace) -> bool:
    """Write on standard output, or to the file asked for; False where that is refused."""
    if options.out is None:
        sys.stdout.write(fitting(text, options.form, sys.stdout))
        return True
    saved = _saved(options.out, text, options.files, options)
    if saved:
        say(f"written to {literal(str(options.out))}")
    return saved


def _saved(target: Path, text: str, projects: Sequence[Path], options: Namespace) -> bool:
    """Write a sheet to `target`; False, with the reason told, where that is refused."""
    trouble = save_text(target, text, projects, replace=options.replace)
    if trouble is not None:
        say(trouble)
    return trouble is None


def _into_folder(options: Namespace, request: Request) -> Exit:
    """Write each file's sheets into a folder, which is made if need be; gives the gravest status met."""
    folder, files = options.out, options.files
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as problem:
        name = literal(str(folder))
        return say(f"could not make the folder {name}: {problem.strerror or problem}.", Exit.NOT_SAVED)
    progress, met = Progress(len(files)), Counter[Exit]()
    for path, target in _targets(files, folder, ENDINGS[request.form]):
        plan = _plan_in(path, progress)
        # Only a file of that very name can be one of the projects.
        projects = [each for each in files if each.name == target.name]
        if plan is None:
            met[Exit.BAD_FILE] += 1
        elif not _saved(target, render(plan, request), projects, options):
            met[Exit.NOT_SAVED] += 1
        else:
            met[Exit.OK if plan.complete else Exit.UNFINISHED] += 1
        progress.done()
    progress.clear()
    say(_summary(met, folder))
    return gravest(met)


def _targets(files: Sequence[Path], folder: Path, ending: str) -> Iterator[tuple[Path, Path]]:
    """Each file with where its sheets go: named after it, with a number where that name is given away already."""
    taken: set[str] = set()
    for path in files:
        name = next(each for each in numbered(path.stem) if each.casefold() not in taken)
        taken.add(name.casefold())
        yield path, folder / f"{name}{ending}"


def _summary(met: Counter[Exit], folder: Path) -> str:
    unfinished, unread, unwritten = met[Exit.UNFINISHED], met[Exit.BAD_FILE], met[Exit.NOT_SAVED]
    parts = (
        f"sheets of {counted(met[Exit.OK] + unfinished, 'job')} written to {literal(str(folder))}",
        f"{unfinished} of them unfinished" if unfinished else "",
        f"{counted(unread, 'file')} could not be read" if unread else "",
        f"{counted(unwritten, 'sheet')} could not be written" if unwritten else "",
    )
    return f"{', '.join(each for each in parts if each)}."
