"""The ways of cutting a layer compared, one of them advised with its reason, and what each constraint costs in cloth.

Each way is laid out to the same standard: across the roll in part, half and whole widths, slit and stacked where that
is shorter, and along the roll where the cloth may lie on its side. Nothing is laid out until somebody compares. A sheet
compares within bounds (`LaidWithin`): a share of the work that the plan itself took.
"""

from __future__ import annotations

import dataclasses
from collections import Counter
from collections.abc import Callable, Iterator
from decimal import Decimal
from functools import cache, partial
from typing import Any, Final, Literal, TypeVar, cast

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cut_plans import cut_plan, ways_found, work_of
from wizard.trade.cutting import Cutting, Layout, Rules, within
from wizard.trade.field_names import first_up
from wizard.trade.formatting import ruler_of, shown
from wizard.trade.fullness_offers import (
    WORDS,
    compared,
    joins_words,
    length_words,
    takes_cells,
    waiting_words,
    worth_words,
)
from wizard.trade.job_fields import Allowances, Cloth, CutWay, key_of
from wizard.trade.lengths import ZERO, Length, round_up
from wizard.trade.plan_records import Layer, Offer, Offers, Plan
from wizard.trade.stock import price_for

T = TypeVar("T")
WayId = Literal[
    "least cloth", "fewest joins", "slit", "stacked", "half widths", "whole widths", "along", "along, fewest joins"
]
POLICIES: Final[tuple[Literal["half widths", "whole widths"], ...]] = ("half widths", "whole widths")


LayerPlanner = Callable[[Layer, Rules], Cutting | None]
"""Lays a layer out by other rules; None where it cannot be cut so."""


class Way(Struct, frozen=True):
    """One way of cutting a layer."""

    id: WayId
    layout: Layout
    cost: Decimal | None
    """Of what is bought; None without a price."""
    look: str
    answers: tuple[tuple[str, str], ...]
    """What to answer to use it: key of the file and value, where they differ from the file."""
    followed: bool

    @property
    def title(self) -> str:
        """In a few words."""
        return WORDS[self.id].sentence

    @property
    def lies(self) -> bool:
        """True when the strips lie along the roll."""
        return self.layout.way == "along"


def ways_of(plan: Plan, layer: Layer, lay: LayerPlanner | None = None) -> Iterator[Way]:
    """Every way as it is laid out, the usual one first; none while the layer is not laid out. `lay`: `answered`, or one
    that gives up sooner."""
    if layer.rules is None or layer.cutting is None:
        return
    now = followed_in(plan, layer, layer.rules, layer.cutting)
    for id, layout in _layouts(plan, layer, layer.rules, lay or answered):
        answers = tuple((key, text) for key, text in _wanted(plan, layer, id).items() if plan.value(key) != text)
        look = look_of(plan, layer, layout)
        yield Way(id, layout, cost_of(plan, layer, layout), look, answers, id == now)


def followed_in(plan: Plan, layer: Layer, rules: Rules, cutting: Cutting) -> WayId:
    """The way in use."""
    way = cast("CutWay | None", cloth_value(plan, layer, Cloth.way))
    chosen: CutWay = way if way is not None and way in ways_found(cutting) else "least cloth"
    if rules.along:
        return "along, fewest joins" if chosen == "fewest joins" else "along"
    return chosen if rules.policy == "part widths" else rules.policy


def _layouts(plan: Plan, layer: Layer, rules: Rules, lay: LayerPlanner) -> Iterator[tuple[WayId, Layout]]:
    """The layouts by their ways, those that can be cut."""
    across = replace(rules, along=False, policy="part widths")
    if found := lay(layer, across):
        yield "least cloth", found.best
        yield from ways_found(found).items()
    for policy in POLICIES:
        if fixed := lay(layer, replace(across, policy=policy)):
            yield policy, fixed.best
    if may_lie(plan, layer) and (lanes := lay(layer, lying(rules))):
        yield "along", lanes.best
        if fewest := lanes.fewest_joins():
            yield "along, fewest joins", fewest


def answered(layer: Layer, rules: Rules) -> Cutting | None:
    """The layer laid out by other rules; None where it cannot be cut so."""
    if layer.found is not None and rules == layer.rules:
        return layer.found
    answer = cut_plan((layer.strips, layer.stock, rules))
    return answer if isinstance(answer, Cutting) else None


def lying(rules: Rules) -> Rules:
    """The same rules for strips along the roll."""
    return replace(rules, along=True, one_way=False)


def may_lie(plan: Plan, layer: Layer) -> bool:
    """True when the cloth may lie on its side."""
    return not cloth_value(plan, layer, Cloth.one_way) or bool(cloth_value(plan, layer, Cloth.sideways))


