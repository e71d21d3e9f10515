"""`railskirt sheet FILE...`: a job's sheets as text, HTML, SVG, JSON or CSV; of many jobs, into a folder."""

from __future__ import annotations

import datetime
import os
import shutil
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Final, TextIO

from msgspec import Struct

from wizard.commands.check import open_project, tell_problems
from wizard.commands.exits import Exit, gravest
from wizard.commands.streams import Progress, fitting
from wizard.project.finished_steps import as_done
from wizard.project.plan_of_project import best_plan_of
from wizard.project.problems import Problems
from wizard.render.figure_text import counted
from wizard.render.formats import Request, render, render_orders
from wizard.render.plain_text import literal
from wizard.render.sheet_files import missing_words, save_text, usual_date
from wizard.render.sheet_names import ENDINGS, SOME_ONLY, Format, LabelGrid, PaperId, SheetId
from wizard.trade.plan_records import Plan

USUAL_COLUMNS: Final = 80
"""Width of the text where no terminal says otherwise."""
READABLE: Final = (60, 120)
"""The least and greatest width taken from a terminal; longer lines are hard to read."""


TOGETHER: Final[tuple[Format, ...]] = ("text", "html")
"""The forms of an order list."""


class SheetOptions(Struct, frozen=True):
    """What the command line asks for."""

    files: Sequence[Path]
    form: Format = "text"
    columns: int | None = None
    only: tuple[SheetId, ...] | None = None
    date: str | None = None
    out: Path | None = None
    replace: bool = False
    """True to write over a file that is no sheet."""
    paper: PaperId | None = None
    labels: LabelGrid = "cut"
    together: bool = False
    """True for one order list of all jobs."""


def run(options: SheetOptions, out: TextIO, talk: TextIO) -> Exit:
    """Write the sheets on `out`, or to the file or into the folder asked for."""
    if options.only is not None and options.form not in SOME_ONLY:
        print(f"railskirt: --only works with --as {', '.join(SOME_ONLY)}, not with {options.form}.", file=talk)
        return Exit.USAGE
    if options.together and (options.only not in (None, ("shop",)) or options.form not in TOGETHER):
        print(f"railskirt: --together makes an order list, as {' or '.join(TOGETHER)}.", file=talk)
        return Exit.USAGE
    if options.out is None and len(options.files) > 1 and options.form not in ("text", *options.together * TOGETHER):
        form = options.form
        print(f"railskirt: several jobs as {form} need a folder, for example: --out sheets", file=talk)
        return Exit.USAGE
    request = request_of(options, out)
    if options.together:
        return _together(options, request, out, talk)
    if options.out is not None and (len(options.files) > 1 or os.path.isdir(options.out)):
        return run_many(options.files, options.out, request, talk, replace=options.replace)
    return gravest([_one(options, path, request, out, talk) for path in options.files])


def _together(options: SheetOptions, request: Request, out: TextIO, talk: TextIO) -> Exit:
    """One order list for all jobs; none where a file cannot be read, for it would not be whole."""
    plans = [_plan_in(each, Progress(1, talk)) for each in options.files]
    read = [each for each in plans if each is not None]
    if len(read) < len(plans):
        return Exit.BAD_FILE
    if not _written(render_orders(read, request), options, request, out, talk):
        return Exit.NOT_SAVED
    return Exit.OK if all(each.complete for each in read) else Exit.UNFINISHED


def request_of(options: SheetOptions, out: TextIO) -> Request:
    """What is written, with today's date on what people read. Data carries a date only when it was asked to."""
    dated = options.date or usual_date(options.form, datetime.date.today())
    columns = options.columns or _columns_of(out, options.out)
    return Request(options.form, options.only, dated, columns, options.paper, options.labels)


def _columns_of(out: TextIO, target: Path | None) -> int:
    if target is not None or not out.isatty():
        return USUAL_COLUMNS
    least, greatest = READABLE
    return max(least, min(greatest, shutil.get_terminal_size().columns))


def _plan_in(path: Path, progress: Progress) -> Plan | None:
    """The plan of the project at `path` as sheets show it; None, its problems told, where it cannot be read."""
    project = open_project(path)
    if not isinstance(project, Problems):
        return as_done(best_plan_of(project), project)
    progress.clear()
    tell_problems(path, project, progress.talk)
    return None


def _one(options: SheetOptions, path: Path, request: Request, out: TextIO, talk: TextIO) -> Exit:
    plan = _plan_in(path, Progress(1, talk))
    if plan is None:
        return Exit.BAD_FILE
    if not _written(render(plan, request), options, request, out, talk):
        return Exit.NOT_SAVED
    missing = missing_words(plan)
    if missing is None:
        return Exit.OK
    print(f"railskirt: unfinished: {missing}", file=talk)
    return Exit.UNFINISHED


def _written(text: str, options: SheetOptions, request: Request, out: TextIO, talk: TextIO) -> bool:
    """Write on `out`, or to the file asked for; False where that is refused."""
    if options.out is None:
        out.write(fitting(text, request.form, out))
        return True
    saved = _saved(options.out, text, options.files, talk, replace=options.replace)
    if saved:
        print(f"railskirt: written to {literal(str(options.out))}", file=talk)
    return saved


def _saved(target: Path, text: str, projects: Sequence[Path], talk: TextIO, *, replace: bool) -> bool:
    """Write a sheet to `target`; False, with the reason on `talk`, where that is refused."""
    trouble = save_text(target, text, projects, replace=replace)
    if trouble is not None:
        print(f"railskirt: {trouble}", file=talk)
    return trouble is None


def run_many(files: Sequence[Path], folder: Path, request: Request, talk: TextIO, *, replace: bool) -> Exit:
    """Write each file's sheets into `folder`, which is made if need be; gives the gravest status met."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as problem:
        print(f"railskirt: could not make the folder {literal(str(folder))}: {problem.strerror or problem}.", file=talk)
        return Exit.NOT_SAVED
    progress = Progress(len(files), talk)
    met: Counter[Exit] = Counter()
    for path, target in _targets(files, folder, ENDINGS[request.form]):
        met[_one_of_many(path, target, files, request, progress, replace=replace)] += 1
        progress.done()
    progress.clear()
    print(f"railskirt: {_summary(met, folder)}", file=talk)
    return gravest(met)


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


def _one_of_many(
    path: Path, target: Path, files: Sequence[Path], request: Request, progress: Progress, *, replace: bool
) -> Exit:
    plan = _plan_in(path, progress)
    if plan is None:
        return Exit.BAD_FILE
    # Only a file of that very name can be one of the projects.
    projects = [each for each in files if each.name == target.name]
    if not _saved(target, render(plan, request), projects, progress.talk, replace=replace):
        return Exit.NOT_SAVED
    return Exit.OK if plan.complete else Exit.UNFINISHED


def _summary(met: Counter[Exit], folder: Path) -> str:
    unfinished, unread, unwritten = met[Exit.UNFINISHED], met[Exit.BAD_FILE], met[Exit.NOT_SAVED]
    parts = (
        f"sheets of {counted(met[Exit.OK] + unfinished, 'job')} written to {literal(str(folder))}",
        f"{unfinished} of them unfinished" if unfinished else "",
        f"{counted(unread, 'file')} could not be read" if unread else "",
        f"{counted(unwritten, 'sheet')} could not be written" if unwritten else "",
    )
    return f"{', '.join(each for each in parts if each)}."
