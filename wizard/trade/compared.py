"""The ways of cutting a layer beside each other, and one of them advised with its reason.

Each way is laid out to the same standard: across the roll in part, half and whole widths, slit and stacked where that
is shorter, and along the roll where the cloth may lie on its side. Laying out waits until somebody compares.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from decimal import Decimal
from typing import Any, Final, Literal

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cut_plans import cut_plan
from wizard.trade.cutting import Cutting, Layout, Rules
from wizard.trade.formatting import ruler_of, shown
from wizard.trade.job import CutWay, LayerId
from wizard.trade.plan import Layer, Plan
from wizard.trade.stock import price_for
from wizard.trade.ways import ways_found

WayId = Literal[
    "least cloth", "fewest joins", "slit", "stacked", "half widths", "whole widths", "along", "along, fewest joins"
]
TITLES: Final[dict[WayId, str]] = {
    "least cloth": "across, part widths",
    "fewest joins": "across, fewest joins",
    "slit": "slit lengthwise",
    "stacked": "stacked",
    "half widths": "across, half widths",
    "whole widths": "across, whole widths",
    "along": "along the roll",
    "along, fewest joins": "along, fewest joins",
}
"""Each way as its column heading says it."""
POLICIES: Final[tuple[Literal["half widths", "whole widths"], ...]] = ("half widths", "whole widths")


Laying = Callable[[Layer, Rules], Cutting | None]
"""Lays a layer out by other rules; None where it cannot be cut so."""


class Way(Struct, frozen=True):
    """One way of cutting a layer."""

    id: WayId
    layout: Layout
    cost: Decimal | None
    """Of what is bought; None without a price."""
    look: str
    answers: tuple[tuple[str, str], ...]
    """What to answer to follow it: key of the file and value, as they differ from what stands."""
    followed: bool
    layer: LayerId

    @property
    def title(self) -> str:
        """In a few words."""
        return TITLES[self.id]

    @property
    def lies(self) -> bool:
        """True when the strips lie along the roll."""
        return self.layout.way == "along"


def ways_of(plan: Plan, layer: Layer, lay: Laying | None = None) -> tuple[Way, ...]:
    """Every way there is, the usual one first; none while the layer is not laid out. `lay`: `answered` or less."""
    if layer.rules is None or layer.cutting is None:
        return ()
    now, found = followed_in(plan, layer), dict(_layouts(plan, layer, layer.rules, lay or answered))
    return tuple(_way(plan, layer, id, layout, now) for id, layout in found.items())


def followed_in(plan: Plan, layer: Layer) -> WayId:
    """The way the plan follows."""
    rules, cutting, way = layer.rules, layer.cutting, held(plan, layer, "way")
    chosen: CutWay = way if cutting is not None and way in _there(layer) else "least cloth"
    if rules is not None and rules.along:
        return "along, fewest joins" if chosen == "fewest joins" else "along"
    if rules is not None and rules.policy != "part widths":
        return rules.policy
    return chosen


def _there(layer: Layer) -> set[str]:
    return set() if layer.cutting is None else set(ways_found(layer.cutting))


def _layouts(plan: Plan, layer: Layer, rules: Rules, lay: Laying) -> Iterator[tuple[WayId, Layout]]:
    """The layouts by their ways, those that can be cut."""
    across = replace(rules, along=False, policy="part widths")
    found = lay(layer, across)
    if found is not None:
        yield "least cloth", found.best
        yield from ways_found(found).items()
    for policy in POLICIES:
        fixed = lay(layer, replace(across, policy=policy))
        if fixed is not None:
            yield policy, fixed.best
    lanes = lay(layer, lying(rules)) if may_lie(plan, layer) else None
    if lanes is not None:
        yield "along", lanes.best
        if lanes.fewest_joins is not None:
            yield "along, fewest joins", lanes.fewest_joins


def answered(layer: Layer, rules: Rules) -> Cutting | None:
    """The layer laid out by other rules; None where it cannot be cut so."""
    answer = cut_plan(layer.strips, layer.stock, rules)
    return answer if isinstance(answer, Cutting) else None


def lying(rules: Rules) -> Rules:
    """The same rules for strips along the roll."""
    return replace(rules, along=True, one_way=False)


def may_lie(plan: Plan, layer: Layer) -> bool:
    """True when the cloth may lie on its side."""
    return not held(plan, layer, "one_way") or bool(held(plan, layer, "sideways"))


def held(plan: Plan, layer: Layer, leaf: str) -> Any:
    """What stands at a key of the layer's cloth."""
    return value_of(plan, f"cloth.{layer.id}.{leaf}")


