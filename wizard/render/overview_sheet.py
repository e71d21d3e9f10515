"""What looks wrong, what is missing, every section's measures and drop readings, all cautions."""

from __future__ import annotations

from typing import Final

from wizard.render.document import Findings, Heading, Matter, Points, Table
from wizard.render.figure_text import bare, ratio_text
from wizard.trade.formatting import Ruler, ruler_of
from wizard.trade.plan import Part, Plan, Reading


def overview(plan: Plan) -> list[Matter]:
    """What looks wrong, what is missing, every section's measures, all cautions."""
    return [*findings(plan), *missing(plan), *section_measures(plan), *cautions(plan)]


HEADS: Final = ("section", "run", "gathered", "drop", "flat", "fullness", "tape cut")


def section_measures(plan: Plan) -> list[Matter]:
    """One row a part, then the readings of each."""
    if not plan.parts:
        return []
    ruler = ruler_of(plan.job)
    matter: list[Matter] = [Heading("Measures"), Table(HEADS, tuple(_row(part, ruler) for part in plan.parts))]
    for part in plan.parts:
        matter += _readings(part, ruler)
    return matter


def _row(part: Part, ruler: Ruler) -> tuple[str, ...]:
    lengths = (part.run, part.gathered, part.drop, part.flat_made if part.flat_made.value else part.flat)
    return (
        part.name,
        *(bare(each.value, ruler) for each in lengths),
        ratio_text(part.fullness.value),
        bare(part.tape.value, ruler, "up"),
    )


def _readings(part: Part, ruler: Ruler) -> list[Matter]:
    """Where the drop was read, what it was, what the cloth finishes at there and the daylight under it."""
    if not part.readings:
        return []
    hem = "the hem follows the floor" if part.follows_floor else "level hem"
    rows = tuple(
        (bare(each.at, ruler), _read(each, ruler), bare(each.finished, ruler), bare(each.gap, ruler))
        for each in part.readings
    )
    title = f"{part.name}: {hem}, measured from the {part.left_is}"
    return [Heading(title, 2), Table(("at", "reading", "drop", "daylight"), rows, ())]


def _read(reading: Reading, ruler: Ruler) -> str:
    return "between" if reading.between else bare(reading.reading, ruler)


def findings(plan: Plan) -> list[Matter]:
    """The open findings with their ways out, then those that were kept."""
    return [Heading("Findings"), Findings(plan.findings)] if plan.findings else []


def cautions(plan: Plan) -> list[Matter]:
    """Every caution the job calls for, together."""
    sentences = tuple(each.sentence for each in plan.cautions)
    return [Heading("Cautions"), Points("caution", sentences)] if sentences else []


def missing(plan: Plan) -> list[Matter]:
    """What has still to be answered, with the key of the file."""
    needs = tuple(f"{each.words} ({each.key})" for each in plan.missing)
    return [Heading("Still to answer"), Points("missing", needs)] if needs else []
