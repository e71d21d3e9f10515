"""Each layer's cloth: what it takes, how it is cut, what is left."""

from __future__ import annotations

from collections.abc import Sequence

from wizard.sheets.blocks.cut_list import cut_list, joined_up
from wizard.sheets.blocks.offcuts import offcuts
from wizard.sheets.blocks.roll_drawing import roll_drawing
from wizard.sheets.figure_text import counted, length_text, money_text, shop_text
from wizard.sheets.page import Page
from wizard.sheets.proof import other_ways, proof_text
from wizard.trade.cutting.strips import Layout
from wizard.trade.plan import Layer, Plan


def layers(plan: Plan, page: Page) -> list[str]:
    """All layers, the face first."""
    return [line for layer in plan.layers for line in _layer(plan, layer, page)]


def _layer(plan: Plan, layer: Layer, page: Page) -> list[str]:
    title = (
        layer.id.capitalize()
        if layer.name.casefold().startswith(layer.id)
        else f"{layer.id.capitalize()}: {layer.name}"
    )
    lines = [*page.heading(title), *page.pair("usable width", length_text(layer.usable, page.ruler, "down"))]
    lines += _cut_lengths(plan, layer, page)
    if layer.cutting is None:
        return lines + _why_not(layer, page)
    best = layer.cutting.best
    return [
        *lines,
        *_amounts(plan, layer, best, page),
        *cut_list(plan, layer, best, page),
        *joined_up(plan, layer, best, page),
        *roll_drawing(plan, layer, best, page),
        *offcuts(layer, best, page),
        *other_ways(plan, layer, page),
    ]


def _cut_lengths(plan: Plan, layer: Layer, page: Page) -> list[str]:
    lines: list[str] = []
    for part in plan.parts:
        length, width = layer.cut_lengths.get(part.id), layer.cut_widths.get(part.id)
        if length is not None and width is not None:
            texts = (length_text(width, page.ruler, "up"), length_text(length, page.ruler, "up"))
            lines += page.pair(part.name, f"cut {texts[0]} wide before joins, {texts[1]} long")
    return lines


def _amounts(plan: Plan, layer: Layer, best: Layout, page: Page) -> list[str]:
    widths = counted(sum(each.rows for each in best.uses), "lane" if best.way == "along" else "width")
    cost = money_text(plan.job, layer.cost.value)
    buy = shop_text(plan.job, f"cloth.{layer.id}", layer.buy.value)
    return [
        *page.pair("cut", f"{widths}, {counted(len(best.pieces), 'piece')}, {counted(best.joins, 'join')}"),
        *page.pair("cloth used", length_text(layer.used, page.ruler, "up")),
        *page.pair("from the roll", length_text(layer.roll, page.ruler, "up")),
        *page.pair("to buy", f"{buy}, {cost}" if cost else buy),
        *page.pair("how sure", proof_text(best, page.ruler)),
    ]


def _why_not(layer: Layer, page: Page) -> list[str]:
    if layer.refused is not None:
        return page.para("It cannot be laid out as it stands; see Findings.")
    return page.para(f"It cannot be laid out yet. Still needed: {_listed([each.words for each in layer.needs])}.")


def _listed(words: Sequence[str]) -> str:
    return "; ".join(words) or "what the other layers wait for"
