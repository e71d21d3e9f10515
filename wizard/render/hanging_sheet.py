"""The hanging sheet and the marks strip: each section's marks and fixings as it is met from inside the bed."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from wizard.render.document import Block, Drawing, Heading, Pairs, Para, Table, work_blocks
from wizard.render.drawings.marks_and_fixings import marks_strip, rail_inside
from wizard.render.figure_text import counted, unitless
from wizard.trade.field_names import obstacle_name
from wizard.trade.formatting import Ruler, ruler_of, shown
from wizard.trade.lengths import ZERO
from wizard.trade.model import Section
from wizard.trade.plan import FixingPlan, Mark, Part, Plan
from wizard.trade.steps.step_writer import from_right, from_where

RAIL_ROWS = 9
"""Lines of the drawing in characters."""


def hanging(plan: Plan) -> list[Block]:
    """For the bed."""
    ruler = ruler_of(plan.job)
    parts = [each for part in plan.parts if part.fixings for each in _part(plan, part, part.fixings, ruler)]
    heading: list[Block] = [Heading("Every section, seen from inside the bed")] if parts else []
    return [*work_blocks(plan, "Hanging"), *heading, *parts]


def _part(plan: Plan, part: Part, fixing: FixingPlan, ruler: Ruler) -> Iterator[Block]:
    name, *rest = fixings_of_part(part, fixing, ruler)
    scene = rail_inside(part, fixing, as_met(part) if part.marks else (), ruler)
    yield name
    if scene is not None:
        yield Drawing(scene, RAIL_ROWS)
    yield from rest
    yield from _drops(part, ruler)
    yield from _in_the_way(plan.job.survey.section.get(part.section, Section()), fixing, ruler)


def _drops(part: Part, ruler: Ruler) -> Iterator[Block]:
    """The finished drop at each mark, from the end it is measured from; or once, where it is the same all along."""
    if not part.follows_floor:
        if part.drop.value is not None:
            yield Para(f"Finished drop {shown(part.drop.value, ruler)} from end to end.")
    elif part.marks:
        rows = tuple(
            (str(each.number), unitless(each.tape, ruler), unitless(each.drop, ruler)) for each in as_met(part)
        )
        yield Table(("mark", f"from {from_where(part)}", "drop"), rows, ())


def _in_the_way(section: Section, fixing: FixingPlan, ruler: Ruler) -> Iterator[Block]:
    rows = tuple(
        (
            obstacle_name(id, each),
            unitless(each.at, ruler),
            unitless(each.width, ruler),
            unitless(each.height, ruler),
            each.do or "",
        )
        for id, each in section.in_the_way.items()
    )
    if rows:
        yield Para(f"In the way along the whole run, the middle of each measured from {fixing.measured_from}:")
        yield Table(("what", "at", "wide", "high", "do"), rows, (0, 4))


STRIP_ROWS: Final = 13
"""Lines of the drawing in characters."""


def strips(plan: Plan) -> list[Block]:
    """Every part that has marks."""
    ruler = ruler_of(plan.job)
    return [each for part in plan.parts if part.marks for each in _strip(part, ruler)]


def _strip(part: Part, ruler: Ruler) -> list[Block]:
    heading, measured, table = marks_of_part(part, ruler)
    scene = marks_strip(part, as_met(part), ruler)
    return [heading, *([Drawing(scene, STRIP_ROWS)] if scene is not None else []), measured, table]


FIRST: Final = 5
"""So many fixings are named in the order in which they are set; the rest go on outwards."""


def mark_tables(plan: Plan) -> list[Block]:
    """For each part the marks on tape and flat skirt, measured as they are met from inside the bed."""
    ruler = ruler_of(plan.job)
    tables = [each for part in plan.parts if part.marks for each in marks_of_part(part, ruler)]
    return [Heading("Marks"), *tables] if tables else []


def marks_of_part(part: Part, ruler: Ruler) -> list[Block]:
    """The marks of one part, which has some."""
    drops = any(mark.drop is not None for mark in part.marks)
    rows = tuple(
        (str(each.number), unitless(each.tape, ruler), unitless(each.flat, ruler))
        + ((unitless(each.drop, ruler),) * drops)
        for each in as_met(part)
    )
    heads = ("mark", "tape", "flat skirt", *(("drop",) if drops else ()))
    parts = "" if part.marks_in is None else f" in {counted(part.marks_in, 'equal part')}"
    measured = f"{_spacing(part, ruler)}Every mark is measured from {from_where(part)}, never from the mark before."
    return [Heading(f"{part.name}{parts}", 2), Para(measured), Table(heads, rows, ())]


def as_met(part: Part) -> tuple[Mark, ...]:
    """The marks from the head, or from the bed's left: where the section's right end lies there they turn round."""
    if not from_right(part):
        return part.marks
    last = part.marks[-1]
    return tuple(
        Mark(last.number - each.number, last.tape - each.tape, last.flat - each.flat, each.drop)
        for each in reversed(part.marks)
    )


def _spacing(part: Part, ruler: Ruler) -> str:
    """Both spacings, where all are equal; they are only to check by, for every mark is measured from the end."""
    pairs = list(pairwise(part.marks))
    tapes = {after.tape - before.tape for before, after in pairs}
    flats = {after.flat - before.flat for before, after in pairs}
    if len(tapes) != 1 or len(flats) != 1:
        return ""
    return f"Spacing {shown(tapes.pop(), ruler)} on the tape, {shown(flats.pop(), ruler)} on the flat skirt. "


def fixing_lists(plan: Plan) -> list[Block]:
    """For each part its fixings, seen from inside the bed."""
    ruler = ruler_of(plan.job)
    lists = [each for part in plan.parts if part.fixings for each in fixings_of_part(part, part.fixings, ruler)]
    return [Heading("Hanging, seen from inside the bed"), *lists] if lists else []


def fixings_of_part(part: Part, plan: FixingPlan, ruler: Ruler) -> list[Block]:
    """The fixings of one part, under its name."""
    return [Heading(part.name, 2), _fixings(plan, ruler)]


def _fixings(plan: FixingPlan, ruler: Ruler) -> Block:
    start = plan.measured_from
    if not plan.positions:
        gaps = ", ".join(f"{unitless(first, ruler)} to {unitless(last, ruler)}" for first, last in plan.gaps)
        return Para(f"The fixing runs the whole length{f', but from {gaps}' if gaps else ''}. Measure from {start}.")
    ordered = sorted(plan.positions, key=lambda each: each.order)
    rows: list[tuple[str, str]] = [("measure from", start)]
    if plan.spacing is not None and plan.spacing > ZERO:
        rows.append(("spacing", shown(plan.spacing, ruler)))
    if plan.leg is not None:
        rows.append(("leg", shown(plan.leg, ruler)))
    first = ", then ".join(unitless(each.at, ruler) for each in ordered[:FIRST])
    rows.append(("set first", f"{first}, then outwards"))
    rows.append((f"all {len(ordered)}", ", ".join(unitless(each.at, ruler) for each in plan.positions)))
    if plan.skipped:
        rows.append(("left out", f"{', '.join(unitless(each, ruler) for each in plan.skipped)} (in the way)"))
    return Pairs(tuple(rows))
