"""Opening and beginning projects: from a path to a session, and a project in a line of the list."""

from __future__ import annotations

from pathlib import Path

from msgspec import Struct
from textual.content import Content

from wizard.project.draft import Draft, Unfit, put
from wizard.project.folder import Found
from wizard.project.jobs import plan_of
from wizard.project.names import new_path
from wizard.project.problems import Problems
from wizard.project.store import Held, Store
from wizard.project.templates import begin, template_of
from wizard.questions.keeping import clock
from wizard.questions.outcome import Conflict
from wizard.questions.progress import summary
from wizard.questions.session import Session
from wizard.screens.literal import one_line

WAITING = "…"


class OpenJob(Struct, frozen=True):
    """A job and the file it is kept in."""

    session: Session
    path: Path


def resume(path: Path) -> OpenJob | str:
    """The job in a file, or all that keeps it from being read."""
    session = Session.resume(Store(path), clock)
    return problem_words(session) if isinstance(session, Problems) else OpenJob(session, path)


def begin_job(folder: Path, name: str, template: Draft | None) -> OpenJob | str:
    """A new job in a file of its own, or why there is none."""
    try:
        draft = begin(template or Draft(), name.strip())
    except Unfit as unfit:
        return str(unfit)
    path = new_path(folder, name)
    session = Session.begin(Store(path), draft, clock)
    return session.sentence if isinstance(session, Conflict) else OpenJob(session, path)


def keep_template(folder: Path, draft: Draft, name: str) -> str:
    """Write the choices of a job down as a template called `name`, in a file of its own; says what came of it."""
    try:
        template = put(template_of(draft), "name", name.strip())
    except Unfit as unfit:
        return str(unfit)
    path = new_path(folder, name if "template" in name.casefold() else f"{name} template")
    held = Store(path).save(template)
    return f"Kept as {path.name}: new projects can begin from it." if isinstance(held, Held) else held.sentence


def problem_words(problems: Problems) -> str:
    """Every problem of a file, each with its line and key."""
    return "\n".join(_problem(each.line, each.key, each.sentence) for each in problems.all)


def _problem(line: int | None, key: str, sentence: str) -> str:
    place = ", ".join(each for each in (f"line {line}" if line else "", key) if each)
    return f"{place}: {sentence}" if place else sentence


def name_of(found: Found) -> str:
    """What a project is called: its name, else its file's."""
    name = None if isinstance(found.draft, Problems) else found.draft.name
    return one_line(name or found.path.stem)


def list_line(found: Found, stage: str, action: str) -> Content:
    """A project in the list: name and stage, then last change and what is next."""
    changed = f"{found.changed_at.astimezone():%d %b %Y, %H:%M}"
    return Content.assemble(
        (name_of(found), "bold"), (f"   {stage}", "$accent"), "\n", (f"{changed} · {action}", "$quiet")
    )


def stage_and_action(found: Found) -> tuple[str, str]:
    """How far a project is and what comes next; works its plan, which takes a while."""
    if isinstance(found.draft, Problems):
        return "cannot be read", one_line(problem_words(found.draft))
    short = summary(found.draft, plan_of(found.draft))
    return short.stage, one_line(short.next_action)
