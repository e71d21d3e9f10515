"""A better cutting plan, searched for beside the screen: the first one comes at once, and is not always proven."""

from __future__ import annotations

from contextlib import suppress
from functools import partial

from textual.css.query import NoMatches
from textual.worker import get_current_worker

from wizard.project.jobs import can_improve, improvements
from wizard.screens.laying import Laying
from wizard.trade.plan import Plan


class Bettering(Laying):
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
            self._tell_better()
            self.show_around()

    def _tell_better(self) -> None:
        """The figures that are looked at are those of the plan as it stands; one stays where one looks."""
        if self.view == "work":
            # What is ticked is what is read: it must be told before a key comes.
            held = self.focused
            self.show_work()
            self.app.call_later(self.set_focus, held, scroll_visible=False)
        elif self.view == "cutting":
            self.compare_ways()
            self.lay.tell(self.session.plan, self.found, self.alone)
        elif self.view == "roll":
            self._tell_roll()

    def _tell_roll(self) -> None:
        """The same length of cloth, as near as before."""
        from wizard.screens.roll_pane import RollView

        roll = self.query_one(RollView)
        looked = roll.view
        roll.tell(self.session.plan)
        if looked.number < len(roll.scenes):
            roll.look(looked)
            if roll.looker:
                roll.look(roll.looker.kept(looked))
