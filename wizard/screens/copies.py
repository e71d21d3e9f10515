"""What can be copied from a job: what is in hand, a list, a sheet."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from msgspec import Struct

from wizard.project.draft import Draft
from wizard.project.finished_steps import as_done
from wizard.project.jobs import at_best
from wizard.screens.figure_words import figure_words
from wizard.sheets.forms import Wanted, written
from wizard.sheets.kinds.names import TITLES, SheetId
from wizard.sheets.to_file import usual_date
from wizard.trade.plan import Plan, Step


class Copy(Struct, frozen=True):
    """Something that can be copied."""

    id: str
    group: str
    what: str
    text: Callable[[], str]
    """Made when it is chosen: some sheets take a while. Like those of the shell they are of the plan at its best."""
    instead: str
    """What `railskirt sheet FILE` is to be told so that it prints the same."""


def copies(draft: Draft, plan: Plan, figure: str | None, step: Step | None, today: date) -> tuple[Copy, ...]:
    """Everything there is to copy, what is in hand first."""
    in_hand = [_of_figure(figure, plan)] if figure in plan.figures and figure else []
    in_hand += [_of_step(step)] if step else []
    return (*in_hand, _of_cut_list(draft, plan), *(_of_sheet(each, draft, plan, today) for each in TITLES))


def of_figure(id: str, plan: Plan) -> str:
    """A figure as it reads."""
    return figure_words(plan.figures[id], plan)


def _of_figure(id: str, plan: Plan) -> Copy:
    words = f"{plan.figures[id].title}: {of_figure(id, plan)}"
    return Copy("figure", "In hand", words, lambda: of_figure(id, plan), "--only workings")


def _of_step(step: Step) -> Copy:
    told = "\n".join((step.title, *(f"! {each.sentence}" for each in step.cautions), *step.lines))
    sheet = {"Cutting": "cutting", "Hanging": "hanging", "Cloth": "buying"}.get(step.stage, "making-up")
    return Copy("step", "In hand", f"The step: {step.title}", lambda: f"{told}\n", f"--only {sheet}")


def _of_cut_list(draft: Draft, plan: Plan) -> Copy:
    what = "Cut list, for a spreadsheet"
    return Copy("cut-list", "Lists", what, lambda: written(as_done(at_best(plan), draft), Wanted("csv")), "--as csv")


def _of_sheet(sheet: SheetId, draft: Draft, plan: Plan, today: date) -> Copy:
    group = "Lists" if sheet in ("buying", "marks") else "Sheets"
    wanted = Wanted("text", (sheet,), usual_date("text", today))
    return Copy(sheet, group, TITLES[sheet], lambda: written(as_done(at_best(plan), draft), wanted), f"--only {sheet}")
