"""What a comparison of ways says: the one advised with its reason, and what each constraint costs in cloth."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.compared import Laying, Way, advised, answered, cost_of, held, lying, may_lie, value_of, ways_of
from wizard.trade.cutting import Layout, Rules
from wizard.trade.formatting import exact, money, ruler_of, shown
from wizard.trade.lengths import ZERO, Length, round_up
from wizard.trade.plan import Layer, Plan

PriceId = Literal["policy", "least piece", "joins kept clear", "one way up", "matching"]


class Price(Struct, frozen=True):
    """What one constraint costs in cloth, against the least without it."""

    id: PriceId
    sentence: str
    bought: Length
    """How much more is to be bought for it, in shop steps; ZERO for none."""
    used: Length
    """How much more is used for it; ZERO for none."""


class Comparison(Struct, frozen=True):
    """The ways of one layer, beside each other."""

    ways: tuple[Way, ...]
    advised: Way | None
    reason: str
    """Why that one, in a sentence; empty for none."""
    prices: tuple[Price, ...]


def compare(plan: Plan, layer: Layer, lay: Laying | None = None) -> Comparison:
    """All that can be said of a layer's ways; empty while it is not laid out. It lays out anew: not for a keystroke.
    `lay`: `answered`, or what gives up sooner."""
    ways = ways_of(plan, layer, lay)
    best = advised(plan, layer, ways)
    reason = "" if best is None else f"{reason_for(plan, layer, best, ways)}{_lying(plan, layer, best, ways)}"
    return Comparison(ways, best, reason, tuple(prices_of(plan, layer, lay)))


def reason_for(plan: Plan, layer: Layer, best: Way, ways: tuple[Way, ...]) -> str:
    """Why a way is advised: against what is followed, else against the others."""
    now = next((way for way in ways if way.followed), None)
    if now is None or now is best:
        return _nothing_better(best, ways)
    less, joins = now.layout.buy - best.layout.buy, best.layout.joins - now.layout.joins
    if less > ZERO:
        cost = _more_money(plan, layer, now.layout, best.layout)
        said = f"It buys {_length(plan, layer, less)}{cost} less than the way that is followed"
        return f"{said}, {_joins(joins)}." if joins else f"{said}, with as many joins."
    if joins < 0:
        return f"It buys the same length as the way that is followed, {_joins(joins)}."
    saved = _used(plan, now.layout.used - best.layout.used)
    return f"It buys the same with as many joins, and uses {saved} less of it."


def _lying(plan: Plan, layer: Layer, best: Way, ways: tuple[Way, ...]) -> str:
    """What is to be known of cloth on its side."""
    if best.lies:
        return " Hang a sample sideways first: the grain then runs level." if not best.followed else ""
    less = [way for way in ways if way.lies and way.layout.buy < best.layout.buy]
    if not less:
        return ""
    saved = _length(plan, layer, best.layout.buy - less[0].layout.buy)
    return f" Along the roll would buy {saved} less, but the pattern would lie on its side."


def _nothing_better(best: Way, ways: tuple[Way, ...]) -> str:
    others = [way for way in ways if way is not best and (not way.lies or best.lies)]
    same = [way for way in others if way.layout.buy == best.layout.buy]
    if not same:
        return "No other way buys so little." if others else "There is no other way."
    if all(way.layout.joins > best.layout.joins for way in same):
        return "No other way buys less, and of those that buy the same it has the fewest joins."
    return "No other way buys less."


def _joins(more: int) -> str:
    return f"with {abs(more)} {'join' if abs(more) == 1 else 'joins'} {'fewer' if more < 0 else 'more'}"


def prices_of(plan: Plan, layer: Layer, lay: Laying | None = None) -> Iterator[Price]:
    """What each constraint that is in force costs."""
    rules, now = layer.rules, layer.least
    if rules is None or now is None:
        return
    for id, costs, lifted in _lifted(plan, layer, rules):
        other = (lay or answered)(lifted, lifted.rules) if lifted.rules is not None else None
        if other is not None:
            yield _price(plan, layer, id, costs, (now, other.best))


def _lifted(plan: Plan, layer: Layer, rules: Rules) -> Iterator[tuple[PriceId, str, Layer]]:
    """Each constraint in force: its words, and the layer without it."""
    if not rules.along and rules.policy != "part widths":
        free = replace(layer, rules=replace(rules, policy="part widths"))
        yield "policy", f"{rules.policy.capitalize()} cost {{}} more than part widths", free
    least = _least_of_all(plan, rules)
    if rules.policy == "part widths" and least is not None and rules.least_piece > least:
        at, floor = (shown(each, ruler_of(plan.job)) for each in (rules.least_piece, least))
        words = f"A least piece of {at} costs {{}} more than one of {floor}, the narrowest a join allows"
        yield "least piece", words, replace(layer, rules=replace(rules, least_piece=least))
    if any(strip.no_join for strip in layer.strips):
        free = replace(layer, strips=tuple(replace(strip, no_join=()) for strip in layer.strips))
        yield "joins kept clear", "Keeping the joins away from the face's costs {} more than joins anywhere", free
    if not rules.along and not may_lie(plan, layer):
        free = replace(layer, rules=lying(rules))
        yield "one way up", "Keeping the cloth one way up costs {} more than laying it along the roll", free
    if rules.repeat is not None and not rules.along:
        free = replace(layer, rules=replace(rules, repeat=None))
        yield "matching", "Matching the pattern costs {} more than leaving it unmatched", free


def _least_of_all(plan: Plan, rules: Rules) -> Length | None:
    """An end hem and a join: no piece may be narrower, whatever the maker allows."""
    end_hem = value_of(plan, "allowances.end_hem")
    return None if end_hem is None else round_up(end_hem + rules.join_cost, rules.mark)


def _price(plan: Plan, layer: Layer, id: PriceId, words: str, layouts: tuple[Layout, Layout]) -> Price:
    now, free = layouts
    bought, used = max(now.buy - free.buy, ZERO), max(now.used - free.used, ZERO)
    if bought > ZERO:
        costs = _length(plan, layer, bought) + _more_money(plan, layer, now, free)
    elif used > ZERO:
        costs = f"no more at the shop, and {_used(plan, used)} on the table,"
        words = words.replace("{} more than", "{} against")
    else:
        return Price(id, words.replace("{} more", "no more").format() + ".", ZERO, ZERO)
    return Price(id, words.format(costs) + ".", bought, used)


def _more_money(plan: Plan, layer: Layer, one: Layout, other: Layout) -> str:
    costs: tuple[Decimal | None, Decimal | None] = (cost_of(plan, layer, one), cost_of(plan, layer, other))
    if costs[0] is None or costs[1] is None:
        return ""
    return f" ({plan.job.currency or ''}{money(abs(costs[0] - costs[1]))})"


def _length(plan: Plan, layer: Layer, length: Length) -> str:
    return exact(length, str(held(plan, layer, "sold_by") or "yd"))


def _used(plan: Plan, length: Length) -> str:
    return shown(length, ruler_of(plan.job), "up")
