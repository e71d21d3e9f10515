"""What to buy, and what more or less cloth would give."""

from __future__ import annotations

from decimal import Decimal

from wizard.sheets.figure_text import money_text, ratio_text, shop_text
from wizard.sheets.page import Page
from wizard.trade.plan import Plan


def buying(plan: Plan, page: Page) -> list[str]:
    """The buying list with its sum, where prices are known."""
    if not plan.purchases:
        return []
    lines = page.heading("Buying list")
    for each in plan.purchases:
        cost = money_text(plan.job, each.cost)
        lines += page.para(f"{each.what}: {each.amount}{f', {cost}' if cost else ''}", "[ ] ")
    costs = [each.cost for each in plan.purchases if each.cost is not None]
    if costs:
        priced = "" if len(costs) == len(plan.purchases) else ", as far as prices are known"
        lines += ["", *page.para(f"In all {money_text(plan.job, sum(costs, Decimal(0)))}{priced}.")]
    return lines


def fullness_steps(plan: Plan, page: Page) -> list[str]:
    """For each length of roll at a shop step, the greatest equal fullness it gives."""
    if not plan.steps_of_fullness:
        return []
    priced = any(each.cost is not None for each in plan.steps_of_fullness)
    rows = [
        (shop_text(plan.job, "cloth.face", each.roll), ratio_text(each.fullness), str(each.joins))
        + ((money_text(plan.job, each.cost),) if priced else ())
        for each in plan.steps_of_fullness
    ]
    heads = ("roll", "fullness", "joins", *(("cost",) if priced else ()))
    return [*page.heading("Fullness steps"), *page.table(heads, rows, ())]
