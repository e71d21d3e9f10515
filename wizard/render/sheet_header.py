"""What every sheet carries: job, units, date, plan mark, and whether the plan is finished."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from wizard.project.marks import cut_mark, joint_mark, plan_mark
from wizard.render.document import Block, Para
from wizard.trade.formatting import UNIT_WORDS, counted, exact, ruler_of
from wizard.trade.plan_records import Plan

NO_NAME: Final = "A bed skirt without a name"


class SheetHeader(Struct, frozen=True):
    """What is printed on every sheet of one plan."""

    name: str
    units: str
    """A sentence."""
    short_units: str
    """The same in a few words."""
    mark: str
    cuts: str
    """The mark of the cut lists; empty before there are any."""
    client: str
    """Empty where none is named."""
    date: str | None
    """Year first; None for a sheet without a date."""

    @property
    def short(self) -> str:
        """Marks and date in a few words."""
        cuts = f"cuts {self.cuts}" if self.cuts else ""
        return ", ".join(each for each in (f"plan mark {self.mark}", cuts, self.date) if each)


def header_of(plan: Plan, date: str | None = None) -> SheetHeader:
    """The header of a plan; the date comes from whoever has a clock."""
    ruler = ruler_of(plan.job)
    units, mark = UNIT_WORDS[ruler.unit], exact(ruler.mark, ruler.unit)
    return SheetHeader(
        name=plan.job.name or NO_NAME,
        units=f"Lengths without a unit are in {units}, on a ruler marked in {mark}.",
        short_units=f"{units}, to {mark}",
        mark=plan_mark(plan.job),
        cuts=cut_mark(plan),
        client=plan.job.client or "",
        date=date,
    )


def header_of_all(plans: Sequence[Plan], date: str | None = None) -> SheetHeader:
    """The header of what is printed for several jobs together, in the units of the first."""
    headers = [header_of(each, date) for each in plans]
    mark = joint_mark(each.mark for each in headers)
    return replace(headers[0], name=counted(len(plans), "job"), mark=mark, cuts="", client="")


ROUNDED: Final = "≈ marks a rounded figure."


def header_blocks(plan: Plan, header: SheetHeader) -> list[Block]:
    """What holds for all sheets of the plan, whichever of them are written."""
    state = _state(plan)
    return [Para(f"{header.units} {ROUNDED}"), *([Para(state)] if state else [])]


def _state(plan: Plan) -> str:
    if plan.complete:
        steps, have = counted(len(plan.changed), "finished step"), "has" if len(plan.changed) == 1 else "have"
        return f"{steps} {have} changed since." if plan.changed else ""
    if plan.missing:
        return f"Unfinished: {counted(len(plan.missing), 'answer')} missing; the overview lists them."
    return "Unfinished: a figure cannot be worked out; the overview says why."
