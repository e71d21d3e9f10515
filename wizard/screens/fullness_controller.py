"""The chart of the fullness steps: laid out in a thread, one by one, and tried without being saved."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from typing import TYPE_CHECKING

from wizard.interview.outcome import Conflict, Refused
from wizard.interview.pending_review import changed_figures
from wizard.screens.job_context import Actions, JobContext
from wizard.trade.formatting import number
from wizard.trade.fullness_offers import Row, has_steps
from wizard.trade.fullness_steps import FullnessStep
from wizard.trade.job_fields import Job
from wizard.trade.plan_records import Plan

if TYPE_CHECKING:
    from wizard.screens.panes.fullness_pane import FullnessPane

WANT, AIM = "fullness.want", "fullness.aim"


class FullnessController:
    """Listens to the chart."""

    def __init__(self, job: JobContext, chart: Callable[[], FullnessPane]) -> None:
        self.job, self.session = job, job.session
        self._chart = chart
        self._steps: tuple[FullnessStep, ...] = ()
        self._stepped: Plan | None = None
        """The plan whose steps are being worked out."""
        self._whole = False
        """True when there are no more."""
        self._trying = False

    @property
    def actions(self) -> Actions:
        """What this does for the screen."""
        return {"fullness": self.fullness}

    def fullness(self) -> None:
        """Open the chart over the present place."""
        if has_steps(self.session.plan):
            self.job.look_at("fullness")
        else:
            self.job.tell("The steps wait until the face cloth can be laid out: " + self.session.next_action())

    def show(self) -> None:
        """Show the chart of the present plan."""
        self.job.tried = None
        self._chart().begin(self.session.plan)
        plan = self.session.plan
        if plan is not self._stepped:
            self._stepped, self._steps, self._whole = plan, (), False
            self.job.from_thread("climb", self._climbing(plan))
        self._tell()

    def _climbing(self, plan: Plan) -> Iterator[Callable[[], None]]:
        steps = tuple[FullnessStep, ...]()
        for step in plan.basis.steps():
            steps = (*steps, step)
            yield partial(self._found, plan, steps, whole=False)
        yield partial(self._found, plan, steps, whole=True)

    def _found(self, plan: Plan, steps: tuple[FullnessStep, ...], *, whole: bool) -> None:
        if plan is self._stepped:
            self._steps, self._whole = steps, whole
            self._tell()

    def _tell(self) -> None:
        if self.job.view == "fullness":
            self._chart().tell(self.session.plan, self._steps, whole=self._whole)
            if self.job.tried is None:
                self.tried(self._chart().row)

    def tried(self, row: Row | None) -> None:
        """Work out the plan at a step, in a thread, one at a time: no thread can be stopped in the middle of a plan."""
        if row is not None and row.now:
            self._tell_tried(row, self.session.plan)
        elif row is not None and not self._trying:
            self._trying = True
            self.job.from_thread("try", self._work_out(row, self._answers(row), self.session.plan.job))

    def _work_out(self, row: Row, answers: dict[str, str], job: Job) -> Iterator[Callable[[], None]]:
        yield partial(self._worked, row, self.session.would(answers), job)

    def _worked(self, row: Row, plan: Plan, job: Job) -> None:
        """Show what was worked out for the step in hand; where another is in hand by now, work out that one."""
        self._trying = False
        if self.job.view != "fullness":
            return
        held = self._chart().row
        if held == row and job == self.session.plan.job:
            self._tell_tried(row, plan)
        else:
            self.tried(held)

    def _tell_tried(self, row: Row, plan: Plan) -> None:
        self.job.tried = plan
        self.job.show_around()
        self._chart().tell_under(row, plan, brief=True)

    def _answers(self, row: Row) -> dict[str, str]:
        """What is answered by taking a step."""
        answers = {WANT: number(row.step.handy)}
        aim = self.session.plan.figures.get(AIM)
        return answers if aim is None or aim.value == "a number" else {AIM: "a number", **answers}

    def take(self, row: Row | None = None) -> None:
        """Take a step as the fullness; the one in hand for None."""
        row = row or self._chart().row
        if row is not None and not row.now:
            before, answers = self.session.plan, self._answers(row)
            outcome = self.session.answer(WANT, answers[WANT]) if len(answers) == 1 else self.session.choose(answers)
            if isinstance(outcome, Refused):
                self.job.tell(outcome.sentence)
                return
            if isinstance(outcome, Conflict):
                self.job.met(outcome)
                return
            self.job.note_changes(before, changed_figures(before, self.session.plan))
            self.job.tell(f"Fullness {answers[WANT]}. {self.job.key('undo')} takes it back.")
        self.leave()

    def leave(self) -> None:
        """Close the chart."""
        self.job.tried = None
        self.job.over.remove("fullness")
        self.job.show()
