"""The work: the checklist and its steps in large figures; ticking off, notes, the timer and the minutes a step took."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING, Final

from wizard.interview.job_state import PLACE, is_done, next_step, place_of, times
from wizard.interview.outcome import Refused
from wizard.interview.step_timer import StepTimer
from wizard.screens.job_context import JobContext
from wizard.screens.panes.work_pane import Kept, minutes_words, time_words
from wizard.screens.screen_text import one_line
from wizard.trade.plan_records import Step

if TYPE_CHECKING:
    from wizard.screens.panes.large_view import LargePane
    from wizard.screens.panes.work_pane import WorkPane


EVERY: Final = 15
"""Seconds between two looks at the clock while a step is timed."""

MOST: Final = 9999


class WorkController:
    """Tick, untick, note; start and stop the timer, type the minutes."""

    ACTIONS = ("timer", "minutes", "tick", "note", "read_on", "leaf")

    def __init__(
        self, job: JobContext, timing: StepTimer, pane: Callable[[], WorkPane], leaves: Callable[[], LargePane]
    ) -> None:
        self.job, self.session, self.timing = job, job.session, timing
        self._pane, self._leaves = pane, leaves
        self._told: Sequence[str] = ()

    @property
    def step(self) -> Step | None:
        """The step that is looked at; None for none."""
        return self.session.current_step() if self.job.view == "work" else None

    # Showing.

    def remind(self, lines: Sequence[str]) -> None:
        """Say where the work stopped, once."""
        self._told = lines

    def show(self) -> None:
        """The checklist at the step in hand; in large figures, the step alone."""
        pane, project, work = self._pane(), self.session.project, self.session.steps
        ticked = {each.id for each in work if is_done(project, each.id)}
        step = self.session.current_step()
        pane.tell(work, ticked, self.session.stale(), step.id if step else "", times(project, work))
        if step is not None:
            pane.tell_step(step, self._kept(step))
        if self._told:
            pane.remind(self._told)
            self._told = ()
        if self.job.large and step is not None:
            self._leaves().tell(step, self._kept(step))
            self._leaves().body.focus()
        else:
            pane.query_one("#steps").focus()

    def look_at_clock(self) -> None:
        """Show the minutes of a step that is timed, and move nothing."""
        step = self.step
        if step is not None and self.timing.step == step.id:
            self._pane().tell_step(step, self._kept(step), from_top=False)
            if self.job.large:
                self._leaves().tell_state(step, self._kept(step))

    def _kept(self, step: Step) -> Kept:
        table = self.session.project.work.get(step.id)
        done, note = (table.done, table.note) if table else (None, None)
        when = f"{done.astimezone():%d %B %Y, %H:%M}" if done else None
        runs, changed = self.timing.step == step.id, self.session.changed_since(step.id)
        return Kept(when, note, self.timing.taken(step.id), runs, changed, self.session.find_out_first(step))

    # Moving.

    def next(self) -> None:
        """The next leaf of a step in large figures, else the next step."""
        if not self._turned(1):
            if not self.session.next():
                self.job.tell(self.session.next_action())
            self.job.show()

    def back(self) -> None:
        """The leaf or step before; before the first, the cutting plan."""
        if self._turned(-1):
            return
        self.session.back()
        if self.session.page() is not None:
            self.job.look_at("cutting")
            return
        self.job.show()
        if self.job.large:
            self._turned(len(self._leaves().leaves) - 1)

    def leaf(self, by: int) -> None:
        """The arrow keys of large figures."""
        (self.next if by > 0 else self.back)()

    def moved(self, id: str) -> None:
        """The arrow keys went to another step of the list."""
        if self.session.go(PLACE + id) and (step := self.step):
            self._pane().tell_step(step, self._kept(step))
            self.job.show_around()

    def read_on(self) -> None:
        """Enter in large figures: the next leaf; from the last, tick the step and go on."""
        if not self._turned(1):
            self.done()

    def _turned(self, leaves: int) -> bool:
        return self.job.large and self.job.view == "work" and self._leaves().turn(leaves)

    # Ticking.

    def done(self) -> None:
        """Tick the step in hand, and go to the next that is not ticked; one that has changed since is ticked again, and
        leads to the next of those."""
        step = self.session.current_step()
        if step is None:
            return
        changed = step.id in self.session.stale()
        new = changed or not is_done(self.session.project, step.id)
        # Of one that is ticked already only the timer ends.
        timed = self.timing.end() if not new and self.timing.step == step.id else None
        if self.job.met(self.timing.tick(step.id) if new else timed):
            return
        self.job.hush()
        if new and self.job.large:
            # The list with its ticks is not in sight.
            self.job.tell(f"Ticked: {one_line(step.title)}. {self.job.key('undo')} undoes it.")
        after = self.session.first_changed() if changed else None
        after = after or next_step(self.session.project, self.session.steps, step)
        if after is None:
            self.job.tell("Every step is ticked. The skirt is finished.")
        else:
            self.session.go(place_of(after))
        self.job.show()

    def tick(self) -> None:
        """Tick or untick the step in hand and stay on it."""
        if self.step is not None:
            id, done = self.step.id, is_done(self.session.project, self.step.id)
            if self.job.shown(self.session.untick(id) if done else self.timing.tick(id)):
                self.job.hush()

    # Notes and times.

    def note(self) -> None:
        """Write a note to the step in hand."""
        step = self._step_or_word()
        if step is not None:
            words = f"{step.title}: what do you want to remember?"
            self.job.ask("Note", words, self._kept(step).note or "", "Save", partial(self._noted, step.id))

    def _noted(self, step: str, text: str) -> None:
        outcome = self.session.note(step, text)
        if isinstance(outcome, Refused):
            self.job.tell(outcome.sentence)
        else:
            self.job.shown(outcome)

    def timer(self) -> None:
        """Start the timer for the step in hand, or stop it."""
        timed = self.timing.step
        if timed is not None and (self.step is None or timed == self.step.id):
            taken = self.timing.taken(timed)
            if self.job.shown(self.timing.end()):
                self.job.tell(f"Timer stopped: {minutes_words(taken or 0)} in all.")
        elif step := self._step_or_word():
            self.job.shown(self.timing.begin(step.id))

    def minutes(self) -> None:
        """Type the minutes that the step in hand took."""
        step = self._step_or_word()
        if step is not None:
            table = self.session.project.work.get(step.id)
            minutes = str(table.minutes) if table and table.minutes else ""
            words = f"{step.title}. Expected: {time_words(step, self._kept(step))}. Leave it empty to remove them."
            self.job.ask("Minutes it took", words, minutes, "Save", partial(self._typed_minutes, step.id))

    def _step_or_word(self) -> Step | None:
        """The step that is looked at; where there is none, that is said."""
        if self.step is None:
            self.job.tell("Go to a step of the work first.")
        return self.step

    def _typed_minutes(self, step: str, text: str) -> None:
        digits = text.strip().removesuffix("minutes").removesuffix("min").strip()
        if digits and not (digits.isascii() and digits.isdigit() and int(digits) <= MOST):
            self.job.tell(f"Minutes are a whole number up to {MOST}, for example: 25")
        else:
            self.job.shown(self.session.spend(step, int(digits or 0)))
