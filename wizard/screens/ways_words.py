"""The ways of cutting beside each other, in lines: cloth, cost, joins, look; the one advised; what choices cost."""

from __future__ import annotations

from collections.abc import Iterator

from textual.content import Content

from wizard.screens.breaking import in_lines
from wizard.screens.cutting_words import pair
from wizard.screens.figure_words import sold_by, value_words
from wizard.screens.glyphs import DONE
from wizard.screens.literal import plain
from wizard.screens.so_far import joins_words
from wizard.trade.compare_ways import Comparison, Way, held
from wizard.trade.formatting import exact, ruler_of, shown
from wizard.trade.lengths import ZERO
from wizard.trade.plan import Layer, Plan
from wizard.trade.steps.pattern_matching import WHY_OURS, matched_lines, ruled_in_print

TITLE, BUY, COST = 22, 11, 9
"""Columns of a way's line."""


def comparison_lines(found: Comparison, plan: Plan, layer: Layer, columns: int) -> Iterator[Content]:
    """All that is known of a layer's ways."""
    yield Content.assemble(("Ways of cutting", "bold"), (f"   {DONE} is followed", "$quiet"))
    for way in found.ways:
        yield way_line(way, plan, layer)
        yield from look_lines(way, found, columns)
    if found.advised is not None:
        yield Content.assemble(("Advised  ", "bold $accent"), found.advised.title)
        yield from _indented(found.reason, columns)
    yield from _costs(found, columns)
    if layer.least is not None:
        bound = shown(layer.least.area_bound, ruler_of(plan.job), "down")
        yield from _indented(f"By its area alone, no way uses less than {bound}.", columns)


def look_lines(way: Way, found: Comparison, columns: int) -> Iterator[Content]:
    """How a way looks, after whether it is the one advised."""
    first = "Advised; " if way is found.advised else ""
    yield from _indented(f"{first}{way.look}", columns)


def way_line(way: Way, plan: Plan, layer: Layer) -> Content:
    """`● across, part widths  1 5/8 yd   $30.06  8 joins`."""
    unit = sold_by(plan, layer.id)
    buy = exact(way.layout.buy, unit) if way.layout.buy > ZERO else "none"
    cost = "" if way.cost is None else value_words(way.cost, plan)
    return Content.assemble(
        (f"{DONE if way.followed else ' '} ", "bold $accent"),
        (f"{way.title:<{TITLE}}", "bold" if way.followed else ""),
        f"{buy:<{BUY}}{f'{cost:>{COST - 2}}  ' if cost else ''}",
        joins_words(way.layout.joins),
    )


def _costs(found: Comparison, columns: int) -> Iterator[Content]:
    if found.prices:
        yield Content.styled("What the choices cost, against the least", "bold")
    for each in found.prices:
        yield from _indented(each.sentence, columns)


def pattern_lines(plan: Plan, layer: Layer, columns: int) -> Iterator[Content]:
    """How matched cloth is cut, and the half-drop rules in print beside ours."""
    for line in matched_lines(layer, held(plan, layer, "match_from") or "hem", ruler_of(plan.job)):
        yield from _indented(line, columns)
    rules = ruled_in_print(layer)
    if rules and layer.cutting is not None:
        unit, best = sold_by(plan, layer.id), layer.cutting.best
        yield pair("Our rule", f"to buy {exact(best.buy, unit)}", columns, strong=True)
        for each in rules:
            yield pair("In print", f"to buy {exact(each.buy, unit)}: {each.name}", columns)
        yield from _indented(WHY_OURS, columns)


def _indented(text: str, columns: int) -> Iterator[Content]:
    for line in in_lines(plain(text), max(columns - 4, 20)):
        yield Content.styled(f"    {line}", "$quiet")
