"""Before buying: the fullness that more or less cloth gives, and the cutting plans of each layer compared."""

from __future__ import annotations

from wizard.render.document import Block, Heading, Para, Table, headed, paras
from wizard.render.figure_text import money_text, ratio_text, shop_text, unitless
from wizard.render.plain_text import with_capital
from wizard.render.table_sheet import layer_title
from wizard.trade.compare_ways import Comparison, cloth_value, compare
from wizard.trade.formatting import ruler_of, shown
from wizard.trade.fullness_offers import Row, finds_in_words, in_hand_lines, rows_of, without_buying
from wizard.trade.job_fields import Cloth
from wizard.trade.plan_records import Layer, Plan
from wizard.trade.steps.cut_order import part_names
from wizard.trade.steps.pattern_matching import WHY_OURS, matched_lines, ruled_in_print


def choosing(plan: Plan) -> list[Block]:
    """Before buying: what more or less cloth would give, and what each way of cutting takes."""
    return [*steps_of_fullness(plan), *ways_of_cutting(plan)]


def steps_of_fullness(plan: Plan) -> list[Block]:
    """For each length of roll at a shop step, the greatest equal fullness it gives; then what is worth knowing."""
    steps = plan.steps_of_fullness
    if not steps:
        return []
    priced = any(each.cost is not None for each in steps)
    heads = ("to buy", "fullness", "joins", *_priced(priced, "cost"), "")
    rows = tuple(_step(plan, each, priced) for each in rows_of(plan, steps))
    found = paras(f"{with_capital(each)}." for each in finds_in_words(plan, steps))
    return headed("Fullness steps", 1, [Table(heads, rows, (len(heads) - 1,)), *headed("Worth knowing", 2, found)])


def _step(plan: Plan, row: Row, priced: bool) -> tuple[str, ...]:
    step = row.step
    cost = _priced(priced, money_text(plan.job, step.cost))
    roll = shop_text(plan.job, "cloth.face", step.roll)
    return roll, ratio_text(step.handy), str(step.joins), *cost, "in use" if row.now else ""


def _priced(priced: bool, text: str) -> tuple[str, ...]:
    """A cell of the column of costs, which is there where anything has a price."""
    return (text,) if priced else ()


def ways_of_cutting(plan: Plan) -> list[Block]:
    """Every layer that is laid out. It lays out anew."""
    return [each for layer in plan.layers if layer.cutting is not None for each in _layer(plan, layer)]


def _layer(plan: Plan, layer: Layer) -> list[Block]:
    found, ruler = compare(plan, layer), ruler_of(plan.job)
    advised = [f"Recommended: {found.advised.title}. {found.reason}"] if found.advised else []
    bound = shown(layer.least.area_bound, ruler, "down") if layer.least else ""
    area = [f"Theoretical minimum: {bound}."] if bound else []
    return [
        Heading(f"Compare cutting plans: {layer_title(layer)}"),
        _table(plan, layer, found),
        # Too long for a column.
        *headed("How they look", 2, paras(f"{with_capital(way.title)}: {way.look}." for way in found.ways)),
        *paras(advised),
        *headed("What each choice costs in cloth", 2, paras(each.sentence for each in found.prices)),
        *paras(area),
        *half_drop_rules(plan, layer),
        *pattern_notes(plan, layer),
        *cloth_in_hand(plan, layer),
    ]


def _table(plan: Plan, layer: Layer, found: Comparison) -> Table:
    priced = any(way.cost is not None for way in found.ways)
    heads = ("way", "used", "to buy", *_priced(priced, "cost"), "joins", "")
    rows = (
        (
            way.title,
            unitless(way.layout.used, ruler_of(plan.job), "up"),
            shop_text(plan.job, f"cloth.{layer.id}", way.layout.buy),
            *_priced(priced, money_text(plan.job, way.cost)),
            str(way.layout.joins),
            ", ".join(mark for mark, has in (("in use", way.followed), ("recommended", way is found.advised)) if has),
        )
        for way in found.ways
    )
    return Table(heads, tuple(rows), (0, len(heads) - 1))


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


def cloth_in_hand(plan: Plan, layer: Layer) -> list[Block]:
    """What is cut from each length in hand, what is still to buy, and how full they make the skirt by themselves."""
    lines = list(in_hand_lines(plan.job, layer, part_names(plan), ruler_of(plan.job)))
    if lines:
        lines.append(f"Still to buy: {shop_text(plan.job, f'cloth.{layer.id}', layer.buy.value)}.")
        lines.append(without_buying(plan.fullness_in_hand, plan.layers))
    return headed("Cloth in hand", 2, paras(lines))


def pattern_notes(plan: Plan, layer: Layer) -> list[Block]:
    """How matched cloth is cut."""
    lines = matched_lines(layer, cloth_value(plan, layer, Cloth.match_from) or "hem", ruler_of(plan.job))
    return headed("The pattern", 2, paras(lines))
