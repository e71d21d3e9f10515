"""What opens over the job and leaves the place as it is: why, go to, findings, sheets, copy, undo, conflicts."""

from __future__ import annotations

import shlex
from io import StringIO
from pathlib import Path
from typing import TYPE_CHECKING

from textual import on

from wizard.interview.file_state import clock
from wizard.interview.job_state import next_step, place_of
from wizard.interview.outcome import Conflict
from wizard.interview.session_words import first_place, first_wanted, turned_words
from wizard.project.finished_steps import as_done
from wizard.project.plan_of_project import best_plan_of
from wizard.project.reading import Problems
from wizard.screens.actions import key_shown
from wizard.screens.dialog_host import open_screen
from wizard.screens.dialogs.base_dialogs import MessageDialog
from wizard.screens.job_base import JobBase
from wizard.screens.panes import CUTTING_PLAN, FULLNESS_STEPS
from wizard.screens.panes.side_panel import SidePanel
from wizard.screens.screen_text import one_line
from wizard.screens.widgets.header import StageMark

if TYPE_CHECKING:
    from wizard.screens.clipboard import Copy
    from wizard.screens.dialogs.base_dialogs import Whose
    from wizard.screens.dialogs.findings_dialog import Mend
    from wizard.screens.dialogs.sheets_dialog import Order


# What lies over the job is loaded when it is first opened.


