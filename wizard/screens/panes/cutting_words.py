"""The cutting plan in lines: what each layer takes, its pieces, and the ways of cutting compared."""

from __future__ import annotations

from collections.abc import Iterator

from textual.content import Content

from wizard.render.figure_text import saving_text
from wizard.screens.figure_words import bought_words, figure_words, sold_by, value_words
from wizard.screens.glyphs import DONE
from wizard.screens.panes.side_panel import TITLES, joins_words
from wizard.screens.screen_text import LABEL, in_lines, pair, plain
from wizard.trade.compare_ways import Comparison, Way, cloth_value
from wizard.trade.cutting import Layout, Proof
from wizard.trade.formatting import exact, ruler_of, shown
from wizard.trade.fullness_offers import in_hand_lines
from wizard.trade.job_fields import Cloth
from wizard.trade.lengths import ZERO
from wizard.trade.plan_records import Layer, Plan
from wizard.trade.steps.pattern_matching import WHY_OURS, matched_lines, ruled_in_print


def heading(layer: Layer) -> Content:
    """`Face cloth   slate ticking`."""
    title = TITLES[layer.id]
    name = "" if layer.name.casefold() == title.casefold() else f"   {plain(layer.name)}"
    return Content.assemble((title, "bold $accent"), (name, "$quiet"))


def summary(layer: Layer, plan: Plan, columns: int) -> Iterator[Content]:
    """What the layer takes and what to buy, in a few lines."""
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
    for line in matched_lines(layer, cloth_value(plan, layer, Cloth.match_from) or "hem", ruler_of(plan.job)):
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
