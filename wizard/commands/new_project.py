"""`railskirt new NAME` and `railskirt demo`: a fresh project file, or a copy of the demo."""

from __future__ import annotations

from collections.abc import Callable
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import TextIO

from wizard.commands.exits import Exit
from wizard.commands.print_problems import open_project, tell_problems
from wizard.project.atomic import put
from wizard.project.folder import home_folder
from wizard.project.ids_and_names import LONGEST_FILE_NAME, slug
from wizard.project.problems import Problems, whole
from wizard.project.project import Project, Unfit
from wizard.project.reading import read
from wizard.project.store import Held, Store
from wizard.project.templates import begin
from wizard.render.plain_text import literal
from wizard.trade.fields import Standard


def shipped() -> tuple[Traversable, ...]:
    """The project files that come with railskirt, by name; empty only when the installation is broken."""
    # In a checkout the folder is next to the package, at the top of the repository.
    folders = (files("wizard") / "projects", Path(__file__).parents[2] / "projects")
    there = next((each.iterdir() for each in folders if each.is_dir()), ())
    return tuple(sorted((each for each in there if each.name.endswith(".toml")), key=lambda at: at.name))


def shipped_demo() -> Traversable | None:
    """The demo job, or None when the installation is broken."""
    return next((each for each in shipped() if each.name.startswith("demo-")), None)


def shipped_template(name: str) -> Traversable | None:
    """The template that came with railskirt under the file name `name`, its ending optional; None for none such."""
    wanted = (name, f"{name}.toml")
    return next((each for each in shipped() if each.name in wanted and "template" in each.name), None)


def run_new(
    name: str,
    template: str | None,
    folder: Path | None,
    standard: Standard | None,
    out: TextIO,
    talk: TextIO,
) -> Exit:
    """Begin a project called `name` and print its path on `out`. An existing file is never replaced."""
    if not name.strip():
        print('railskirt: the job needs a name. For example: railskirt new "Juniper loft"', file=talk)
        return Exit.USAGE
    where = folder or home_folder(Path())
    start = find_template(template, where) if template is not None else Project()
    if isinstance(start, Problems):
        tell_problems(Path(template or ""), start, talk)
        return Exit.BAD_FILE
    try:
        project = begin(start, name, standard)
    except Unfit as refused:
        print(f"railskirt: {literal(str(refused))}", file=talk)
        return Exit.USAGE
    return _save(where / f"{slug(name, 'project', LONGEST_FILE_NAME)}.toml", project, out, talk)


def find_template(wanted: str, folder: Path) -> Project | Problems:
    """The template at the path `wanted`, or named so in `folder`, or that came with railskirt."""
    for path in (Path(wanted), folder / wanted, folder / f"{wanted}.toml"):
        if path.is_file():
            return open_project(path)
    came = shipped_template(wanted)
    if came is not None:
        return read(came.read_bytes())
    return whole(f"There is no template with that name: no such file, here or in the folder {str(folder)!r}.")


def _save(path: Path, project: Project, out: TextIO, talk: TextIO) -> Exit:
    saved = Store(path).save(project)
    if not isinstance(saved, Held):
        print(f"railskirt: {literal(saved.sentence)}", file=talk)
        return Exit.NOT_SAVED
    for remark in saved.remarks:
        print(f"railskirt: {literal(remark)}", file=talk)
    print(literal(str(path)), file=out)
    return Exit.OK


Ask = Callable[[str], bool]
"""Puts a question that is answered with yes or no."""


def run_demo(folder: Path, ask: Ask | None, out: TextIO, talk: TextIO) -> Path | Exit:
    """Copy the demo into `folder` and give the copy's path, or the status when there is none.

    A copy from earlier is replaced only when `ask` says so, else it is the one given; with nobody to ask it stays,
    and the status is NOT_SAVED.
    """
    source = shipped_demo()
    if source is None:
        print("railskirt: the demo job is missing from this installation: install railskirt again.", file=talk)
        return Exit.BAD_FILE
    target = folder / source.name
    try:
        if target.exists() and ask is None:
            print(_already(target), file=talk)
            return Exit.NOT_SAVED
        if not target.exists() or (ask is not None and ask(_replace(target))):
            put(target, source.read_bytes())
    except OSError as problem:
        print(f"railskirt: could not write {literal(str(target))}: {problem.strerror or problem}.", file=talk)
        return Exit.NOT_SAVED
    if ask is None:
        print(literal(str(target)), file=out)
    return target


def _replace(target: Path) -> str:
    return f"{literal(target.name)} already exists. Replace it and lose the work in it?"


def _already(target: Path) -> str:
    return (
        f"railskirt: {literal(target.name)} already exists and was left alone. "
        "Remove it first, or run this on a terminal to be asked."
    )


def ask_on(talk: TextIO) -> Ask:
    """A yes-or-no question on `talk`, answered on standard input; anything but y or yes, and no answer, is a no."""

    def ask(question: str) -> bool:
        print(f"{question} [y/N] ", end="", file=talk, flush=True)
        try:
            return input().strip().lower() in ("y", "yes")
        except EOFError:
            return False

    return ask
