"""Answers as text: those given, the usual ones, and what a typed text means at a question."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from typing import Any, Final

from wizard.interview.question import Choice, Question
from wizard.project.encode import plain
from wizard.project.keys import limits_at, split
from wizard.project.parse.field_values import Value, value_within
from wizard.project.parse.misread import Misread, quoted
from wizard.project.project import Project
from wizard.trade.fields import Limits, Money, Usual
from wizard.trade.formatting import METRIC, Ruler, both, exact, money, number
from wizard.trade.job_fields import Job, usual_of
from wizard.trade.lengths import Length

Given = Mapping[str, str]
"""Key -> text. A table has an entry under its own key too, with empty text, as soon as anything is in it."""


def given_by(project: Project) -> Given:
    """Every answer in the project."""
    return dict(_leaves("", plain(project)))


def answer_of(question: Question, given: Given) -> str | None:
    """The answer to a question as one would type it; None while there is none."""
    return question.answer if question.compound else given.get(question.key)


def differing(one: Given, other: Given) -> tuple[str, ...]:
    """Keys of the answers that are not the same in both, in order; where one stopped is none."""
    keys = [each for each in dict.fromkeys((*one, *other)) if one.get(each) != other.get(each)]
    # A table comes and goes with what is in it.
    tables = {".".join(names[:count]) for each in keys for names in [each.split(".")] for count in range(len(names))}
    aside = ("progress.at", "progress.unlinked", "progress.written")
    return tuple(each for each in keys if each not in tables and not each.startswith(aside))


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
    elif isinstance(value, list) and key != "survey.watch":
        # Every other list is an answer an item.
        for number, each in enumerate(value, 1):
            yield from _leaves(f"{key}.{number}", each) if each != "" else ()
    else:
        yield key, as_typed(value)


def usual_text(key: str, job: Job) -> str | None:
    """The usual value at a key, as one would type it; None where the trade has none."""
    standard = job.standard or "inches"
    value = usual_of(key, standard)
    if value is None or isinstance(value, tuple):
        return None
    if key.endswith(("_shrink", ".waste")) and isinstance(value, Fraction):
        return f"{number(value * 100)} %"
    if key.endswith((".step", ".spool")) and isinstance(value, Length):
        # In the unit it is sold by.
        large = "m" if value >= Length.of(1, "m") else "cm"
        return exact(value, "yd" if standard == "inches" else large)
    if key == "ruler" and isinstance(value, Length):
        return exact(value, "in" if standard == "inches" else "mm")
    return as_text(value, job)


def as_text(value: Usual, job: Job) -> str:
    """A value as one would type it in this job: a length in its unit."""
    match value:
        case Length():
            return exact(value, unit_of(job))
        case Fraction():
            return number(value)
        case _:
            return as_typed(value)


def unit_of(job: Job) -> str:
    """The unit usual values are written in: the job's, unless its allowances are in the other system or it is too
    large for them."""
    metric = job.standard == "metric"
    if job.show is None or (job.show in METRIC) != metric:
        return "cm" if metric else "in"
    return {"m": "cm", "yd": "in"}.get(job.show, job.show)


YES: Final = ("yes", "y", "true")
NO: Final = ("no", "n", "false")
YES_OR_NO: Final = (Choice("yes", "yes"), Choice("no", "no"))

EMPTY: Final = ("none", "0")
"""How nothing is picked from a list."""
NONE: Final = "none of them"
"""What is said of a list of which nothing is picked."""


def understood(question: Question, text: str, ruler: Ruler) -> tuple[str | bool | list[str], str]:
    """What `text` puts into the file at the question's key, and how it is understood: a length in both systems, a
    choice in words. Raises Misread with a sentence and an example."""
    text = text.strip()
    # Several keys that take one value have one kind of it.
    limits = limits_for(question.file_keys[0]) if question.compound in ("", "same") else None
    if limits is not None:
        value = value_within(limits, text, ruler.unit)
        return value.text, _shown(value, ruler, percent=limits.kind == "percent")
    match question.kind:
        case "choice":
            choice = picked(question, text)
            return choice, words_for(options(question), choice)
        case "choices":
            parts = [each.strip() for each in text.split(",") if each.strip()]
            several = list(dict.fromkeys(picked(question, each) for each in parts if each.casefold() not in EMPTY))
            return several, ", ".join(words_for(options(question), each) for each in several) or NONE
        case "yes-no":
            word = picked(question, text).casefold()
            if word not in YES + NO:
                raise Misread(f"{quoted(text)} is neither yes nor no.", "yes", ("yes", "no"))
            return word in YES, as_typed(word in YES)
    return text, text


def limits_for(key: str) -> Limits | None:
    """What may be typed at the question of that key; None where no length, number, percentage or sum of money is."""
    return limits_at(Project, split(f"{key}.new.length" if key.endswith(".owned") else key))


def adds_length(question: Question) -> bool:
    """True for the `add` question that is answered with a length of cloth instead of a name."""
    return question.kind == "add" and question.key.endswith(".owned")


def measures(question: Question) -> bool:
    """True for a question that is answered with a length."""
    return question.kind.startswith("length") or adds_length(question)


def words_for(offered: Iterable[Choice], value: str) -> str:
    """The words of a value; the value itself when it is not among those offered."""
    return next((each.words for each in offered if each.value == value), value)


def options(question: Question) -> tuple[Choice, ...]:
    """What can be picked, in order; answering with its number from 1 picks one. Empty for what is typed freely."""
    return YES_OR_NO if question.kind == "yes-no" else question.choices


def picked(question: Question, text: str) -> str:
    """The value that `text` picks: by its number in the list, its value, or the beginning of only one
    of them, as the file has it or as it reads."""
    offered = options(question)
    if text.isdecimal() and len(text) < 3 and 1 <= int(text) <= len(offered):
        return offered[int(text) - 1].value
    low = " ".join(text.split()).casefold()
    exact = [each.value for each in offered if low in (each.value.casefold(), each.words.casefold())]
    begun = [each.value for each in offered if low and each.value.casefold().startswith(low)]
    by_words = [each.value for each in offered if low and each.words.casefold().startswith(low)]
    found = exact or begun or by_words
    return found[0] if len(found) == 1 else " ".join(text.split())


def barred_by(question: Question, text: str) -> str:
    """Why the choice that `text` picks cannot be taken in this job; empty where it can, or none is picked."""
    value = picked(question, text) if question.kind == "choice" else ""
    return next((each.barred for each in options(question) if each.value == value), "")


def _shown(value: Value, ruler: Ruler, *, percent: bool) -> str:
    match value:
        case Length():
            return both(value, ruler)
        case Money():
            return money(value)
    return f"{number(value * 100)} %" if percent else number(value)
