"""Answers taken back and given again: a list of drafts, kept in memory while the wizard is open."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

from msgspec import Struct

from wizard.project.project import Project

MOST_KEPT: Final = 1000
"""Changes that can be taken back: a session of thousands holds no more memory than one of these."""


class Moment(Struct, frozen=True):
    """A draft as it stood, and the place that is to be shown with it."""

    draft: Project
    at: str


@dataclass
class History:
    """What was before, and what was taken back. Both are stacks, newest last."""

    before: list[Moment] = field(default_factory=list)
    after: list[Moment] = field(default_factory=list)

    def changed(self, old: Moment) -> None:
        """A change was saved over `old`; what had been taken back can no longer be given again."""
        self.before.append(old)
        del self.before[:-MOST_KEPT]
        self.after.clear()

    def stepped(self, *, back: bool, now: Moment) -> None:
        """The top of one stack is shown now; `now` goes on the other."""
        source, target = (self.before, self.after) if back else (self.after, self.before)
        source.pop()
        target.append(now)

    def top(self, *, back: bool) -> Moment | None:
        """What undo (`back`) or redo would bring, or None."""
        source = self.before if back else self.after
        return source[-1] if source else None
