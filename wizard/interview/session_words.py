"""Sentences about a session: what undo changed, and what keeps the work back."""

from __future__ import annotations

from typing import Final

from msgspec import Struct

from wizard.interview.job_state import PLACE, step_at
from wizard.interview.session import Session
from wizard.trade.field_names import in_words

NAMED: Final = 2
"""So many are named; of more it is said how many."""


def turned_words(session: Session) -> str:
    """What was taken back or given again last, by its names: `left section: drop at the head end`."""
    names = list(dict.fromkeys(_name_of(each, session) for each in session.turned))
    more = [f"and {len(names) - NAMED} more"] if len(names) > NAMED else []
    return ", ".join([*names[:NAMED], *more])


def _name_of(key: str, session: Session) -> str:
    question = next((each for each in session.questions if each.key == key), None)
    if question is not None:
        return question.title
    if key.startswith(PLACE):
        step = step_at(session.plan, ".".join(key.split(".")[:2]))
        return key if step is None else step.title
    if key.startswith("kept."):
        return "a finding kept as it is"
    return in_words(key, session.plan.job)


class First(Struct, frozen=True):
    """What comes before the steps of the work can."""

    place: str | None
    """Where it is dealt with, or None."""
    says: str
    """One sentence, for somebody who is led there."""


def first_wanted(session: Session) -> First:
    """What keeps the steps back: the first missing answer, else what stops the plan, else what the plan waits for."""
    answers, plan = session.missing(), session.plan
    if answers:
        return First(answers[0].key, "Here is what is missing first.")
    stop = next((each for each in plan.findings if each.level == "stop"), None)
    if stop is not None:
        return First(stop.key, stop.way_out)
    return First(plan.missing[0].key if plan.missing else None, session.next_action())