def cloth_value(plan: Plan, layer: Layer, field: T | None) -> T | None:
    """The value of a field of a layer's cloth in the plan, as given or as usual; None where it is not used there."""
    return value_of(plan, field, f"cloth.{layer.id}")


def value_of(plan: Plan, field: T | None, at: str | None = None) -> T | None:
    """The value of a field in the plan, as `Ledger.read` finds it; None where it is not used there."""
    return cast("T | None", plan.value(key_of(field, at)))


def _wanted(plan: Plan, layer: Layer, id: WayId) -> dict[str, str]:
    """The answers in the file when a way is used."""
    key = f"cloth.{layer.id}"
    if id in ("along", "along, fewest joins"):
        answers = {f"{key}.lay": "along", f"{key}.way": "least cloth" if id == "along" else "fewest joins"}
        across = any(cloth_value(plan, each, Cloth.lay) != "along" for each in plan.layers if each.id != layer.id)
        return answers if across else {**answers, "fullness.joins": "part widths"}
    if id in POLICIES:
        return {f"{key}.lay": "across", "fullness.joins": id}
    return {f"{key}.lay": "across", "fullness.joins": "part widths", f"{key}.way": id}


def cost_of(plan: Plan, layer: Layer, layout: Layout) -> Decimal | None:
    """What a layout's cloth costs; None without a price."""
    price, sold_by = cloth_value(plan, layer, Cloth.price), cloth_value(plan, layer, Cloth.sold_by)
    return None if price is None or sold_by is None else price_for(layout.buy, price, sold_by)


def look_of(plan: Plan, layer: Layer, layout: Layout) -> str:
    """How it will look, in words."""
    narrowest = _narrowest(layout)
    looks = _looks(plan, layer, layout)
    return f"{looks}; narrowest piece {shown(narrowest, ruler_of(plan.job))}" if narrowest else looks


def _looks(plan: Plan, layer: Layer, layout: Layout) -> str:
    if layout.way == "along":
        repeat = cloth_value(plan, layer, Cloth.repeat)
        level = "the pattern lies on its side" if repeat else "the grain runs sideways"
        level += " and meets at no join" if layout.joins and repeat else ""
        return f"{level}; {'few joins' if layout.joins else 'no joins'}"
    return _joints(layout, layer) if layout.joins else "no joins"


def _even_of(layout: Layout, layer: Layer) -> tuple[int, int]:
    """In how many sections the outer pieces are alike and the inner ones too, and how many have joins."""
    strips = [
        sorted((each for each in layout.pieces if each.strip == one.id), key=lambda each: each.order)
        for one in layer.strips
    ]
    joined = [[each.width for each in pieces] for pieces in strips if len(pieces) > 1]
    return sum(widths[0] == widths[-1] and len(set(widths[1:-1])) <= 1 for widths in joined), len(joined)


def _joints(layout: Layout, layer: Layer) -> str:
    """Where the joins of a layout across the roll come."""
    even, joined = _even_of(layout, layer)
    if even == joined:
        return "joins even, the outer pieces of a section alike"
    return "joins unevenly spaced" if not even else f"joins even in {even} of {joined} joined sections"


def advised(plan: Plan, layer: Layer, ways: tuple[Way, ...]) -> Way | None:
    """The recommended way: the one that buys least, then has the fewest joins, then the most sections whose outer
    pieces are alike, then uses least. None that turns a pattern."""
    turned = bool(cloth_value(plan, layer, Cloth.repeat))

    def worth(way: Way) -> tuple[Length, int, int, Length, bool]:
        layout = way.layout
        return layout.buy, layout.joins, -_even_of(layout, layer)[0], layout.used, not way.followed

    return min((way for way in ways if not (turned and way.lies)), key=worth, default=None)


PriceId = Literal["policy", "least piece", "joins kept clear", "one way up", "matching"]


class Price(Struct, frozen=True):
    """What one constraint costs in cloth, against the least without it."""

    id: PriceId
    sentence: str
    bought: Length
    """How much more must be bought for it, in shop steps; ZERO for none."""
    used: Length
    """How much more is used for it; ZERO for none."""


class Comparison(Struct, frozen=True):
    """The ways of one layer, compared."""

    ways: tuple[Way, ...]
    advised: Way | None
    reason: str
    """Why that one, in a sentence; empty for none."""
    prices: tuple[Price, ...]


def compare(plan: Plan, layer: Layer, lay: LayerPlanner | None = None) -> Comparison:
    """The comparison of a layer's ways; empty while it is not laid out. It lays out anew, so it is not for every
    keystroke. `lay`: `answered`, or one that gives up sooner."""
    ways = tuple(ways_of(plan, layer, lay))
    best = advised(plan, layer, ways)
    return Comparison(ways, best, reason_for(plan, layer, best, ways), tuple(prices_of(plan, layer, lay)))


