"""Stretches of a section in which no fixing may go: things in the way, hook plates, returns with nothing behind them.

Common practice. All are given along the finished tape, from its end at the head (sides) or the bed's left (foot, head).
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from wizard.trade.bed import Obstacle, Post, Section, Survey
from wizard.trade.corners import End, post_at
from wizard.trade.lengths import ZERO, Length


class Closed(Struct, frozen=True):
    """A stretch of tape that takes no fixing; its very edges do."""

    start: Length
    end: Length

    def holds(self, place: Length) -> bool:
        """True when `place` lies inside."""
        return self.start < place < self.end


class Lie(Struct, frozen=True):
    """How a finished tape lies along its section, seen from its first end: at the head, or at the bed's left."""

    gathered: Length
    """The whole finished tape."""
    first_extra: Length
    """Return or overlap before the run begins; ZERO if there is none."""
    run: Length
    begins: Length
    """Where the run of this part begins along the section's whole run; ZERO for a section that is not split."""
    whole_run: Length
    from_right: bool
    """True when the first end is the section's right end, seen from the room."""

    def on_tape(self, along_run: Length) -> Length:
        """Where a place along the section's whole run comes on the tape; may lie beyond either end."""
        return along_run - self.begins + self.first_extra

    @property
    def ends(self) -> tuple[End, End]:
        """The section's end at the tape's first end, then the one at its last."""
        return ("right", "left") if self.from_right else ("left", "right")

    @property
    def at_first(self) -> bool:
        """True when the tape's first end is an end of the whole section."""
        return not self.begins

    @property
    def at_last(self) -> bool:
        """True when the tape's last end is an end of the whole section."""
        return self.begins + self.run == self.whole_run


def closed_of(survey: Survey, section_id: str, lie: Lie) -> tuple[Closed, ...]:
    """Every stretch of this tape that takes no fixing, in order, those that touch made one."""
    section = survey.section.get(section_id, Section())
    found = [*_things(section, lie), *_hooks(section, lie), *_returns(survey, section_id, lie)]
    on_it = [each for each in found if each.start < each.end and each.end > ZERO and each.start < lie.gathered]
    return _joined(sorted(on_it, key=lambda each: each.start))


def _things(section: Section, lie: Lie) -> Iterator[Closed]:
    """What is in the way and not split at; a split lets the cloth pass it."""
    for thing in section.in_the_way.values():
        if thing.do in ("no fixing", "keep clear") and thing.at is not None:
            half = _width(thing) / 2
            yield Closed(lie.on_tape(thing.at - half), lie.on_tape(thing.at + half))


def _width(thing: Obstacle) -> Length:
    return thing.width if thing.width is not None else ZERO


def _hooks(section: Section, lie: Lie) -> Iterator[Closed]:
    """Hook plates and bolts reach along the rail from the ends of the run."""
    reach = {"left": section.left_hook, "right": section.right_hook}
    first, last = (reach[end] or ZERO for end in lie.ends)
    if first:
        yield Closed(lie.on_tape(ZERO), lie.on_tape(first))
    if last:
        yield Closed(lie.on_tape(lie.whole_run - last), lie.on_tape(lie.whole_run))


def _returns(survey: Survey, section_id: str, lie: Lie) -> Iterator[Closed]:
    """A return behind a post that cannot be fixed into hangs free."""
    first, last = lie.ends
    if lie.at_first and not can_fix_return(survey, section_id, first):
        yield Closed(-lie.gathered, lie.first_extra)
    if lie.at_last and not can_fix_return(survey, section_id, last):
        yield Closed(lie.first_extra + lie.run, lie.gathered + lie.gathered)


def can_fix_return(survey: Survey, section_id: str, end: End) -> bool:
    """False where the section returns at `end` behind a post that one may not fix into; True for all else."""
    section = survey.section.get(section_id, Section())
    kind = section.left_end if end == "left" else section.right_end
    post = survey.post.get(post_at(survey, section_id, end) or "", Post())
    return kind != "returns" or post.may_fix is not False


def _joined(stretches: list[Closed]) -> tuple[Closed, ...]:
    """Stretches that overlap or touch made one."""
    joined: list[Closed] = []
    for each in stretches:
        if joined and each.start <= joined[-1].end:
            joined[-1] = Closed(joined[-1].start, max(joined[-1].end, each.end))
        else:
            joined.append(each)
    return tuple(joined)
