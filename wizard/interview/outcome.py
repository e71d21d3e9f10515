"""What an answer can lead to: accepted, refused, or not saved."""

from __future__ import annotations

from msgspec import Struct

from wizard.trade.plan_records import Finding


class Echo(Struct, frozen=True):
    """An answer as it is understood: `12 1/8 in · 308 mm`."""

    text: str


class Refused(Struct, frozen=True):
    """An answer that cannot be read. Nothing was saved; the text stays in `Session.pending`."""

    sentence: str
    """What was found and what would do."""
    example: str
    offers: tuple[str, ...] = ()
    """Answers that may have been meant, each ready to be given: both readings of `1,200 mm`, near choices."""


class Conflict(Struct, frozen=True):
    """The file was changed by another hand, or cannot be written. Nothing was saved; see `Session.reload` and
    `Session.overwrite`."""

    sentence: str
    by_hand: bool = False
    """True where another hand was in the file; otherwise it cannot be written until something is mended."""


class Upset(Struct, frozen=True):
    """What an answer changed further on."""

    figures: tuple[str, ...] = ()
    """Ids of figures that were known and now have another value, or none."""
    steps: tuple[str, ...] = ()
    """Ids of ticked steps that told something else when they were ticked, and did not before this answer."""
    questions: tuple[str, ...] = ()
    """Keys of needed questions that are asked now and were not before."""

    def __bool__(self) -> bool:
        return bool(self.figures or self.steps or self.questions)


class Accepted(Struct, frozen=True):
    """An answer that was read and saved."""

    echo: Echo
    changed: tuple[str, ...] = ()
    """Ids of figures whose value is not what it was, newly known ones too."""
    findings: tuple[Finding, ...] = ()
    """Findings that were not open before, or rest on other values now."""
    asks: tuple[Finding, ...] = ()
    """Those of them to ask about before going on, what rests on this very answer first: read again, it may settle the
    others. What a later page asks about is told there."""
    upset: Upset = Upset()
    following: str | None = None
    """Where `Session.next` will go: the key of a question, `work.STEP`, or None at the very end."""
