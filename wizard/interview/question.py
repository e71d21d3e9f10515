"""What is asked, as data. A question's parser is the type of the field of the file at its key, so that file, screens
and plain prompts agree."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from wizard.trade.plan_records import Stage

Kind = Literal[
    "length", "length or zero", "choice", "choices", "yes-no", "number", "percent", "money", "whole", "text", "add"
]
"""How a question is answered. `choices`: any number of them, none too. `add`: naming one more thing makes a new table
(`survey.section.left.in_the_way`), left empty the interview goes on."""


class Choice(Struct, frozen=True):
    """One answer to pick: the value as the file has it, and that in words."""

    value: str
    words: str
    barred: str = ""
    """Why it cannot be picked in this job, in a sentence; empty where it can."""

    @property
    def short(self) -> str:
        """The words up to what explains them."""
        return self.words.partition(":")[0]


class Question(Struct, frozen=True):
    """One question, ready to be shown."""

    key: str
    """The key of the file: `survey.section.left.drop.2`; of one that answers several keys, a name of its own
    (`corners.returns`)."""
    stage: Stage
    group: str
    """Title of the page it is on, or would be on without a template."""
    section: str | None
    """Section id, for a question about one section."""
    title: str
    """Short, and clear away from its page: `Left section: drop at the middle`."""
    words: str
    """The question in plain words."""
    how: str
    """How to measure or find out, how to hold the tape, what it decides."""
    kind: Kind
    choices: tuple[Choice, ...] = ()
    usual: str | None = None
    """What an empty answer takes, as it would be typed; None when there is no usual answer."""
    stands: bool = False
    """True when the usual answer holds even while the question is not answered; otherwise it is only offered."""
    optional: bool = False
    """True when it may be left empty for good."""
    example: str = ""
    """An answer of the right form."""
    unusable: bool = False
    """True while the value in the file cannot be used, so that it is no answer."""
    label: str = ""
    """Shorter, on its page: `drop, middle`; empty where the title will do."""
    later: bool = False
    """True for what a maker may have to find out later: it may stay open for now, and is listed on the survey sheet."""
    postponed: bool = False
    """True while it is to be found out later."""
    extra: bool = False
    """True for one that only adds: `+ another drop`. Enter passes it by."""
    by_change: bool = False
    """True where only an answer that differs from the usual one is written: one of a whole table of allowances."""
    compound: str = ""
    """How one answer is several keys (see `compounds`); empty for one that is its own key."""
    keys: tuple[str, ...] = ()
    """Those keys."""
    answer: str | None = None
    """What they read as now, as one would type it; None while it is not given."""

    @property
    def called(self) -> str:
        """What it is called on its page."""
        return self.label or self.title.rpartition(": ")[2]

    @property
    def live(self) -> bool:
        """True for a list that is worked out for this job, row by row."""
        return self.compound in ("fullness", "ways")

    @property
    def file_keys(self) -> tuple[str, ...]:
        """Every key of the file that an answer writes."""
        return self.keys or (self.key,)
