"""Jobs and their files: beginning one, saving a template of one, and the name of one."""

from __future__ import annotations

from pathlib import Path

from msgspec import Struct

from wizard.interview.file_state import clock
from wizard.interview.outcome import Conflict
from wizard.interview.session import Session
from wizard.project.folder import Found, new_path
from wizard.project.problems import Problems
from wizard.project.project import Project, Unfit, begin, put, template_of
from wizard.project.store import Held, Store


class OpenJob(Struct, frozen=True):
    """A job and the file it is kept in."""

    session: Session
    path: Path


def begin_job(folder: Path, name: str, template: Project | None) -> OpenJob | str:
    """A new job in a file of its own, or why there is none."""
    try:
        project = begin(template or Project(), name.strip())
    except Unfit as unfit:
        return str(unfit)
    path = new_path(folder, name)
    session = Session.begin(Store(path), project, clock)
    return session.sentence if isinstance(session, Conflict) else OpenJob(session, path)


def why_not_called(name: str) -> str | None:
    """Why no project can have that name, in a sentence with an example; None where it can."""
    if not name.strip():
        return "It needs a name. For example: Juniper loft"
    try:
        put(Project(), "name", name.strip())
    except Unfit as unfit:
        return str(unfit)
    return None


def keep_template(folder: Path, project: Project, name: str) -> str:
    """Write the choices of a job down as a template called `name`, in a file of its own; says what came of it."""
    try:
        template = put(template_of(project), "name", name.strip())
    except Unfit as unfit:
        return str(unfit)
    path = new_path(folder, name if "template" in name.casefold() else f"{name} template")
    held = Store(path).save(template)
    if not isinstance(held, Held):
        return held.sentence
    return " ".join((f"Saved as {path.name}: new projects can start from it.", *held.remarks))


def name_of(found: Found) -> str:
    """What a project is called, as typed: its name, else its file's."""
    name = None if isinstance(found.project, Problems) else found.project.name
    return name or found.path.stem
