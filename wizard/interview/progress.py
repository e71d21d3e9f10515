"""How far a job is, what comes next, and what became of its file since the work stopped."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from msgspec import Struct

from wizard.interview.answer_text import Given, given_by
from wizard.interview.job_state import JobState, is_answered, is_done, missing, next_step, place_of
from wizard.interview.question import Question
from wizard.project.finished_steps import CUT, changed_in_words
from wizard.project.folder import template_called
from wizard.project.project import Project, template_mark, template_of
from wizard.project.store import Opened, Store
from wizard.trade.field_names import in_words, layer_in_words
from wizard.trade.formatting import counted
from wizard.trade.job_fields import Job
from wizard.trade.plan_records import Step
from wizard.trade.sections import section_name

MOST_NAMED: Final = 3
"""Most parts or answers named one by one."""
PARTS: Final = {
    "job": "the job itself",
    "survey": "the bed",
    "allowances": "allowances",
    "fullness": "fullness",
    "progress": "the progress",
    "kept": "kept findings",
    "work": "the work",
}
_NOT_GIVEN: Final = ("name", "template", "format", "progress")


class ChangedSince(Struct, frozen=True):
    """What changed while the wizard was closed."""

    edited: tuple[str, ...] = ()
    """Keys of the parts of the file that were edited by hand."""
    template: Project | None = None
    """The template the job was begun from, where it gives something else now; the job keeps what it copied."""


def since(store: Store, opened: Opened) -> ChangedSince:
    """What can be told of a file that was just opened."""
    name, mark = opened.project.began_from, opened.project.began_mark
    template = template_called(store.path.parent, name) if name and mark else None
    newer = template is not None and template_mark(template) != mark
    return ChangedSince(opened.edited, template if newer else None)


def since_words(since: ChangedSince, job: Job, given: Given) -> Iterator[str]:
    """That in sentences; none where nothing changed."""
    if since.edited:
        yield f"Edited by hand since you left: {_listed([_part(each, job) for each in since.edited])}."
    if since.template is not None:
        # What a project started from the template now would have that this one has not.
        gives = given_by(template_of(since.template)).items()
        differs = [key for key, text in gives if text and given.get(key) != text and not key.startswith(_NOT_GIVEN)]
        about = f" It now differs in {_listed([in_words(each, job) for each in differs])}." if differs else ""
        yield f"Its template “{since.template.name}” has changed since; the job keeps what it copied.{about}"


def _part(key: str, job: Job) -> str:
    *above, last = key.split(".")
    if above == ["survey", "section"]:
        return section_name(job, last)
    return layer_in_words(last) if above == ["cloth"] else PARTS.get(key, key)


def _listed(names: Sequence[str], most: int = MOST_NAMED) -> str:
    first, more = ", ".join(names[:most]), len(names) - most
    return f"{first}, and {more} more" if more > 0 else first


def where_stopped(here: JobState) -> str:
    """The place the file keeps, else the first question to go, else the next step, else the last place."""
    at = here.project.progress.at
    if at in here.places:
        return at
    first = _still_asked(here)
    if first:
        return first[0].key
    step = next_step(here.project, here.steps)
    return place_of(step) if step else here.places[-1]


def _still_asked(here: JobState) -> tuple[Question, ...]:
    """The questions still asked in turn; none once the work of a complete plan has begun: usual answers hold."""
    begun = here.plan.complete and here.ticked
    return () if begun else here.to_go


ANSWER: Final = "Answer: "
"""Before a question that is the next action; left out after `Next:`."""


def next_action(here: JobState) -> str:
    """What to do next, in one sentence."""
    left = _still_asked(here)
    if left:
        page = here.page_at(left[0].key)
        seen = page is not None and is_answered(left[0], here.given)
        return f"Check the page “{page.title}”." if page and seen else f"{ANSWER}{left[0].title}."
    stop = next((each for each in here.plan.findings if each.level == "stop"), None)
    if stop:
        return stop.way_out
    if here.plan.missing:
        return f"Enter {here.plan.missing[0].words}."
    step = next_step(here.project, here.steps)
    if step:
        return find_out_first(here, step) or f"{step.title}."
    return "Nothing: every step is done." if here.steps else "All answered: follow the cutting plan."


def find_out_first(here: JobState, step: Step) -> str:
    """What was left to find out later and matters at a step, in a sentence: about cloth before it is cut, about the bed
    before the skirt is hung. Empty for nothing."""
    stages = ((each.words, "Cutting" if each.key.startswith("cloth.") else "Hanging") for each in here.plan.later)
    due = [words for words, stage in stages if stage == step.stage]
    return f"Find out first: {_listed(due, 1)}." if due and not is_done(here.project, step.id) else ""


def resumed(here: JobState, since: ChangedSince, *, brief: bool = False, typed: str = "") -> tuple[str, ...]:
    """At most three lines: what was done, what is next, and what to know before going on. `brief`: what is next is left
    out where one stands at it. `typed`: what was typed and not entered; it is the next thing to do."""
    answered = sum(is_answered(each, here.given) and each.kind != "add" for each in here.questions)
    ticked = len(here.ticked)
    steps = f" and {counted(ticked, 'step')}" if ticked else ""
    done = f"Done so far: {counted(answered, 'answer')}{steps}." if answered else ""
    news = _news(here, since) if answered else ""
    stopped = _elsewhere(here)
    following = _passed_over(here) or f"{stopped}Next: {next_action(here).removeprefix(ANSWER)}"
    ahead = typed or ("" if brief and not stopped else following)
    return tuple(each for each in (done, ahead, news) if each)


def _elsewhere(here: JobState) -> str:
    """The place the work goes on at, in words; empty where that is the next action anyway."""
    place = where_stopped(here)
    at = here.by_key.get(place) or here.step_at(place)
    if at is None or next_action(here) in (f"{ANSWER}{at.title}.", f"{at.title}."):
        return ""
    return f"Stopped at: {at.title}. "


def _passed_over(here: JobState) -> str:
    """That the work goes on at the step it stopped at, though steps before it are not ticked; empty where none are."""
    step, first = here.step_at(where_stopped(here)), next_step(here.project, here.steps)
    if step is None or first in (None, step) or is_done(here.project, step.id) or not here.plan.complete:
        return ""
    before = here.steps[: here.steps.index(step)]
    count = sum(not is_done(here.project, each.id) for each in before)
    are = "is" if count == 1 else "are"
    return f"Next: {step.title}. {counted(count, 'step')} before it {are} not ticked." if count else ""


def _news(here: JobState, since: ChangedSince) -> str:
    """What changed since the work stopped, else what waits for an answer; empty for nothing."""
    changed = [*since_words(since, here.plan.job, here.given), *_stale(here)]
    if changed:
        return " ".join(changed)
    waiting = [each for each in here.plan.findings if not each.kept and each.level != "note"]
    return f"{counted(len(waiting), 'finding')} to check: {waiting[0].sentence}" if waiting else ""


def _stale(here: JobState) -> list[str]:
    """One that changed in full, what is cut before all, which the others follow from; how many others there are."""
    cut_first = sorted(here.changed_steps, key=lambda each: not each.id.startswith(CUT))
    told = [*changed_in_words(cut_first)]
    more = len(told) - 1
    others = f"{counted(more, 'more finished step')} {'has' if more == 1 else 'have'} changed too."
    return [*told[:1], others] if more > 0 else told


def turned_words(keys: Sequence[str], here: JobState) -> str:
    """What was taken back or given again last, by its names: `left section: drop at the head end`."""
    return _listed(list(dict.fromkeys(_name_of(each, here) for each in keys)), 2)


def _name_of(key: str, here: JobState) -> str:
    at = here.by_key.get(key) or here.step_at(".".join(key.split(".")[:2]))
    place = at or next((page for page in here.pages if key in page.confirms), None)
    if place is not None:
        return place.title
    unasked = {"kept": "a finding kept as it is", "progress": "what is to be asked"}
    return unasked.get(key.partition(".")[0]) or in_words(key, here.plan.job)


def first_wanted(here: JobState) -> tuple[str | None, str]:
    """What keeps the steps back: the first missing answer, else what stops the plan, else what the plan waits for: the
    place where it is dealt with, if there is one, and a sentence for somebody who is led there."""
    answers, plan = missing(here.questions, here.given), here.plan
    if answers:
        return answers[0].key, "This is the first answer that is missing."
    stop = next((each for each in plan.findings if each.level == "stop"), None)
    if stop is not None:
        return stop.key, stop.way_out
    return plan.missing[0].key if plan.missing else None, next_action(here)
