"""What to buy, and how the shop sells it."""

from __future__ import annotations

from decimal import Decimal
from typing import Final

from wizard.render.document import Block, Para, Table, Ticks, headed, work_blocks
from wizard.render.figure_text import money_text, shop_text
from wizard.trade.field_names import in_words
from wizard.trade.figures import value_at
from wizard.trade.plan_records import Plan, Purchase


def buying(plan: Plan) -> list[Block]:
    """For the shop: what to buy and how it is sold; then buying and washing."""
    return [*buying_list(plan), *shop_steps(plan), *work_blocks(plan, "Cloth", "Fullness")]


SOLD: Final = ("cloth.face", "cloth.interlining", "cloth.lining", "cloth.tape", "cloth.fixing")
"""What a shop cuts off in steps."""


def buying_list(plan: Plan) -> list[Block]:
    """The buying list with its sum, where prices are known."""
    ticks = tuple((f"buy:{each.id}", _line(plan, each)) for each in plan.purchases)
    blocks = headed("Buying list", 1, [Ticks(ticks)] if ticks else [])
    costs = [each.cost for each in plan.purchases if each.cost is not None]
    if costs:
        priced = "" if len(costs) == len(plan.purchases) else ", without the items that have no price"
        blocks.append(Para(f"Total {money_text(plan.job, sum(costs, Decimal(0)))}{priced}."))
    return blocks


def _line(plan: Plan, each: Purchase) -> str:
    cost = money_text(plan.job, each.cost)
    return f"{each.what}: {each.amount}{f', {cost}' if cost else ''}"


def shop_steps(plan: Plan) -> list[Block]:
    """How each thing is sold: in what steps, and for how much, where the plan asked."""
    rows = tuple(_sold(plan, key) for key in SOLD if plan.figures.get(f"{key}.step") is not None)
    return headed("How the shop sells it", 2, [Table(("what", "in steps of", "price"), rows)] if rows else [])


def _sold(plan: Plan, key: str) -> tuple[str, str, str]:
    step, price = plan.figures[f"{key}.step"].value, value_at(plan.job, f"{key}.price")
    unit = plan.figures.get(f"{key}.sold_by")
    each = f" a {unit.value}" if unit is not None and unit.value is not None else ""
    what = in_words(f"{key}.step", plan.job).partition(":")[0]
    return what, shop_text(plan.job, key, step), f"{money_text(plan.job, price)}{each}" if price is not None else ""
