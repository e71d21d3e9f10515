"""The work in plain lines: a step read out with its caution first, ticked when it is done, and timed."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from wizard.interview.job_state import is_done, next_step, place_of, times
from wizard.interview.outcome import Refused
from wizard.prompts.console import said
from wizard.prompts.conversation import Conversation, at_step, saved
from wizard.prompts.page_walk import go_on
from wizard.trade.formatting import counted
from wizard.trade.plan_records import Step

_MINUTES: Final = re.compile(r"([0-9]{1,4})(?: *(?:min|minutes?))?", re.IGNORECASE)
_DONE: Final = re.compile(rf"(?:done|yes|y)(?:[ ,]+{_MINUTES.pattern})?", re.IGNORECASE)


def announce_step(talk: Conversation) -> None:
    """Read the step in hand out; with the first one, how to tick."""
    # A step is ticked as it was read out, and read again from the sheets: it has to read as they do.
    talk.best_plan()
    talk.moved, talk.page, step = False, "", talk.session.current_step()
    talk.lines.put([""])
    if step is not None:
        talk.say(*_step_lines(talk, step), *talk.once(said("how")))


def _step_lines(talk: Conversation, step: Step) -> Iterator[str]:
    """Its number of all, its cautions, what to do, with what, how long, and whether it is ticked."""
    work, kept = talk.session.steps, talk.session.project.work.get(step.id)
    yield f"Step {work.index(step) + 1} of {len(work)}: {step.title}"
    for caution in step.cautions:
        yield f"Caution: {caution.sentence}"
    if changed := talk.session.changed_since(step.id):
        yield f"Changed since you ticked it: {' '.join(changed)} “done” ticks it again."
    yield talk.session.find_out_first(step)
    yield from (*step.lines, *step.listed)
    for label, things in (("Tools", step.tools), ("Settings", step.settings)):
        yield f"{label}: {', '.join(things)}" if things else ""
    expected = f"about {counted(step.minutes, 'minute')}" if step.minutes else ""
    taken = _took(talk, step).removesuffix(".") if kept and kept.minutes else ""
    running = "The timer is running" if talk.timing.step == step.id else ""
    time = ". ".join(each for each in (expected, taken, running) if each)
    yield f"Time: {time}." if time else ""
    yield f"Note: {kept.note}" if kept and kept.note else ""
    yield f"Ticked: {kept.done.astimezone():%d %B %Y, %H:%M}" if kept and kept.done else "Not done yet."


def _took(talk: Conversation, step: Step) -> str:
    kept = talk.session.project.work.get(step.id)
    return f"It took {counted(kept.minutes, 'minute')}." if kept and kept.minutes else "No minutes are recorded."


def take_at_step(talk: Conversation, step: Step, text: str) -> None:
    """What was typed at a step: done ticks it, nothing goes on, start and stop and a number are its time."""
    done, minutes = _DONE.fullmatch(text), _MINUTES.fullmatch(text)
    if done:
        _tick(talk, step, int(done[1]) if done[1] else None)
    elif minutes:
        if saved(talk, talk.session.spend(step.id, int(minutes[1]))):
            talk.say(_took(talk, step))
    elif text.casefold() == "start":
        time(talk, "")
    elif text.casefold() == "stop":
        _stop(talk)
    elif text:
        talk.say(f"Not understood: “{text}”.", said("how"), said("stuck"))
    else:
        go_on(talk)


def _tick(talk: Conversation, step: Step, minutes: int | None) -> None:
    """Tick a step and go to the next that is not ticked; one that has changed since is ticked again, and leads to the
    next of those."""
    changed = step.id in talk.session.stale()
    if is_done(talk.session.project, step.id) and not changed:
        talk.say("Ticked already. “untick” removes the tick.")
    elif not saved(talk, talk.timing.tick(step.id, minutes), f"Ticked: {step.title}"):
        return
    after = talk.session.first_changed() if changed else None
    after = after or next_step(talk.session.project, talk.session.steps, step)
    if after is None:
        talk.say("Every step is ticked. The skirt is finished.")
    else:
        talk.session.go(place_of(after))
        talk.arrive()


def _stop(talk: Conversation) -> None:
    step = _timed(talk)
    if talk.timing.step is None:
        talk.say("No timer is running. “start” starts one.")
    elif saved(talk, talk.timing.end()) and step is not None:
        talk.say(f"Timer stopped: {step.title}", _took(talk, step))


def _timed(talk: Conversation) -> Step | None:
    return next((each for each in talk.session.steps if each.id == talk.timing.step), None)


@at_step
def untick(talk: Conversation, step: Step, _: str) -> None:
    """Remove the tick of the current step."""
    saved(talk, talk.session.untick(step.id), f"Not ticked any more: {step.title}")


@at_step
def note(talk: Conversation, step: Step, text: str) -> None:
    """Write a note to the current step."""
    given = text or talk.lines.name("Note, none to remove it, or Enter to leave it:")
    if not given:
        return
    removed = given.casefold() == "none"
    outcome = talk.session.note(step.id, "" if removed else given)
    if isinstance(outcome, Refused):
        talk.say(f"Not accepted: {outcome.sentence}", f"For example: {outcome.example}")
    else:
        saved(talk, outcome, "Note removed." if removed else f"Note: {given}")


@at_step
def time(talk: Conversation, step: Step, _: str) -> None:
    """Start the timer for the current step, as “start” does; “stop” stops it."""
    # What was timed till now is written down, of this step too.
    before = _timed(talk)
    # First, and then what is asked about: a file that is read again may hold no such step.
    if saved(talk, talk.timing.begin(step.id)) and before is not None:
        talk.say(f"Timer stopped: {before.title}", _took(talk, before))
    talk.say(said("timer"))


def hours(talk: Conversation, _: str) -> None:
    """Read the minutes of each stage, expected and taken."""
    talk.best_plan()
    found = times(talk.session.project, talk.session.steps)
    for stage, (expected, taken) in found.items():
        took = "none recorded" if taken is None else f"took {counted(taken, 'minute')}"
        talk.say(f"{stage}: about {counted(expected, 'minute')}, {took}.")
    talk.say("" if found else said("no steps"))