class JobDialogs(JobBase):
    """Opens the dialogs over the job, and does what they answer."""

    def action_why(self) -> None:
        """The figures, each with its reason; from the plan beside the question, straight the one in hand."""
        panel = self.query_one(SidePanel)
        if panel.has_focus and panel.highlighted is not None:
            panel.action_select()
        else:
            from wizard.screens.dialogs.why_dialog import SoFarDialog

            open_screen(self, SoFarDialog(self.in_sight, self.rows(), self._asked()), self._go)

    @on(SidePanel.Asked)
    def _why_this(self, event: SidePanel.Asked) -> None:
        from wizard.screens.dialogs.why_dialog import WhyDialog

        open_screen(self, WhyDialog(self.in_sight, event.figure, self._asked()), self._go)

    def action_go_to(self) -> None:
        """Everywhere one can go."""
        from wizard.screens.dialogs.search_dialog import go_to_dialog

        at = {"cutting": CUTTING_PLAN, "roll": CUTTING_PLAN, "fullness": FULLNESS_STEPS}.get(self.view, self.session.at)
        open_screen(self, go_to_dialog(self.session, at), self._go)

    def action_roll(self) -> None:
        """The roll to scale."""
        raise NotImplementedError

    def action_fullness(self) -> None:
        """The chart of the fullness steps."""
        raise NotImplementedError

    def action_cutting(self) -> None:
        """Look at the cutting plan."""
        if self.view == "cutting":
            self.action_roll()
            return
        glancing = self.glancing or not self.cutting
        self._go(CUTTING_PLAN)
        self.glancing = glancing

    def action_work(self) -> None:
        """The checklist, where the work stopped."""
        step = next_step(self.session.project, self.session.plan) or next(iter(self.session.plan.work), None)
        if step is None:
            self._lead_on("The work")
            return
        self._go(place_of(step))
        if self.session.missing():
            self.tell("The plan is not complete: more steps come once nothing is missing.")

    @on(StageMark.Chosen)
    def _stage_chosen(self, event: StageMark.Chosen) -> None:
        place = first_place(event.stage, self.session)
        if place is None and event.stage != "Cutting":
            self._lead_on(event.stage)
        else:
            self._go(place or CUTTING_PLAN)

    def _lead_on(self, what: str) -> None:
        """Go where one best gets on while `what` has no steps, and say why one is led there."""
        first = first_wanted(self.session)
        self._go(first.place)
        self.tell(f"{what} has no steps yet: the plan is not complete. {first.says}")

    def action_findings(self) -> None:
        """What looks wrong."""
        from wizard.screens.dialogs.findings_dialog import FindingsDialog

        open_screen(self, FindingsDialog(self.session.plan.findings), self._mend)

    def action_sheets(self) -> None:
        """Write the sheets into a file."""
        from wizard.screens.dialogs.sheets_dialog import SheetsDialog

        open_screen(self, SheetsDialog(self.path, self._write, to_file=not self.app.is_web), self._written)

    def action_undo(self) -> None:
        """Take the last answer back."""
        self._stepped(self.session.undo(), "Taken back", "There is nothing to take back.")

    def action_redo(self) -> None:
        """Give it again."""
        self._stepped(self.session.redo(), "Given again", "There is nothing to give again.")

    def action_take_out(self) -> None:
        """Take out what was added here."""
        if self.view != "question" or self.session.removable(self.session.at) is None:
            self.tell("Nothing here was added: only added things, lengths and readings can be taken out.")
        elif not self.met(self.session.remove(self.session.at)):
            self.tell(f"Taken out. {key_shown(self.app, 'undo')} brings it back.")
            self.show()

    def met(self, conflict: Conflict | None) -> bool:
        """True when a change could not be saved; it is asked about."""
        if conflict is None:
            return False
        from wizard.screens.dialogs.base_dialogs import ConflictDialog

        self.show_around()
        open_screen(self, ConflictDialog(conflict), self._settle)
        return True

    def _settle(self, whose: Whose | None) -> None:
        if whose == "mine":
            self._write_over()
        elif whose == "theirs":
            problems = self.session.reload()
            if isinstance(problems, Problems):
                lines = "\n".join(each.sentence for each in problems.all)
                open_screen(self, MessageDialog("The file cannot be read", lines))
        self.show()

    def _write_over(self) -> None:
        kept = None if self.met(self.session.overwrite()) else self.session.file.kept
        if kept is not None:
            self.tell(f"Saved. What stood there is kept as {kept.name}.")

    def _write(self, order: Order) -> str | None:
        """Write them; why not, when they could not be written."""
        from wizard.render.sheet_files import save_sheets, sheets_text, usual_target
        from wizard.render.sheet_names import USUAL

        only = None if order.only == USUAL else order.only
        project = self.session.project
        plan = as_done(best_plan_of(project), project)
        today = clock().astimezone().date()
        if order.named is not None:
            return save_sheets(plan, order.form, only, order.named, self.path, today)
        text, name = sheets_text(plan, order.form, only, today), usual_target(self.path, order.form).name
        self.app.call_from_thread(self.app.deliver_text, StringIO(text), save_directory=Path(), save_filename=name)
        return None

    def _written(self, order: Order | None) -> None:
        if order is None:
            return
        from wizard.render.sheet_files import NEXT_STEPS, missing_words, usual_target

        missing = missing_words(self.session.plan)
        if order.named is None:
            said = (
                "Downloaded",
                f"Your browser saves it as {usual_target(self.path, order.form).name}: look among its downloads.",
            )
        else:
            said = "Written", str(order.named.path.resolve())
        lines = (said[1], NEXT_STEPS[order.form], f"Unfinished: {missing}" if missing else "")
        open_screen(self, MessageDialog(said[0], "\n\n".join(each for each in lines if each)))

    def _stepped(self, done: bool, said: str, otherwise: str) -> None:
        if not done:
            if not self.met(self.session.file.conflict):
                self.tell(otherwise)
            return
        self.changed, self.was, self.held, self.cutting, self.aside = (), {}, None, False, None
        self.hush()
        self.tell(f"{said}: {turned_words(self.session)}.")
        self.show()

    def _go(self, place: str | None) -> None:
        if place is None:
            return
        if place == FULLNESS_STEPS:
            self.action_fullness()
            return
        self.aside = None
        self.cutting, self.glancing = place == CUTTING_PLAN, False
        self.pane.remind(())
        if not self.cutting and not self.session.go(place):
            self.tell("That is not asked as the job stands.")
        self.held = None
        self.show()

    def _mend(self, mend: Mend | None) -> None:
        if mend is None:
            return
        if mend.action == "go":
            self._go(mend.finding.key)
            return
        if mend.action == "go to the other":
            self._go(mend.finding.other)
            return
        change = self.session.keep if mend.action == "keep" else self.session.unkeep
        if not self.met(change(mend.finding.id)):
            self.show()
            self.action_findings()

    def _asked(self) -> frozenset[str]:
        return frozenset(each.key for each in self.session.questions)

    def action_copy(self) -> None:
        """Choose what to copy, from what is in hand to whole sheets."""
        from wizard.screens.clipboard import copies
        from wizard.screens.dialogs.search_dialog import Entry, SearchDialog

        panel = self.query_one(SidePanel)
        figure = panel.figure_in_hand() if panel.has_focus else self.session.at
        step = self.session.current_step() if self.view == "work" else None
        found = copies(self.session.project, self.session.plan, figure, step, self.session.now().astimezone().date())
        found = tuple(sorted(found, key=lambda each: ("In hand", "Lists", "Sheets").index(each.group)))
        entries = tuple(Entry(each.id, each.group, "", one_line(each.what), "") for each in found)
        dialog = SearchDialog("What is to be copied?", entries, entries[0].id, "type to narrow: buying, marks…", "Copy")
        open_screen(self, dialog, lambda id: self._copy(next((each for each in found if each.id == id), None)))

    def _copy(self, chosen: Copy | None) -> None:
        if chosen is not None:
            from wizard.screens.clipboard import copy

            command = f"railskirt sheet {one_line(shlex.quote(str(self.path)))} {chosen.instead}"
            copy(self.app, chosen.what, chosen.text(), command)
