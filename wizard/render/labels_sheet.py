"""Labels to cut out and pin on, one for each section and each piece; the care label."""

from __future__ import annotations

from typing import Final

from wizard.render.cut_order import CutPiece, cut_pieces, part_names
from wizard.render.cutting_sheet import layer_title
from wizard.render.document import Block, Card, Cards, Heading, Pairs, Para, headed, points
from wizard.render.figure_text import length_text, size_text
from wizard.trade.cautions import SOURCE, care_of
from wizard.trade.formatting import Ruler, ruler_of, shown
from wizard.trade.plan_records import Layer, Part, Plan


def labels(plan: Plan) -> list[Block]:
    """The sections' labels, then the pieces' of each layer in cutting order."""
    ruler, names = ruler_of(plan.job), part_names(plan)
    sections = tuple(_section(part, ruler) for part in plan.parts)
    blocks = headed("Sections", 1, [Cards(sections)] if sections else [])
    for layer in plan.layers:
        cards = tuple(_piece(each, layer, names, ruler) for each in cut_pieces(layer))
        blocks += headed(f"Pieces: {layer_title(layer)}", 1, [Cards(cards)] if cards else [])
    return blocks


def _section(part: Part, ruler: Ruler) -> Card:
    finished = f"finished: {length_text(part.gathered, ruler)} long, drop {_drop(part, ruler)}"
    return Card(part.name, (f"left end: {part.left_is}; right end: {part.right_is}", finished))


def _drop(part: Part, ruler: Ruler) -> str:
    """One drop of a level hem; of one along the floor, from its least to its greatest."""
    drops = [each.finished for each in part.readings] if part.follows_floor else []
    if not drops or min(drops) == max(drops):
        return length_text(part.drop, ruler)
    return f"{shown(min(drops), ruler)} to {shown(max(drops), ruler)}"


def _piece(each: CutPiece, layer: Layer, names: dict[str, str], ruler: Ruler) -> Card:
    size = size_text(*each.size, ruler)
    begins = () if each.begins is None else (f"begins with row {each.begins} of the pattern",)
    return Card(f"no. {each.number}", (layer_title(layer), each.name(names), size, *begins))


FIRST: Final = (
    "Follow the cloth's own label where it is stricter. This is advice, not a claim that the skirt meets any rule."
)
PROCESSES: Final = {
    "wash": "washing",
    "bleach": "bleaching",
    "dry": "drying",
    "iron": "ironing",
    "professional": "cleaning",
}
TAKE_OFF: Final = "Take the skirt off the rail first, and take out anything pinned in."


def care(plan: Plan) -> list[Block]:
    """The strictest of the layers, process by process."""
    if not plan.parts:
        return []
    lines = care_of(plan.job)
    names = "; ".join(f"{layer.id}: {layer.name}" for layer in plan.layers)
    return [
        *points("caution", [FIRST]),
        Cards((Card(plan.job.name or "Bed skirt", (*(each.says for each in lines), TAKE_OFF), way_up=False),)),
        Heading("Why", 2),
        Pairs(tuple((PROCESSES[each.process], "; ".join(each.because)) for each in lines)),
        Para(f"Layers: {names}. {SOURCE}."),
    ]
