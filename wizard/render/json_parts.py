"""Sections, layers, ways of cutting and fullness steps for JSON; single values exact, never a float."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from functools import partial
from typing import Any, Final

from wizard.render.cut_order import CutPiece, in_cutting_order
from wizard.trade.compare_ways import Comparison, LaidWithin, Laying, Way, compare, held
from wizard.trade.cutting import Layout, Offcut, measured
from wizard.trade.figures import Figure, Need
from wizard.trade.formatting import How, Ruler, fraction_text, how_shown, length_json, money, number
from wizard.trade.fullness_steps import in_hand_within, steps_within
from wizard.trade.lengths import Length
from wizard.trade.offers import finds_in_words
from wizard.trade.plan import Caution, FixingPlan, Layer, Part, Plan
from wizard.trade.steps.pattern_matching import lost_to_pattern, ruled_in_print


def value_json(value: object, ruler: Ruler) -> Any:
    """Any value a figure may have. TypeError for one that has no place in JSON."""
    if value is None or isinstance(value, bool | int | str):
        return value
    if isinstance(value, Length):
        return length_json(value, ruler)
    if isinstance(value, Fraction):
        return {"exact": fraction_text(value), "text": number(value)}
    if isinstance(value, Decimal):
        return money(value)
    if isinstance(value, tuple):
        return [value_json(each, ruler) for each in value]
    raise TypeError(f"no JSON for {type(value).__name__}")


def figure_json(figure: Figure[Any], ruler: Ruler) -> Any:
    """The value of a figure, a length rounded in its text as that figure is on every sheet."""
    if isinstance(figure.value, Length):
        return length_json(figure.value, ruler, how_shown(figure.id))
    return value_json(figure.value, ruler)


def need_json(need: Need) -> dict[str, str]:
    """What is missing."""
    return {"key": need.key, "words": need.words}


def caution_json(caution: Caution) -> dict[str, str]:
    """A caution."""
    return {"id": caution.id, "sentence": caution.sentence}


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


def _piece(each: CutPiece, ruler: Ruler) -> dict[str, Any]:
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


FULLNESS: Final = ("fullness_steps", "fullness_finds", "fullness_in_hand", "stopped")
"""The keys."""


BESIDE: Final = Fraction(3, 2)
"""So many times the work of the plan may go into all that is laid out beside it, the ways of cutting first."""


IN_HAND: Final = Fraction(1, 2)
"""And so many times into how full the cloth in hand makes the skirt at the least, however much those took."""


STEPS: Final = Fraction(1, 4)
"""And so many times into the steps at the least."""


BY_NAME: Final = 30
"""So many times as much where the sheet is asked for by its name."""


def fullness_json(plan: Plan, ruler: Ruler, work: int, lay: LaidWithin) -> dict[str, Any]:
    """The keys as described in json_sheet. `work`: of all of the plan. `lay`: how its ways of cutting were laid out."""
    left = int(BESIDE * work) - lay.taken
    (in_hand, found_out), took = measured(partial(in_hand_within, plan.basis, max(left, int(IN_HAND * work))))
    steps, all_steps = steps_within(plan.basis, max(left - took, int(STEPS * work)))
    whole = {"ways": lay.whole, "fullness_steps": all_steps, "fullness_in_hand": found_out}
    return {
        "fullness_steps": [
            {
                "roll": length_json(each.roll, ruler),
                "fullness": value_json(each.fullness, ruler),
                "handy": value_json(each.handy, ruler),
                "joins": each.joins,
                "cost": value_json(each.cost, ruler),
            }
            for each in steps
        ],
        "fullness_finds": list(finds_in_words(plan, steps)),
        "fullness_in_hand": value_json(in_hand, ruler),
        "stopped": [key for key, each in whole.items() if not each],
    }
