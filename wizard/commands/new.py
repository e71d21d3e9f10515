"""`railskirt new NAME`: a fresh project file."""

from __future__ import annotations

from pathlib import Path
from typing import TextIO

from wizard.commands.exits import Exit
from wizard.commands.reading import open_draft, tell_problems
from wizard.commands.shipped import template as shipped_template
from wizard.project.draft import Draft, Unfit
from wizard.project.folder import home_folder
from wizard.project.names import LONGEST_FILE_NAME, slug
from wizard.project.problems import Problems, whole
from wizard.project.reading import read
from wizard.project.store import Held, Store
from wizard.project.templates import begin
from wizard.render.plain_text import literal
from wizard.trade.job import Standard


def run(
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
    start = find_template(template, where) if template is not None else Draft()
    if isinstance(start, Problems):
        tell_problems(Path(template or ""), start, talk)
        return Exit.BAD_FILE
    try:
        draft = begin(start, name, standard)
    except Unfit as refused:
        print(f"railskirt: {literal(str(refused))}", file=talk)
        return Exit.USAGE
    return _save(where / f"{slug(name, 'project', LONGEST_FILE_NAME)}.toml", draft, out, talk)


def find_template(wanted: str, folder: Path) -> Draft | Problems:
    """The template at the path `wanted`, or named so in `folder`, or that came with railskirt."""
    for path in (Path(wanted), folder / wanted, folder / f"{wanted}.toml"):
        if path.is_file():
            return open_draft(path)
    came = shipped_template(wanted)
    if came is not None:
        return read(came.read_bytes())
    return whole(f"There is no template of that name, neither a file nor one in the folder {str(folder)!r}.")


def _save(path: Path, draft: Draft, out: TextIO, talk: TextIO) -> Exit:
    saved = Store(path).save(draft)
    if not isinstance(saved, Held):
        print(f"railskirt: {literal(saved.sentence)}", file=talk)
        return Exit.NOT_SAVED
    for remark in saved.remarks:
        print(f"railskirt: {literal(remark)}", file=talk)
    print(literal(str(path)), file=out)
    return Exit.OK
