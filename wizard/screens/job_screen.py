"""The screen of one job: questions, cutting plan and work."""

from __future__ import annotations

from wizard.questions.jobs import keep_template
from wizard.questions.keeping import COMMENTS
from wizard.screens.dialog_host import close_screen, open_screen
from wizard.screens.dialogs import Line, Sure
from wizard.screens.enlarging import Enlarging

ROOMY = 28
"""Lines of a window in which what is next is told even where one stands at it. As in the app's breakpoints."""


class JobScreen(Enlarging):
    """Lands where the work stopped."""

    def on_mount(self) -> None:
        """Say what was done and what is next; ask first when saving would take comments out."""
        self.pane.box.listen(self.typed, self.taken)
        told = self.session.resumed(brief=self.app.size.height < ROOMY)
        self.pane.remind(told)
        self.show()
        if self.view == "work":
            self.work.remind(told)
        if self.session.comments:
            open_screen(
                self,
                Sure("Before the first answer", " ".join(COMMENTS), "Go on", "Leave the file alone"),
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
        """Ask what the template is to be called, and write it."""
        if self._alone():
            self.tell("Only this project is open here: a template would be another file.")
            return
        words = "The template keeps the choices for later jobs, without the survey and the work. What is it called?"
        open_screen(
            self, Line("Keep as template", words, f"{self.session.draft.name or ''} template", "Keep it"), self._keep
        )

    def _alone(self) -> bool:
        alone: bool = getattr(self.app, "alone", False)
        return alone

    def _keep(self, name: str | None) -> None:
        if name is not None:
            self.tell(keep_template(self.path.parent, self.session.draft, name))

    def _comments(self, go_on: bool | None) -> None:
        if not go_on:
            self._leave_job()
