"""The checklist as kept in the file: what is ticked, and whether it still reads as when it was ticked."""

from __future__ import annotations

import hashlib
from datetime import datetime

from msgspec.structs import replace

from wizard.project.draft import DoneTable, Draft
from wizard.trade.plan import Plan, Stage, Step

PLACE = "work."
"""A place in the interview that is a step of the work: `work.hem:face:left`."""


def place_of(step: Step) -> str:
    """The step's place, which is also its table in the file."""
    return PLACE + step.id


def step_at(plan: Plan, place: str) -> Step | None:
    """The step at a place, or None for any other."""
    step_id = place.removeprefix(PLACE)
    return next((each for each in plan.work if each.id == step_id), None) if step_id != place else None


def print_of(step: Step) -> str:
    """A short mark of what the step tells, kept when it is ticked; another mark means that it reads otherwise now."""
    told = "\n".join((*step.lines, *step.settings))
    return hashlib.sha256(told.encode()).hexdigest()[:12]


def ticked(step: Step, now: datetime, minutes: int | None = None) -> dict[str, object]:
    """What goes into the file when a step is ticked."""
    entries = {"done": now, "told": print_of(step)} | ({"minutes": minutes} if minutes else {})
    return {f"{place_of(step)}.{leaf}": value for leaf, value in entries.items()}


def unticked(step_id: str) -> dict[str, object]:
    """What is taken out of it when one is not done after all. Its note stays."""
    return {f"{PLACE}{step_id}.{leaf}": None for leaf in ("done", "told")}


def is_done(draft: Draft, step_id: str) -> bool:
    """True when the step is ticked."""
    kept = draft.work.get(step_id)
    return kept is not None and kept.done is not None


def done_steps(draft: Draft, plan: Plan) -> tuple[Step, ...]:
    """The ticked steps of this plan."""
    return tuple(each for each in plan.work if is_done(draft, each.id))


def next_step(draft: Draft, plan: Plan) -> Step | None:
    """The first step that is not ticked; None when all are, or there are none yet."""
    return next((each for each in plan.work if not is_done(draft, each.id)), None)


def next_after(step: Step, draft: Draft, plan: Plan) -> Step | None:
    """The next step that is not ticked: behind this one, else from the top."""
    behind = plan.work[plan.work.index(step) + 1 :] if step in plan.work else ()
    return next((each for each in behind if not is_done(draft, each.id)), None) or next_step(draft, plan)


def times(draft: Draft, plan: Plan) -> dict[Stage, tuple[int, int | None]]:
    """Stage -> minutes its steps are expected to take, and those that were written down; None where none were."""
    found: dict[Stage, tuple[int, int | None]] = {}
    for step in plan.work:
        kept = draft.work.get(step.id)
        expected, taken = found.get(step.stage, (0, None))
        took = kept.minutes if kept else None
        found[step.stage] = expected + step.minutes, taken if took is None else (taken or 0) + took
    return found


def as_done(plan: Plan, draft: Draft) -> Plan:
    """The plan with what was done of its steps, for the sheets: ticks, minutes, notes."""
    return replace(plan, work=tuple(_as_done(each, draft.work.get(each.id)) for each in plan.work))


def _as_done(step: Step, kept: DoneTable | None) -> Step:
    if kept is None:
        return step
    return replace(step, taken=kept.minutes, done=kept.done is not None, note=kept.note)


def stale_steps(draft: Draft, plan: Plan) -> tuple[str, ...]:
    """Ids of ticked steps that read otherwise now than when they were ticked, or that the plan has no more."""
    told = {each: kept.told for each, kept in draft.work.items() if kept.done is not None}
    if not plan.work or not told:
        return ()
    now = {each.id: each for each in plan.work}
    return tuple(each for each, then in told.items() if each not in now or then not in (None, print_of(now[each])))
