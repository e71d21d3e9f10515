"""Timing the step in hand, and writing down the minutes it took."""

from __future__ import annotations

from typing import Final

from wizard.screens.dialog_host import open_screen
from wizard.screens.dialogs import Line
from wizard.screens.job_base import JobBase
from wizard.screens.work_words import minutes_words, time_words

EVERY: Final = 15
"""Seconds between two looks at the clock while a step is timed."""

BEGUN: Final = "Timer running: stop it, tick or leave, and the minutes are kept."
ONLY_STEPS: Final = "Times go with a step of the work."
MOST: Final = 9999


class Clocking(JobBase):
    """Start, stop, and minutes that are typed."""

    def on_mount(self) -> None:
        """The minutes that run are seen to run."""
        self.set_interval(EVERY, self._look)

    def on_work_pane_timed(self) -> None:
        """The button of the timer."""
        self.action_timer()

    def action_timer(self) -> None:
        """Time the step in hand, or time it no more."""
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
        kept = self.session.draft.work.get(step.id)
        minutes = str(kept.minutes) if kept and kept.minutes else ""
        about = f"Expected: {time_words(step, self.kept(step))}. Empty takes them out."
        line = Line("Minutes it took", f"{step.title}. {about}", minutes, "Write it down")
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
