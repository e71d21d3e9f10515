"""The work: ticking steps off, notes, the timer and the minutes a step took."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wizard.interview.job_state import is_done, next_after, place_of
from wizard.interview.outcome import Conflict, Refused
from wizard.screens.actions import key_shown
from wizard.screens.dialog_host import open_screen
from wizard.screens.dialogs.base_dialogs import InputDialog
from wizard.screens.job_dialogs import JobDialogs
from wizard.screens.panes.work_words import minutes_words, time_words
from wizard.screens.screen_text import one_line
from wizard.trade.plan_records import Step

if TYPE_CHECKING:
    from wizard.screens.panes.work_pane import WorkPane


EVERY: Final = 15
"""Seconds between two looks at the clock while a step is timed."""

BEGUN: Final = "Timer running: stop it, tick or leave, and the minutes are kept."
ONLY_STEPS: Final = "Times go with a step of the work."
MOST: Final = 9999


class WorkActions(JobDialogs):
    """Tick, untick, note; start and stop the timer, type the minutes."""

    def on_mount(self) -> None:
        """The minutes that run are seen to run."""
        self.set_interval(EVERY, self._look)

    def action_timer(self) -> None:
        """Start the timer for the current step, or stop it."""
        step = self.session.current_step() if self.view == "work" else None
        if self.timing.step is not None and (step is None or self.timing.step == step.id):
            self._stop()
        elif step is None:
            self.tell(ONLY_STEPS)
        else:
            met = self.met(self.timing.begin(step.id))
            self.tell(BEGUN)
            if not met:
                self.show()

    def action_minutes(self) -> None:
        """Type the minutes that the step in hand took."""
        step = self.session.current_step() if self.view == "work" else None
        if step is None:
            self.tell(ONLY_STEPS)
            return
        kept = self.session.project.work.get(step.id)
        minutes = str(kept.minutes) if kept and kept.minutes else ""
        about = f"Expected: {time_words(step, self.kept(step))}. Empty takes them out."
        line = InputDialog("Minutes it took", f"{step.title}. {about}", minutes, "Write it down")
        open_screen(self, line, lambda text: self._typed_minutes(step.id, text))

    def _typed_minutes(self, step: str, text: str | None) -> None:
        if text is None:
            return
        digits = text.strip().removesuffix("minutes").removesuffix("min").strip()
        if digits and not (digits.isascii() and digits.isdigit() and int(digits) <= MOST):
            self.tell(f"Minutes are a whole number up to {MOST}, for example: 25")
        elif not self.met(self.session.spend(step, int(digits or 0))):
            self.show()

    def _stop(self) -> None:
        step = self.timing.step or ""
        taken = self.timing.taken(step)
        if not self.met(self.timing.end()):
            self.tell(f"Timer stopped: {minutes_words(taken or 0)} in all.")
            self.show()

    def _look(self) -> None:
        """Without moving anything: only the minutes are new."""
        step = self.session.current_step() if self.view == "work" else None
        if step is not None and self.timing.step == step.id:
            self.show_time()

    def show_time(self) -> None:
        """The step in hand with its minutes as they are now."""
        step = self.session.current_step()
        if step is not None:
            self.work.tell_step(step, self.kept(step), from_top=False)

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
        new = not is_done(self.session.project, step.id)
        if self.met(self._done_with(step)):
            return
        self.hush()
        if new and self.has_class("-large"):
            # There the list with its ticks is not in sight.
            self.tell(f"Ticked: {one_line(step.title)}. {key_shown(self.app, 'undo')} takes it back.")
        after = next_after(step, self.session.project, self.session.plan)
        if after is None:
            self.tell("Every step is ticked. The skirt hangs.")
        else:
            self.session.go(place_of(after))
        self.show()

    def action_tick(self) -> None:
        """Tick or untick the step in hand and stay on it."""
        step = self.session.current_step()
        if step is None:
            return
        done = is_done(self.session.project, step.id)
        if not self.met(self.session.untick(step.id) if done else self.timing.tick(step.id)):
            self.hush()
            self.show()

    def action_note(self) -> None:
        """Write a note to the step in hand."""
        step = self.session.current_step()
        if step is None or self.view != "work":
            self.tell("A note goes to a step of the work.")
            return
        kept = self.session.project.work.get(step.id)
        line = InputDialog(
            "Note", f"{step.title}: what is worth remembering?", (kept.note if kept else None) or "", "Keep it"
        )
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
        """Tick a step; for one that is ticked already only stop its timer."""
        if not is_done(self.session.project, step.id):
            return self.timing.tick(step.id)
        return self.timing.end() if self.timing.step == step.id else None
