"""The cutting plan in words and figures: a heading for each layer, and what is known of it."""

from __future__ import annotations

from collections.abc import Iterator

from textual.content import Content

from wizard.screens.breaking import in_lines
from wizard.screens.figure_words import bought_words, figure_words, sold_by
from wizard.screens.literal import cut_to, filled, plain
from wizard.screens.so_far import TITLES, joins_words
from wizard.sheets.saving import saving_text
from wizard.trade.cutting import Layout, Proof
from wizard.trade.formatting import ruler_of, shown
from wizard.trade.owned_cloth import in_hand_lines
from wizard.trade.plan import Layer, Plan

LABEL = 15
"""Columns for the labels."""


def heading(layer: Layer) -> Content:
    """`Face cloth   slate ticking`."""
    title = TITLES[layer.id]
    name = "" if layer.name.casefold() == title.casefold() else f"   {plain(layer.name)}"
    return Content.assemble((title, "bold $accent"), (name, "$quiet"))


def summary(layer: Layer, plan: Plan, columns: int) -> Iterator[Content]:
    """What the layer takes and what is to be bought, in a few lines."""
    if layer.cutting is None:
        return
    best = layer.cutting.best
    widths = sum(each.rows for each in best.uses)
    name = "lanes" if best.way == "along" else "widths"
    yield pair("Cut", f"{widths} {name}, {len(best.pieces)} pieces, {joins_words(best.joins)}", columns)
    yield pair("Used", figure_words(layer.used, plan), columns)
    yield pair("From the roll", figure_words(layer.roll, plan), columns)
    cost = "" if layer.cost.value is None else f", {figure_words(layer.cost, plan)}"
    yield pair("To buy", bought_words(layer.buy, sold_by(plan, layer.id)) + cost, columns, strong=True)
    yield pair("How sure", proof_words(best, plan), columns)


def proof_words(layout: Layout, plan: Plan) -> str:
    """What is proven of a layout, and among what."""
    proof: Proof = layout.proof
    ruler = ruler_of(plan.job)
    if proof.least:
        joins = ", and with the fewest joins" if proof.fewest_joins else ""
        return f"proven least {proof.among}{joins}"
    return f"not proven least: {proof.among}, another plan could {saving_text(layout, ruler)}"


def sections(layer: Layer, plan: Plan, columns: int) -> Iterator[Content]:
    """For each part its pieces, from its left end as seen from the room."""
    if layer.cutting is None:
        return
    ruler = ruler_of(plan.job)
    lanes = layer.cutting.best.way == "along"
    for part in plan.parts:
        pieces = sorted(
            (each for each in layer.cutting.best.pieces if each.strip == part.id), key=lambda each: each.order
        )
        if pieces:
            widths = " + ".join(shown(each.width, ruler) for each in pieces)
            cut = shown(pieces[0].cut, ruler)
            lies = f"{widths} along the roll, {cut} across it" if lanes else f"{widths}, cut {cut} long"
            yield pair(part.name, lies, columns)


def in_hand(layer: Layer, plan: Plan, alone: str, columns: int) -> Iterator[Content]:
    """What is cut from each length in hand, what is still to buy, and how full they make the skirt by themselves."""
    names = {part.id: part.name for part in plan.parts}
    told = list(in_hand_lines(plan.job, layer, names, ruler_of(plan.job)))
    if told and layer.buy.value is not None:
        told.append(f"Still to buy: {bought_words(layer.buy, sold_by(plan, layer.id))}.")
    for text in (*told, *([alone] if told and alone else [])):
        yield from (Content(f"  {line}") for line in in_lines(plain(text), max(columns - 2, LABEL)))


def holes(layer: Layer) -> Iterator[Content]:
    """Why there is no cutting plan yet."""
    if layer.cutting is not None:
        return
    for need in layer.needs:
        yield Content.assemble(("still needed  ", "$quiet"), plain(need.words))
    if layer.refused is not None:
        yield Content.styled("It cannot be laid out as it stands; see Findings.", "$warning")


def pair(label: str, value: str, columns: int, *, strong: bool = False) -> Content:
    """A label and its value, which goes on under itself where it is longer than its place."""
    lines = in_lines(plain(value), max(columns - LABEL, LABEL)) or [""]
    text = f"\n{' ' * LABEL}".join(lines)
    return Content.assemble((filled(cut_to(label, LABEL - 2), LABEL), "$quiet"), (text, "bold" if strong else ""))
