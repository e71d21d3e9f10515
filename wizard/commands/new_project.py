"""`railskirt new NAME` and `railskirt demo`: a fresh project file, or a copy of the demo."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

from wizard.commands.exits import Exit, say
from wizard.project.atomic import put
from wizard.project.folder import home_folder
from wizard.project.keys import LONGEST_FILE_NAME, slug
from wizard.project.problems import Problems, whole
from wizard.project.project import Project, Unfit, begin
from wizard.project.store import Held, Store, open_project
from wizard.render.plain_text import literal
from wizard.trade.fields import Standard


def shipped() -> list[Path]:
    """The project files that come with railskirt; none when the installation is broken."""
    package = Path(__file__).parents[1]
    # In a checkout the folder is next to the package, at the top of the repository.
    return sorted(each for home in (package, package.parent) for each in (home / "projects").glob("*.toml"))


def run_new(name: str, template: str | None, folder: Path | None, standard: Standard | None) -> Exit:
    """Begin a project called `name` and print its path. An existing file is never replaced."""
    if not name.strip():
        return say('the job needs a name. For example: railskirt new "Juniper loft"', Exit.USAGE)
    where = folder or home_folder(Path())
    start = find_template(template, where) if template is not None else Project()
    if isinstance(start, Problems):
        from wizard.commands.check import tell_problems

        tell_problems(Path(template or ""), start, sys.stderr)
        return Exit.BAD_FILE
    try:
        project = begin(start, name, standard)
    except Unfit as unfit:
        return say(literal(str(unfit)), Exit.USAGE)
    path = where / f"{slug(name, 'project', LONGEST_FILE_NAME)}.toml"
    saved = Store(path).save(project)
    if not isinstance(saved, Held):
        return say(literal(saved.sentence), Exit.NOT_SAVED)
    for remark in saved.remarks:
        say(literal(remark))
    print(literal(str(path)))
    return Exit.OK


def find_template(wanted: str, folder: Path) -> Project | Problems:
    """The template at the path `wanted`, or named so in `folder`, or that came with railskirt."""
    came = (each for each in shipped() if each.name in (wanted, f"{wanted}.toml") and "template" in each.name)
    for path in (Path(wanted), folder / wanted, folder / f"{wanted}.toml", *came):
        if path.is_file():
            return open_project(path)
    return whole(f"There is no template with that name: no such file, here or in the folder {str(folder)!r}.")


def run_demo(folder: Path, ask: Callable[[str], bool] | None) -> Path | Exit:
    """Copy the demo into `folder` and give the copy's path, to be opened; or the status where there is none, or nobody.

    A copy from earlier is replaced only when `ask`, which puts a question that is answered with yes or no, says so,
    else it is the one given. With nobody to ask it stays, and the status is NOT_SAVED; a new copy's path is printed.
    """
    source = next((each for each in shipped() if each.name.startswith("demo-")), None)
    if source is None:
        return say("the demo job is missing from this installation: install railskirt again.", Exit.BAD_FILE)
    target = folder / source.name
    name = literal(source.name)
    try:
        if target.exists() and ask is None:
            way_out = "Remove it first, or run this on a terminal to be asked."
            return say(f"{name} already exists and was left alone. {way_out}", Exit.NOT_SAVED)
        if ask is None or not target.exists() or ask(f"{name} already exists. Replace it and lose the work in it?"):
            put(target, source.read_bytes())
    except OSError as problem:
        return say(f"could not write {literal(str(target))}: {problem.strerror or problem}.", Exit.NOT_SAVED)
    if ask is None:
        print(literal(str(target)))
        return Exit.OK
    return target


def confirmed(question: str) -> bool:
    """A yes-or-no question on standard error, answered on standard input; anything but y or yes, and no answer, is a
    no."""
    print(f"{question} [y/N] ", end="", file=sys.stderr, flush=True)
    try:
        return input().strip().lower() in ("y", "yes")
    except EOFError:
        return False