def reason_for(plan: Plan, layer: Layer, best: Way | None, ways: tuple[Way, ...]) -> str:
    """Why a way is recommended, against the one in use, else against the others; and what to know of cloth on its side.
    Empty for none."""
    now = next((way for way in ways if way.followed), None)
    if best is None:
        return ""
    lying = _lying(plan, layer, best, ways)
    if now is None or now is best:
        return _nothing_better(best, ways) + lying
    less, joins = now.layout.buy - best.layout.buy, best.layout.joins - now.layout.joins
    if less > ZERO:
        worth = worth_words(plan, cost_of(plan, layer, now.layout), cost_of(plan, layer, best.layout))
        said = f"It buys {length_words(plan, layer, less)}{worth} less than the way in use"
        return f"{said}, with {joins_words(joins) if joins else 'as many joins'}.{lying}"
    if joins < 0:
        return f"It buys the same length as the way in use, with {joins_words(joins)}.{lying}"
    more = _even_of(best.layout, layer)[0] - _even_of(now.layout, layer)[0]
    if more > 0:
        sections = f"{more} more section{'s' if more > 1 else ''}"
        return f"It buys the same with as many joins, evenly placed in {sections}.{lying}"
    saved = shown(now.layout.used - best.layout.used, ruler_of(plan.job), "up")
    return f"It buys the same with as many joins, and uses {saved} less of it.{lying}"


def _lying(plan: Plan, layer: Layer, best: Way, ways: tuple[Way, ...]) -> str:
    """What to know of cloth on its side."""
    if best.lies:
        return " Hang a sample sideways first, to see how it falls." if not best.followed else ""
    less = next(
        (best.layout.buy - way.layout.buy for way in ways if way.lies and way.layout.buy < best.layout.buy), ZERO
    )
    saved = length_words(plan, layer, less)
    return f" Along the roll would buy {saved} less, but turns the pattern on its side." if less else ""


def _nothing_better(best: Way, ways: tuple[Way, ...]) -> str:
    others = [way for way in ways if way is not best and (not way.lies or best.lies)]
    same = [way for way in others if way.layout.buy == best.layout.buy]
    if not same:
        across = "" if best.lies else " across the roll"
        none = f"The other ways{across} buy no less, or cannot be cut from this cloth."
        return "Every other way buys more." if others else none
    if all(way.layout.joins > best.layout.joins for way in same):
        return "No other way buys less, and of those that buy the same it has the fewest joins."
    return "No other way buys less."


def prices_of(plan: Plan, layer: Layer, lay: LayerPlanner | None = None) -> Iterator[Price]:
    """What each constraint that is in force costs."""
    rules, now = layer.rules, layer.least
    if rules is None or now is None:
        return
    values = {"policy": rules.policy.capitalize()}
    for id, lifted in _lifted(plan, replace(layer, found=None), rules):
        if lifted.rules is not None and (other := (lay or answered)(lifted, lifted.rules)):
            lengths = {"at": rules.least_piece, "floor": lifted.rules.least_piece}
            shorter = {name: shown(each, ruler_of(plan.job)) for name, each in lengths.items()}
            yield _price(plan, layer, id, values | shorter, (now, other.best))


def _lifted(plan: Plan, layer: Layer, rules: Rules) -> Iterator[tuple[PriceId, Layer]]:
    """Each constraint in force, and the layer without it."""
    if not rules.along and rules.policy != "part widths":
        yield "policy", replace(layer, rules=replace(rules, policy="part widths"))
    end_hem = value_of(plan, Allowances.end_hem)
    # An end hem and a join: no piece may be narrower, whatever the maker allows.
    least = None if end_hem is None else round_up(end_hem + rules.join_cost, rules.mark)
    if rules.policy == "part widths" and least is not None and rules.least_piece > least:
        yield "least piece", replace(layer, rules=replace(rules, least_piece=least))
    if any(strip.no_join for strip in layer.strips):
        yield "joins kept clear", replace(layer, strips=tuple(replace(each, no_join=()) for each in layer.strips))
    if not rules.along and not may_lie(plan, layer):
        yield "one way up", replace(layer, rules=lying(rules))
    if rules.repeat is not None and not rules.along:
        yield "matching", replace(layer, rules=replace(rules, repeat=None))


def _price(plan: Plan, layer: Layer, id: PriceId, values: dict[str, str], layouts: tuple[Layout, Layout]) -> Price:
    (now, free), words, costs = layouts, WORDS[id].sentence, ""
    bought, used = max(now.buy - free.buy, ZERO), max(now.used - free.used, ZERO)
    if bought > ZERO:
        worth = worth_words(plan, cost_of(plan, layer, now), cost_of(plan, layer, free))
        costs = f"{length_words(plan, layer, bought)}{worth}"
    elif used > ZERO:
        costs = f"no more at the shop, and {shown(used, ruler_of(plan.job), 'up')} on the table,"
        words = words.replace("{costs} more than", "{costs} against")
    else:
        words = words.replace("{costs} more", "no more")
    return Price(id, words.format_map({**values, "costs": costs}) + ".", bought, used)


