"""The answers of a draft, by key, as they were typed: made once for each draft, looked up often."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from wizard.project.encode import plain
from wizard.project.project import Project

Given = Mapping[str, str]
"""Key -> text. A table stands there under its own key too, with empty text, as soon as anything is in it."""

_ASIDE = ("progress.at", "progress.written")

LISTED = frozenset({"survey.watch"})
"""Lists that are one answer together."""


def given_by(draft: Project) -> Given:
    """Every answer in the draft."""
    return dict(_leaves("", plain(draft)))


def differing(one: Given, other: Given) -> tuple[str, ...]:
    """Keys of the answers that are not the same in both, in order; where one stopped is none."""
    keys = [each for each in dict.fromkeys((*one, *other)) if one.get(each) != other.get(each)]
    # A table comes and goes with what is in it.
    tables = {".".join(names[:count]) for each in keys for names in [each.split(".")] for count in range(len(names))}
    return tuple(each for each in keys if each not in tables and not each.startswith(_ASIDE))


def as_typed(value: object) -> str:
    """A value of the file as one would type it."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list | tuple):
        return ", ".join(str(each) for each in value)
    return str(value)


def _leaves(key: str, value: Any) -> Iterator[tuple[str, str]]:
    if isinstance(value, dict):
        yield key, ""
        for name, each in value.items():
            yield from _leaves(f"{key}.{name}" if key else name, each)
    elif isinstance(value, list) and key not in LISTED:
        for number, each in enumerate(value, 1):
            yield from _leaves(f"{key}.{number}", each) if each != "" else ()
    else:
        yield key, as_typed(value)
