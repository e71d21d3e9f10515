"""The care label, and why it says what it says."""

from __future__ import annotations

from typing import Final

from wizard.sheets.matter import Card, Cards, Heading, Matter, Pairs, Para, Points
from wizard.trade.cautions import SOURCE, care_of
from wizard.trade.plan import Plan

FIRST: Final = (
    "The label on the cloth as it was sold comes first: where it says less, say less here too. This is advice, not a "
    "claim that the skirt meets any rule."
)
_WORDS: Final = {
    "wash": "washing",
    "bleach": "bleaching",
    "dry": "drying",
    "iron": "ironing",
    "professional": "cleaning",
}
TAKE_OFF: Final = "Take the skirt off the rail first, and take out whatever is pinned in."


def care(plan: Plan) -> list[Matter]:
    """The strictest of the layers, process by process."""
    if not plan.parts:
        return []
    lines = care_of(plan.job)
    names = tuple(f"{layer.id}: {layer.name}" for layer in plan.layers)
    return [
        Points("caution", (FIRST,)),
        Cards((Card(plan.job.name or "Bed skirt", (*(each.says for each in lines), TAKE_OFF), way_up=False),)),
        Heading("Why", 2),
        Pairs(tuple((_WORDS[each.process], "; ".join(each.because)) for each in lines)),
        Para(f"Layers: {'; '.join(names)}. {SOURCE}."),
    ]
