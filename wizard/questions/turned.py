"""What undo and redo changed, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wizard.questions.work import PLACE, step_at
from wizard.trade.field_names import in_words

if TYPE_CHECKING:
    from wizard.questions.session import Session

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
