"""The cutting plan, its ways compared in a thread, a better plan searched for, and the roll to scale."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import partial
from typing import TYPE_CHECKING

from wizard.project.plan_of_project import can_improve, improvements
from wizard.screens.job_context import JobContext
from wizard.trade.plan_records import Plan

if TYPE_CHECKING:
    from wizard.screens.panes.cutting_pane import CuttingPane
    from wizard.screens.panes.roll_pane import RollView
    from wizard.trade.compare_ways import Comparison


class CuttingController:
    """Shows the cutting plan, and takes a better one when it is found, unless the job has changed since."""

    ACTIONS = ("roll",)

    def __init__(
        self, job: JobContext, pane: Callable[[], CuttingPane], roll: Callable[[], RollView], work: Callable[[], None]
    ) -> None:
        """`work`: goes to the first step that is not ticked, or to what is missing."""
        self.job, self.session = job, job.session
        self._pane, self._roll, self._work = pane, roll, work
        self.compared: Plan | None = None
        """The plan whose ways are being compared."""
        self.found: Mapping[str, Comparison] = {}
        """Layer id -> its ways, for the layers of that plan that are done."""
        self.improved: Plan | None = None
        """The plan last searched on from, or found."""
        self._alone = ""
        """How full the cloth in hand makes the skirt by itself, in a sentence; empty until it is known."""

    # Showing and moving.

    def show(self) -> None:
        """The cutting plan, whose ways come when they are worked out; or the roll to scale."""
        if self.job.view == "roll":
            self._roll().tell(self.session.plan)
            self._roll().focus()
            return
        self._compare()
        self._tell()
        self._pane().scroll_home(animate=False)
        self._pane().focus()

    def _tell(self) -> None:
        if self.job.view == "cutting":
            self._pane().tell(self.session.plan, self.found, self._alone)

    def over_roll(self, action: str) -> None:
        """Zoom or move over the roll to scale."""
        self._roll().do(action)

    def next(self) -> None:
        """On to the work; from the roll, back to what is under it."""
        (self.job.close_view if self.job.view == "roll" else self._work)()

    def roll(self) -> None:
        """Look at the roll to scale."""
        if any(layer.cutting for layer in self.session.plan.layers):
            self.job.look_at("roll")
        else:
            self.job.tell("There is no cloth to cut yet: " + self.session.next_action())

    def _compare(self) -> None:
        """Compare the ways of the present plan in a thread, once."""
        plan = self.session.plan
        if plan is not self.compared:
            self.compared, self.found, self._alone = plan, {}, ""
            self.job.from_thread("ways", self._comparing(plan))

    def _comparing(self, plan: Plan) -> Iterator[Callable[[], None]]:
        from wizard.trade.compare_ways import compare
        from wizard.trade.fullness_offers import without_buying

        for layer in plan.layers:
            yield partial(self._came, plan, {layer.id: compare(plan, layer)}, "")
        yield partial(self._came, plan, {}, without_buying(plan.fullness_in_hand, plan.layers))

    def _came(self, plan: Plan, found: Mapping[str, Comparison], alone: str) -> None:
        if plan is self.compared:
            self.found, self._alone = {**self.found, **found}, alone
            self._tell()

    # A better plan.

    def improve(self) -> None:
        """Search on where the plan is not known to be the best."""
        plan = self.session.plan
        if plan is not self.improved and can_improve(plan):
            self.improved = plan
            self.job.from_thread("improve", (partial(self._take, better) for better in improvements(plan)))

    def _take(self, plan: Plan) -> None:
        if self.session.take(plan):
            self.improved = plan
            self.job.renew()
            if self.job.view == "cutting":
                self._compare()
                self._tell()
            elif self.job.view == "roll":
                # The same length of cloth, as near as before.
                self._roll().tell(plan)
