"""One job in plain lines: what is in hand, and what was just said of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

from wizard.project.jobs import at_best
from wizard.prompts.lines import Lines
from wizard.questions.keeping import Clock
from wizard.questions.session import Session
from wizard.questions.timing import Timing
from wizard.trade.plan import Finding, Plan, Stage

Ending = Literal["list", "leave"]
"""Where one goes from a job: to the list of projects, or out."""


@dataclass
class Talk:
    """What the orders of a job are done to."""

    lines: Lines
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
    timing: Timing = field(init=False)
    """What step is timed."""
    moved: bool = True
    """True when the place in hand has to be read out."""
    ending: Ending | None = None

    def __post_init__(self) -> None:
        self.timing = Timing(self.session, self.clock)

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
        """Read out the place that one stands at now, and let go what was said of the last."""
        self.moved, self.held, self.offers = True, (), ()
