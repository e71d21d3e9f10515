"""`railskirt new NAME`: a fresh project file."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TextIO

from wizard.commands.exits import Exit
from wizard.commands.files import put_new
from wizard.commands.reading import open_draft, tell_problems
from wizard.commands.shipped import template as shipped_template
from wizard.project.draft import Draft, Unfit, put
from wizard.project.folder import home_folder
from wizard.project.reading import Problem, Problems, read
from wizard.project.templates import begin
from wizard.project.writing import write
from wizard.sheets.plain import literal

LONGEST: int = 60
"""Most letters of a name that go into the file's name."""


def run(
    name: str,
    template: str | None,
    folder: Path | None,
    standard: str | None,
    out: TextIO,
    talk: TextIO,
) -> Exit:
    """Begin a project called `name` and print its path on `out`. An existing file is never replaced."""
    where = folder or home_folder(Path.cwd())
    start = find_template(template, where) if template else Draft()
    if isinstance(start, Problems):
        tell_problems(Path(template or ""), start, talk)
        return Exit.BAD_FILE
    try:
        draft = begin(start, name)
        draft = put(draft, "standard", standard) if standard else draft
    except Unfit as refused:
        print(f"railskirt: {literal(refused.sentence)} For example: {literal(refused.example)}", file=talk)
        return Exit.USAGE
    return _save(where / f"{file_name(name)}.toml", write(draft), out, talk)


def find_template(wanted: str, folder: Path) -> Draft | Problems:
    """The template at the path `wanted`, or named so in `folder`, or that came with railskirt."""
    for path in (Path(wanted), folder / wanted, folder / f"{wanted}.toml"):
        if path.is_file():
            return open_draft(path)
    came = shipped_template(wanted)
    if came is not None:
        return read(came.read_bytes())
    return Problems((Problem("", None, f"There is no template {wanted!r}, neither a file nor one in {folder}."),))


def file_name(name: str) -> str:
    """A file's name for a job's, without its ending: letters and digits, the rest as single hyphens."""
    return re.sub(r"[\W_]+", "-", name.casefold()).strip("-")[:LONGEST].rstrip("-") or "project"


def _save(path: Path, data: bytes, out: TextIO, talk: TextIO) -> Exit:
    try:
        put_new(path, data)
    except FileExistsError:
        print(f"railskirt: {literal(str(path))} is there already and was left as it is. Give another name.", file=talk)
        return Exit.NOT_SAVED
    except OSError as problem:
        print(f"railskirt: could not write {literal(str(path))}: {problem.strerror}.", file=talk)
        return Exit.NOT_SAVED
    print(literal(str(path)), file=out)
    return Exit.OK
