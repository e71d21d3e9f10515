"""What can be copied from a job, and copying it. No terminal says whether it took the text."""

from __future__ import annotations

import base64
import os
from collections.abc import Callable
from datetime import date
from functools import partial
from typing import Any, Final

from msgspec import Struct
from textual.app import App

from wizard.project.finished_steps import as_done
from wizard.project.plan_of_project import at_best
from wizard.project.project import Project
from wizard.render.formats import Request, render
from wizard.render.plan_rows import figure_words
from wizard.render.sheet_files import usual_date
from wizard.render.sheet_names import TITLES
from wizard.trade.plan_records import Plan, Step

LONG: Final = 74_000
"""Letters on the way to the terminal that some of them take at most."""
SECONDS: Final = 8
"""How long it is said: there is a command in it to read."""
DEAF: Final = ("linux", "vt100", "vt220")
"""Kinds of terminal that have no clipboard at all."""


def copy(app: App[Any], what: str, text: str, instead: str) -> None:
    """Ask the terminal to take `text`, and say what was copied and what to do where it takes none."""
    app.copy_to_clipboard(text)
    app.notify(said(what, text, instead, os.environ.get("TERM", "")), markup=False, timeout=SECONDS)


def said(what: str, text: str, instead: str, term: str) -> str:
    """`Copied: Shop, 14 lines. If you cannot paste it: railskirt sheet … prints the same.`"""
    if term in DEAF:
        return f"This terminal has no clipboard. {instead} prints the same."
    lines = text.count("\n")
    much = f", {lines} lines" if lines > 1 else ""
    much += ", long for some terminals" if len(base64.b64encode(text.encode())) > LONG else ""
    return f"Copied: {what}{much}. If you cannot paste it: {instead} prints the same."


class Copy(Struct, frozen=True):
    """Something that can be copied."""

    id: str
    group: str
    what: str
    text: Callable[[], str]
    """Made when it is chosen: some sheets take a while. Like those of the shell they are of the plan at its best."""
    instead: str
    """The options of `railskirt sheet FILE` that print the same."""


def copies(project: Project, plan: Plan, figure: str | None, step: Step | None, today: date) -> tuple[Copy, ...]:
    """Everything there is to copy, what is in hand first."""
    found: list[Copy] = []
    if figure in plan.figures and figure:
        value = figure_words(plan.figures[figure], plan)
        what = f"{plan.figures[figure].title}: {value}"
        found.append(Copy("figure", "Current", what, lambda: value, "--only workings"))
    if step is not None:
        told = (step.title, *(f"! {each.sentence}" for each in step.cautions), *step.lines, *step.listed, "")
        sheet = {"Cutting": "table", "Hanging": "hanging", "Cloth": "shop"}.get(step.stage, "making-up")
        found.append(Copy("step", "Current", f"The step: {step.title}", lambda: "\n".join(told), f"--only {sheet}"))
    cut_list = partial(_written, project, plan, Request("csv"))
    found.append(Copy("cut-list", "Lists", "Cut list, for a spreadsheet", cut_list, "--as csv"))
    for each, title in TITLES.items():
        request = Request("text", (each,), usual_date("text", today))
        group = "Lists" if each in ("shop", "marks") else "Sheets"
        found.append(Copy(each, group, title, partial(_written, project, plan, request), f"--only {each}"))
    return tuple(found)


def _written(project: Project, plan: Plan, request: Request) -> str:
    return render(as_done(at_best(plan), project), request)
