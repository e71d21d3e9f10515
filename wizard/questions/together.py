"""Answers that mean nothing without another, and are taken out with it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from wizard.questions.adding import Entries
from wizard.questions.asking import held
from wizard.questions.given import Given
from wizard.trade.fixings import IN_A_ROW
from wizard.trade.model import Fixing, Job

KIND: Final = "cloth.fixing.kind"
PRICE: Final = "cloth.fixing.price"
OF_A_KIND: Final = (PRICE, "cloth.fixing.pack", "cloth.fixing.sold_by", "cloth.fixing.step")
"""How fixings of one kind are sold."""


def taken_together(entries: Entries, given: Given, job: Job) -> Entries:
    """Entries, with those taken out that mean nothing any more:

    - a stretch of damage that no longer begins has no end either;
    - a price is for one kind of fixing, with how it is sold, and for one unit: another kind or unit has its own.
    """
    begins = [key for key, value in entries.items() if value is None and key.endswith(".damage_from")]
    ends: Mapping[str, object] = {key.removesuffix("from") + "to": None for key in begins}
    return {**entries, **ends, **{key: None for key in _sold_otherwise(entries, job) if key in given}}


def price_words(entries: Entries, given: Given, job: Job) -> str:
    """That a price was taken out, for what is said of the answer that did it; empty where none was."""
    gone = next((key for key, value in entries.items() if value is None and key.endswith(".price")), "")
    if gone not in given or len(entries) == 1:
        return ""
    return f"; the price of {job.currency or ''}{given[gone]} was for another kind or unit and is taken out"


def _sold_otherwise(entries: Entries, job: Job) -> Iterator[str]:
    """Keys that no longer say what they said."""
    for key, value in entries.items():
        if key == KIND and job.cloth.fixing.kind not in (None, value):
            yield from OF_A_KIND
        elif key == KIND and job.cloth.fixing.kind is None and _priced_otherwise(value, job.cloth.fixing):
            yield PRICE
        elif key.endswith(".sold_by") and value != held(job, key):
            yield key.removesuffix("sold_by") + "price"


def _priced_otherwise(kind: object, fixing: Fixing) -> bool:
    """True where a template that names no kind has the price of a pack and this is sold by length, or the other way."""
    if kind in IN_A_ROW:
        return fixing.pack is None and fixing.sold_by is not None
    return fixing.pack is not None
