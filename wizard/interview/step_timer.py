"""Timing a step of the work by the clock. Only finished times are in the file."""

from __future__ import annotations

from datetime import datetime, timedelta

from wizard.interview.outcome import Conflict
from wizard.interview.session import Session


class StepTimer:
    """One step at a time. The minutes are written when it ends: a run that is killed does not change the file."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self.step: str | None = None
        """Id of the step that is timed; None while none is."""
        self.since: datetime | None = None

    def begin(self, step_id: str) -> Conflict | None:
        """Time a step from now on; the one timed till now ends. KeyError for a step that is not there."""
        if step_id not in {each.id for each in self._session.steps}:
            raise KeyError(step_id)
        conflict = self.end()
        self.step, self.since = step_id, self._session.now()
        return conflict

    def end(self) -> Conflict | None:
        """Write the minutes of the step that is timed, added to those it took before. Nothing when none is."""
        step = self.step
        if step is None:
            return None
        minutes = self.taken(step)
        self.step, self.since = None, None
        return self._session.spend(step, minutes)

    def tick(self, step_id: str, minutes: int | None = None) -> Conflict | None:
        """Tick a step, with `minutes` if they are said, else with those that its timing gives."""
        if self.step == step_id:
            minutes = minutes or self.taken(step_id)
            self.step, self.since = None, None
        return self._session.tick(step_id, minutes)

    def running(self, step_id: str) -> int | None:
        """Whole minutes since the timing of a step began, begun ones counted; None while it is not timed."""
        if self.step != step_id or self.since is None:
            return None
        return max(1, -((self.since - self._session.now()) // timedelta(minutes=1)))

    def taken(self, step_id: str) -> int | None:
        """Minutes that a step took so far, those that run counted; None when nothing is known."""
        kept = self._session.project.work.get(step_id)
        minutes = ((kept.minutes or 0) if kept else 0) + (self.running(step_id) or 0)
        return minutes or None
