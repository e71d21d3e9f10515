"""Where a question stands: answered, left to the usual answer, missing, or passed over."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from wizard.questions.given import Given
from wizard.questions.question import Question

State = Literal["answered", "usual", "missing", "skipped"]
"""`usual`: not answered, and the usual answer stands. `skipped`: may be left empty, and is."""


def is_answered(question: Question, given: Given) -> bool:
    """True for a question with an answer that can be used."""
    return question.key in given and not question.unusable


def state_of(question: Question, given: Given) -> State:
    """How the question stands with what was given."""
    if is_answered(question, given):
        return "answered"
    if question.unusable:
        return "missing"
    if question.stands:
        return "usual"
    return "skipped" if question.optional else "missing"


def is_missing(question: Question, given: Given) -> bool:
    """True for a question that has to be answered before the plan is complete."""
    return state_of(question, given) == "missing"


def is_to_go(question: Question, given: Given) -> bool:
    """True for a question that is asked in turn and was neither answered nor may stay empty."""
    return not question.quiet and state_of(question, given) in ("usual", "missing")


def missing(questions: Iterable[Question], given: Given) -> tuple[Question, ...]:
    """The questions that have to be answered, in the order of asking."""
    return tuple(each for each in questions if is_missing(each, given))


def to_go(questions: Iterable[Question], given: Given) -> tuple[Question, ...]:
    """The questions still asked in turn."""
    return tuple(each for each in questions if is_to_go(each, given))
