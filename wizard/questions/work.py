"""The checklist as one walks it: which steps are ticked, which comes next, how long they took."""

from __future__ import annotations

from wizard.project.project import Project
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


def is_done(draft: Project, step_id: str) -> bool:
    """True when the step is ticked."""
    kept = draft.work.get(step_id)
    return kept is not None and kept.done is not None


def done_steps(draft: Project, plan: Plan) -> tuple[Step, ...]:
    """The ticked steps of this plan."""
    return tuple(each for each in plan.work if is_done(draft, each.id))


def next_step(draft: Project, plan: Plan) -> Step | None:
    """The first step that is not ticked; None when all are, or there are none yet."""
    return next((each for each in plan.work if not is_done(draft, each.id)), None)


def next_after(step: Step, draft: Project, plan: Plan) -> Step | None:
    """The next step that is not ticked: behind this one, else from the top."""
    behind = plan.work[plan.work.index(step) + 1 :] if step in plan.work else ()
    return next((each for each in behind if not is_done(draft, each.id)), None) or next_step(draft, plan)


def times(draft: Project, plan: Plan) -> dict[Stage, tuple[int, int | None]]:
    """Stage -> minutes its steps are expected to take, and those that were written down; None where none were."""
    found: dict[Stage, tuple[int, int | None]] = {}
    for step in plan.work:
        kept = draft.work.get(step.id)
        expected, taken = found.get(step.stage, (0, None))
        took = kept.minutes if kept else None
        found[step.stage] = expected + step.minutes, taken if took is None else (taken or 0) + took
    return found
