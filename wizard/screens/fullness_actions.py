"""Moving along the fullness steps: laid out beside the screen, one by one, and shown without being saved."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import suppress
from functools import partial
from typing import TYPE_CHECKING

from textual.css.query import NoMatches

from wizard.interview.outcome import Accepted, Conflict, Refused
from wizard.interview.pending_review import changed_figures
from wizard.screens.actions import key_shown
from wizard.screens.cutting_actions import CuttingActions
from wizard.screens.figure_words import known_words
from wizard.screens.panes.question_pane import beside_question
from wizard.screens.panes.side_panel import Row as FarRow
from wizard.screens.panes.side_panel import SidePanel, rows
from wizard.trade.formatting import number
from wizard.trade.fullness_offers import Row, has_steps
from wizard.trade.fullness_steps import FullnessStep
from wizard.trade.job_fields import Job
from wizard.trade.plan_records import Plan

if TYPE_CHECKING:
    from wizard.screens.panes.fullness_pane import FullnessPane


WANT, AIM = "fullness.want", "fullness.aim"


class FullnessActions(CuttingActions):
    """The chart, and the steps beside the questions about fullness."""

    steps: tuple[FullnessStep, ...] = ()
    """Found so far for `stepped`."""
    stepped: Plan | None = None
    """The plan whose steps are being worked out."""
    whole = False
    """True when there are no more."""
    owned = ""
    """What the cloth in hand of `stepped` gives, in words."""
    tried: Plan | None = None
    """The plan as it would be at the step in hand of the chart."""
    trying = False
    """True while a step is being tried."""

    @property
    def chart(self) -> FullnessPane:
        """The pane of the chart."""
        from wizard.screens.panes.fullness_pane import FullnessPane

        return self.query_one(FullnessPane)

    def action_fullness(self) -> None:
        """Open the chart at the present place."""
        if not has_steps(self.session.plan):
            self.tell("The steps wait until the face cloth can be laid out: " + self.session.next_action())
            return
        self.cutting, self.aside = False, "fullness"
        self.show()

    def show_fullness(self) -> None:
        """Show the chart of the present plan."""
        self.tried = None
        pane = self.chart
        pane.begin(self.session.plan)
        self._climb()
        self._tell_steps()

    def show_around(self) -> None:
        """Show the plan so far beside the chart too."""
        super().show_around()
        if self.view == "fullness":
            self.query_one(SidePanel).set_class(True, "-shown")

    def rows(self) -> tuple[FarRow, ...]:
        """Beside the chart, the plan at the selected step, compared with the present one."""
        tried, now = self.tried, self.session.plan
        if self.view != "fullness" or tried is None or tried is now:
            return super().rows()
        changed = changed_figures(now, tried)
        return rows(tried, changed, known_words(changed, now))

    @property
    def in_sight(self) -> Plan:
        """The plan whose figures are shown."""
        return self.tried if self.view == "fullness" and self.tried is not None else self.session.plan

    def show_beside(self) -> None:
        """The steps found so far, beside a question about fullness."""
        question = self.session.current()
        if question is None:
            return
        charted = question.stage == "Fullness"
        if charted:
            self._climb()
        steps = self.steps if charted else ()
        self.pane.put_beside(beside_question(question, self.session, steps), along=bool(steps))
        if question.key == "fullness.how":
            self.pane.tell_worked(self.owned)

    def action_step_back(self) -> None:
        """From the chart, back to the question or step, with nothing changed."""
        if self.view == "fullness":
            self._leave_chart()
        else:
            super().action_step_back()

    def action_step_next(self) -> None:
        """In the chart, take the step in hand."""
        if self.view != "fullness":
            super().action_step_next()
        elif self.chart.row is not None:
            self._take(self.chart.row)

    def _climb(self) -> None:
        """Work out the steps of the present plan in a thread, once."""
        plan = self.session.plan
        if plan is self.stepped:
            return
        self.stepped, self.steps, self.whole, self.owned = plan, (), False, ""
        self.from_thread("climb", self._climbing(plan))

    def _climbing(self, plan: Plan) -> Iterator[Callable[[], None]]:
        from wizard.trade.fullness_offers import offer_words

        owned, steps = offer_words(plan), tuple[FullnessStep, ...]()
        if owned:
            yield partial(self._found, plan, steps, owned, whole=False)
        for step in plan.basis.steps():
            steps = (*steps, step)
            yield partial(self._found, plan, steps, owned, whole=False)
        yield partial(self._found, plan, steps, owned, whole=True)

    def _found(self, plan: Plan, steps: tuple[FullnessStep, ...], owned: str, *, whole: bool) -> None:
        if plan is self.stepped:
            self.steps, self.owned, self.whole = steps, owned, whole
            self._tell_steps()

    def _tell_steps(self) -> None:
        if self.view == "fullness":
            pane = self.chart
            pane.tell(self.session.plan, self.steps, whole=self.whole)
            if self.tried is None:
                self._try(pane.row)
        elif self.view == "question":
            self.show_beside()

    def on_fullness_pane_moved(self, event: FullnessPane.Moved) -> None:
        """Another step is in hand."""
        self._try(event.row)

    def _try(self, row: Row | None) -> None:
        """Work out the plan at a step, beside the screen, one at a time: no thread can be stopped in the middle of a
        plan, and many that nobody waits for any more would keep back the one that is wanted."""
        if row is not None and row.now:
            self._tell_tried(row, self.session.plan)
        elif row is not None and not self.trying:
            self.trying = True
            self.from_thread("try", self._trying(row, self._answers(row), self.session.plan.job))

    def _trying(self, row: Row, answers: dict[str, str], job: Job) -> Iterator[Callable[[], None]]:
        yield partial(self._tried, row, self.session.would(answers), job)

    def _tried(self, row: Row, plan: Plan, job: Job) -> None:
        """Show what was worked out for the step in hand; where another is in hand by now, work out that one."""
        self.trying = False
        if self.view != "fullness":
            return
        held = self.chart.row
        if held == row and job == self.session.plan.job:
            self._tell_tried(row, plan)
        else:
            self._try(held)

    def _tell_tried(self, row: Row, plan: Plan) -> None:
        self.tried = plan
        # A screen that is left loses its widgets one by one.
        with suppress(NoMatches):
            self.show_around()
            self.chart.tell_under(row, plan, brief=bool(self.query_one(SidePanel).styles.display != "none"))

    def _answers(self, row: Row) -> dict[str, str]:
        """What is answered by taking a step."""
        answers = {WANT: number(row.step.handy)}
        aim = self.session.plan.figures.get(AIM)
        return answers if aim is None or aim.value == "a number" else {AIM: "a number", **answers}

    def on_fullness_pane_taken(self, event: FullnessPane.Taken) -> None:
        """Take a step as the fullness."""
        self._take(event.row)

    def _leave_chart(self) -> None:
        """Close the chart and change nothing."""
        self.aside = None
        self.show()

    def _take(self, row: Row) -> None:
        if row.now:
            self._leave_chart()
            return
        before, answers = self.session.plan, self._answers(row)
        outcome = self.session.answer(WANT, answers[WANT]) if len(answers) == 1 else self.session.choose(answers)
        if isinstance(outcome, Refused):
            self.tell(outcome.sentence)
        elif isinstance(outcome, Conflict):
            self.met(outcome)
        else:
            self.aside = None
            self.note_changes(before, changed_figures(before, self.session.plan))
            self._taken_on(outcome, answers[WANT])

    def _taken_on(self, outcome: Accepted | None, fullness: str) -> None:
        """Stay at the question or step; at the question about fullness, go on as Enter does there."""
        self.tell(f"Fullness {fullness}. {key_shown(self.app, 'undo')} takes it back.")
        if outcome is not None and self.session.at == WANT:
            self.show()
            self._accept(WANT, outcome)
        else:
            self.show()
