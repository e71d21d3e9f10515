"""The hanging sheet and the marks strip: each section's marks and fixings as it is met from inside the bed."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from wizard.render.document import Block, Drawing, Heading, Pairs, Para, Table, headed, work_blocks
from wizard.render.drawings.marks_and_fixings import in_reverse, marks_strip, rail_inside
from wizard.render.drawings.scene import Scene
from wizard.render.figure_text import counted, unitless, unitless_row
from wizard.trade.field_names import obstacle_name
from wizard.trade.formatting import Ruler, ruler_of, shown
from wizard.trade.job_fields import Section
from wizard.trade.lengths import ZERO
from wizard.trade.plan_records import FixingPlan, Mark, Part, Plan
from wizard.trade.steps.step_writer import from_right, from_where

RAIL_ROWS = 9
"""Lines of the drawing in characters."""


def hanging(plan: Plan) -> list[Block]:
    """For the bed."""
    ruler = ruler_of(plan.job)
    parts = [each for part in plan.parts if part.fixings for each in _part(plan, part, part.fixings, ruler)]
    return [*work_blocks(plan, "Hanging"), *headed("Every section, seen from inside the bed", 1, parts)]


def _part(plan: Plan, part: Part, fixing: FixingPlan, ruler: Ruler) -> list[Block]:
    scene = rail_inside(part, fixing, ruler)
    return [
        Heading(part.name, 2),
        *_drawing(scene, RAIL_ROWS),
        _fixings(fixing, ruler),
        *_drops(part, ruler),
        *_in_the_way(plan.job.survey.section.get(part.section, Section()), fixing, ruler),
    ]


def _drawing(scene: Scene | None, rows: int) -> list[Block]:
    return [] if scene is None else [Drawing(scene, rows)]


def _drops(part: Part, ruler: Ruler) -> Iterator[Block]:
    """The finished drop at each mark, from the end it is measured from; or once, where it is the same all along."""
    if not part.follows_floor:
        if part.drop.value is not None:
            yield Para(f"Finished drop {shown(part.drop.value, ruler)} from end to end.")
    elif part.marks:
        rows = tuple((str(each.number), *unitless_row(ruler, each.tape, each.drop)) for each in as_met(part))
        yield Table(("mark", f"from {from_where(part)}", "drop"), rows, ())


def _in_the_way(section: Section, fixing: FixingPlan, ruler: Ruler) -> Iterator[Block]:
    rows = tuple(
        (obstacle_name(id, each), *unitless_row(ruler, each.at, each.width, each.height), each.do or "")
        for id, each in section.in_the_way.items()
    )
    if rows:
        yield Para(f"In the way: measure from {fixing.measured_from} to the middle of each.")
        yield Table(("what", "at", "wide", "high", "what to do"), rows, (0, 4))
    if any(each.do == "keep clear" for each in section.in_the_way.values()):
        yield Para("Keep clear: tie or stitch the cloth back by hand. It is not cut shorter there.")


STRIP_ROWS: Final = 13
"""Lines of the drawing in characters."""


def marks(plan: Plan) -> list[Block]:
    """Every part that has marks, with its drawing."""
    ruler = ruler_of(plan.job)
    marked = ((part, marks_strip(part, as_met(part), ruler)) for part in plan.parts if part.marks)
    return [each for part, scene in marked for each in _marks(part, ruler, scene)]


FIRST: Final = 5
"""How many fixings are named in the order in which they are set; the rest go on outwards."""


def mark_tables(plan: Plan) -> list[Block]:
    """For each part the marks on tape and flat skirt, measured as they are met from inside the bed."""
    ruler = ruler_of(plan.job)
    return headed("Marks", 1, [each for part in plan.parts if part.marks for each in _marks(part, ruler)])


def _marks(part: Part, ruler: Ruler, scene: Scene | None = None) -> list[Block]:
    """The marks of one part, which has some."""
    with_drops = any(mark.drop is not None for mark in part.marks)
    lengths = ((each, (each.tape, each.flat, each.drop)[: 3 if with_drops else 2]) for each in as_met(part))
    rows = tuple((str(each.number), *unitless_row(ruler, *row)) for each, row in lengths)
    heads = ("mark", "tape", "flat skirt", "drop")[: 4 if with_drops else 3]
    parts = "" if part.marks_in is None else f" in {counted(part.marks_in, 'equal part')}"
    measured = f"{_spacing(part, ruler)}Measure every mark from {from_where(part)}, never from the mark before."
    drawing = _drawing(scene, STRIP_ROWS)
    return [Heading(f"{part.name}{parts}", 2), *drawing, Para(measured), Table(heads, rows, ())]


def as_met(part: Part) -> tuple[Mark, ...]:
    """The marks from the head, or from the bed's left: in reverse where the section's right end is there."""
    return in_reverse(part.marks) if from_right(part) else part.marks


def _spacing(part: Part, ruler: Ruler) -> str:
    """Both spacings, where all are equal; use them only to check, for every mark is measured from the end."""
    spacings = {(after.tape - before.tape, after.flat - before.flat) for before, after in pairwise(part.marks)}
    if len(spacings) != 1:
        return ""
    tape, flat = spacings.pop()
    return f"Spacing {shown(tape, ruler)} on the tape, {shown(flat, ruler)} on the flat skirt. "


def fixing_lists(plan: Plan) -> list[Block]:
    """For each part its fixings, seen from inside the bed."""
    ruler = ruler_of(plan.job)
    parts = [(part.name, part.fixings) for part in plan.parts if part.fixings]
    lists = [each for name, fixings in parts for each in (Heading(name, 2), _fixings(fixings, ruler))]
    return headed("Hanging, seen from inside the bed", 1, lists)


def _fixings(plan: FixingPlan, ruler: Ruler) -> Block:
    start = plan.measured_from
    if not plan.positions:
        gaps = ", ".join(f"{unitless(first, ruler)} to {unitless(last, ruler)}" for first, last in plan.gaps)
        return Para(f"The fixing runs the whole length{f', except {gaps}' if gaps else ''}. Measure from {start}.")
    spacing = plan.spacing if plan.spacing is not None and plan.spacing > ZERO else None
    ordered = sorted(plan.positions, key=lambda each: each.order)
    first = ", then ".join(unitless(each.at, ruler) for each in ordered[:FIRST])
    skipped = ", ".join(unitless_row(ruler, *plan.skipped))
    rows = (
        ("measure from", start),
        ("spacing", "" if spacing is None else shown(spacing, ruler)),
        ("leg", "" if plan.leg is None else shown(plan.leg, ruler)),
        ("set first", f"{first}, then outwards"),
        (f"all {len(ordered)}", ", ".join(unitless(each.at, ruler) for each in plan.positions)),
        ("left out", f"{skipped} (in the way)" if skipped else ""),
    )
    return Pairs(tuple((label, value) for label, value in rows if value))
