"""What looks wrong, what is missing, every section's measures and drop readings, all cautions."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from wizard.render.document import Block, Note, Notes, Table, headed, points
from wizard.render.figure_text import ratio_text, unitless, unitless_row
from wizard.trade.figures import Need
from wizard.trade.formatting import Ruler, ruler_of
from wizard.trade.plan_records import Finding, Part, Plan, Reading


def overview(plan: Plan) -> list[Block]:
    """What looks wrong, what is missing, every section's measures, all cautions."""
    return [
        *headed("Findings", 1, [Notes(tuple(map(_note, plan.findings)))] if plan.findings else []),
        *headed("Still to answer", 1, _needs(plan.missing)),
        *headed("To find out", 1, _needs(plan.later)),
        *section_measures(plan),
        *headed("Cautions", 1, points("caution", (each.sentence for each in plan.cautions))),
    ]


def _needs(needs: Sequence[Need]) -> list[Block]:
    return points("missing", (f"{each.words} ({each.key})" for each in needs))


HEADS: Final = ("section", "run", "gathered", "drop", "flat", "fullness", "tape cut")


def section_measures(plan: Plan) -> list[Block]:
    """One row a part, then the readings of each."""
    ruler = ruler_of(plan.job)
    rows = tuple(_row(part, ruler) for part in plan.parts)
    readings = [each for part in plan.parts for each in _readings(part, ruler)]
    return headed("Measures", 1, [Table(HEADS, rows), *readings] if rows else [])


def _row(part: Part, ruler: Ruler) -> tuple[str, ...]:
    flat = part.flat_made if part.flat_made.value else part.flat
    lengths = unitless_row(ruler, part.run.value, part.gathered.value, part.drop.value, flat.value)
    return part.name, *lengths, ratio_text(part.fullness.value), unitless(part.tape.value, ruler, "up")


def _readings(part: Part, ruler: Ruler) -> list[Block]:
    """Where the drop was read, what it was, what the cloth finishes at there and the gap under it."""
    hem = "the hem follows the floor" if part.follows_floor else "level hem"
    title = f"{part.name}: {hem}, measured from the {part.left_is}"
    rows = tuple(_reading(each, ruler) for each in part.readings)
    return headed(title, 2, [Table(("at", "reading", "drop", "gap under hem"), rows, ())] if rows else [])


def _reading(each: Reading, ruler: Ruler) -> tuple[str, ...]:
    at, reading, *others = unitless_row(ruler, each.at, each.reading, each.finished, each.gap)
    return at, "between" if each.between else reading, *others


LEVELS: Final = {
    "stop": "Stops the plan",
    "warn": "Warning",
    "ask": "Please check",
    "note": "Worth knowing",
}
"""Level of a finding -> that in words."""


def _note(each: Finding) -> Note:
    level = "Checked and kept" if each.kept else LEVELS[each.level]
    return Note("finding", level, each.sentence, (each.way_out,) if each.way_out else (), each.key)
