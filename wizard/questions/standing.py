"""A draft with all that follows from it, worked once for each change."""

from __future__ import annotations

from functools import cached_property

from msgspec import Struct
from msgspec.structs import replace

from wizard.project.finished_steps import as_ticked as plan_as_ticked
from wizard.project.finished_steps import changed_steps
from wizard.project.plans import better_in, plan_of
from wizard.project.project import Project
from wizard.questions.given import Given, given_by
from wizard.questions.interview import interview
from wizard.questions.places import passed_over, places
from wizard.questions.question import Question
from wizard.questions.work import step_at
from wizard.trade.cut_plans import NONE_BETTER, Better
from wizard.trade.plan import STAGES, ChangedStep, Plan, Stage, Step


class Standing(Struct, frozen=True, dict=True):
    """Where a job stands."""

    draft: Project
    plan: Plan
    questions: tuple[Question, ...]
    given: Given
    better: Better
    """Cutting plans found in this session that are better than the first ones."""

    @cached_property
    def places(self) -> tuple[str, ...]:
        """Every place one can stand at, in order."""
        return places(self.questions, self.plan)

    @cached_property
    def skip(self) -> frozenset[str]:
        """The places that next and back go past."""
        return passed_over(self.questions)

    @cached_property
    def by_key(self) -> dict[str, Question]:
        """The questions by their keys."""
        return {each.key: each for each in self.questions}

    @cached_property
    def changed_steps(self) -> tuple[ChangedStep, ...]:
        """The finished steps that told something else when they were ticked."""
        return changed_steps(self.draft, self.plan)

    @property
    def stale(self) -> tuple[str, ...]:
        """Their ids."""
        return tuple(each.id for each in self.changed_steps)

    def step_at(self, place: str) -> Step | None:
        """The step of the work at a place, or None."""
        return step_at(self.plan, place)

    def stage_at(self, place: str) -> Stage:
        """The stage a place is in; the first where there is no such place."""
        here = self.by_key.get(place) or self.step_at(place)
        return here.stage if here else STAGES[0]

    def elsewhere(self, draft: Project) -> Standing:
        """The same, for a draft that differs in the place only."""
        other = replace(self, draft=draft)
        # What was worked out of this one holds for the other too.
        other.__dict__.update(self.__dict__)
        return other


def stand(draft: Project, before: Standing | None = None) -> Standing:
    """Work out all that follows from a draft; from `before`, the plan is kept where the job is still the same."""
    known = before.better if before else NONE_BETTER
    plan = plan_of(draft, before.plan if before else None, known)
    return Standing(draft, plan, interview(draft, plan), given_by(draft), better_in(plan, known))


def as_ticked(here: Standing) -> Standing:
    """The same, on the best plan there is, where finished steps have changed (see `finished_steps.as_ticked`)."""
    plan = plan_as_ticked(here.plan, here.draft)
    return here if plan is here.plan else stand(here.draft, replace(here, plan=plan))
