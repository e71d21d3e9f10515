"""What to buy, and what more or less cloth would give."""

from __future__ import annotations

from decimal import Decimal
from typing import Final

from wizard.sheets.figure_text import money_text, ratio_text, shop_text
from wizard.sheets.lines import lines_of
from wizard.sheets.matter import Heading, Matter, Para, Table, Tick, Ticks
from wizard.sheets.page import Page
from wizard.trade.figures import value_at
from wizard.trade.fullness_offers import Row, finds_in_words, rows_of
from wizard.trade.keynames import in_words
from wizard.trade.plan import Plan, Purchase

SOLD: Final = ("cloth.face", "cloth.interlining", "cloth.lining", "cloth.tape", "cloth.fixing")
"""What a shop cuts off in steps."""


def buying(plan: Plan, page: Page) -> list[str]:
    """The buying list in lines."""
    return lines_of(buying_list(plan), page)


def fullness_steps(plan: Plan, page: Page) -> list[str]:
    """The fullness steps in lines."""
    return lines_of(steps_of_fullness(plan), page)


def buying_list(plan: Plan) -> list[Matter]:
    """The buying list with its sum, where prices are known."""
    if not plan.purchases:
        return []
    matter: list[Matter] = [
        Heading("Buying list"),
        Ticks(tuple(Tick(f"buy:{each.id}", _line(plan, each)) for each in plan.purchases)),
    ]
    costs = [each.cost for each in plan.purchases if each.cost is not None]
    if costs:
        priced = "" if len(costs) == len(plan.purchases) else ", as far as prices are known"
        matter.append(Para(f"In all {money_text(plan.job, sum(costs, Decimal(0)))}{priced}."))
    return matter


def _line(plan: Plan, each: Purchase) -> str:
    cost = money_text(plan.job, each.cost)
    return f"{each.what}: {each.amount}{f', {cost}' if cost else ''}"


def shop_steps(plan: Plan) -> list[Matter]:
    """How each thing is sold: in what steps, and for how much, where the plan asked."""
    rows = tuple(_sold(plan, key) for key in SOLD if plan.figures.get(f"{key}.step") is not None)
    return [Heading("How the shop sells it", 2), Table(("what", "in steps of", "price"), rows)] if rows else []


def _sold(plan: Plan, key: str) -> tuple[str, str, str]:
    step, price = plan.figures[f"{key}.step"].value, value_at(plan.job, f"{key}.price")
    unit = plan.figures.get(f"{key}.sold_by")
    each = f" a {unit.value}" if unit is not None and unit.value is not None else ""
    what = in_words(f"{key}.step", plan.job).partition(":")[0]
    return what, shop_text(plan.job, key, step), f"{money_text(plan.job, price)}{each}" if price is not None else ""


def steps_of_fullness(plan: Plan) -> list[Matter]:
    """For each length of roll at a shop step, the greatest equal fullness it gives; then what is worth knowing."""
    steps = plan.steps_of_fullness
    if not steps:
        return []
    priced = any(each.cost is not None for each in steps)
    heads = ("roll", "fullness", "joins", *(("cost",) if priced else ()), "")
    rows = tuple(_step(plan, each, priced) for each in rows_of(plan, steps))
    matter: list[Matter] = [Heading("Fullness steps"), Table(heads, rows, (len(heads) - 1,))]
    found = [Para(f"{each[:1].upper()}{each[1:]}.") for each in finds_in_words(plan, steps)]
    return [*matter, Heading("Worth knowing", 2), *found] if found else matter


def _step(plan: Plan, row: Row, priced: bool) -> tuple[str, ...]:
    step = row.step
    cost = (money_text(plan.job, step.cost),) if priced else ()
    roll = shop_text(plan.job, "cloth.face", step.roll)
    return roll, ratio_text(step.handy), str(step.joins), *cost, "as it is now" if row.now else ""
