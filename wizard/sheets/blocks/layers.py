"""Each layer's cloth: what it takes, how it is cut, what is left."""

from __future__ import annotations

from collections.abc import Sequence

from wizard.sheets.blocks.cut_list import cut_list, joined_up
from wizard.sheets.blocks.offcuts import left_over
from wizard.sheets.blocks.roll_drawing import roll_drawing
from wizard.sheets.figure_text import counted, length_text, money_text, shop_text
from wizard.sheets.matter import Heading, Matter, Pairs, Para
from wizard.sheets.proof import proof_text, ways
from wizard.trade.cutting import Layout
from wizard.trade.formatting import Ruler, ruler_of
from wizard.trade.plan import Layer, Plan

Rows = tuple[tuple[str, str], ...]


def layers(plan: Plan) -> list[Matter]:
    """All layers, the face first."""
    ruler = ruler_of(plan.job)
    return [each for layer in plan.layers for each in _layer(plan, layer, ruler)]


def layer_title(layer: Layer) -> str:
    """`Face: slate ticking`, or the layer in words where the maker gave it no name."""
    name = layer.id.capitalize()
    return name if layer.name.casefold().startswith(layer.id) else f"{name}: {layer.name}"


def _layer(plan: Plan, layer: Layer, ruler: Ruler) -> list[Matter]:
    usable = ("usable width", length_text(layer.usable, ruler, "down"))
    rows = (usable, *_cut_lengths(plan, layer, ruler))
    heading = Heading(layer_title(layer), new_page=True)
    if layer.cutting is None:
        return [heading, Pairs(rows), Para(_why_not(layer))]
    best = layer.cutting.best
    return [
        heading,
        Pairs((*rows, *_amounts(plan, layer, best, ruler))),
        *cut_list(plan, layer, best, ruler),
        *joined_up(plan, layer, best, ruler),
        *roll_drawing(plan, layer, best, ruler),
        *left_over(layer, best, ruler),
        *ways(plan, layer, ruler),
    ]


def _cut_lengths(plan: Plan, layer: Layer, ruler: Ruler) -> Rows:
    rows: list[tuple[str, str]] = []
    for part in plan.parts:
        length, width = layer.cut_lengths.get(part.id), layer.cut_widths.get(part.id)
        if length is not None and width is not None:
            texts = (length_text(width, ruler, "up"), length_text(length, ruler, "up"))
            rows.append((part.name, f"cut {texts[0]} wide before joins, {texts[1]} long"))
    return tuple(rows)


def _amounts(plan: Plan, layer: Layer, best: Layout, ruler: Ruler) -> Rows:
    widths = counted(sum(each.rows for each in best.uses), "lane" if best.way == "along" else "width")
    cost = money_text(plan.job, layer.cost.value)
    buy = shop_text(plan.job, f"cloth.{layer.id}", layer.buy.value)
    return (
        ("cut", f"{widths}, {counted(len(best.pieces), 'piece')}, {counted(best.joins, 'join')}"),
        ("cloth used", length_text(layer.used, ruler, "up")),
        ("from the roll", length_text(layer.roll, ruler, "sum")),
        ("to buy", f"{buy}, {cost}" if cost else buy),
        ("how sure", proof_text(best, ruler)),
    )


def _why_not(layer: Layer) -> str:
    if layer.refused is not None:
        return "It cannot be laid out as it stands; see Findings."
    return f"It cannot be laid out yet. Still needed: {_listed([each.words for each in layer.needs])}."


def _listed(words: Sequence[str]) -> str:
    return "; ".join(words) or "what the other layers wait for"
