"""A project with all that follows from it, worked out once for each change: plan, questions, places."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from functools import cached_property
from itertools import chain
from typing import Final, Literal

from msgspec import Struct
from msgspec.structs import replace

from wizard.interview.answer_text import Given, answer_of, given_by
from wizard.interview.page import Page
from wizard.interview.pages.all_pages import pages_of
from wizard.interview.pages.bed_pages import USUAL_SIDES, unlinked_by
from wizard.interview.question import Question
from wizard.project.finished_steps import as_ticked as plan_as_ticked
from wizard.project.finished_steps import changed_steps, steps_of
from wizard.project.plan_of_project import better_in, plan_of
from wizard.project.project import Project
from wizard.trade.cut_plans import NONE_BETTER, Better
from wizard.trade.plan_records import ChangedStep, Plan, Stage, Step
from wizard.trade.sections import sections_on

State = Literal["answered", "usual", "missing", "skipped", "later"]
"""`usual`: not answered, so the usual answer holds. `skipped`: optional and left empty. `later`: found out later."""
STATE_WORDS: Final[dict[State, str]] = {
    "answered": "answered",
    "usual": "usual",
    "missing": "missing",
    "skipped": "left empty",
    "later": "to find out later",
}
"""What is said of each."""


def is_answered(question: Question, given: Given) -> bool:
    """True for a question with an answer that can be used."""
    return answer_of(question, given) is not None and not question.unusable


def state_of(question: Question, given: Given) -> State:
    """The state of a question, by the answers given."""
    if is_answered(question, given):
        return "answered"
    if question.unusable:
        return "missing"
    if question.postponed:
        return "later"
    if question.stands:
        return "usual"
    return "skipped" if question.optional else "missing"


def is_missing(question: Question, given: Given) -> bool:
    """True for a question that has to be answered before the plan is complete."""
    return state_of(question, given) == "missing"


def missing(questions: Iterable[Question], given: Given) -> tuple[Question, ...]:
    """The questions that have to be answered, in the order of asking."""
    return tuple(each for each in questions if is_missing(each, given))


PLACE = "work."
"""A place in the interview that is a step of the work: `work.hem:face:left`."""


def place_of(step: Step) -> str:
    """The step's place, which is also its table in the file."""
    return PLACE + step.id


def is_done(project: Project, step_id: str) -> bool:
    """True when the step is ticked."""
    kept = project.work.get(step_id)
    return kept is not None and kept.done is not None


def next_step(project: Project, work: Sequence[Step], after: Step | None = None) -> Step | None:
    """The first of the steps that is not ticked: behind the one `after`, else from the top. None for none."""
    behind = work[work.index(after) + 1 :] if after in work else ()
    return next((each for each in (*behind, *work) if not is_done(project, each.id)), None)


def times(project: Project, work: Sequence[Step]) -> dict[Stage, tuple[int, int | None]]:
    """Stage -> minutes its steps are expected to take, and those that were written down; None where none were."""
    found: dict[Stage, tuple[int, int | None]] = {}
    for step in work:
        kept = project.work.get(step.id)
        expected, taken = found.get(step.stage, (0, None))
        took = kept.minutes if kept else None
        found[step.stage] = expected + step.minutes, taken if took is None else (taken or 0) + took
    return found


def placed(project: Project, place: str) -> Project:
    """The project with its place noted. A place is ours, so nothing has to be checked anew."""
    return replace(project, progress=replace(project.progress, at=place))


def neighbour(order: Sequence[str], skip: frozenset[str], at: str, by: int) -> str | None:
    """The nearest place behind (`by` 1) or before (`by` -1) `at` that is not passed over; None at the end."""
    if at not in order:
        return None
    here = order.index(at)
    way = order[here + 1 :] if by > 0 else order[:here][::-1]
    return next((each for each in way if each not in skip), None)


def landing(old: Sequence[str], new: Sequence[str], skip: frozenset[str], at: str) -> str:
    """The place after the places changed: the same one, else the nearest before it that is left."""
    if at in new:
        return at
    before = old[: old.index(at)][::-1] if at in old else ()
    left = next((each for each in before if each in new and each not in skip), None)
    return left or next((each for each in new if each not in skip), "")


def leads_to(given: Collection[str], key: str, order: Sequence[str], skip: frozenset[str]) -> str | None:
    """Where an answer at `key`, which put something in at the keys `given`, leads: to the next place, or back to the
    same one where it added a length of cloth, which has no page of its own, and may add more."""
    added = key.endswith(".owned") and any(each.startswith(key + ".") for each in given)
    return key if added and key in order and key not in skip else neighbour(order, skip, key, 1)


