"""The ways of cutting a layer for JSON."""

from __future__ import annotations

from typing import Any, Final

from wizard.sheets.json_values import value_json
from wizard.trade.compare_ways import Comparison, Laying, Way, compare, held
from wizard.trade.formatting import Ruler, length_json
from wizard.trade.plan import Layer, Plan
from wizard.trade.steps.pattern_matching import lost_to_pattern, ruled_in_print

WAYS: Final = ("ways", "advised", "constraints", "pattern")
"""The keys."""


def ways_json(plan: Plan, layer: Layer, ruler: Ruler, lay: Laying) -> dict[str, Any]:
    """Ways, the one advised and why, what each constraint costs, and the rules in print; as described in json_sheet."""
    found = compare(plan, layer, lay)
    return {
        "ways": [_way(way, ruler) for way in found.ways],
        "advised": _advised(found),
        "constraints": [
            {
                "id": each.id,
                "sentence": each.sentence,
                "buy": length_json(each.bought, ruler, "up"),
                "used": length_json(each.used, ruler, "up"),
            }
            for each in found.prices
        ],
        "pattern": _pattern(plan, layer, ruler),
    }


def _way(way: Way, ruler: Ruler) -> dict[str, Any]:
    return {
        "id": way.id,
        "title": way.title,
        "followed": way.followed,
        "used": length_json(way.layout.used, ruler, "up"),
        "buy": length_json(way.layout.buy, ruler, "up"),
        "cost": value_json(way.cost, ruler),
        "joins": way.layout.joins,
        "look": way.look,
        "answers": [{"key": key, "value": value} for key, value in way.answers],
    }


def _advised(found: Comparison) -> dict[str, Any] | None:
    return None if found.advised is None else {"id": found.advised.id, "reason": found.reason}


def _pattern(plan: Plan, layer: Layer, ruler: Ruler) -> dict[str, Any] | None:
    if layer.cutting is None or layer.rules is None or layer.rules.repeat is None:
        return None
    return {
        "level_from": held(plan, layer, "match_from"),
        "lost": length_json(lost_to_pattern(layer.cutting.best), ruler, "up"),
        "in_print": [
            {
                "rule": each.name,
                "used": length_json(each.used, ruler, "up"),
                "buy": length_json(each.buy, ruler, "up"),
            }
            for each in ruled_in_print(layer)
        ],
    }
