"""The hanging sheet: the steps, then each section as it is met from inside the bed."""

from __future__ import annotations

from collections.abc import Iterator

from wizard.sheets.blocks.hanging import as_met, fixings_of_part
from wizard.sheets.blocks.work import work
from wizard.sheets.drawings.rail_inside import rail_inside
from wizard.sheets.figure_text import bare
from wizard.sheets.matter import Drawing, Heading, Matter, Para, Table
from wizard.trade.bed import Section
from wizard.trade.formatting import Ruler, ruler_of, shown
from wizard.trade.keynames import obstacle_name
from wizard.trade.plan import FixingPlan, Part, Plan
from wizard.trade.steps.kit import from_where

ROWS = 9
"""Lines of the drawing in characters."""


def hanging(plan: Plan) -> list[Matter]:
    """For the bed."""
    ruler = ruler_of(plan.job)
    parts = [each for part in plan.parts if part.fixings for each in _part(plan, part, part.fixings, ruler)]
    heading: list[Matter] = [Heading("Every section, seen from inside the bed")] if parts else []
    return [*work(plan, "Hanging"), *heading, *parts]


def _part(plan: Plan, part: Part, fixing: FixingPlan, ruler: Ruler) -> Iterator[Matter]:
    name, *rest = fixings_of_part(part, fixing, ruler)
    scene = rail_inside(part, fixing, as_met(part) if part.marks else (), ruler)
    yield name
    if scene is not None:
        yield Drawing(scene, ROWS)
    yield from rest
    yield from _drops(part, ruler)
    yield from _in_the_way(plan.job.survey.section.get(part.section, Section()), fixing, ruler)


def _drops(part: Part, ruler: Ruler) -> Iterator[Matter]:
    """The finished drop at each mark, from the end it is measured from; or once, where it is the same all along."""
    if not part.follows_floor:
        if part.drop.value is not None:
            yield Para(f"Finished drop {shown(part.drop.value, ruler)} from end to end.")
    elif part.marks:
        rows = tuple((str(each.number), bare(each.tape, ruler), bare(each.drop, ruler)) for each in as_met(part))
        yield Table(("mark", f"from {from_where(part)}", "drop"), rows, ())


def _in_the_way(section: Section, fixing: FixingPlan, ruler: Ruler) -> Iterator[Matter]:
    rows = tuple(
        (
            obstacle_name(id, each),
            bare(each.at, ruler),
            bare(each.width, ruler),
            bare(each.height, ruler),
            each.do or "",
        )
        for id, each in section.in_the_way.items()
    )
    if rows:
        yield Para(f"In the way along the whole run, the middle of each measured from {fixing.measured_from}:")
        yield Table(("what", "at", "wide", "high", "do"), rows, (0, 4))
