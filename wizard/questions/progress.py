"""How far a job is, and what comes next."""

from __future__ import annotations

from wizard.project.finished_steps import CUT, changed_in_words
from wizard.questions.question import Question
from wizard.questions.since import Since, since_words
from wizard.questions.standing import Standing
from wizard.questions.states import is_answered, missing, to_go
from wizard.questions.work import done_steps, is_done, next_step, place_of
from wizard.trade.plan import STAGES, Finding, Stage


def tally(stage: Stage, here: Standing) -> tuple[int, int]:
    """Answered and asked in a stage; steps of the work count as asked, ticked ones as answered."""
    asked = [each for each in here.questions if each.stage == stage and not each.quiet]
    steps = [each for each in here.plan.work if each.stage == stage]
    answered = sum(is_answered(each, here.given) for each in asked) + sum(
        is_done(here.draft, each.id) for each in steps
    )
    unasked = sum(each.optional and each.usual is None and each.key not in here.given for each in asked)
    return answered, len(asked) - unasked + len(steps)


def where_stopped(here: Standing) -> str:
    """The place the file keeps, else the first question to go, else the next step, else the last place."""
    at = here.draft.progress.at
    if at in here.places:
        return at
    first = _still_asked(here)
    if first:
        return first[0].key
    step = next_step(here.draft, here.plan)
    return place_of(step) if step else here.places[-1]


def stage_of(here: Standing) -> Stage:
    """The stage the work has come to: of what is next, else the last."""
    needed = _still_asked(here) or missing(here.questions, here.given)
    if needed:
        return needed[0].stage
    step = next_step(here.draft, here.plan)
    return step.stage if step else STAGES[-1]


def _still_asked(here: Standing) -> tuple[Question, ...]:
    """The questions still asked in turn; none once the work of a complete plan has begun: usual answers hold."""
    begun = here.plan.complete and done_steps(here.draft, here.plan)
    return () if begun else to_go(here.questions, here.given)


def next_action(here: Standing) -> str:
    """What to do next, in one sentence."""
    left = _still_asked(here)
    if left:
        return f"Answer: {left[0].title}."
    stop = next((each for each in here.plan.findings if each.level == "stop"), None)
    if stop:
        return stop.way_out
    if here.plan.missing:
        return f"Give {here.plan.missing[0].words}."
    step = next_step(here.draft, here.plan)
    if step:
        return f"{step.title}."
    return "Nothing: every step is done." if here.plan.work else "Nothing is left to answer: follow the cutting plan."


def resumed(
    here: Standing, since: Since, *, comments: bool = False, brief: bool = False, typed: str = ""
) -> tuple[str, ...]:
    """At most three lines: what was done, what is next, and what to know before going on. `brief`: what is next is left
    out where one stands at it. `typed`: what was typed and not entered; it is the next thing to do."""
    answered, ticked = _answered(here), len(done_steps(here.draft, here.plan))
    done = f"Done so far: {_count(answered, 'answer')}" + (f" and {_count(ticked, 'step')}" if ticked else "") + "."
    news = _news(here, since, comments) if answered else ""
    stopped = _elsewhere(here)
    ahead = [typed] if typed else [] if brief and not stopped else [f"{stopped}Next: {next_action(here)}"]
    return (*([done] if answered else ()), *ahead, *([news] if news else ()))


def _elsewhere(here: Standing) -> str:
    """Where one goes on, in words, where that is not what is next; empty where it is."""
    place = where_stopped(here)
    at = here.by_key.get(place) or here.step_at(place)
    if at is None or next_action(here) in (f"Answer: {at.title}.", f"{at.title}."):
        return ""
    return f"Stopped at: {at.title}. "


def _news(here: Standing, since: Since, comments: bool) -> str:
    """What changed since the work stopped, else what waits for an answer; empty for nothing."""
    changed = [*since_words(since, here.plan.job, here.given), *_stale(here)]
    if changed:
        return " ".join(changed)
    if comments:
        return (
            "The file has comments written by hand: saving an answer takes them out, and the file as it was is kept"
            " beside it."
        )
    waiting = [each for each in here.plan.findings if _waits(each)]
    return f"{_count(len(waiting), 'thing')} to look at: {waiting[0].sentence}" if waiting else ""


def _stale(here: Standing) -> list[str]:
    """One that changed in full, what is cut before all, which the others follow from; how many others there are."""
    cut_first = sorted(here.changed_steps, key=lambda each: not each.id.startswith(CUT))
    first, *more = [*changed_in_words(cut_first)] or [""]
    others = [f"So have {_count(len(more), 'more finished step')}."] if more else []
    return [*([first] if first else []), *others]


def _waits(finding: Finding) -> bool:
    return not finding.kept and finding.level != "note"


def _answered(here: Standing) -> int:
    return sum(is_answered(each, here.given) and each.kind != "add" for each in here.questions)


def _count(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"
