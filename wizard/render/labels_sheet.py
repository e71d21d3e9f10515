"""Labels to pin on, one for each section and each piece; and the care label."""

from __future__ import annotations

from typing import Final

from wizard.render.document import Block, Card, Cards, Para
from wizard.render.figure_text import length_text
from wizard.render.table_sheet import layer_title
from wizard.trade.cautions import care_of
from wizard.trade.formatting import Ruler, ruler_of, shown
from wizard.trade.plan_records import Layer, Part, Plan
from wizard.trade.purchases import cloth_by_kind
from wizard.trade.steps.cut_order import CutPiece, cut_pieces, part_names
from wizard.trade.stock import cloth_of


def labels(plan: Plan) -> list[Block]:
    """The pieces' labels in the order of cutting, then the sections'."""
    ruler, names = ruler_of(plan.job), part_names(plan)
    pieces = [_piece(each, layer, names, ruler) for layer in plan.layers for each in cut_pieces(plan.layers, layer)]
    cards = (*pieces, *(_section(part, ruler) for part in plan.parts))
    return [Cards(cards)] if cards else []


def _section(part: Part, ruler: Ruler) -> Card:
    finished = f"finished {length_text(part.gathered, ruler)}, drop {_drop(part, ruler)}"
    return Card(part.name, (f"from the {part.left_is} to the {part.right_is}", finished))


def _drop(part: Part, ruler: Ruler) -> str:
    """One drop of a level hem; of one along the floor, from its least to its greatest."""
    drops = [each.finished for each in part.readings] if part.follows_floor else []
    if not drops or min(drops) == max(drops):
        return length_text(part.drop, ruler)
    return f"{shown(min(drops), ruler)} to {shown(max(drops), ruler)}"


def _piece(each: CutPiece, layer: Layer, names: dict[str, str], ruler: Ruler) -> Card:
    begins = "" if each.begins is None else f", row {each.begins}"
    long, wide = (shown(size, ruler, "up") for size in each.size)
    lines = f"{each.name(names)}{begins}", f"{long} long × {wide} wide", layer_title(layer)
    return Card(f"no. {each.number}", lines)


FIRST: Final = (
    "Follow the cloth's own label where it is stricter. This is advice, not a claim that the skirt meets any rule."
)
TAKE_OFF: Final = "Take the skirt off the rail first, and take out anything pinned in."


def care(plan: Plan) -> list[Block]:
    """One small card: the strictest of the layers, process by process."""
    if not plan.parts:
        return []
    layers = "; ".join(cloth_by_kind(layer, cloth_of(plan.job, layer.id)) for layer in plan.layers)
    lines = (*(each.says for each in care_of(plan.job)), TAKE_OFF, layers)
    return [Cards((Card(plan.job.name or "Bed skirt", lines, way_up=False),)), Para(FIRST)]
