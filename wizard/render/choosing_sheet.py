"""Before buying: what more or less cloth would give, and the ways of cutting each layer beside each other."""

from __future__ import annotations

from wizard.render.cutting_sheet import layer_title
from wizard.render.document import Block, Heading, Para, Table
from wizard.render.figure_text import money_text, ratio_text, shop_text, unitless
from wizard.trade.compare_ways import Comparison, Way, compare, held
from wizard.trade.formatting import Ruler, ruler_of, shown
from wizard.trade.offers import Row, finds_in_words, in_hand_lines, rows_of, without_buying
from wizard.trade.plan import Layer, Plan
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
    heads = ("roll", "fullness", "joins", *(("cost",) if priced else ()), "")
    rows = tuple(_step(plan, each, priced) for each in rows_of(plan, steps))
    blocks: list[Block] = [Heading("Fullness steps"), Table(heads, rows, (len(heads) - 1,))]
    found = [Para(f"{each[:1].upper()}{each[1:]}.") for each in finds_in_words(plan, steps)]
    return [*blocks, Heading("Worth knowing", 2), *found] if found else blocks


def _step(plan: Plan, row: Row, priced: bool) -> tuple[str, ...]:
    step = row.step
    cost = (money_text(plan.job, step.cost),) if priced else ()
    roll = shop_text(plan.job, "cloth.face", step.roll)
    return roll, ratio_text(step.handy), str(step.joins), *cost, "as it is now" if row.now else ""


def ways_of_cutting(plan: Plan) -> list[Block]:
    """Every layer that is laid out. It lays out anew."""
    return [each for layer in plan.layers if layer.cutting is not None for each in _layer(plan, layer)]


def _layer(plan: Plan, layer: Layer) -> list[Block]:
    ruler, found = ruler_of(plan.job), compare(plan, layer)
    return [
        Heading(f"Ways of cutting: {layer_title(layer)}"),
        _table(plan, layer, found, ruler),
        *_looks(found),
        *([Para(f"Advised: {found.advised.title}. {found.reason}")] if found.advised else []),
        *_prices(found),
        *_area(layer, ruler),
        *half_drop_rules(plan, layer),
        *pattern_notes(plan, layer),
        *cloth_in_hand(plan, layer),
    ]


def _table(plan: Plan, layer: Layer, found: Comparison, ruler: Ruler) -> Table:
    priced = any(way.cost is not None for way in found.ways)
    heads = ("way", "used", "to buy", *(("cost",) if priced else ()), "joins", "")
    return Table(heads, tuple(_row(plan, layer, way, found, ruler) for way in found.ways), (0, len(heads) - 1))


def _row(plan: Plan, layer: Layer, way: Way, found: Comparison, ruler: Ruler) -> tuple[str, ...]:
    cost = (money_text(plan.job, way.cost),) if any(each.cost is not None for each in found.ways) else ()
    buy = shop_text(plan.job, f"cloth.{layer.id}", way.layout.buy)
    marks = [*(["followed"] if way.followed else []), *(["advised"] if way is found.advised else [])]
    return way.title, unitless(way.layout.used, ruler, "up"), buy, *cost, str(way.layout.joins), ", ".join(marks)


def _looks(found: Comparison) -> list[Block]:
    """How each will look, which is too long for a column."""
    return [Heading("How they look", 2), *(Para(f"{_capital(way.title)}: {way.look}.") for way in found.ways)]


def _prices(found: Comparison) -> list[Block]:
    said = [Para(each.sentence) for each in found.prices]
    return [Heading("What the choices cost, against the least", 2), *said] if said else []


def _area(layer: Layer, ruler: Ruler) -> list[Block]:
    if layer.least is None:
        return []
    bound = shown(layer.least.area_bound, ruler, "down")
    return [Para(f"By its area alone, no way of cutting uses less than {bound}.")]


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
    names = {part.id: part.name for part in plan.parts}
    told = list(in_hand_lines(plan.job, layer, names, ruler_of(plan.job)))
    if not told:
        return []
    told.append(f"Still to buy: {shop_text(plan.job, f'cloth.{layer.id}', layer.buy.value)}.")
    told.append(without_buying(plan.fullness_in_hand, plan.layers))
    return [Heading("Cloth in hand", 2), *(Para(each) for each in told)]


def pattern_notes(plan: Plan, layer: Layer) -> list[Block]:
    """How matched cloth is cut."""
    lines = tuple(matched_lines(layer, held(plan, layer, "match_from") or "hem", ruler_of(plan.job)))
    return [Heading("The pattern", 2), *(Para(each) for each in lines)] if lines else []


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
