"""The cutting plan, its ways compared in a thread, a better plan searched for, and the roll to scale."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import partial
from time import monotonic
from typing import TYPE_CHECKING

from wizard.interview.pending_review import changed_figures
from wizard.project.plan_of_project import can_improve, improvements
from wizard.screens.actions import key_shown
from wizard.screens.answering import Answering
from wizard.screens.dialog_host import open_screen
from wizard.trade.plan_records import Plan

if TYPE_CHECKING:
    from wizard.screens.panes.cutting_pane import CuttingPane
    from wizard.trade.compare_ways import Comparison, Way


SOON = 2.0
"""Seconds after which the maker may be busy with something else."""


class CuttingActions(Answering):
    """Shows the cutting plan, and takes a better one when it is found, unless the job has changed since."""

    compared: Plan | None = None
    """The plan whose ways are being compared."""
    found: Mapping[str, Comparison] = {}
    """Layer id -> its ways, for the layers of `compared` that are done."""

    improved: Plan | None = None
    """The plan last searched on from, or found."""

    asked_for: float | None = None
    """When the ways were asked for that are not there yet."""

    alone = ""
    """How full the cloth in hand makes the skirt by itself, in a sentence; empty until it is known."""

    @property
    def lay(self) -> CuttingPane:
        """The pane of the cutting plan."""
        from wizard.screens.panes.cutting_pane import CuttingPane

        return self.query_one(CuttingPane)

    def show_cutting(self) -> None:
        """The cutting plan; its ways come when they are worked out."""
        self.compare_ways()
        pane = self.lay
        pane.tell(self.session.plan, self.found, self.alone)
        pane.scroll_home(animate=False)
        pane.focus()

    def show_roll(self) -> None:
        """The roll to scale."""
        from wizard.screens.panes.roll_pane import RollPane

        self.query_one(RollPane).tell(self.session.plan)

    def compare_ways(self) -> None:
        """Compare the ways of the present plan in a thread, once."""
        plan = self.session.plan
        if plan is not self.compared:
            self.compared, self.found, self.alone = plan, {}, ""
            self.from_thread("ways", self._comparing(plan))

    def _comparing(self, plan: Plan) -> Iterator[Callable[[], None]]:
        from wizard.trade.compare_ways import compare
        from wizard.trade.fullness_offers import without_buying

        for layer in plan.layers:
            yield partial(self._compared, plan, layer.id, compare(plan, layer))
        yield partial(self._held, plan, without_buying(plan.fullness_in_hand, plan.layers))

    def _compared(self, plan: Plan, layer: str, found: Comparison) -> None:
        if plan is self.compared:
            self.found = {**self.found, layer: found}
            self._tell_ways(plan)
            self._bring_ways(plan)

    def _held(self, plan: Plan, said: str) -> None:
        if plan is self.compared:
            self.alone = said
            self._tell_ways(plan)

    def _tell_ways(self, plan: Plan) -> None:
        if self.view == "cutting":
            self.lay.tell(plan, self.found, self.alone)

    def _bring_ways(self, plan: Plan) -> None:
        """What was asked for comes as soon as it is there; not over something that one turned to meanwhile."""
        if self.asked_for is None or len(self.found) < len(plan.layers):
            return
        asked, self.asked_for = self.asked_for, None
        if plan is self.session.plan and self.app.screen is self:
            if monotonic() - asked < SOON:
                self.action_ways()
            else:
                self.tell(f"The ways are worked out: {key_shown(self.app, 'ways')} shows them.")

    def action_roll(self) -> None:
        """Look at the roll to scale."""
        if not any(layer.cutting for layer in self.session.plan.layers):
            self.tell("There is no cloth to cut yet: " + self.session.next_action())
            return
        self.aside = "roll"
        self.show()

    def action_ways(self) -> None:
        """Choose among the ways of cutting."""
        if not any(layer.cutting for layer in self.session.plan.layers):
            self.tell("There is no cloth to cut yet: " + self.session.next_action())
        elif self.compared is not self.session.plan or len(self.found) < len(self.session.plan.layers):
            self.asked_for = monotonic()
            self.compare_ways()
            self.tell("The ways are being worked out: one moment.")
        else:
            from wizard.screens.dialogs.ways_dialog import WaysDialog

            open_screen(self, WaysDialog(self.session.plan, self.found), self._follow)

    def action_step_back(self) -> None:
        """From the roll back to where it was opened."""
        if self.view == "roll":
            self.aside = None
            self.show()
        else:
            super().action_step_back()

    def _follow(self, way: Way | None) -> None:
        """Take what is answered by following a way, as one change."""
        if way is None or way.followed:
            return
        before = self.session.plan
        if self.met(self.session.choose(dict(way.answers))):
            return
        self.note_changes(before, changed_figures(before, self.session.plan))
        from wizard.interview.session_words import followed_words

        said = followed_words(way, before, self.session.plan)
        self.tell(f"{said} {key_shown(self.app, 'undo')} takes it back.")
        self.show()

    def show_around(self) -> None:
        """Show what is around the pane, and search on where the plan is not proven."""
        super().show_around()
        plan = self.session.plan
        if plan is not self.improved and can_improve(plan):
            self.improved = plan
            self.from_thread("improve", self._improve(plan))

    def _improve(self, plan: Plan) -> Iterator[Callable[[], None]]:
        return (partial(self._take_improved, better) for better in improvements(plan))

    def _take_improved(self, plan: Plan) -> None:
        if self.session.take(plan):
            self.improved = plan
            self._show_improved()
            self.show_around()

    def _show_improved(self) -> None:
        """Show the figures of the new plan without moving the view."""
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
        from wizard.screens.panes.roll_pane import RollView

        roll = self.query_one(RollView)
        looked = roll.view
        roll.tell(self.session.plan)
        if looked.number < len(roll.scenes):
            roll.look(looked)
            if roll.looker:
                roll.look(roll.looker.kept(looked))