class JobState(Struct, frozen=True, dict=True):
    """The state of a job."""

    project: Project
    plan: Plan
    pages: tuple[Page, ...]
    given: Given
    better: Better
    """Cutting plans found in this session that are better than the first ones."""

    @cached_property
    def questions(self) -> tuple[Question, ...]:
        """Every question that applies, in the order of the pages."""
        return tuple(each for page in self.pages for each in page.questions)

    @cached_property
    def _page_by_key(self) -> dict[str, Page]:
        return {each.key: page for page in self.pages for each in page.questions}

    def page_at(self, place: str) -> Page | None:
        """The page with the question at a place; None for a step of the work, and where there is no such place."""
        return self._page_by_key.get(place)

    def number(self, place: str) -> int:
        """Which page a place is on, from 1; 0 for a step of the work."""
        page = self.page_at(place)
        return 1 + self.pages.index(page) if page else 0

    def number_of(self, key: str) -> int:
        """Which page asks for a key of the file, from 1; 0 for none."""
        question = self.question(key)
        return self.number(question.key) if question else 0

    @property
    def parts(self) -> int:
        """How many things the maker added to the job: sections, things in the way, lengths of cloth."""
        job = self.plan.job
        sections = [each for _, each in sections_on(job)]
        things = sum(len(each.in_the_way) for each in sections)
        lengths = sum(len(each.owned) for each in (job.cloth.face, job.cloth.interlining, job.cloth.lining))
        return (len(sections) or len(USUAL_SIDES)) + things + lengths + (self.project.progress.posts_alike is False)

    @cached_property
    def to_go(self) -> tuple[Question, ...]:
        """The questions still asked in turn; the first of a page whose usual answers were not looked at yet."""
        return tuple(
            each
            for page in self.pages
            if page.shown and not self.finished(page)
            for each in (self._left_on(page) or page.fields[:1])
        )

    def unconfirmed(self, page: Page) -> dict[str, object]:
        """What taking a page says besides its answers, and is not said yet."""
        return {key: True for key in page.confirms if key not in self.given}

    def confirmed_by(self, place: str) -> dict[str, object]:
        """The same for the last field of a page, which is taken with it."""
        page = self.page_at(place)
        return self.unconfirmed(page) if page and page.shown and place == page.fields[-1].key else {}

    def finished(self, page: Page) -> bool:
        """True where nothing on a page is left to answer, and what is usual there was looked at."""
        return page.shown and not self.unconfirmed(page) and not self._left_on(page)

    def passed(self, page: Page) -> bool:
        """True where something on a page is answered, or it was taken with all that is usual there.

        A template says that of its own values before their page is seen.
        """
        taken = page.confirms and not self.unconfirmed(page) and self.project.began_from is None
        return bool(taken) or any(is_answered(each, self.given) for each in page.fields)

    def _left_on(self, page: Page) -> list[Question]:
        """What is left to answer on a page, needed answers behind More among it."""
        behind = [each for each in page.more if is_missing(each, self.given)]
        asked = [each for each in page.fields if not (each.extra or each.by_change)]
        return [each for each in asked if state_of(each, self.given) in ("usual", "missing")] + behind

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """The work: the steps of the plan, and those ticked that wait for it."""
        return steps_of(self.project, self.plan)

    @property
    def ticked(self) -> list[str]:
        """Ids of those that are ticked."""
        return [each.id for each in self.steps if is_done(self.project, each.id)]

    @cached_property
    def places(self) -> tuple[str, ...]:
        """Every place of the job, in order: keys of questions, and `work.STEP` for the steps."""
        return (*(each.key for each in self.questions), *(place_of(each) for each in self.steps))

    @cached_property
    def skip(self) -> frozenset[str]:
        """The places that next and back go past: what is behind *More* and not needed, and what only adds."""
        behind = {each.key for page in self.pages for each in page.more if not is_missing(each, self.given)}
        return frozenset(behind | {each.key for each in self.questions if each.extra})

    @cached_property
    def by_key(self) -> dict[str, Question]:
        """The questions by their keys."""
        return {each.key: each for each in self.questions}

    @cached_property
    def changed_steps(self) -> tuple[ChangedStep, ...]:
        """The finished steps that told something else when they were ticked."""
        return changed_steps(self.project, self.plan)

    @property
    def stale(self) -> tuple[str, ...]:
        """Their ids."""
        return tuple(each.id for each in self.changed_steps)

    def question(self, key: str) -> Question | None:
        """The question at a key, or the first that answers that key of the file; None where none does."""
        of_several = (each for each in self.questions if any(f"{one}.".startswith(f"{key}.") for one in each.keys))
        return self.by_key.get(key) or next(of_several, None)

    def nearest(self, key: str) -> str | None:
        """The place at `key`; else the first below it (`drop` -> `drop.1`), the one that answers it with others, the
        first about the same thing (a section, a cloth), the one above it; else None."""
        several = self.question(key)
        if several is not None and key in several.file_keys:
            return several.key
        if key in self.places:
            return key
        below = (each for each in self.places if each.startswith(key + "."))
        thing = key.rpartition(".")[0]
        beside = (each for each in self.places if thing.count(".") > 1 and each.startswith(thing + "."))
        above = (each for each in self.places if key.startswith(each + "."))
        return next(below, None) or (several.key if several else next(chain(beside, above), None))

    def step_at(self, place: str) -> Step | None:
        """The step of the work at a place, or None."""
        return next((each for each in self.steps if place_of(each) == place), None)

    def elsewhere(self, project: Project) -> JobState:
        """The same, for a project that differs in the place only."""
        other = replace(self, project=project)
        # What was worked out of this one holds for the other too.
        other.__dict__.update(self.__dict__)
        return other


def work_out(project: Project, before: JobState | None = None, *, step: bool = True) -> JobState:
    """Work out all that follows from a project; from `before`, the plan is kept where the job is still the same.

    `step`: False for one that is no further answer to what was before: nothing of it is held against that.
    """
    known = before.better if before else NONE_BETTER
    if before and step:
        progress = replace(project.progress, unlinked=unlinked_by(before.project, project))
        project = replace(project, progress=progress)
    plan = plan_of(project, before.plan if before else None, known)
    given = given_by(project)
    return JobState(project, plan, pages_of(project, plan, given), given, better_in(plan, known))


def as_ticked(here: JobState) -> JobState:
    """The same, on the best plan there is, where finished steps have changed (see `finished_steps.as_ticked`)."""
    plan = plan_as_ticked(here.plan, here.project)
    return here if plan is here.plan else work_out(here.project, replace(here, plan=plan))
