"""A value of the plan as a screen shows it."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from fractions import Fraction
from typing import Any

from wizard.render.figure_text import unitless
from wizard.trade.figures import Figure
from wizard.trade.formatting import Ruler, exact, how_shown, money, number, ruler_of, shown
from wizard.trade.lengths import Length
from wizard.trade.plan_records import Plan

NOT_YET = "not yet"


def value_words(value: Any, plan: Plan) -> str:
    """`value` in the job's unit, at its ruler mark; sums of money after the currency."""
    if isinstance(value, Length):
        return shown(value, ruler_of(plan.job))
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Decimal):
        return f"{plan.job.currency or ''}{money(value)}"
    if isinstance(value, Fraction):
        return number(value) if value.denominator in _ENDING else f"≈ {number(Fraction(round(value * 100), 100))}"
    return str(value)


_ENDING = (1, 2, 4, 5, 8, 10, 16, 20, 25, 40, 50, 80, 100)
"""Denominators whose decimals end within two or three figures; others are shown to the hundredth, with ≈."""


def figure_words(figure: Figure[Any] | None, plan: Plan) -> str:
    """The figure's value, or that it is not known yet."""
    if figure is None or figure.value is None:
        return NOT_YET
    if not isinstance(figure.value, Length):
        return value_words(figure.value, plan)
    kind, *names = figure.id.split(".")
    if kind == "layer" and names[1:] == ["buy"]:
        sold_by = plan.figures.get(f"cloth.{names[0]}.sold_by")
        return exact(figure.value, sold_by.value if sold_by and sold_by.value else ruler_of(plan.job).unit)
    return shown(figure.value, ruler_of(plan.job), how_shown(figure.id))


def known_words(figures: Iterable[str], plan: Plan) -> dict[str, str]:
    """Id -> words of those figures whose value is known."""
    known = (plan.figures[each] for each in figures if each in plan.figures)
    return {each.id: figure_words(each, plan) for each in known if each.value is not None}


def running(measure: Length, ruler: Ruler, columns: int) -> str:
    """A running measure beside a roll: with its unit where that has room, and not cut off for it."""
    text = shown(measure, ruler)
    return text if len(text) <= columns else unitless(measure, ruler).removeprefix("≈ ")
