"""What every sheet carries, so that it can be told what it belongs to: job, units, date, plan mark."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from wizard.project.plan_mark import plan_mark
from wizard.trade.plan import Plan
from wizard.trade.printing import Ruler, exact
from wizard.trade.rulers import ruler_of

UNIT_WORDS: Final = {
    "in": "inches",
    "ft": "feet",
    "yd": "yards",
    "mm": "millimetres",
    "cm": "centimetres",
    "m": "metres",
}
NO_NAME: Final = "A bed skirt without a name"


@dataclass(frozen=True)
class Stamp:
    """What stands on every sheet of one plan."""

    name: str
    units: str
    mark: str
    date: str | None
    """As it is to be written, year first; None where a sheet is to say no date."""

    @property
    def short(self) -> str:
        """Mark and date in a few words."""
        return f"plan mark {self.mark}" + (f", {self.date}" if self.date else "")


def stamp_of(plan: Plan, date: str | None = None) -> Stamp:
    """The stamp of a plan; the date comes from whoever has a clock."""
    return Stamp(plan.job.name or NO_NAME, units_in_words(ruler_of(plan.job)), plan_mark(plan.job), date)


def units_in_words(ruler: Ruler) -> str:
    """`Lengths without a unit are in inches, on a ruler marked in 1/16 in.`"""
    return (
        f"Lengths without a unit are in {UNIT_WORDS[ruler.unit]}, on a ruler marked in {exact(ruler.mark, ruler.unit)}."
    )
