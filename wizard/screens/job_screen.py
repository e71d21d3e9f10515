"""The screen of one job: it holds the session, shows the pages, the cutting plan and the work, and what is around them.

What the keys do is in its controllers; each shows in its constructor what it may touch.
"""

from __future__ import annotations

import shlex
from functools import partial
from pathlib import Path
from typing import Any, ClassVar, Literal

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import HorizontalGroup, Vertical
from textual.widgets import OptionList

from wizard.interview.file_state import COMMENTS
from wizard.interview.job_state import is_done
from wizard.interview.session import Session
from wizard.interview.step_timer import StepTimer
from wizard.screens.actions import ACTIONS, bindings
from wizard.screens.cutting_controller import CuttingController
from wizard.screens.dialog_host import FullScreen, close_screen
from wizard.screens.dialogs.base_dialogs import ConfirmDialog
from wizard.screens.frame import ActionFooter, Heading, PlanLine
from wizard.screens.job_context import JobContext, if_there
from wizard.screens.job_dialogs import JobDialogs
from wizard.screens.pages.page_controller import PageController
from wizard.screens.panes import Pane, View, pane_of
from wizard.screens.panes.side_panel import SidePanel
from wizard.screens.screen_text import one_line
from wizard.screens.work_controller import EVERY, WorkController

REMARK = 30
"""Seconds that a remark on the file stays: it is given once."""

Ending = Literal["list", "leave"]
"""What the app does when the screen is done."""


