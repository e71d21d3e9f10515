"""Figures as a sheet prints them: on the ruler mark, or *not yet*. How grave findings are, in words."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Final, cast

from wizard.trade.cutting import Layout
from wizard.trade.figures import Figure, value_at
from wizard.trade.formatting import How, Ruler, exact, money, number, shown
from wizard.trade.job_fields import Job, usual_of
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan_records import Level

NOT_YET: Final = "not yet"
NOTHING: Final = "nothing"
PLACES: Final = 3
"""Decimals of a fullness as made; more would be finer than anybody gathers."""


def length_text(figure: Figure[Length], ruler: Ruler, how: How = "nearest") -> str:
    """A length with its unit, at the ruler mark."""
    return NOT_YET if figure.value is None else shown(figure.value, ruler, how)


def unitless(length: Length | None, ruler: Ruler, how: How = "nearest") -> str:
    """A length without the job's unit, for tables: the head of the sheet says which it is."""
    return NOT_YET if length is None else shown(length, ruler, how).removesuffix(f" {ruler.unit}")


def unitless_row(ruler: Ruler, *lengths: Length | None) -> tuple[str, ...]:
    """Lengths for the row of a table."""
    return tuple(unitless(each, ruler) for each in lengths)


def ratio_text(value: Fraction | None) -> str:
    """A fullness: exact where few decimals are enough, else to three with ≈."""
    if value is None:
        return NOT_YET
    rounded = Fraction(round(value * 10**PLACES), 10**PLACES)
    return number(rounded) if rounded == value else f"≈ {number(rounded)}"


def shop_text(job: Job, key: str, length: Length | None) -> str:
    """What you buy, in the unit the shop sells it by, or `nothing`; `key` names the table: `cloth.face`."""
    if length is None or length == ZERO:
        return NOT_YET if length is None else NOTHING
    leaf = f"{key}.sold_by"
    return exact(length, cast("str", value_at(job, leaf) or usual_of(leaf, job.standard or "inches") or "yd"))


def money_text(job: Job, amount: Decimal | None) -> str:
    """A sum with the job's currency before it, as typed; "" where there is no price."""
    return "" if amount is None else f"{job.currency or ''}{money(amount)}"


def saving_text(layout: Layout, ruler: Ruler) -> str:
    """The most that another plan could do better: save cloth, or beside cloth in hand use less of the roll."""
    if layout.proof.saves is not None:
        return f"use up to {shown(layout.proof.saves, ruler, 'up')} less of the roll"
    return f"save up to {shown(layout.used - layout.proof.bound, ruler, 'up')}"


LEVELS: Final[dict[Level, str]] = {
    "stop": "Stops the plan",
    "warn": "Warning",
    "ask": "Please check",
    "note": "Worth knowing",
}
"""How grave a finding is, in words."""