HEADS: Final = ("way", "to buy", "joins", "cost", "narrowest")


def offers_of_ways(plan: Plan, layer: Layer) -> Iterator[Offers]:
    """The ways of cutting a layer to choose from as they are laid out, and at the end the recommended one.

    It lays out anew, so it is not for the thread of a screen.
    """
    ways = tuple[Way, ...]()
    for way in ways_of(plan, layer):
        ways = (*ways, way)
        yield table_of_ways(plan, layer, ways)
    laid = layer.rules is not None and layer.cutting is not None
    yield table_of_ways(plan, layer, ways, whole=True) if laid else Offers(HEADS, (), waits=waiting_words(layer))


def table_of_ways(plan: Plan, layer: Layer, ways: tuple[Way, ...], *, whole: bool = False) -> Offers:
    """Ways of cutting as a table; one is recommended once it is `whole`."""
    best = advised(plan, layer, ways) if whole else None
    usual = next((way for way in ways if way.followed), best)
    rows = {way.id: _offer(plan, layer, way, usual, best) for way in ways}
    reason = reason_for(plan, layer, best, ways)
    return Offers(HEADS, tuple(rows.values()), reason, rows[usual.id] if usual else None, whole=whole)


def _offer(plan: Plan, layer: Layer, way: Way, usual: Way | None, best: Way | None) -> Offer:
    layout, narrowest = way.layout, _narrowest(way.layout)
    takes, narrow = (layout.buy, layout.joins, way.cost), shown(narrowest, ruler_of(plan.job)) if narrowest else "whole"
    said = f"{first_up(_looks(plan, layer, layout))}."
    if usual is not None and way is not usual:
        there = usual.layout.buy, usual.layout.joins, usual.cost
        said += f" {compared(plan, layer, usual.title, takes, there)}"
    cells = way.title, *takes_cells(plan, layer, takes), narrow
    return Offer(way.title, cells, _wanted(plan, layer, way.id), "", said, way.followed, way is best)


def _narrowest(layout: Layout) -> Length | None:
    """The narrowest piece that is joined to another; None where none is."""
    counts = Counter(each.strip for each in layout.pieces)
    return min((each.width for each in layout.pieces if counts[each.strip] > 1), default=None)


ONCE: Final = 6_000
"""The work of any plan beside its layouts."""
EACH: Final = 600
"""The work for each section of each layer."""


def work_in(plan: Plan) -> int:
    """About all the work of a plan: that of its layouts, with what improved them, and the rest."""
    layers = [(each.strips, each.stock, each.rules, each.found) for each in plan.layers if each.strips]
    laid = sum(work_of((strips, stock, rules), found) for strips, stock, rules, found in layers if rules is not None)
    return ONCE + EACH * len(plan.parts) * len(plan.layers) + laid


class LaidWithin:
    """Lays layers out by other rules, as `answered` does, within a limit of work. What would take more than is left is
    passed over; the layers as `plan` has them are known and take nothing."""

    def __init__(self, plan: Plan, work: int) -> None:
        self.left, self.taken, self.whole = work, 0, True
        self._own = {(each.strips, each.stock, each.rules) for each in plan.layers}
        self._known: dict[tuple[object, ...], Cutting | None] = {}
        self._once: dict[Callable[[], object], Any] = {}

    def __call__(self, layer: Layer, rules: Rules) -> Cutting | None:
        """The layer laid out so; None where it cannot be, or would take more work than is left."""
        asked = (layer.strips, layer.stock, rules)
        if asked not in self._known:
            found = answered(layer, rules) if asked in self._own else self._bounded(partial(answered, layer, rules))
            self._known[asked] = self.with_ways(found)
        return self._known[asked]

    def with_ways(self, found: Cutting | None) -> Cutting | None:
        """A cutting whose other layouts are worked out within what is left, when they are looked at."""
        if found is None:
            return None
        fewest, others = self._bounded_once(found.fewest_joins), self._bounded_once(found.others)
        return dataclasses.replace(found, fewest_joins=fewest, others=lambda: others() or ())

    def _bounded_once(self, call: Callable[[], T]) -> Callable[[], T | None]:
        """`call` within what is left, and only once."""
        once: Callable[[], T | None] = self._once.setdefault(call, cache(partial(self._bounded, call)))
        return once

    def _bounded(self, call: Callable[[], T]) -> T | None:
        found, took = within(call, self.left)
        self.left, self.taken, self.whole = self.left - took, self.taken + took, self.whole and took < self.left
        return found
