"""Sections and their parts for JSON."""

from __future__ import annotations

from typing import Any

from wizard.sheets.cut_order import in_cutting_order
from wizard.sheets.json_values import figure_json, value_json
from wizard.trade.figures import Figure
from wizard.trade.formatting import Ruler, length_json
from wizard.trade.plan import FixingPlan, Layer, Part, Plan


def section_json(plan: Plan, part: Part, ruler: Ruler) -> dict[str, Any]:
    """One part, as described in json_sheet."""
    figures: dict[str, Figure[Any]] = {
        "run": part.run,
        "gathered": part.gathered,
        "drop": part.drop,
        "flat": part.flat,
        "flat_made": part.flat_made,
        "tape": part.tape,
        "fullness": part.fullness,
    }
    return {
        "id": part.id,
        "section": part.section,
        "name": part.name,
        "side": part.side,
        "left_end": part.left_is,
        "right_end": part.right_is,
        **{name: figure_json(figure, ruler) for name, figure in figures.items()},
        "follows_floor": part.follows_floor,
        "readings": _readings(part, ruler),
        "marks_in": part.marks_in,
        "marks": _marks(part, ruler),
        "fixings": _fixings(part.fixings, ruler),
        "pieces": {layer.id: _numbers(layer, part.id) for layer in plan.layers if layer.cutting is not None},
    }


def _readings(part: Part, ruler: Ruler) -> list[dict[str, Any]]:
    return [
        {
            "at": length_json(each.at, ruler),
            "reading": length_json(each.reading, ruler),
            "between": each.between,
            "finished": length_json(each.finished, ruler),
            "gap": length_json(each.gap, ruler),
        }
        for each in part.readings
    ]


def _marks(part: Part, ruler: Ruler) -> list[dict[str, Any]]:
    return [
        {
            "number": each.number,
            "tape": length_json(each.tape, ruler),
            "flat": length_json(each.flat, ruler),
            "drop": value_json(each.drop, ruler),
        }
        for each in part.marks
    ]


def _fixings(plan: FixingPlan | None, ruler: Ruler) -> dict[str, Any] | None:
    if plan is None:
        return None
    return {
        "measured_from": plan.measured_from,
        "spacing": value_json(plan.spacing, ruler),
        "leg": value_json(plan.leg, ruler),
        "positions": [{"order": each.order, "at": length_json(each.at, ruler)} for each in plan.positions],
        "skipped": [length_json(each, ruler) for each in plan.skipped],
        "gaps": [{"from": length_json(first, ruler), "to": length_json(last, ruler)} for first, last in plan.gaps],
    }


def _numbers(layer: Layer, part_id: str) -> list[int]:
    """The part's pieces by their numbers in the cut list, from its left end."""
    if layer.cutting is None:
        return []
    own = [each for each in in_cutting_order(layer, layer.cutting.best) if each.piece.strip == part_id]
    return [each.number for each in sorted(own, key=lambda each: each.piece.order)]
