"""The steps of the work, each with its cautions before it."""

from __future__ import annotations

from wizard.sheets.figure_text import counted
from wizard.sheets.page import Page
from wizard.trade.plan import STAGES, Plan, Step


def work(plan: Plan, page: Page) -> list[str]:
    """All steps, stage by stage, in the order of doing."""
    lines: list[str] = []
    for stage in STAGES:
        steps = [step for step in plan.work if step.stage == stage]
        if steps:
            lines += page.heading(f"Work: {stage}")
            lines += [line for number, step in enumerate(steps) for line in _spaced(number, _step(step, page))]
    return lines


def _spaced(number: int, lines: list[str]) -> list[str]:
    return lines if number == 0 else ["", *lines]


def _step(step: Step, page: Page) -> list[str]:
    lines = [line for each in step.cautions for line in page.para(each.sentence, "  ! ")]
    time = f" ({counted(step.minutes, 'minute')})" if step.minutes else ""
    lines += page.para(f"{step.title}{time}", "[ ] ")
    for sentence in step.lines:
        lines += page.para(sentence, "    ")
    for label, things in (("tools", step.tools), ("settings", step.settings)):
        if things:
            lines += page.para("; ".join(things), f"    {label}: ")
    return lines
