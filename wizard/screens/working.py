"""Ticking off the work."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.questions.outcome import Conflict, Refused
from wizard.questions.work import is_done, next_after, place_of
from wizard.screens.deeds import key_shown
from wizard.screens.dialog_host import open_screen
from wizard.screens.dialogs import Line
from wizard.screens.job_base import JobBase
from wizard.screens.literal import one_line
from wizard.trade.plan import Step

if TYPE_CHECKING:
    from wizard.screens.work_pane import WorkPane


class Working(JobBase):
    """Tick, untick, note."""

    def on_work_pane_moved(self, event: WorkPane.Moved) -> None:
        """Stand on the step the arrow keys went to."""
        step = next((each for each in self.session.plan.work if each.id == event.step), None)
        if step is not None and self.session.go(place_of(step)):
            self.work.tell_step(step, self.kept(step))
            self.show_around()

    def on_work_pane_done(self) -> None:
        """Tick the step in hand and go to the next that is not ticked."""
        step = self.session.current_step()
        if step is None:
            return
        new = not is_done(self.session.draft, step.id)
        if self.met(self._done_with(step)):
            return
        self.hush()
        if new and self.has_class("-large"):
            # There the list with its ticks is not in sight.
            self.tell(f"Ticked: {one_line(step.title)}. {key_shown(self.app, 'undo')} takes it back.")
        after = next_after(step, self.session.draft, self.session.plan)
        if after is None:
            self.tell("Every step is ticked. The skirt hangs.")
        else:
            self.session.go(place_of(after))
        self.show()

    def on_step_list_turned(self) -> None:
        """Tick or untick the step in hand and stay on it."""
        step = self.session.current_step()
        if step is None:
            return
        done = is_done(self.session.draft, step.id)
        if not self.met(self.session.untick(step.id) if done else self.timing.tick(step.id)):
            self.hush()
            self.show()

    def on_work_pane_noted(self) -> None:
        """The button of a note."""
        self.action_note()

    def action_note(self) -> None:
        """Write a note to the step in hand."""
        step = self.session.current_step()
        if step is None or self.view != "work":
            self.tell("A note goes to a step of the work.")
            return
        kept = self.session.draft.work.get(step.id)
        line = Line("Note", f"{step.title}: what is worth remembering?", (kept.note if kept else None) or "", "Keep it")
        open_screen(self, line, self._noted)

    def _noted(self, text: str | None) -> None:
        step = self.session.current_step()
        if text is None or step is None:
            return
        outcome = self.session.note(step.id, text)
        if isinstance(outcome, Refused):
            self.tell(outcome.sentence)
        elif not self.met(outcome):
            self.show()

    def _done_with(self, step: Step) -> Conflict | None:
        """Tick a step; one that is ticked already is timed no more."""
        if not is_done(self.session.draft, step.id):
            return self.timing.tick(step.id)
        return self.timing.end() if self.timing.step == step.id else None
