"""The cutting plan in words and figures: a heading for each layer, what is known of it, and the other ways."""

from __future__ import annotations

from collections.abc import Iterator

from textual.content import Content

from wizard.screens.figure_words import bought_words, figure_words, sold_by
from wizard.screens.literal import plain
from wizard.screens.so_far import TITLES, joins_words
from wizard.trade.cutting.strips import Layout, Proof
from wizard.trade.lengths import ZERO
from wizard.trade.plan import Layer, Plan
from wizard.trade.printing import exact, shown
from wizard.trade.rulers import ruler_of


def heading(layer: Layer) -> Content:
    """`Face cloth   slate ticking`."""
    title = TITLES[layer.id]
    name = "" if layer.name.casefold() == title.casefold() else f"   {plain(layer.name)}"
    return Content.assemble((title, "bold $accent"), (name, "$quiet"))


def summary(layer: Layer, plan: Plan) -> Iterator[Content]:
    """What the layer takes and what is to be bought, in a few lines."""
    if layer.cutting is None:
        return
    best = layer.cutting.best
    widths = sum(each.rows for each in best.uses)
    name = "lanes" if best.way == "along" else "widths"
    yield _pair("Cut", f"{widths} {name}, {len(best.pieces)} pieces, {joins_words(best.joins)}")
    yield _pair("Used", figure_words(layer.used, plan))
    yield _pair("From the roll", figure_words(layer.roll, plan))
    cost = "" if layer.cost.value is None else f", {figure_words(layer.cost, plan)}"
    yield _pair("To buy", bought_words(layer.buy, sold_by(plan, layer.id)) + cost, strong=True)
    yield _pair("How sure", proof_words(best, plan))


def proof_words(layout: Layout, plan: Plan) -> str:
    """What is proven of a layout, and among what."""
    proof: Proof = layout.proof
    ruler = ruler_of(plan.job)
    if proof.least:
        joins = ", and with the fewest joins" if proof.fewest_joins else ""
        return f"proven least {proof.among}{joins}"
    return f"not proven least; {proof.among} none can use less than {shown(proof.bound, ruler, 'down')}"


def sections(layer: Layer, plan: Plan) -> Iterator[Content]:
    """For each part its pieces, from its left end as seen from the room."""
    if layer.cutting is None:
        return
    ruler = ruler_of(plan.job)
    for part in plan.parts:
        pieces = sorted(
            (each for each in layer.cutting.best.pieces if each.strip == part.id), key=lambda each: each.order
        )
        if pieces:
            widths = " + ".join(shown(each.width, ruler) for each in pieces)
            yield _pair(part.name, f"{widths}, cut {shown(pieces[0].cut, ruler)} long")


def others(layer: Layer, plan: Plan) -> Iterator[Content]:
    """Other ways worth knowing: fewer joins for the same length to buy, and shorter ways of another kind."""
    if layer.cutting is None:
        return
    fewest = layer.cutting.fewest_joins
    if fewest is not None:
        yield _pair("Fewest joins", f"{joins_words(fewest.joins)}, {_used(fewest, plan)}; the same length to buy")
    unit = sold_by(plan, layer.id)
    for way in layer.cutting.others:
        buys = f"; to buy {exact(way.buy, unit)}" if way.buy > ZERO else ""
        yield _pair(way.way.capitalize(), f"{joins_words(way.joins)}, {_used(way, plan)}{buys}")


def _used(layout: Layout, plan: Plan) -> str:
    return f"{shown(layout.used, ruler_of(plan.job))} used"


def holes(layer: Layer, plan: Plan) -> Iterator[Content]:
    """Why there is no cutting plan yet."""
    if layer.cutting is not None:
        return
    for need in layer.needs:
        yield Content.assemble(("still needed  ", "$quiet"), plain(need.words))
    if layer.refused is not None:
        yield Content.styled("It cannot be laid out as it stands; see Findings.", "$warning")


def _pair(label: str, value: str, *, strong: bool = False) -> Content:
    return Content.assemble((f"{plain(label):<16} ", "$quiet"), (plain(value), "bold" if strong else ""))
