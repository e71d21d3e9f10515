"""Layers and their layouts for JSON."""

from __future__ import annotations

from typing import Any

from wizard.sheets.cut_order import Numbered, in_cutting_order
from wizard.sheets.json_values import figure_json, need_json
from wizard.trade.cutting import Layout, Offcut
from wizard.trade.figures import Figure
from wizard.trade.formatting import How, Ruler, length_json
from wizard.trade.lengths import Length
from wizard.trade.plan import Layer


def layer_json(layer: Layer, ruler: Ruler, *, choosing: bool = True) -> dict[str, Any]:
    """One layer, as described in json_sheet. `choosing` False leaves out the layouts it may be chosen from."""
    figures: dict[str, Figure[Any]] = {
        "usable": layer.usable,
        "used": layer.used,
        "roll": layer.roll,
        "buy": layer.buy,
        "cost": layer.cost,
    }
    cutting = layer.cutting
    fewest = cutting.fewest_joins if cutting and choosing else None
    others = cutting.others if cutting and choosing else ()
    return {
        "id": layer.id,
        "name": layer.name,
        **{name: figure_json(figure, ruler) for name, figure in figures.items()},
        "cut": [
            {
                "section": part_id,
                "width": figure_json(layer.cut_widths[part_id], ruler),
                "length": figure_json(length, ruler),
            }
            for part_id, length in layer.cut_lengths.items()
        ],
        "needs": [need_json(each) for each in layer.needs],
        "refused": layer.refused.reason if layer.refused else None,
        "cutting": _layout(layer, cutting.best, ruler) if cutting else None,
        "fewest_joins": _layout(layer, fewest, ruler) if fewest else None,
        "others": [_layout(layer, each, ruler) for each in others] if choosing else None,
    }


def _layout(layer: Layer, layout: Layout, ruler: Ruler) -> dict[str, Any]:
    lengths: dict[str, tuple[Length, How]] = {
        "used": (layout.used, "up"),
        "roll": (layout.roll, "sum"),
        "buy": (layout.buy, "up"),
        "area_bound": (layout.area_bound, "down"),
    }
    return {
        "way": layout.way,
        "widths": sum(each.rows for each in layout.uses),
        "joins": layout.joins,
        **{name: length_json(length, ruler, how) for name, (length, how) in lengths.items()},
        "flats": [{"section": strip, "width": length_json(width, ruler)} for strip, width in layout.flats],
        "proof": {
            "least": layout.proof.least,
            "by": layout.proof.by,
            "bound": length_json(layout.proof.bound, ruler),
            "among": layout.proof.among,
            "fewest_joins": layout.proof.fewest_joins,
            "saves": _or_none(layout.proof.saves, ruler),
        },
        "uses": [
            {"stretch": each.stretch, "length": length_json(each.length, ruler), "widths": each.rows}
            for each in layout.uses
        ],
        "pieces": [_piece(each, ruler) for each in in_cutting_order(layer, layout)],
        "offcuts": [_offcut(each, ruler) for each in layout.offcuts],
    }


def _or_none(length: Length | None, ruler: Ruler) -> dict[str, Any] | None:
    return None if length is None else length_json(length, ruler, "up")


def _piece(each: Numbered, ruler: Ruler) -> dict[str, Any]:
    piece = each.piece
    lengths = {
        "start": piece.start,
        "end": each.end,
        "across": piece.across,
        "width": piece.width,
        "length": piece.cut,
    }
    return {
        "number": each.number,
        "section": piece.strip,
        "order": piece.order,
        "of": each.of,
        "stretch": piece.stretch,
        "row": piece.row,
        **{name: length_json(length, ruler) for name, length in lengths.items()},
        "rip": piece.rip_side,
        "pattern_row": each.begins,
    }


def _offcut(each: Offcut, ruler: Ruler) -> dict[str, Any]:
    lengths = {"start": each.start, "across": each.across, "along": each.along, "width": each.width}
    how: How = "given" if each.kind == "squaring" else "nearest"
    return {
        "kind": each.kind,
        "stretch": each.stretch,
        **{name: length_json(length, ruler, how) for name, length in lengths.items()},
    }
