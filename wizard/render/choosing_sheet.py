"""Before buying: the fullness that more or less cloth gives, and the cutting plans of each layer compared."""

from __future__ import annotations

from typing import Literal

from wizard.render.document import Block, Heading, Para, Table, headed, paras
from wizard.render.figure_text import shop_text, unitless
from wizard.render.table_sheet import layer_title
from wizard.trade.compare_ways import cloth_value, compare, table_of_ways
from wizard.trade.field_names import first_up
from wizard.trade.formatting import ruler_of, shown
from wizard.trade.fullness_offers import in_hand_lines, offers_of_fullness, without_buying
from wizard.trade.job_fields import Cloth
from wizard.trade.plan_records import Layer, Offer, Offers, Plan
from wizard.trade.steps.cut_order import part_names
from wizard.trade.steps.pattern_matching import WHY_OURS, matched_lines, ruled_in_print


def choosing(plan: Plan) -> list[Block]:
    """Before buying: what more or less cloth would give, and what each way of cutting takes."""
    return [*steps_of_fullness(plan), *ways_of_cutting(plan)]


def steps_of_fullness(plan: Plan) -> list[Block]:
    """The fullnesses to choose from with what each takes. It lays out anew."""
    *_, offers = offers_of_fullness(plan) if plan.layers else [Offers((), ())]
    return _offered("Fullness", 1, offers)


def _offered(title: str, level: Literal[1, 2], offers: Offers) -> list[Block]:
    """The table, which one is recommended and why, and what is different about each."""
    if not offers.rows:
        return []
    kept = [at for at in range(len(offers.heads)) if any(row.cells[at] for row in offers.rows)]
    rows = tuple((*(row.cells[at] for at in kept), _marks(row)) for row in offers.rows)
    table = Table((*(offers.heads[at] for at in kept), ""), rows, (0, len(kept)))
    best = next((row.name for row in offers.rows if row.recommended), "")
    advice = [Para(f"Recommended: {best}. {offers.reason}")] if best and offers.reason else []
    said = paras(f"{first_up(row.name)}: {row.said}" for row in offers.rows if row.said)
    return headed(title, level, [table, *advice, *said])


def _marks(row: Offer) -> str:
    marks = (("in use", row.in_use), ("recommended", row.recommended), (row.note, row.note not in row.cells))
    return ", ".join(mark for mark, has in marks if has and mark)


def ways_of_cutting(plan: Plan) -> list[Block]:
    """Every layer that is laid out. It lays out anew."""
    return [each for layer in plan.layers if layer.cutting is not None for each in _layer(plan, layer)]


def _layer(plan: Plan, layer: Layer) -> list[Block]:
    found, ruler = compare(plan, layer), ruler_of(plan.job)
    bound = shown(layer.least.area_bound, ruler, "down") if layer.least else ""
    return [
        *_offered(f"Ways of cutting: {layer_title(layer)}", 1, table_of_ways(plan, layer, found.ways, whole=True)),
        *headed("What each choice costs in cloth", 2, paras(each.sentence for each in found.prices)),
        *paras([f"Theoretical minimum: {bound}."] if bound else []),
        *half_drop_rules(plan, layer),
        *pattern_notes(plan, layer),
        *cloth_in_hand(plan, layer),
    ]


def half_drop_rules(plan: Plan, layer: Layer) -> list[Block]:
    """What the half-drop rules in print would buy, beside ours."""
    rules, ruler = ruled_in_print(layer), ruler_of(plan.job)
    if not rules or layer.cutting is None:
        return []
    ours = ("ours: a half repeat where the phase changes", layer.cutting.best.used, layer.cutting.best.buy)
    named = (ours, *((f"in print: {each.name}", each.used, each.buy) for each in rules))
    rows = tuple(
        (name, unitless(used, ruler, "up"), shop_text(plan.job, f"cloth.{layer.id}", buy)) for name, used, buy in named
    )
    return [Heading("Half-drop rules", 2), Table(("rule", "used", "to buy"), rows), Para(WHY_OURS)]


def cloth_in_hand(plan: Plan, layer: Layer, alone: str | None = None) -> list[Block]:
    """What is cut from each length in hand, what is still to buy, and how full they make the skirt by themselves:
    worked out where `alone` does not say it."""
    lines = list(in_hand_lines(plan.job, layer, part_names(plan), ruler_of(plan.job)))
    if lines:
        lines.append(f"Still to buy: {shop_text(plan.job, f'cloth.{layer.id}', layer.buy.value)}.")
        lines.append(without_buying(plan.fullness_in_hand, plan.layers) if alone is None else alone)
    return headed("Cloth in hand", 2, paras(filter(None, lines)))


def pattern_notes(plan: Plan, layer: Layer) -> list[Block]:
    """How matched cloth is cut."""
    lines = matched_lines(layer, cloth_value(plan, layer, Cloth.match_from) or "hem", ruler_of(plan.job))
    return headed("The pattern", 2, paras(lines))
