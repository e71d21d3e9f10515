"""What became of a job's file, and of the template it was begun from, since the work stopped."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from msgspec import Struct

from wizard.project.folder import template_called
from wizard.project.project import Project
from wizard.project.store import Opened, Store
from wizard.project.templates import template_mark, template_of
from wizard.questions.given import Given, given_by
from wizard.trade.field_names import in_words, layer_in_words
from wizard.trade.model import Job
from wizard.trade.sections import section_name

MOST_NAMED: Final = 3
"""Most parts or answers named one by one."""
PARTS: Final = {
    "job": "the job itself",
    "survey": "the bed",
    "allowances": "allowances",
    "fullness": "fullness",
    "progress": "what is to be asked",
    "kept": "what was kept",
    "work": "the work",
}
_NOT_GIVEN: Final = ("name", "template", "format", "progress")


class Since(Struct, frozen=True):
    """What changed while the wizard was closed."""

    edited: tuple[str, ...] = ()
    """Keys of the parts of the file that were edited by hand."""
    template: Project | None = None
    """The template the job was begun from, where it gives something else now; the job keeps what it copied."""


def since(store: Store, opened: Opened) -> Since:
    """What can be told of a file that was just opened."""
    draft = opened.draft
    template = None
    if draft.began_from and draft.began_mark:
        template = template_called(store.path.parent, draft.began_from)
    newer = template is not None and template_mark(template) != draft.began_mark
    return Since(opened.edited, template if newer else None)


def since_words(since: Since, job: Job, given: Given) -> Iterator[str]:
    """That in sentences; none where nothing changed."""
    if since.edited:
        yield f"The file was edited by hand since: {_listed([_part(each, job) for each in since.edited])}."
    if since.template is not None:
        says = _otherwise(since.template, given)
        about = f" It now says otherwise about {_listed([in_words(each, job) for each in says])}." if says else ""
        yield f"Its template “{since.template.name}” has changed since; the job keeps what it copied.{about}"


def _otherwise(template: Project, given: Given) -> list[str]:
    """The keys at which a project begun from the template now would have another value than this one."""
    gives = given_by(template_of(template))
    return [key for key, text in gives.items() if text and given.get(key) != text and not key.startswith(_NOT_GIVEN)]


def _part(key: str, job: Job) -> str:
    *above, last = key.split(".")
    if above == ["survey", "section"]:
        return section_name(job, last)
    return layer_in_words(last) if above == ["cloth"] else PARTS.get(key, key)


def _listed(names: Sequence[str]) -> str:
    first, more = ", ".join(names[:MOST_NAMED]), len(names) - MOST_NAMED
    return f"{first} and {more} more" if more > 0 else first
