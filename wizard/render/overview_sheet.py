"""What looks wrong, what is missing, every section's measures and drop readings, all cautions."""

from __future__ import annotations

from typing import Final

from wizard.render.document import Block, Findings, Heading, Points, Table
from wizard.render.figure_text import ratio_text, unitless
from wizard.trade.formatting import Ruler, ruler_of
from wizard.trade.plan import Part, Plan, Reading


def overview(plan: Plan) -> list[Block]:
    """What looks wrong, what is missing, every section's measures, all cautions."""
    return [*findings(plan), *missing(plan), *section_measures(plan), *cautions(plan)]


HEADS: Final = ("section", "run", "gathered", "drop", "flat", "fullness", "tape cut")


def section_measures(plan: Plan) -> list[Block]:
    """One row a part, then the readings of each."""
    if not plan.parts:
        return []
    ruler = ruler_of(plan.job)
    blocks: list[Block] = [Heading("Measures"), Table(HEADS, tuple(_row(part, ruler) for part in plan.parts))]
    for part in plan.parts:
        blocks += _readings(part, ruler)
    return blocks


def _row(part: Part, ruler: Ruler) -> tuple[str, ...]:
    lengths = (part.run, part.gathered, part.drop, part.flat_made if part.flat_made.value else part.flat)
    return (
        part.name,
        *(unitless(each.value, ruler) for each in lengths),
        ratio_text(part.fullness.value),
        unitless(part.tape.value, ruler, "up"),
    )


def _readings(part: Part, ruler: Ruler) -> list[Block]:
    """Where the drop was read, what it was, what the cloth finishes at there and the daylight under it."""
    if not part.readings:
        return []
    hem = "the hem follows the floor" if part.follows_floor else "level hem"
    rows = tuple(
        (
            unitless(each.at, ruler),
            _read(each, ruler),
            unitless(each.finished, ruler),
            unitless(each.gap, ruler),
        )
        for each in part.readings
    )
    title = f"{part.name}: {hem}, measured from the {part.left_is}"
    return [Heading(title, 2), Table(("at", "reading", "drop", "daylight"), rows, ())]


def _read(reading: Reading, ruler: Ruler) -> str:
    return "between" if reading.between else unitless(reading.reading, ruler)


def findings(plan: Plan) -> list[Block]:
    """The open findings with their ways out, then those that were kept."""
    return [Heading("Findings"), Findings(plan.findings)] if plan.findings else []


def cautions(plan: Plan) -> list[Block]:
    """Every caution the job calls for, together."""
    sentences = tuple(each.sentence for each in plan.cautions)
    return [Heading("Cautions"), Points("caution", sentences)] if sentences else []


def missing(plan: Plan) -> list[Block]:
    """What has still to be answered, with the key of the file."""
    needs = tuple(f"{each.words} ({each.key})" for each in plan.missing)
    return [Heading("Still to answer"), Points("missing", needs)] if needs else []
