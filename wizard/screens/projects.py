"""Opening projects: from a path to a session, and a project in a line of the list."""

from __future__ import annotations

from pathlib import Path

from textual.content import Content

from wizard.project.folder import Found
from wizard.project.problems import Problems
from wizard.project.store import Store
from wizard.questions.glance import glance
from wizard.questions.jobs import OpenJob, name_of
from wizard.questions.keeping import clock
from wizard.questions.session import Session
from wizard.screens.literal import one_line


def resume(path: Path) -> OpenJob | str:
    """The job in a file, or all that keeps it from being read."""
    session = Session.resume(Store(path), clock)
    return problem_words(session) if isinstance(session, Problems) else OpenJob(session, path)


def problem_words(problems: Problems) -> str:
    """Every problem of a file, each with its line and key."""
    return "\n".join(_problem(each.line, each.key, each.sentence) for each in problems.all)


def _problem(line: int | None, key: str, sentence: str) -> str:
    place = ", ".join(each for each in (f"line {line}" if line else "", key) if each)
    return f"{place}: {sentence}" if place else sentence


def list_line(found: Found) -> Content:
    """A project in the list: name, stage and file, then last change and what is next."""
    stage, action = _stage_and_action(found)
    changed = f"{found.changed_at.astimezone():%d %b %Y, %H:%M}"
    file = one_line(found.path.name)
    return Content.assemble(
        (one_line(name_of(found)), "bold"), (f"   {stage}", "$accent"), (f"   {file}\n{changed} · {action}", "$quiet")
    )


def _stage_and_action(found: Found) -> tuple[str, str]:
    if isinstance(found.draft, Problems):
        return "cannot be read", one_line(problem_words(found.draft))
    short = glance(found.draft)
    return short.stage, one_line(short.next_action)
