"""One page of the interview as data: a title, at most two sentences, one drawing, and the questions answered on it."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from wizard.interview.question import Question
from wizard.trade.plan_records import Stage

Picture = Literal[
    "bed", "rail", "floor", "side", "thing", "hem", "corner", "cloth", "pattern", "owned", "fixing", "pieces",
    "fullness", "ways", "none",
]  # fmt: skip
"""What is drawn: the bed from above, the rail cut through, the gap at the floor, a side or a thing on it, the hem line,
a corner from above, cloth laid flat or with its pattern, lengths of cloth in hand, what holds the tape, two pieces with
their allowances, cloth flat against gathered, the ways of cutting."""


class Copy(Struct, frozen=True):
    """Answers of another page that may be the same here: `Same as the left side`."""

    words: str
    entries: dict[str, object]
    """Key -> value of the file that takes them over."""


class Page(Struct, frozen=True):
    """One page, ready to be shown."""

    id: str
    """`rails`, `side.left`, `thing.left.leg`, `in-hand`; the same in every job."""
    stage: Stage
    title: str
    words: str
    """Two sentences at most; empty for none."""
    fields: tuple[Question, ...]
    """What is answered at once, in the order of asking: eight at most. Empty while it is not known whether the page is
    needed: it is counted then, and not shown."""
    more: tuple[Question, ...] = ()
    """What hardly anybody changes, behind *More*."""
    more_words: str = ""
    """What that is, in a few words; empty where the labels say it."""
    picture: Picture = "none"
    subject: str = ""
    """What the picture is of: id of a section, a post, a layer; `left.leg` for a thing in the way."""
    copy: Copy | None = None
    """Answers to take over, while none are here."""
    confirms: tuple[str, ...] = ()
    """Keys that are set once the page is taken: what is usual there was then looked at, and is written nowhere else."""

    @property
    def shown(self) -> bool:
        """True for a page that is walked; False for one that is only counted."""
        return bool(self.fields)

    @property
    def questions(self) -> tuple[Question, ...]:
        """Everything answered here, what is behind *More* last."""
        return self.fields + self.more


class Position(Struct, frozen=True):
    """How far the interview is: `page 6 of about 24`."""

    number: int
    """Of the page in hand, from 1; 0 at the work."""
    of: int
    """The pages that no answer has ruled out."""
    finished: tuple[bool, ...]
    """For each page shown, up to the last with an answer, whether nothing is left to answer there."""
