"""The steps of making up once for all sections, their settings in one table; and the marks of all sections."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise, zip_longest
from typing import Final

from wizard.render.document import Block, Para, Table, headed, side_by_side
from wizard.render.drawings.fixings_view import in_reverse
from wizard.render.figure_text import unitless, unitless_row
from wizard.render.merged_steps import alike, work
from wizard.trade.formatting import Ruler, ruler_of
from wizard.trade.plan_records import Mark, Part, Plan, Stage, Step
from wizard.trade.steps.step_writer import from_right, from_where


def making_up(plan: Plan) -> list[Block]:
    """For the machine: what to set it to, what to have at hand, then the steps."""
    steps = in_stage(plan, "Making up")
    first = next((each for each in steps if each.id.startswith("try:")), None)
    name = next((part.name for part in plan.parts if first is not None and part.id == first.section), "")
    order = [
        Para(f"Make up the {name} as far as “Try on the rail” first. Then make each of the others from start to end.")
    ]
    several = first is not None and len(plan.parts) > 1
    return [*(order if several else []), *settings(steps), *tools(steps), *work(plan, steps)] if steps else []


def in_stage(plan: Plan, *stages: Stage) -> list[Step]:
    """The steps of some stages, in the order of doing."""
    return [each for each in plan.work if each.stage in stages]


def settings(steps: Sequence[Step]) -> list[Block]:
    """Needle and stitch, and the steps each is for."""
    uses: dict[tuple[str, ...], list[str]] = {}
    for key, group in alike(steps).items():
        what, _, of = group[0].title.partition(": ")
        title = f"{what} {of.partition(', ')[0]}" if ":" in key else what
        if group[0].settings:
            uses.setdefault(group[0].settings, []).append(title[:1].lower() + title[1:])
    rows = tuple((", ".join(of), *_needle(each)) for each, of in uses.items())
    return headed("Settings", 2, [Table(("for", "needle", "stitch"), rows, (0, 1, 2))] if rows else [])


def _needle(settings: tuple[str, ...]) -> tuple[str, str]:
    """The needle, where one is known, and the stitch."""
    *needle, stitch = settings
    return "".join(needle).removeprefix("needle "), stitch.removeprefix("stitch length ")


def tools(steps: Sequence[Step]) -> list[Block]:
    """All tools, in one line."""
    named = dict.fromkeys(tool for each in steps for tool in each.tools)
    return [Para(f"You need: {', '.join(named)}.")] if named else []


COLUMNS: Final = 7
"""Columns of marks that stand beside each other: a section takes two, and a third where its hem follows the floor."""


def marks(plan: Plan) -> list[Block]:
    """The marks on tape and flat skirt of every section, as they are met from inside the bed."""
    ruler, parts = ruler_of(plan.job), [each for each in plan.parts if each.marks]
    if not parts:
        return []
    facts: dict[str, Callable[[Part], str]] = {
        "measure from": from_where,
        "tape cut": lambda part: unitless(part.tape.value, ruler, "up"),
        "finished tape": lambda part: unitless(part.gathered.value, ruler),
        "equal parts": lambda part: "" if part.marks_in is None else str(part.marks_in),
        "from mark to mark, tape": lambda part: _spacing(part, ruler)[0],
        "from mark to mark, skirt": lambda part: _spacing(part, ruler)[1],
    }
    rows = [(label, [value(part) for part in parts]) for label, value in facts.items()]
    beside = side_by_side([_short(part) for part in parts], rows)
    groups = list(_groups(parts))
    return [Para(NEVER), *beside, *(_positions(each, ruler) for each in groups)]


NEVER: Final = "Measure every mark from the same end, never from the mark before. Use the spacings only to check."


def _short(part: Part) -> str:
    return part.name.removesuffix(" section")


def _groups(parts: Sequence[Part]) -> Iterator[list[Part]]:
    """Sections whose columns fit beside each other."""
    group, taken = list[Part](), 0
    for part in parts:
        wide = 3 if any(each.drop is not None for each in part.marks) else 2
        if group and taken + wide > COLUMNS:
            yield group
            group, taken = [], 0
        group.append(part)
        taken += wide
    yield group


def _positions(parts: Sequence[Part], ruler: Ruler) -> Table:
    """Every mark of some sections: on the tape, on the flat skirt, and the drop where the hem follows the floor."""
    shown = [list(_columns(part, ruler)) for part in parts]
    heads = ("mark", *(head for columns in shown for head, _ in columns))
    cells = zip_longest(*(values for columns in shown for _, values in columns), fillvalue="")
    return Table(heads, tuple((str(number), *row) for number, row in enumerate(cells)), ())


def _columns(part: Part, ruler: Ruler) -> Iterator[tuple[str, list[str]]]:
    met = as_met(part)
    yield f"{_short(part)}: tape", list(unitless_row(ruler, *(each.tape for each in met)))
    yield "skirt", list(unitless_row(ruler, *(each.flat for each in met)))
    if any(each.drop is not None for each in met):
        yield "drop", list(unitless_row(ruler, *(each.drop for each in met)))


def as_met(part: Part) -> tuple[Mark, ...]:
    """The marks from the head, or from the bed's left: in reverse where the section's right end is there."""
    return in_reverse(part.marks) if from_right(part) else part.marks


def _spacing(part: Part, ruler: Ruler) -> tuple[str, str]:
    """On the tape and on the skirt, where all are equal."""
    spacings = {(after.tape - before.tape, after.flat - before.flat) for before, after in pairwise(part.marks)}
    if len(spacings) != 1:
        return "", ""
    tape, flat = spacings.pop()
    return unitless(tape, ruler), unitless(flat, ruler)
