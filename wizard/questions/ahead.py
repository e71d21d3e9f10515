"""The way into a stage of the job, and what stands in it while the stage has no steps yet."""

from __future__ import annotations

from msgspec import Struct

from wizard.questions.session import Session
from wizard.questions.work import place_of
from wizard.trade.plan import Stage


class First(Struct, frozen=True):
    """What comes before the steps of the work can."""

    place: str | None
    """Where it is dealt with, or None."""
    says: str
    """One sentence, for somebody who is led there."""


def first_place(stage: Stage, session: Session) -> str | None:
    """Where a stage begins: its first missing question, else its first question, else its first step, else None."""
    missing = [each.key for each in session.missing() if each.stage == stage]
    asked = [each.key for each in session.questions if each.stage == stage and not each.quiet]
    steps = [place_of(each) for each in session.plan.work if each.stage == stage]
    return next(iter([*missing, *asked, *steps]), None)


def first_wanted(session: Session) -> First:
    """What keeps the steps back: the first missing answer, else what stops the plan, else what the plan waits for."""
    answers, plan = session.missing(), session.plan
    if answers:
        return First(answers[0].key, "Here is what is missing first.")
    stop = next((each for each in plan.findings if each.level == "stop"), None)
    if stop is not None:
        return First(stop.key, stop.way_out)
    return First(plan.missing[0].key if plan.missing else None, session.next_action())