def value_of(plan: Plan, key: str) -> Any:
    """The value of a figure; None where there is none."""
    figure = plan.figures.get(key)
    return None if figure is None else figure.value


def _way(plan: Plan, layer: Layer, id: WayId, layout: Layout, now: WayId) -> Way:
    wanted = _wanted(plan, layer, id)
    answers = tuple((key, value) for key, value in wanted.items() if value_of(plan, key) != value)
    return Way(id, layout, cost_of(plan, layer, layout), look_of(plan, layer, id, layout), answers, id == now, layer.id)


def _wanted(plan: Plan, layer: Layer, id: WayId) -> dict[str, str]:
    """What stands in the file when a way is followed."""
    key = f"cloth.{layer.id}"
    if id in ("along", "along, fewest joins"):
        answers = {f"{key}.lay": "along", f"{key}.way": "least cloth" if id == "along" else "fewest joins"}
        across = any(held(plan, each, "lay") != "along" for each in plan.layers if each.id != layer.id)
        return answers if across else {**answers, "fullness.joins": "part widths"}
    if id in POLICIES:
        return {f"{key}.lay": "across", "fullness.joins": id}
    return {f"{key}.lay": "across", "fullness.joins": "part widths", f"{key}.way": id}


def cost_of(plan: Plan, layer: Layer, layout: Layout) -> Decimal | None:
    """What a layout's cloth costs; None without a price."""
    price, sold_by = held(plan, layer, "price"), held(plan, layer, "sold_by")
    return None if price is None or sold_by is None else price_for(layout.buy, price, sold_by)


def look_of(plan: Plan, layer: Layer, id: WayId, layout: Layout) -> str:
    """How it will look, in words."""
    joined = [each.width for each in layout.pieces if _pieces(layout, each.strip) > 1]
    narrow = f"; narrowest piece {shown(min(joined), ruler_of(plan.job))}" if joined else ""
    if layout.way == "along":
        level = "the pattern lies on its side" if held(plan, layer, "repeat") else "the grain runs level"
        level += " and meets at no join" if layout.joins and held(plan, layer, "repeat") else ""
        return f"{level}; " + ("no joins to see" if not layout.joins else f"few joins{narrow}")
    looks = {
        "least cloth": "joins wherever they save cloth",
        "fewest joins": "fewer joins",
        "slit": "pieces of two lanes, so joins fall unevenly",
        "stacked": "short pieces let in, so joins fall unevenly",
        "half widths": "full and half widths, joins nearly even",
        "whole widths": "full widths, joins even, the outer two alike",
    }
    return looks[id] + narrow if layout.joins else "no joins to see"


def _pieces(layout: Layout, strip: str) -> int:
    return sum(each.strip == strip for each in layout.pieces)


def advised(plan: Plan, layer: Layer, ways: tuple[Way, ...]) -> Way | None:
    """The way to take: what buys least, then has the fewest joins, then uses least. None that turns a pattern."""
    turned = bool(held(plan, layer, "repeat"))

    def key(way: Way) -> tuple[Any, ...]:
        return way.layout.buy, way.layout.joins, way.layout.used, not way.followed

    return min((way for way in ways if not (turned and way.lies)), key=key, default=None)
