"""From the layout to the counter: cloth used, what the roll must give, what to buy and what it costs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from fractions import Fraction
from typing import Any

from msgspec import Struct

from wizard.trade.cutting.strips import Cutting, Layout
from wizard.trade.figures import Figure, Ledger, Need, Rule
from wizard.trade.job import LayerId
from wizard.trade.laid_lengths import LAID, length_laid
from wizard.trade.lengths import UNITS, ZERO, Length, total
from wizard.trade.plan import Purchase
from wizard.trade.stock import ROLL, Stock

USED = "Everything that is cut from, whether it is owned or bought."
FROM_ROLL = Rule(
    "cloth from the roll", "{squaring} + {used} ÷ {keeps}",
    "What is cut is divided by what washing leaves; squaring the end comes on top, of cloth as bought.",
)  # fmt: skip
BUY = Rule("cloth to buy", "{roll}, rounded up to {step}", "A shop cuts cloth in steps.")
COST = Rule(
    "cost of cloth", "{buy} at {price} for each {sold_by}", "The length bought times the price, to the nearest cent."
)


class Bought(Struct, frozen=True):
    """What a layer takes and costs."""

    used: Figure[Length]
    roll: Figure[Length]
    buy: Figure[Length]
    cost: Figure[Decimal]


def bought_of(
    ledger: Ledger, layer: LayerId, stock: Stock, cuts: Mapping[str, Figure[Length]], cutting: Cutting | None,
    needs: tuple[Need, ...],
) -> Bought:  # fmt: skip
    """Used, to come from the roll, to buy and cost; without a cutting each figure carries the needs of the layer."""
    id = f"layer.{layer}"
    if cutting is None:
        return _unknown(ledger, id, needs)
    layout, repeat = cutting.best, None if stock.rules is None else stock.rules.repeat
    laid = {use.stretch: length_laid(ledger, id, use, layout, cuts, repeat) for use in layout.uses}
    rule = Rule("cloth used", " + ".join(f"{{{name}}}" for name in laid), USED)
    used = ledger.work(f"{id}.used", "cloth used", rule, lambda **each: total(each.values()), **laid)
    roll = _from_roll(ledger, id, stock, laid.get(ROLL), layout)
    buy = ledger.work(f"{id}.buy", "cloth to buy", BUY, lambda roll, step: layout.buy, roll=roll, step=stock.step)
    return Bought(used, roll, buy, cost_of(ledger, layer, buy))


def _unknown(ledger: Ledger, id: str, needs: tuple[Need, ...]) -> Bought:
    def waiting(leaf: str, title: str, rule: Rule) -> Figure[Any]:
        return ledger.keep(Figure(f"{id}.{leaf}", title, None, needs, rule))

    return Bought(
        waiting("used", "cloth used", LAID), waiting("roll", "cloth from the roll", FROM_ROLL),
        waiting("buy", "cloth to buy", BUY), waiting("cost", "cost of cloth", COST),
    )  # fmt: skip


def _from_roll(ledger: Ledger, id: str, stock: Stock, used: Figure[Length] | None, layout: Layout) -> Figure[Length]:
    """What the roll must give, as the layout says."""
    nothing = Figure(f"{id}.on.{ROLL}", "nothing from the roll", ZERO, (), LAID)
    if used is None:
        return ledger.keep(Figure(f"{id}.roll", "cloth from the roll", ZERO, (), LAID, (("value", nothing),)))
    return ledger.work(
        f"{id}.roll", "cloth from the roll", FROM_ROLL, lambda squaring, used, keeps: layout.roll,
        squaring=stock.squaring, used=used, keeps=stock.keeps,
    )  # fmt: skip


def cost_of(ledger: Ledger, layer: LayerId, buy: Figure[Length]) -> Figure[Decimal]:
    """Cost of the cloth bought; no price, no cost."""
    key = f"cloth.{layer}"
    return ledger.work(
        f"layer.{layer}.cost", "cost of cloth", COST, price_for,
        buy=buy, price=ledger.read(f"{key}.price"), sold_by=ledger.read(f"{key}.sold_by"),
    )  # fmt: skip


def total_cost(ledger: Ledger, purchases: Sequence[Purchase]) -> Figure[Decimal]:
    """All that is bought and has a price; no value when nothing has one. Figure `cost.total`."""
    priced = {each.id: _cost_figure(ledger, each) for each in purchases if each.cost is not None}
    says = "What has no price is left out." if len(priced) < len(purchases) else "Everything on the buying list."
    rule = Rule("total cost", " + ".join(f"{{{each}}}" for each in priced) or "nothing has a price", says)
    return ledger.work("cost.total", "total cost", rule, lambda **each: sum(each.values()) if each else None, **priced)


def _cost_figure(ledger: Ledger, purchase: Purchase) -> Figure[Decimal]:
    """The figure a purchase takes its cost from."""
    known = (ledger.figures.get(each) for each in purchase.figures if each.endswith(".cost"))
    given = Figure(f"cost.{purchase.id}", purchase.what, purchase.cost, (), COST)
    return next((figure for figure in known if figure is not None), given)


def price_for(buy: Length, price: Decimal, sold_by: str) -> Decimal:
    """The price of a length sold by the yard, metre or foot, to the nearest cent, halves up, as a till does."""
    exact = buy.inches / UNITS[sold_by] * Fraction(price)
    return cents(exact)


def cents(amount: Fraction) -> Decimal:
    """An exact sum of money to the nearest cent, halves up."""
    doubled = amount * 200 + 1
    return Decimal(doubled.numerator // doubled.denominator // 2).scaleb(-2)
