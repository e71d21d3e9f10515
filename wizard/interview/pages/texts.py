"""What the interview says: titles, sentences, questions and help from `texts.txt`, the answers to pick from
`choices.txt`; lengths in the units of the job."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache

from msgspec import Struct

from wizard.interview.question import Choice, Kind
from wizard.project.keys import split
from wizard.project.project import Project
from wizard.trade import job_fields
from wizard.trade.fields import bare, type_at
from wizard.trade.formatting import in_own_units, text_beside


class Text(Struct, frozen=True):
    """What a question says. What is between braces is filled in for the job."""

    label: str
    """On its page."""
    words: str
    """The question."""
    how: str
    """The help."""
    title: str
    """Away from its page; empty where the trade has words for its key."""
    marks: Mapping[str, str]
    """`optional`, `later`, `usual`, `holds`, `e.g.`, each with what follows it (see `texts.txt`)."""


def _read(name: str, *, metric: bool) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    """The blocks of a file: name, what stands behind it in brackets, lines."""
    for block in in_own_units(text_beside(__file__, name), metric=metric).split("\n\n"):
        first, *lines = block.strip().splitlines() or ["#"]
        if not first.startswith("#"):
            called, _, note = first.partition(" (")
            yield called, note.removesuffix(")"), tuple("" if each == "-" else each for each in lines)


@cache
def _blocks(*, metric: bool) -> Mapping[str, tuple[str, tuple[str, ...]]]:
    return {name: (note, lines) for name, note, lines in _read("texts.txt", metric=metric)}


@cache
def text_of(name: str, *, metric: bool) -> Text:
    """What the question of that name says. KeyError for none."""
    note, lines = _blocks(metric=metric)[name]
    marks = (each.partition(" ") for each in note.split("; "))
    label, words, how, *title = lines
    return Text(label, words, how, "".join(title), {mark: value for mark, _, value in marks})


def title_named(name: str) -> str:
    """The title of the question of that name, which is the same in every job; empty where there is none such."""
    _, lines = _blocks(metric=False).get(name, ("", ()))
    return lines[3] if len(lines) > 3 and "{" not in lines[3] else ""


@cache
def page_text(kind: str, *, metric: bool) -> tuple[str, str, str]:
    """What pages of a kind say: title, sentences, and what is behind *More* (see `Page`). KeyError for none."""
    _, (title, words, *more) = _blocks(metric=metric)[f"page.{kind}"]
    return title, words, "".join(more)


def how_to_type(kind: Kind, *, metric: bool) -> str:
    """How a question of a kind is answered, in words; empty where a list is shown for it."""
    return "".join(_blocks(metric=metric).get(f"how.{kind}", ("", ()))[1])


@cache
def choices(*, metric: bool = False) -> Mapping[object, tuple[Choice, ...]]:
    """Type of a field, or name of an answer at several keys -> its values with their words, in the order in which they
    are offered."""
    lists = dict[object, tuple[Choice, ...]]()
    for name, _, lines in _read("choices.txt", metric=metric):
        pairs = (line.partition(" | ") for line in lines)
        lists[_answered(name)] = tuple(Choice(value, words or value) for value, _, words in pairs)
    return lists


def _answered(name: str) -> object:
    """The type that a list of answers is for, by its name or the key of a field; the name where it is for several."""
    if "." in name:
        return bare(type_at(Project, split(name)))
    return getattr(job_fields, name) if name[0].isupper() else name
