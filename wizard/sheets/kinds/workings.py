"""The workings: every figure with its why."""

from __future__ import annotations

from collections.abc import Iterator
from typing import cast

from msgspec.structs import replace

from wizard.sheets.blocks.ways import ways_of_cutting
from wizard.sheets.matter import Matter, Reasons
from wizard.trade.explain import Why, why
from wizard.trade.formatting import ruler_of
from wizard.trade.job import LayerId
from wizard.trade.plan import Plan
from wizard.trade.sections import section_name


def workings(plan: Plan) -> list[Matter]:
    """The ways of cutting, then every figure in the order in which they were worked."""
    if not plan.figures:
        return []
    ruler = ruler_of(plan.job)
    reasons = (_told(plan, id, why(each, ruler)) for id, each in plan.figures.items())
    return [*ways_of_cutting(plan), Reasons(tuple(reasons))]


def _told(plan: Plan, id: str, reason: Why) -> Why:
    """The why with whose figure it is before its title: `lining, foot section: cut length`."""
    whose = ", ".join(_whose(plan, id.split(".")))
    if not whose or whose in reason.title:
        return reason
    title = f"{whose}: {reason.title}"
    # What is as it was given has its own name for a formula, and no workings to show.
    return replace(reason, title=title, formula=title if reason.formula == reason.title else reason.formula)


def _whose(plan: Plan, names: list[str]) -> Iterator[str]:
    parts = {part.id: part.name for part in plan.parts}
    layers = {layer.id: layer.name for layer in plan.layers}
    match names:
        case ["part", part, *_]:
            yield parts.get(part, part)
        case ["section", section, *_]:
            yield section_name(plan.job, section)
        case ["layer", layer, *rest]:
            yield layers.get(cast("LayerId", layer), layer)
            yield from (parts[each] for each in rest if each in parts)
