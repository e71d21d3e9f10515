"""What can be copied from a job, and copying it. No terminal says whether it took the text."""

from __future__ import annotations

import base64
import os
from collections.abc import Callable
from datetime import date
from typing import Any, Final

from msgspec import Struct
from textual.app import App

from wizard.project.finished_steps import as_done
from wizard.project.plan_of_project import at_best
from wizard.project.project import Project
from wizard.render.formats import Request, render
from wizard.render.sheet_files import usual_date
from wizard.render.sheet_names import TITLES, SheetId
from wizard.screens.figure_words import figure_words
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
    """`Copied: Shop, 14 lines. If it cannot be pasted: railskirt sheet … prints the same.`"""
    lines = text.count("\n")
    much = f", {lines} lines" if lines > 1 else ""
    if term in DEAF:
        return f"This terminal has no clipboard. {instead} prints the same."
    if len(base64.b64encode(text.encode())) > LONG:
        return f"Copied: {what}{much}, long for some terminals. If it cannot be pasted: {instead} prints the same."
    return f"Copied: {what}{much}. If it cannot be pasted: {instead} prints the same."


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
    in_hand = [_of_figure(figure, plan)] if figure in plan.figures and figure else []
    in_hand += [_of_step(step)] if step else []
    return (*in_hand, _of_cut_list(project, plan), *(_of_sheet(each, project, plan, today) for each in TITLES))


def of_figure(id: str, plan: Plan) -> str:
    """A figure as it reads."""
    return figure_words(plan.figures[id], plan)


def _of_figure(id: str, plan: Plan) -> Copy:
    words = f"{plan.figures[id].title}: {of_figure(id, plan)}"
    return Copy("figure", "In hand", words, lambda: of_figure(id, plan), "--only workings")


def _of_step(step: Step) -> Copy:
    told = "\n".join((step.title, *(f"! {each.sentence}" for each in step.cautions), *step.lines, *step.listed))
    sheet = {"Cutting": "table", "Hanging": "hanging", "Cloth": "shop"}.get(step.stage, "making-up")
    return Copy("step", "In hand", f"The step: {step.title}", lambda: f"{told}\n", f"--only {sheet}")


def _of_cut_list(project: Project, plan: Plan) -> Copy:
    what = "Cut list, for a spreadsheet"
    return Copy("cut-list", "Lists", what, lambda: render(as_done(at_best(plan), project), Request("csv")), "--as csv")


def _of_sheet(sheet: SheetId, project: Project, plan: Plan, today: date) -> Copy:
    group = "Lists" if sheet in ("shop", "marks") else "Sheets"
    request = Request("text", (sheet,), usual_date("text", today))
    return Copy(
        sheet, group, TITLES[sheet], lambda: render(as_done(at_best(plan), project), request), f"--only {sheet}"
    )