class JobScreen(FullScreen[Ending]):
    """The job where the work stopped."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings("job")]

    def __init__(self, session: Session, path: Path, timing: StepTimer | None = None) -> None:
        super().__init__()
        self.session, self.path = session, path
        self.timing = timing or StepTimer(session)
        self.job = JobContext(session, path, self, self.show, self.show_around, self.renew)
        self.heading, self.panel, self.plan_line = Heading(), SidePanel(id="so-far"), PlanLine()
        self.foot = ActionFooter("job")
        self.pages = PageController(self.job)
        self.work = WorkController(self.job, self.timing, partial(self._shown, "work"), partial(self._shown, "large"))
        self.dialogs = JobDialogs(self.job, self.panel)
        cutting, roll = partial(self._shown, "cutting"), partial(self._shown, "roll-view")
        self.cutting = CuttingController(self.job, cutting, roll, self.dialogs.work)
        for controller in (self.pages, self.work, self.cutting, self.dialogs):
            for action in controller.ACTIONS:
                setattr(self, f"action_{action}", getattr(controller, action))
        for each in ACTIONS:
            if each.context == "roll":
                setattr(self, f"action_{each.id}", partial(self.cutting.over_roll, each.id))

    def inside(self) -> ComposeResult:
        """Top, middle, foot."""
        yield self.heading
        with HorizontalGroup(id="middle"):
            with Vertical(id="body"):
                yield self.pages.pane.set_class(self.job.view == "page", "-shown")
            yield self.panel
        yield from (self.plan_line, self.foot)

    def _shown(self, id: str) -> Any:
        return self.query_one(f"#{id}")

    @property
    def controller(self) -> PageController | CuttingController | WorkController:
        """Of what is looked at."""
        if self.job.view == "page":
            return self.pages
        return self.work if self.job.view == "work" else self.cutting

    @property
    def needed(self) -> tuple[View | Pane, ...]:
        """The panes that show what is looked at. A pane is put up when it is first looked at."""
        return ("work", "large") if self.job.view == "work" and self.job.large else (self.job.view,)

    # Showing.

    def on_mount(self) -> None:
        """Say what was done and what is next; ask first when saving would take comments out."""
        self.set_interval(EVERY, self.work.look_at_clock)
        (self.pages if self.job.view == "page" else self.work).remind(self.session.resumed(brief=True))
        self.show()
        if self.session.file.comments:
            dialog = ConfirmDialog("Comments in the file", COMMENTS, "Go on", "Leave the file alone")
            self.job.open(dialog, lambda go_on: None if go_on else self._leave_job())

    def show(self) -> None:
        """Show everything as the session has it."""
        there = {each.id: each for each in self.query_one("#body").children}
        if not there.keys() >= {*self.needed}:
            if not self.coming:
                self.coming = True
                self.call_next(self._put_up)
            return
        large = self.job.large and self.job.view in ("page", "work")
        self.set_class(large, "-large")
        self.foot.call("step_back", "Close large" if large else "")
        for id, pane in there.items():
            pane.set_class(id in self.needed, "-shown")
        self.controller.show()
        # What is asked is seen first; what follows from the answer comes a frame later.
        self.call_after_refresh(if_there, self.show_around)

    async def _put_up(self) -> None:
        """Put up what is not there yet, then show it."""
        there = {each.id for each in self.query_one("#body").children}
        new = [pane_of(each) for each in self.needed if each != "page" and each not in there]
        await self.query_one("#body").mount_all(each.add_class("-shown") for each in new)
        self.coming = False
        self.show()

    def show_around(self) -> None:
        """Show what is around the pane, and search on for a better plan."""
        session, on_page, page, rows = self.session, self.job.view == "page", self.session.page(), self.job.rows()
        stage = "Cutting" if self.job.over else session.stage()
        self.heading.tell(session.project.name or "No name yet", stage, self._states(), session.position())
        for each in session.file.remarks():
            self.notify(each, markup=False, severity="warning", timeout=REMARK)
        self.panel.tell(rows)
        self.panel.set_class(on_page and any(each.label for each in rows), "-shown")
        self.set_class(on_page, "-on-page")
        self.plan_line.set_class(on_page, "-shown")
        section = page.subject.partition(".")[0] if page and page.picture in ("side", "thing") else None
        chosen = bool(session.project.progress.usual_allowances)
        self.plan_line.tell(self.job.in_sight, section, self.job.key("why"), chosen=chosen)
        found = sum(not each.kept for each in session.plan.findings)
        self.foot.call("findings", f"Findings {found}" if found else "")
        self.cutting.improve()

    def renew(self) -> None:
        """Show the figures of a better plan; nothing moves."""
        held = self.focused
        if self.job.view == "work":
            # What is ticked is what is read: it must be told before a key comes.
            self.work.show()
            self.app.call_later(self.set_focus, held, scroll_visible=False)
        elif self.job.view == "page":
            self.pages.redraw()
        self.show_around()

    def _states(self) -> tuple[str, ...]:
        """How far it is, and whether it is saved: all of it first, then less and less."""
        session, work, saved = self.session, self.session.steps, self.session.file.saved_at
        position, upset = session.position(), len(session.upset_places)
        done = sum(is_done(session.project, each.id) for each in work)
        where = f"page {position.number} of about {position.of}" if position.number else f"{done} of {len(work)} done"
        not_saved = "NOT SAVED" if session.file.conflict else ""
        again = f"{upset} to check again" if upset else ""
        when = f"saved {saved.astimezone():%H:%M}" if saved and not not_saved and not position.number else ""
        least = not_saved or again or where
        wordings = ((not_saved, when, again, where), (not_saved, again, where), (not_saved, again), (least,))
        return tuple(" · ".join(filter(None, each)) for each in wordings if any(each))

    # Keys that each view takes its own way.

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool:
        """False for what moves on a page while another view is there: the focus may follow a moment later."""
        return self.job.view == "page" or action not in PageController.ON_A_PAGE

    def action_step_next(self) -> None:
        """Take what is looked at, and go on."""
        self.controller.next()

    def action_step_back(self) -> None:
        """Close what is open, else go back."""
        if self.job.over:
            self.job.close_view()
        elif self.job.large:
            self.action_large()
        else:
            (self.pages if self.job.view == "page" else self.work).back()

    def action_large(self) -> None:
        """Large figures, or back to the whole screen."""
        self.job.large = not self.job.large
        if self.job.view not in ("page", "work"):
            self.job.tell("Large figures are on for pages and steps." if self.job.large else "Large figures are off.")
        self.job.show()

    # What the panes and the top tell.

    @on(OptionList.OptionSelected, "#so-far")
    def _why_asked(self) -> None:
        self.dialogs.why()

    @on(OptionList.OptionHighlighted, "#steps")
    def _other_step(self, event: OptionList.OptionHighlighted) -> None:
        if event.option_id:
            self.work.moved(event.option_id)

    @on(OptionList.OptionSelected, "#steps")
    def _step_done(self) -> None:
        self.work.done()

    def action_to_page(self, number: int) -> None:
        """A click on the bar."""
        pages = [each for each in self.session.pages if each.shown]
        if 0 <= number < len(pages):
            self.job.go(pages[number].fields[0].key)

    # Leaving.

    def leaving(self) -> str:
        """What leaving now would leave behind."""
        self.session.keep_pending()
        left, conflict = self.session.pending.left(self.session.at), self.session.file.conflict
        said = f"Every answer you entered is saved in {self.path}."
        if conflict:
            said = f"Not saved: {conflict.sentence}\n\nWhat was saved before is in {self.path}."
        return f"{said}\n\n{left}" if left else said

    def close_job(self) -> str:
        """Keep the place, and the minutes of a step that is timed; says where the job is, or what was not saved."""
        self.timing.end()
        self.session.leave()
        path, conflict = one_line(str(self.path)), self.session.file.conflict
        go_on = f"To go on: railskirt {one_line(shlex.quote(str(self.path)))}"
        if conflict is None:
            return f"Saved in {path}. {go_on}"
        lost = f"Not saved: {one_line(conflict.sentence)}"
        # The list prints nothing at the end, and may come next.
        self.job.tell(lost)
        return f"{lost}\nWhat was saved before is in {path}. {go_on}"

    def on_unmount(self) -> None:
        """However the screen ends, what is typed is kept."""
        self.session.keep_pending()

    def action_show_list(self) -> None:
        """Back to the projects."""
        if getattr(self.app, "alone", False):
            self.job.tell("Only this project is open here.")
        else:
            self._leave_job()

    def _leave_job(self) -> None:
        self.close_job()
        close_screen(self, "list")
