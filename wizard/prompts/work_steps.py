"""The work in plain lines: a step read out with its caution first, ticked when it is done, and timed."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from wizard.interview.job_state import is_done, next_after, place_of, times
from wizard.interview.outcome import Refused
from wizard.prompts.conversation import Conversation, not_saved
from wizard.render.figure_text import counted
from wizard.trade.plan_records import Step

_MINUTES: Final = re.compile(r"([0-9]{1,4})(?: *(?:min|minutes?))?", re.IGNORECASE)
LOST: Final = "Stopping, ticking or leaving writes the minutes down; a run that is killed loses those that run."


def take_time(talk: Conversation, step: Step, text: str) -> bool:
    """`start`, `stop`, or the minutes as a number; False for anything else."""
    minutes = _MINUTES.fullmatch(text)
    if minutes:
        if not not_saved(talk, talk.session.spend(step.id, int(minutes[1]))):
            talk.say(_taken(talk, step))
    elif text.casefold() == "start":
        start(talk, step)
    elif text.casefold() == "stop":
        stop(talk)
    else:
        return False
    return True


def start(talk: Conversation, step: Step) -> None:
    """Time a step from now on; what was timed till now is written down, of this step too."""
    before = _timed(talk)
    # First, and then what is asked about: a file that is read again may hold no such step.
    conflict = talk.timing.begin(step.id)
    if not not_saved(talk, conflict) and before is not None:
        talk.say(f"Timing ends: {before.title}", _taken(talk, before))
    talk.say(f"Timing begins. {LOST}")


def stop(talk: Conversation) -> None:
    """Write the minutes of the step that is timed."""
    step = _timed(talk)
    if talk.timing.step is None:
        talk.say("No step is timed. start begins.")
    elif not not_saved(talk, talk.timing.end()) and step is not None:
        talk.say(f"Timing ends: {step.title}", _taken(talk, step))


def time_line(talk: Conversation, step: Step) -> str:
    """`Time: about 25 minutes. It took 31 minutes. Timing runs.`"""
    kept = talk.session.project.work.get(step.id)
    parts = [f"about {counted(step.minutes, 'minute')}"] if step.minutes else []
    parts += [f"It took {counted(kept.minutes, 'minute')}"] if kept and kept.minutes else []
    parts += ["Timing runs"] if talk.timing.step == step.id else []
    return f"Time: {'. '.join(parts)}." if parts else ""


def summed(talk: Conversation) -> None:
    """Every stage with the minutes expected and taken."""
    found = times(talk.session.project, talk.best_plan())
    for stage, (expected, taken) in found.items():
        took = "nothing written down" if taken is None else f"took {counted(taken, 'minute')}"
        talk.say(f"{stage}: about {counted(expected, 'minute')}, {took}.")
    if not found:
        talk.say("There are no steps yet: they come once nothing is missing.")


def _timed(talk: Conversation) -> Step | None:
    return next((each for each in talk.session.plan.work if each.id == talk.timing.step), None)


def _taken(talk: Conversation, step: Step) -> str:
    kept = talk.session.project.work.get(step.id)
    return f"It took {counted(kept.minutes, 'minute')}." if kept and kept.minutes else "No minutes are written down."


_DONE: Final = re.compile(r"(?:done|yes|y)(?:[ ,]+([0-9]{1,4})(?: *(?:min|minutes?))?)?", re.IGNORECASE)
HOW: Final = (
    "done ticks it, done 25 with the minutes it took. An empty line goes on without ticking. "
    "start and stop time it; a number writes its minutes down."
)


def announce_step(talk: Conversation, step: Step) -> None:
    """Read a step out; with the first one, how to tick."""
    talk.say(*step_lines(talk, step), *(() if talk.ticking_told else (HOW,)))
    talk.ticking_told = True


def step_lines(talk: Conversation, step: Step) -> Iterator[str]:
    """Its number of all, its cautions, what to do, with what, how long, and whether it is ticked."""
    work, kept = talk.session.plan.work, talk.session.project.work.get(step.id)
    yield f"Step {work.index(step) + 1} of {len(work)}: {step.title}"
    for caution in step.cautions:
        yield f"Caution: {caution.sentence}"
    if changed := talk.session.changed_since(step.id):
        yield f"Changed since you ticked it: {' '.join(changed)}"
    yield from step.lines
    for label, things in (("Tools", step.tools), ("Settings", step.settings)):
        if things:
            yield f"{label}: {', '.join(things)}"
    if time := time_line(talk, step):
        yield time
    if kept and kept.note:
        yield f"Note: {kept.note}"
    yield f"Ticked: {kept.done.astimezone():%d %B %Y, %H:%M}" if kept and kept.done else "Not done yet."


def take_at_step(talk: Conversation, step: Step, text: str) -> None:
    """What was typed at a step: done ticks it, nothing goes on."""
    found = _DONE.fullmatch(text)
    if found:
        tick(talk, step, int(found[1]) if found[1] else None)
    elif text and take_time(talk, step, text):
        return
    elif text:
        talk.say(f"Not understood: “{text}”.", HOW)
    elif talk.session.next():
        talk.arrive()
    else:
        talk.say("This is the last step.", f"Next: {talk.session.next_action()}")


def tick(talk: Conversation, step: Step, minutes: int | None) -> None:
    """Tick a step and go to the next that is not ticked."""
    if is_done(talk.session.project, step.id):
        talk.say("Ticked already. .untick takes the tick back.")
    else:
        if not_saved(talk, talk.timing.tick(step.id, minutes)):
            return
        talk.say(f"Ticked: {step.title}")
    after = next_after(step, talk.session.project, talk.session.plan)
    if after is None:
        talk.say("Every step is ticked. The skirt hangs.")
    else:
        talk.session.go(place_of(after))
        talk.arrive()


def untick(talk: Conversation, _: str) -> None:
    """The step in hand is not done after all."""
    step = in_hand(talk)
    if step is not None and not not_saved(talk, talk.session.untick(step.id)):
        talk.say(f"Not ticked any more: {step.title}")


def note(talk: Conversation, text: str) -> None:
    """Write a note to the step in hand."""
    step = in_hand(talk)
    if step is None:
        return
    text = text or talk.lines.ask("Note, none to take it out, an empty line to leave it as it is:").strip()
    if not text:
        return
    outcome = talk.session.note(step.id, "" if text.casefold() == "none" else text)
    if isinstance(outcome, Refused):
        talk.say(f"Not taken: {outcome.sentence}", f"For example: {outcome.example}")
    elif not not_saved(talk, outcome):
        talk.say("Note taken out." if text.casefold() == "none" else f"Note: {text}")


def begin_timing(talk: Conversation, _: str) -> None:
    """Time the step in hand from now on."""
    step = in_hand(talk)
    if step is not None:
        start(talk, step)


def hours(talk: Conversation, _: str) -> None:
    """The minutes of every stage."""
    summed(talk)


def in_hand(talk: Conversation) -> Step | None:
    """The step in hand; says so when there is none."""
    step = talk.session.current_step()
    if step is None:
        talk.say("This goes with a step of the work. .work goes to the steps.")
    return step
