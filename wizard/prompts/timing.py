"""How long the work takes, in plain lines: start and stop, minutes that are typed, the sum of each stage."""

from __future__ import annotations

import re
from typing import Final

from wizard.prompts.speech import counted
from wizard.prompts.talk import Talk
from wizard.prompts.troubles import met
from wizard.questions.work import times
from wizard.trade.plan import Step

_MINUTES: Final = re.compile(r"([0-9]{1,4})(?: *(?:min|minutes?))?", re.IGNORECASE)
LOST: Final = "Stopping, ticking or leaving writes the minutes down; a run that is killed loses those that run."


def take_time(talk: Talk, step: Step, text: str) -> bool:
    """`start`, `stop`, or the minutes as a number; False for anything else."""
    minutes = _MINUTES.fullmatch(text)
    if minutes:
        if not met(talk, talk.session.spend(step.id, int(minutes[1]))):
            talk.say(_taken(talk, step))
    elif text.casefold() == "start":
        start(talk, step)
    elif text.casefold() == "stop":
        stop(talk)
    else:
        return False
    return True


def start(talk: Talk, step: Step) -> None:
    """Time a step from now on; what was timed till now is written down, of this step too."""
    before = _timed(talk)
    # First, and then what is asked about: a file that is read again may hold no such step.
    conflict = talk.timing.begin(step.id)
    if not met(talk, conflict) and before is not None:
        talk.say(f"Timing ends: {before.title}", _taken(talk, before))
    talk.say(f"Timing begins. {LOST}")


def stop(talk: Talk) -> None:
    """Write the minutes of the step that is timed."""
    step = _timed(talk)
    if talk.timing.step is None:
        talk.say("No step is timed. start begins.")
    elif not met(talk, talk.timing.end()) and step is not None:
        talk.say(f"Timing ends: {step.title}", _taken(talk, step))


def time_line(talk: Talk, step: Step) -> str:
    """`Time: about 25 minutes. It took 31 minutes. Timing runs.`"""
    kept = talk.session.draft.work.get(step.id)
    parts = [f"about {counted(step.minutes, 'minute')}"] if step.minutes else []
    parts += [f"It took {counted(kept.minutes, 'minute')}"] if kept and kept.minutes else []
    parts += ["Timing runs"] if talk.timing.step == step.id else []
    return f"Time: {'. '.join(parts)}." if parts else ""


def summed(talk: Talk) -> None:
    """Every stage with the minutes expected and taken."""
    found = times(talk.session.draft, talk.best_plan())
    for stage, (expected, taken) in found.items():
        took = "nothing written down" if taken is None else f"took {counted(taken, 'minute')}"
        talk.say(f"{stage}: about {counted(expected, 'minute')}, {took}.")
    if not found:
        talk.say("There are no steps yet: they come once nothing is missing.")


def _timed(talk: Talk) -> Step | None:
    return next((each for each in talk.session.plan.work if each.id == talk.timing.step), None)


def _taken(talk: Talk, step: Step) -> str:
    kept = talk.session.draft.work.get(step.id)
    return f"It took {counted(kept.minutes, 'minute')}." if kept and kept.minutes else "No minutes are written down."
