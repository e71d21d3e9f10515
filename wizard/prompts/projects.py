"""Projects of a folder: listing, opening, beginning, and keeping a template."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from wizard.project.draft import Draft, Unfit, put
from wizard.project.folder import Found
from wizard.project.jobs import plan_of
from wizard.project.names import new_path
from wizard.project.problems import Problems
from wizard.project.store import Held, Store
from wizard.project.templates import begin, template_of
from wizard.prompts.speech import counted
from wizard.questions.keeping import clock
from wizard.questions.outcome import Conflict
from wizard.questions.progress import summary
from wizard.questions.session import Session


def project_lines(number: int, found: Found) -> Iterator[str]:
    """A project in the list: name and stage, what is next, when it was changed last."""
    if isinstance(found.draft, Problems):
        yield f"{number}. {found.path.name}: cannot be read, {counted(len(found.draft.all), 'problem')}."
        return
    short = summary(found.draft, plan_of(found.draft))
    yield f"{number}. {name_of(found)}: {short.stage}"
    yield f"Next: {short.next_action}"
    yield f"Changed: {found.changed_at.astimezone():%d %B %Y, %H:%M}"


def name_of(found: Found) -> str:
    """What a project is called: its name, else its file's."""
    name = None if isinstance(found.draft, Problems) else found.draft.name
    return name or found.path.stem


def begin_job(folder: Path, name: str, template: Draft | None) -> tuple[Session, Path] | str:
    """A new job in a file of its own, or why there is none."""
    try:
        draft = begin(template or Draft(), name.strip())
    except Unfit as unfit:
        return str(unfit)
    path = new_path(folder, name)
    session = Session.begin(Store(path), draft, clock)
    return session.sentence if isinstance(session, Conflict) else (session, path)


def keep_template(folder: Path, draft: Draft, name: str) -> str:
    """Write the choices of a job down as a template called `name`, in a file of its own; says what came of it."""
    try:
        template = put(template_of(draft), "name", name.strip())
    except Unfit as unfit:
        return str(unfit)
    path = new_path(folder, name if "template" in name.casefold() else f"{name} template")
    held = Store(path).save(template)
    return f"Kept as {path.name}: new projects can begin from it." if isinstance(held, Held) else held.sentence
