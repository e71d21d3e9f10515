"""Answers that make a new table, and tables that can be taken out again."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from wizard.project.names import new_id, slug
from wizard.questions.answers import adds_length, file_value
from wizard.questions.question import Question
from wizard.trade.corners import SIDES
from wizard.trade.figures import value_at
from wizard.trade.job import Job
from wizard.trade.printing import Ruler

Entries = Mapping[str, object]
"""What goes into the file: key -> value as it stands there; None takes it out."""

_ADDED: Final = (
    re.compile(r"(survey\.section\.[^.]+\.in_the_way\.[^.]+)(\..*)?"),
    re.compile(r"(cloth\.(?:face|interlining|lining)\.owned\.[^.]+)(\..*)?"),
    re.compile(r"(survey\.section\.[^.]+\.(?:run|drop|drop_at)\.[0-9]+)()"),
    re.compile(r"(cloth\.fixing\.legs\.[0-9]+)()"),
    re.compile(rf"(survey\.section\.(?!(?:{'|'.join(SIDES)})(?:\.|$))[^.]+)(\..*)?"),
)
"""What was added by name or as one more reading, with any key inside it."""


def entries_for(question: Question, text: str, job: Job, ruler: Ruler) -> Entries:
    """What an answer puts into the file. Raises Misread when `text` is no answer of its kind."""
    if question.kind == "add":
        return _new_table(question, text, job, ruler)
    if question.key.endswith(("left_post", "right_post")) and text:
        return {question.key: slug(text, "post")}
    if not text and question.kind != "choices":
        return {question.key: None}
    return {question.key: file_value(question, text, ruler)}


def removable(key: str) -> str | None:
    """The added thing that `key` lies in, as its own key; None for what cannot be taken out."""
    found = (pattern.fullmatch(key) for pattern in _ADDED)
    return next((match[1] for match in found if match), None)


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
