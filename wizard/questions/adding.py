"""Answers that make a new table, and tables that can be taken out again."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from wizard.project.names import new_id, slug
from wizard.questions.answers import adds_length, file_value
from wizard.questions.given import Given
from wizard.questions.question import Question
from wizard.questions.readings import further_reading, in_order, names, places_before, without
from wizard.trade.figures import value_at
from wizard.trade.formatting import Ruler, ruler_of
from wizard.trade.model import Job
from wizard.trade.sections import SIDES

Entries = Mapping[str, object]
"""What goes into the file: key -> value as it stands there; None takes it out."""

_ADDED: Final = (
    re.compile(r"(survey\.section\.[^.]+\.in_the_way\.[^.]+)(\..*)?"),
    re.compile(r"(cloth\.(?:face|interlining|lining)\.owned\.[^.]+)(\..*)?"),
    re.compile(r"(survey\.section\.[^.]+\.drop(?:_at)?\.(?:[4-9]|[1-9][0-9]))()"),
    re.compile(r"(cloth\.fixing\.legs\.[0-9]+)()"),
    re.compile(rf"(survey\.section\.(?!(?:{'|'.join(SIDES)})(?:\.|$))[^.]+)(\..*)?"),
)
"""What was added by name or as one more reading, with any key inside it."""
_A_PLACE: Final = re.compile(r"survey\.section\.[^.]+\.drop_at\.[0-9]+")


def there_already(question: Question, job: Job) -> dict[str, object]:
    """What was added to already, by its id, for a question that adds; what was said not to be wanted is not there."""
    there = value_at(job, question.key) if question.kind == "add" else None
    things = there.items() if isinstance(there, Mapping) else ()
    return {id: each for id, each in things if getattr(each, "on", None) is not False}


def entries_for(question: Question, text: str, job: Job, given: Given) -> Entries:
    """What an answer puts into the file. Raises Misread when `text` is no answer of its kind."""
    ruler, key = ruler_of(job), question.key
    if question.kind == "add":
        return _new_table(question, text, job, ruler)
    if key.endswith((".left_post", ".right_post")) and text:
        return {key: slug(text, "post")}
    further = further_reading(key)
    if further and not text:
        return without(*further, given)
    if not text and question.kind != "choices":
        return {key: None}
    value = file_value(question, text, ruler)
    if _A_PLACE.fullmatch(key):
        return in_order(key, str(value), job, given)
    return {**(places_before(further[0], job) if further and key not in given else {}), key: value}


def taken_out(key: str, given: Given) -> Entries | None:
    """What takes the added thing that `key` lies in out of the file; None when it lies in none."""
    table, further = removable(key, given), further_reading(key)
    if table is None:
        return None
    if further:
        return without(*further, given)
    return {table: None}


def removable(key: str, given: Given) -> str | None:
    """The added thing that `key` lies in, as its own key; None for what was not added, or is not there yet."""
    found = (pattern.fullmatch(key) for pattern in _ADDED)
    table = next((match[1] for match in found if match), None)
    if table is None:
        return None
    further = further_reading(key)
    return table if any(each in given for each in (names(*further) if further else (table,))) else None


def _new_table(question: Question, text: str, job: Job, ruler: Ruler) -> Entries:
    if not text:
        return {}
    value = file_value(question, text, ruler)
    taken = value_at(job, question.key) or {}
    if adds_length(question):
        return {f"{question.key}.{new_id('length', taken, 'length')}.length": value}
    if question.key == "survey.section":
        new = f"{question.key}.{new_id(text, {*taken, *SIDES}, 'section')}"
        return {f"{new}.on": True, f"{new}.name": value}
    return {f"{question.key}.{new_id(text, taken, 'thing')}.name": value}
