"""The trade's usual values as one would type them."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from wizard.questions.given import as_typed
from wizard.trade.fields import Usual
from wizard.trade.formatting import METRIC, exact, number
from wizard.trade.lengths import Length
from wizard.trade.model import Job, usual_of

PERCENTS: Final = ("_shrink", ".waste")
"""How keys end whose share is typed as a percentage."""
SHOP_LENGTHS: Final = (".step", ".spool")
"""How keys end whose length is typed in the unit it is sold by."""


def usual_text(key: str, job: Job) -> str | None:
    """The default that stands at a key, as one would type it; None where the trade has none."""
    standard = job.standard or "inches"
    value = usual_of(key, standard)
    if value is None or isinstance(value, tuple):
        return None
    if key.endswith(PERCENTS) and isinstance(value, Fraction):
        return f"{number(value * 100)} %"
    if key.endswith(SHOP_LENGTHS) and isinstance(value, Length):
        large = "m" if value >= Length.of(1, "m") else "cm"
        return exact(value, "yd" if standard == "inches" else large)
    if key == "ruler" and isinstance(value, Length):
        return exact(value, "in" if standard == "inches" else "mm")
    return as_text(value, job)


def as_text(value: Usual, job: Job) -> str:
    """A value as one would type it in this job: a length in its unit."""
    match value:
        case Length():
            return exact(value, unit_of(job))
        case Fraction():
            return number(value)
        case tuple():
            return ", ".join(as_text(each, job) for each in value)
        case _:
            return as_typed(value)


def unit_of(job: Job) -> str:
    """The unit usual values are written in: the job's, unless its allowances are in the other system or it is too
    large for them."""
    metric = job.standard == "metric"
    if job.show is None or (job.show in METRIC) != metric:
        return "cm" if metric else "in"
    return {"m": "cm", "yd": "in"}.get(job.show, job.show)
