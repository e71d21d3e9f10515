"""What to buy: for one job, or for several together."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from decimal import Decimal
from typing import Final

from wizard.render.document import Block, Para, Table, points
from wizard.render.figure_text import money_text
from wizard.render.sheet_header import NO_NAME
from wizard.trade.cautions import called
from wizard.trade.field_names import first_up
from wizard.trade.formatting import exact, money, ruler_of, shown
from wizard.trade.lengths import UNITS, ZERO, Length, round_up, total
from wizard.trade.plan_records import Plan, Purchase
from wizard.trade.purchases import SHELVES, amount_text, bought, cost_of
from wizard.trade.steps.step_writer import KINDS

HEADS: Final = ("what", "buy", "needed", "sold by", "total", "bought")
TOTAL: Final = 4
"""The column that is there where anything has a price."""
UNROLLED: Final = "Ask the shop to unroll the cloth, and check it for flaws before it is cut."


def shop(plan: Plan) -> list[Block]:
    """The list in the order of the shop, with room to write; before it what to think of before buying, and which cloth
    it does not have yet."""
    cautions = points("caution", (each.sentence for each in called(KINDS["buy"].cautions, plan.job)))
    unknown = (first_up(each.name) for each in plan.layers if each.buy.value is None)
    lacking = points("missing", (f"{each} is not on this list: how much to buy is not known yet." for each in unknown))
    return [*cautions, *lacking, *buying_list(plan), Para(UNROLLED)] if plan.purchases else []


def buying_list(plan: Plan) -> list[Block]:
    """What to buy and its total, where prices are known; nothing while nothing is known."""
    if not plan.purchases:
        return []
    costs = [each.cost for each in plan.purchases if each.cost is not None]
    kept = [at for at in range(len(HEADS)) if costs or at != TOTAL]
    rows = tuple(tuple(row[at] for at in kept) for row in (_row(plan, each) for each in plan.purchases))
    boxes = tuple(f"buy:{each.id}" for each in plan.purchases)
    left = tuple(at for at, which in enumerate(kept) if which != TOTAL)
    table = Table(tuple(HEADS[at] for at in kept), rows, left, boxes=boxes, blank=(len(kept) - 1,))
    priced = "" if len(costs) == len(plan.purchases) else ", without the items that have no price"
    sums = money_text(plan.job, sum(costs, Decimal(0)))
    return [table, *([Para(f"Total {sums}{priced}.")] if costs else [])]


def _row(plan: Plan, each: Purchase) -> tuple[str, ...]:
    return each.what, each.amount, needed(plan, each), _sold_by(plan, each), money_text(plan.job, each.cost), ""


def needed(plan: Plan, each: Purchase) -> str:
    """What the job takes of it, and what is to spare: `193 1/2 in, nothing to spare`."""
    if each.needs is None or each.id == "needles":
        return ""
    if isinstance(each.needs, int):
        return f"at least {each.needs}" if each.id == "pins" else f"{each.needs:,}"
    if each.unit not in UNITS:
        of = each.unit.split(" ")[-1]
        return exact(round_up(each.needs, Length.of(1, of)), of)
    amount, ruler = bought(each.needs, each.step, each.unit), ruler_of(plan.job)
    spare = amount - each.needs if isinstance(amount, Length) else ZERO
    left = f"{shown(spare, ruler, 'down')} to spare" if spare else "nothing to spare"
    return f"{shown(each.needs, ruler, 'up')}, {left}"


def _sold_by(plan: Plan, each: Purchase) -> str:
    """In what a shop cuts it off, and for how much: `the 1/8 yd, $18.50 a yd`."""
    sold = ""
    if isinstance(each.step, Length) and each.unit in UNITS:
        sold = f"the {exact(each.step, each.unit).removeprefix('1 ')}"
    price = "" if each.price is None else f"{money_text(plan.job, each.price)} a {each.unit.split(' ')[0]}"
    return ", ".join(each for each in (sold, price) if each)


Line = tuple[Plan, Purchase]
"""What is bought for which job."""
HEADS_TOGETHER: Final = ("what", "buy", "total", "for", "bought")


def order_list(plans: Sequence[Plan]) -> list[Block]:
    """One list for several jobs: cloth by cloth, notions by the pack, and which job needs how much of each. Nothing
    while there is nothing to buy."""
    alike: dict[tuple[object, ...], dict[str | None, list[Line]]] = defaultdict(dict)
    every = ((plan, each) for plan in plans for each in plan.purchases)
    for plan, each in sorted(every, key=lambda line: line[1].price is None):
        by_currency = alike[_asked_for(each), each.unit, each.step]
        # What has no price goes with what has one.
        currency = next(iter(by_currency), None) if each.price is None else plan.job.currency
        by_currency.setdefault(currency, []).append((plan, each))
    lines = [each for by_currency in alike.values() for each in by_currency.values()]
    lines.sort(key=lambda of: SHELVES.index(of[0][1].id.partition(":")[0]))
    sums: dict[str, Decimal] = defaultdict(Decimal)
    for of in lines:
        if (cost := _cost(of)) is not None:
            sums[of[0][0].job.currency or ""] += cost
    total_words = " and ".join(f"{currency}{money(cost)}" for currency, cost in sums.items())
    table = Table(HEADS_TOGETHER, tuple(_together(each) for each in lines), (0, 1, 3, 4), blank=(4,))
    total = [Para(f"Total {total_words}, without the items that have no price.")] if sums else []
    return [table, *total] if lines else []


def _asked_for(each: Purchase) -> str:
    """What is asked for in the shop: of a cloth not the layer that it becomes."""
    return each.what.replace(f" ({each.id.partition(':')[2]})", "")


def _together(lines: Sequence[Line]) -> tuple[str, ...]:
    plan, first = lines[0]
    amount = _amount(lines)
    words = first.amount if amount is None else amount_text(amount, first.unit)
    jobs = (_for_job(each, one) for each, one in lines)
    return _asked_for(first), words, money_text(plan.job, _cost(lines)), "; ".join(jobs), ""


def _for_job(plan: Plan, each: Purchase) -> str:
    amount = needed(plan, each).partition(",")[0]
    return (plan.job.name or NO_NAME) + (f": {amount}" if amount else "")


def _amount(lines: Sequence[Line]) -> Length | int | None:
    """What is bought for all: the sum of what they need, rounded up once. Pins serve one job after the other."""
    first, needs = lines[0][1], [each.needs for _, each in lines]
    lengths, counts = [each for each in needs if isinstance(each, Length)], [n for n in needs if isinstance(n, int)]
    if len(lengths) == len(lines):
        return bought(total(lengths), first.step, first.unit)
    if len(counts) < len(lines):
        return None
    return bought(max(counts) if first.id == "pins" else sum(counts), first.step, first.unit)


def _cost(lines: Sequence[Line]) -> Decimal | None:
    """At the dearest price that one of the jobs names; None where none does."""
    amount, prices = _amount(lines), [each.price for _, each in lines if each.price is not None]
    return None if amount is None or not prices else cost_of(amount, max(prices), lines[0][1].unit)
