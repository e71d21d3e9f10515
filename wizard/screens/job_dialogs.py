"""What opens over the job and leaves the place as it is: why, go to, findings, sheets, copy, undo, templates."""

from __future__ import annotations

import shlex
from functools import partialmethod
from io import StringIO
from pathlib import Path
from typing import TYPE_CHECKING

from wizard.interview.file_state import clock
from wizard.interview.job_files import keep_template
from wizard.interview.job_state import next_step, place_of
from wizard.project.finished_steps import as_done
from wizard.project.plan_of_project import at_best, plan_of
from wizard.screens.dialogs.base_dialogs import MessageDialog
from wizard.screens.job_context import JobContext
from wizard.screens.panes import CUTTING_PLAN
from wizard.screens.panes.side_panel import SidePanel
from wizard.screens.screen_text import one_line

if TYPE_CHECKING:
    from wizard.screens.dialogs.findings_dialog import Response
    from wizard.screens.dialogs.sheets_dialog import Order


# What opens over the job is loaded when it is first opened.


class JobDialogs:
    """Opens the dialogs over the job, and does what they answer."""

    ACTIONS = (
        *("why", "go_to", "findings", "undo", "redo", "cutting", "work", "fullness", "ways"),
        *("sheets", "copy", "keep_template"),
    )

    def __init__(self, job: JobContext, panel: SidePanel):
        self.job, self.session, self._panel = job, job.session, panel

    def why(self) -> None:
        """The figures, each with its reason; from the plan beside the page, straight the one in hand."""
        from wizard.screens.dialogs.why_dialog import SoFarDialog, WhyDialog

        plan, asked = self.job.in_sight, frozenset(each.key for each in self.session.questions)
        if self._panel.has_focus and (figure := self._panel.figure_in_hand()):
            self.job.open(WhyDialog(plan, figure, asked), self._go)
        else:
            self.job.open(SoFarDialog(plan, self.job.rows(), asked), self._go)

    def go_to(self) -> None:
        """Everywhere one can go."""
        from wizard.screens.dialogs.search_dialog import go_to_dialog

        at = CUTTING_PLAN if self.job.view in ("cutting", "roll") else self.session.at
        self.job.open(go_to_dialog(self.session, at), self._go)

    def _go(self, place: str | None) -> None:
        if place == CUTTING_PLAN:
            self.job.look_at("cutting")
        elif place is not None:
            self.job.go(place)

    def _choose(self, key: str) -> None:
        if self.session.question(key) is None:
            self.job.tell(f"Nothing to choose yet. {self.session.next_action()}")
        else:
            self.job.go(key)

    fullness, ways = partialmethod(_choose, "fullness.how"), partialmethod(_choose, "ways.face")

    def cutting(self) -> None:
        """Look at the cutting plan; from there, at the roll to scale."""
        self.job.look_at("roll" if self.job.view == "cutting" else "cutting")

    def work(self) -> None:
        """The checklist, at what has changed since it was ticked, else where the work stopped; what is missing where
        there is none yet."""
        step = (
            self.session.first_changed()
            or next_step(self.session.project, self.session.steps)
            or next(iter(self.session.steps), None)
        )
        if step is None:
            place, says = self.session.first_wanted()
            self.job.go(place)
            self.job.tell(f"There are no steps yet: the plan is not complete. {says}")
            return
        self.job.go(place_of(step))
        if self.session.missing():
            self.job.tell("The plan is not complete yet: more steps follow once nothing is missing.")

    def findings(self) -> None:
        """What looks wrong."""
        from wizard.screens.dialogs.findings_dialog import FindingsDialog

        self.job.open(FindingsDialog(self.session.plan.findings), self._respond)

    def _respond(self, response: Response | None) -> None:
        if response is None:
            return
        place, finding = response
        if place is not None:
            self.job.go(place)
        elif not self.job.met((self.session.unkeep if finding.kept else self.session.keep)(finding.id)):
            self.job.go(None)
            self.findings()

    def undo(self) -> None:
        """Take the last change back."""
        self._stepped(self.session.undo(), "Undone", "Nothing to undo since you opened this project.")

    def redo(self) -> None:
        """Make it again."""
        self._stepped(self.session.redo(), "Redone", "There is nothing to redo.")

    def _stepped(self, done: bool, said: str, otherwise: str) -> None:
        if done:
            self.job.changed, self.job.was = (), {}
            self.job.go(None)
            self.job.tell(f"{said}: {self.session.turned_words()}.")
        elif not self.job.met(self.session.file.conflict):
            self.job.tell(otherwise)

    def sheets(self) -> None:
        """Write the sheets into a file."""
        from wizard.screens.dialogs.sheets_dialog import SheetsDialog

        self.job.open(SheetsDialog(self.job.path, self._write, to_file=not self.job.app.is_web), self._written)

    def _write(self, order: Order) -> str | None:
        """Write them; why not, when they could not be written."""
        from wizard.render.sheet_files import save_sheets, sheets_text, usual_target
        from wizard.render.sheet_names import USUAL

        only = None if order.only == USUAL else order.only
        plan, app = as_done(at_best(plan_of(self.session.project)), self.session.project), self.job.app
        today = clock().astimezone().date()
        if order.named is not None:
            return save_sheets(plan, order.form, only, order.named, self.job.path, today)
        text, name = sheets_text(plan, order.form, only, today), usual_target(self.job.path, order.form).name
        app.call_from_thread(app.deliver_text, StringIO(text), save_directory=Path(), save_filename=name)
        return None

    def _written(self, order: Order | None) -> None:
        if order is None:
            return
        from wizard.render.sheet_files import after_writing, usual_target

        title, where = "Written", str(order.named.path.resolve()) if order.named else ""
        if not where:
            name = usual_target(self.job.path, order.form).name
            title, where = "Downloaded", f"Your browser saves it as {name}, among its downloads."
        lines = (where, *after_writing(self.session.plan, order.form))
        self.job.open(MessageDialog(title, "\n\n".join(lines)))

    def copy(self) -> None:
        """Choose what to copy, from the current figure or step to whole sheets."""
        from wizard.screens.clipboard import copies, copy
        from wizard.screens.dialogs.search_dialog import Entry, SearchDialog

        figure = self._panel.figure_in_hand() if self._panel.has_focus else self.session.at
        step = self.session.current_step() if self.job.view == "work" else None
        found = copies(self.session.project, self.session.plan, figure, step, self.session.now().astimezone().date())
        found = tuple(sorted(found, key=lambda each: each.group))
        entries = tuple(Entry(each.id, each.group, "", one_line(each.what), "") for each in found)
        hint = "type to filter: shop, marks…"
        dialog = SearchDialog("What do you want to copy?", entries, entries[0].id, hint, "Copy")
        command = f"railskirt sheet {one_line(shlex.quote(str(self.job.path)))}"

        def chosen(id: str | None) -> None:
            for each in found:
                if each.id == id:
                    copy(self.job.app, each.what, each.text(), f"{command} {each.instead}")

        self.job.open(dialog, chosen)

    def keep_template(self) -> None:
        """Ask for the name of the template, and write it."""
        if getattr(self.job.app, "alone", False):
            self.job.tell("Only this project can be written here, so you cannot save a template.")
            return
        words = "The template keeps the choices for later jobs, without the survey and the work. What is it called?"
        name = f"{self.session.project.name or ''} template"
        self.job.ask("Save as template", words, name, "Save it", self._keep)

    def _keep(self, name: str) -> None:
        self.job.tell(keep_template(self.job.path.parent, self.session.project, name))
