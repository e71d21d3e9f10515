"""A better cutting plan, searched for beside the screen: the first one comes at once, and is not always proven."""

from __future__ import annotations

from contextlib import suppress
from functools import partial

from textual.css.query import NoMatches
from textual.worker import get_current_worker

from wizard.project.jobs import can_improve, improvements
from wizard.screens.job_base import JobBase
from wizard.trade.plan import Plan


class Bettering(JobBase):
    """Lets a better plan take the place of the one that stands, unless the job has changed meanwhile."""

    bettered: Plan | None = None
    """The plan last searched on from, or found."""

    def show_around(self) -> None:
        """What stands around the pane; and search on where the plan shown is not proven."""
        super().show_around()
        plan = self.session.plan
        if plan is not self.bettered and can_improve(plan):
            self.bettered = plan
            self.run_worker(partial(self._bettering, plan), thread=True, exclusive=True, group="better")

    def _bettering(self, plan: Plan) -> None:
        worker = get_current_worker()
        for better in improvements(plan):
            if worker.is_cancelled:
                return
            self.app.call_from_thread(self._better, better)

    def _better(self, plan: Plan) -> None:
        if not self.session.take(plan):
            return
        self.bettered = plan
        # A screen that is left loses its widgets one by one, and this may come in between.
        with suppress(NoMatches):
            if self.view in ("cutting", "roll"):
                self.show()
            else:
                self.show_around()
