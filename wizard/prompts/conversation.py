"""One job in plain lines: what is in hand, what was just said of it, and what happens when it cannot be saved."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

from wizard.interview.file_state import Clock
from wizard.interview.outcome import Conflict
from wizard.interview.session import Session
from wizard.interview.step_timer import StepTimer
from wizard.project.plan_of_project import at_best
from wizard.project.problems import Problems
from wizard.prompts.console import Console
from wizard.prompts.speech import SpokenPage
from wizard.trade.formatting import ruler_of
from wizard.trade.plan_records import Finding, Plan, Stage

Ending = Literal["list", "leave"]
"""What follows a job: the list of projects, or the end."""


@dataclass
class Conversation:
    """What the orders of a job are done to."""

    lines: Console
    session: Session
    path: Path
    clock: Clock
    held: tuple[Finding, ...] = ()
    """What the last answer made look wrong; an empty line goes on all the same."""
    offers: tuple[str, ...] = ()
    """What may have been meant by the last answer, which was not taken."""
    was: Mapping[str, str] = field(default_factory=dict)
    """Figure id -> its words before the last answer, for those that it changed and that were known."""
    changed: tuple[str, ...] = ()
    """Ids of the figures that the last answer changed."""
    stage: Stage | None = None
    """The stage last spoken of."""
    brief: bool = False
    """True when how to measure is left out."""
    ticking_told: bool = False
    """True once it was said how a step is ticked."""
    timing: StepTimer = field(init=False)
    """What step is timed."""
    moved: bool = True
    """True when the place in hand has to be read out."""
    ending: Ending | None = None

    def __post_init__(self) -> None:
        self.timing = StepTimer(self.session, self.clock)

    def say(self, *texts: str) -> None:
        """Print each text, a sentence a line."""
        self.lines.say(*texts)

    def best_plan(self) -> Plan:
        """The plan, as good as it can be had; it stands from then on. What is read out, written or ticked is asked for,
        so it may take its tenths of a second, and reads as the sheets of the shell do."""
        best = at_best(self.session.plan)
        if best is not self.session.plan:
            self.session.take(best)
        return self.session.plan

    def arrive(self) -> None:
        """Have the new place read out, and drop what was said of the last one."""
        self.moved, self.held, self.offers = True, (), ()


WAYS = (
    "1. Read the file again, and let my change go.",
    "2. Write my change over it; what stands there is kept beside it.",
)
TRY = "1. Try again, once that is put right."
AGAIN = "1, or an empty line to go on without:"
WHOSE = "Number, or an empty line to leave both as they are:"


def not_saved(talk: Conversation, conflict: Conflict | None) -> bool:
    """True when a change could not be saved; it is asked about at once."""
    if conflict is None:
        return False
    if not conflict.by_hand:
        return _cannot_be_written(talk, conflict)
    talk.say(f"Not saved: {conflict.sentence}", *WAYS)
    picked = talk.lines.pick(WHOSE, len(WAYS))
    if picked == 0:
        _read_again(talk)
    elif picked == 1:
        _write_over(talk)
    else:
        talk.say("Left as it is: this change is not in the file.")
    talk.arrive()
    return True


def _cannot_be_written(talk: Conversation, conflict: Conflict) -> bool:
    talk.say(f"Not saved: {conflict.sentence}", TRY)
    if talk.lines.pick(AGAIN, 1) == 0:
        _write_over(talk)
    else:
        talk.say("Left as it is: this change is not in the file.")
    talk.arrive()
    return True


def _write_over(talk: Conversation) -> None:
    again, kept = talk.session.overwrite(), talk.session.file.kept
    talk.say(f"Not saved: {again.sentence}" if again else "Saved: my change stands.")
    if kept and not again:
        talk.say(f"What stood there is kept as {kept.name}.")


def _read_again(talk: Conversation) -> None:
    problems = talk.session.reload()
    if isinstance(problems, Problems):
        talk.say("The file cannot be read:", *problem_lines(problems))
    else:
        talk.say("Read again: the job stands as the file says. .undo brings mine back.")


def problem_lines(problems: Problems) -> list[str]:
    """Every problem of a file, with its line and key as far as they are known."""
    return [
        ": ".join(part for part in (f"Line {each.line}" if each.line else "", each.key, each.sentence) if part)
        for each in problems.all
    ]


def page_of(talk: Conversation) -> SpokenPage:
    """The page for the blocks of the sheet."""
    return SpokenPage(talk.lines.columns, ruler_of(talk.session.plan.job))
