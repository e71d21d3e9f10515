"""The steps of the work, each with its cautions before it."""

from __future__ import annotations

from wizard.sheets.matter import Heading, Matter, Steps
from wizard.trade.plan import STAGES, Plan, Stage


def work(plan: Plan, *stages: Stage) -> list[Matter]:
    """The steps of these stages in the order of doing."""
    matter: list[Matter] = []
    for stage in STAGES:
        steps = tuple(step for step in plan.work if step.stage == stage and stage in stages)
        if steps:
            matter += [Heading(f"Work: {stage}"), Steps(steps)]
    return matter
