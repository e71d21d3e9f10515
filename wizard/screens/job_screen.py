"""The screen of one job: questions, cutting plan and work, and each of them in large figures."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.interview.file_state import COMMENTS
from wizard.interview.job_files import keep_template
from wizard.screens.dialog_host import close_screen, open_screen
from wizard.screens.dialogs.base_dialogs import ConfirmDialog, InputDialog
from wizard.screens.fullness_actions import FullnessActions
from wizard.screens.panes import Pane
from wizard.screens.work_actions import WorkActions

if TYPE_CHECKING:
    from wizard.screens.panes.large_view import LargePane


LARGE = "-large"
NEXT = "Large figures are for a question and for a step: the next one is shown so."


ROOMY = 28
"""Lines of a window with space to name the next thing even where it is on the screen. As in the app's breakpoints."""


class JobScreen(FullnessActions, WorkActions):
    """The job where the work stopped; in large figures, one question or step fills the screen."""

    large = False
    """True while large figures are wanted."""
    from_end = False
    """True while going back: the step before is then shown from its last leaf."""

    def action_large(self) -> None:
        """Large figures, or back to the whole screen."""
        self.large = not self.large
        if self.view not in ("question", "work"):
            self.tell(NEXT if self.large else "Large figures are off.")
        if self.view == "work":
            self.show()
        else:
            self._dress()
            self._write_answer()

    @property
    def is_large(self) -> bool:
        """True when large figures are on and the view can be shown large."""
        return self.large and self.view in ("question", "work")

    @property
    def needed(self) -> tuple[Pane, ...]:
        """A step in large figures has a pane of its own."""
        return (*super().needed, "large") if self.large and self.view == "work" else super().needed

    @property
    def leaves(self) -> LargePane:
        """The pane of a step in large figures."""
        from wizard.screens.panes.large_view import LargePane

        return self.query_one(LargePane)

    def show(self) -> None:
        """As ever, large where it is wanted."""
        self._dress()
        super().show()
        self._write_answer()

    def show_work(self) -> None:
        """The checklist, or the step in hand alone."""
        super().show_work()
        step = self.session.current_step()
        if not self.large or step is None:
            return
        pane = self.leaves
        pane.tell(step, self.kept(step), from_end=self.from_end)
        pane.take_focus()

    def show_time(self) -> None:
        """Large too."""
        super().show_time()
        step = self.session.current_step()
        if self.large and step is not None:
            self.leaves.tell_state(step, self.kept(step))

    def action_step_next(self) -> None:
        """The next leaf of a step, then the next step."""
        if not self._turned_leaf(1):
            super().action_step_next()

    def action_step_back(self) -> None:
        """The leaf before, then the step before, from its end."""
        if self._turned_leaf(-1):
            return
        self.from_end = True
        super().action_step_back()
        self.from_end = False

    def typed(self, text: str) -> None:
        """As ever, and large at once."""
        super().typed(text)
        self._write_answer()

    @property
    def scrolled(self) -> str | None:
        """In large figures, the leaf."""
        return "#large-body" if self.is_large and self.view == "work" else super().scrolled

    def action_read_on(self) -> None:
        """Enter on a leaf: the next one; from the last, tick the step and go on."""
        if not self._turned_leaf(1):
            self.on_work_pane_done()

    def _dress(self) -> None:
        """The style sheet does the rest."""
        self.set_class(self.is_large, LARGE)

    def _turned_leaf(self, leaves: int) -> bool:
        return self.is_large and self.view == "work" and self.leaves.turn(leaves)

    def _write_answer(self) -> None:
        if self.is_large and self.view == "question":
            self.pane.enlarge()

    def on_mount(self) -> None:
        """Say what was done and what is next; ask first when saving would take comments out."""
        self.pane.box.listen(self.typed, self.taken)
        told = self.session.resumed(brief=self.app.size.height < ROOMY)
        self.pane.remind(told)
        self.show()
        if self.view == "work":
            self.work.remind(told)
        if self.session.file.comments:
            open_screen(
                self,
                ConfirmDialog("Before the first answer", " ".join(COMMENTS), "Go on", "Leave the file alone"),
                self._comments,
            )

    def action_show_list(self) -> None:
        """Back to the projects."""
        if self._alone():
            self.tell("Only this project is open here.")
        else:
            self._leave_job()

    def _leave_job(self) -> None:
        self.close_job()
        close_screen(self, "list")

    def action_keep_template(self) -> None:
        """Ask for the name of the template, and write it."""
        if self._alone():
            self.tell("Only this project is open here: a template would be another file.")
            return
        words = "The template keeps the choices for later jobs, without the survey and the work. What is it called?"
        open_screen(
            self,
            InputDialog("Keep as template", words, f"{self.session.project.name or ''} template", "Keep it"),
            self._keep,
        )

    def _alone(self) -> bool:
        alone: bool = getattr(self.app, "alone", False)
        return alone

    def _keep(self, name: str | None) -> None:
        if name is not None:
            self.tell(keep_template(self.path.parent, self.session.project, name))

    def _comments(self, go_on: bool | None) -> None:
        if not go_on:
            self._leave_job()
