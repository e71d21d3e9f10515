"""A project in the list of a folder."""

from __future__ import annotations

from collections.abc import Iterator

from wizard.project.folder import Found
from wizard.project.problems import Problems
from wizard.prompts.speech import counted
from wizard.questions.glance import glance
from wizard.questions.jobs import name_of


def project_lines(number: int, found: Found) -> Iterator[str]:
    """A project in the list: name and stage, what is next, when it was changed last."""
    if isinstance(found.draft, Problems):
        yield f"{number}. {found.path.name}: cannot be read, {counted(len(found.draft.all), 'problem')}."
        return
    short = glance(found.draft)
    yield f"{number}. {name_of(found)}: {short.stage}"
    yield f"Next: {short.next_action}"
    yield f"Changed: {found.changed_at.astimezone():%d %B %Y, %H:%M}"
