"""The rail cut through, its top edge close up, and the tape along it. Sketches, not to scale."""

from __future__ import annotations

from typing import Final

from msgspec.structs import replace

from wizard.render.drawings.scene import Pen, Scene, Shape, mirrored
from wizard.render.drawings.sketch import (
    HALF,
    Measure,
    Place,
    across,
    beside,
    box,
    down,
    known_label,
    label,
    length_at,
    line,
    picked_out,
    sketch,
)
from wizard.trade.job_fields import LAYERS, Job
from wizard.trade.lengths import Length

WIDTH: Final = 60
"""Of the rail cut through, and of the tape along it."""

OUTER, INNER, TOP, EDGE, FLOOR = 14, 20, 3, 12, 23
"""Of the rail cut through: the rail's faces, its top, its lower edge, and the floor."""
LEDGER, TAPE, HEM, INNER_HEM = 6, 9, 19, 15
"""Lower edge of the ledger, upper edge of the folded tape, and the hems of the face and of an inner layer."""
RAIL_END: Final = {
    "rail_thickness": beside(OUTER, INNER, TOP - 3 * HALF),
    "setback": down(INNER + 6, INNER_HEM, HEM),
    "floor_gap": down(INNER + 1, HEM, FLOOR),
    "legs": Measure((OUTER + 3, TAPE + 1, INNER + 2, TAPE + 1), (OUTER - 1, TAPE + 1), "end"),
}
RAIL_END_LEAVES: Final = (*RAIL_END, "rail", "slatted", "fixing_face", "fixing", "kind", "use")
"""What is picked out in the rail cut through."""


def rail_end(job: Job, picked: str | None = None, *keys: str) -> Scene:
    """The rail cut through with what `picked` names picked out; `keys` are the file keys that may hold its length."""
    measure = picked_out(RAIL_END, picked, known_label(job, *keys))
    shapes = (*_bed(picked), *_tape(picked), *_layers(job, picked), *measure)
    return sketch("the rail cut through, seen from the foot", WIDTH, FLOOR + 1, shapes)


def _pen(picked: str | None, *leaves: str, usual: Pen = "line") -> Pen:
    return "picked" if picked in leaves else usual


def _bed(picked: str | None) -> list[Shape]:
    slat = _pen(picked, "slatted")
    return [
        box(OUTER, TOP, INNER - OUTER, EDGE - TOP, _pen(picked, "rail", usual="heavy")),
        label(OUTER - 1, TOP + 2, "rail", "end", _pen(picked, "rail")),
        box(INNER, LEDGER - 2, 5, 2, slat),
        line(INNER + 1, LEDGER - 3, WIDTH - 4, LEDGER - 3, slat),
        label(INNER + 6, LEDGER - 1, "slat on its ledger", "start", slat),
        line(0, FLOOR, WIDTH, FLOOR, "heavy"),
        label(0, TOP - 3, "room", "start"),
        label(WIDTH, FLOOR - 2, "under the bed", "end"),
        label(0, FLOOR, " floor ", "start"),
    ]


def _tape(picked: str | None) -> list[Shape]:
    """The folded tape on the rail's inner face."""
    pen = _pen(picked, "fixing_face", "fixing", "kind")
    return [box(INNER, TAPE, 2, EDGE - TAPE, pen), label(INNER + 4, TAPE + 1, "tape", "start", pen)]


def _layers(job: Job, picked: str | None) -> list[Shape]:
    """The face nearest the room, the inner layers behind it; those not in use only while they are asked about."""
    shapes: list[Shape] = [line(INNER + 1, EDGE, INNER + 1, HEM)]
    if picked in ("use", "setback") or any(getattr(job.cloth, each).use for each in LAYERS[1:]):
        shapes.append(line(INNER + 3, EDGE, INNER + 3, INNER_HEM, _pen(picked, "use", usual="fine")))
        shapes.append(label(INNER + 5, EDGE + 2, "inner layer", "start", _pen(picked, "use")))
    return [*shapes, label(OUTER + 5, EDGE + 4, "face", "end")]


FREE, FOLD, RAW, STAY, ROW, DROP_LINE, RAISED_EDGE, UNDER = range(1, 9)
"""Of the top edge: how far down each level is drawn, evenly spaced so that each can be read. The last is the drawing's
end; the rail's lower edge is above it where the drop line is raised, else on the drop line."""
LEFT, RIGHT, RAIL_WIDE, NAMES = 4, 16, 18, 37 * HALF
"""The tape's ends, the rail's end, and where the names of the levels begin."""


def top_edge(job: Job, section_id: str | None = None, picked: str | None = None) -> Scene:
    """The top edge, with the length `picked` picked out and its value beside it: `top`, `width` (of the tape),
    `raised` or `free_height`. Where the drop line is not raised it is on the rail's lower edge."""
    section = f"survey.section.{section_id}"
    raised = length_at(job, f"{section}.raised", "survey.raised")
    edge = RAISED_EDGE if raised or picked == "raised" else DROP_LINE
    measures: dict[str | None, tuple[int, int, tuple[str, ...]]] = {
        "width": (FOLD, DROP_LINE, ("cloth.tape.width",)),
        "top": (RAW, DROP_LINE, ("allowances.top",)),
        "raised": (DROP_LINE, edge, (f"{section}.raised", "survey.raised")),
        "free_height": (FREE, edge, (f"{section}.free_height",)),
    }
    measure: list[Shape] = []
    if picked in measures:
        high, low, keys = measures[picked]
        text = known_label(job, *keys) + (", folded in half" if picked == "width" else "")
        measure.append(line(LEFT // 2, high, LEFT // 2, low, "picked", "both"))
        measure.append(label(LEFT + HALF, HALF * (high + low), text, "start", "picked"))
    shapes = (*_rail(edge, picked == "free_height"), *_folded_tape(), *_levels(edge), *measure)
    return sketch("the top edge close up", 34, UNDER, shapes)


def _name(y: Place, text: str) -> Shape:
    """The name of a level, beside it; it keeps to its height."""
    return replace(label(NAMES, y, text, "start"), short=text.split(" at ")[0], stays=True)


def _rail(edge: int, ledger: bool) -> list[Shape]:
    """The rail behind; its ledger where the height free below it is asked for."""
    shapes: list[Shape] = [box(0, 0, RAIL_WIDE, edge, "heavy"), label(LEFT, 0, " rail, inner face ", "start")]
    return [*shapes, line(0, FREE, RAIL_WIDE, FREE, "heavy"), _name(FREE, "ledger or cleat")] if ledger else shapes


def _folded_tape() -> list[Shape]:
    """The folded tape in front of the rail, and the cloth coming out of it."""
    return [
        box(LEFT, FOLD, RIGHT - LEFT, DROP_LINE - FOLD),
        *(line(x, DROP_LINE, x, UNDER) for x in (LEFT, RIGHT)),
        label(HALF * (LEFT + RIGHT), UNDER, "the cloth hangs down"),
    ]


def _levels(edge: int) -> list[Shape]:
    """Every level of the tape with its name beside it, from the top down."""
    raised = edge != DROP_LINE
    names = {
        FOLD: "fold of the tape",
        RAW: "raw edge of the cloth",
        STAY: "stay-stitching",
        ROW: "gathering row",
        DROP_LINE: "drop line" if raised else "drop line at the rail's edge",
        RAISED_EDGE: "rail's lower edge" if raised else "(tape stitch just above it)",
    }
    inside = [line(LEFT, y, RIGHT, y, "fine") for y in (RAW, STAY, ROW)]
    return [*inside, *(_name(y, name) for y, name in names.items())]


START, FIRST, APART = 8, 12, 16
"""Of the tape along the rail: where the finished tape begins, the first fixing, and the space between two."""
UPPER, LOWER, PLATE = 4, 8, 2
"""The tape's edges, and the upper edge of a hook plate."""
HOOK: Final = beside(START, START + FIRST, 0, " plate or bolt: {}")
TAPE_RUN: Final = {
    "turn_under": beside(0, START, UPPER - 2),
    "inset": beside(START, FIRST, UPPER - 2),
    "spacing": across(FIRST, FIRST + APART, UPPER - 2),
    "left_hook": HOOK,
    "right_hook": HOOK,
}
TAPE_RUN_LEAVES: Final = (*TAPE_RUN, "tape")
"""What is picked out in the tape along the rail."""


def tape_run(job: Job, picked: str | None = None, *keys: str) -> Scene:
    """The tape along the rail from one end with the length `picked` picked out; `keys` are the file keys that may
    hold it. Seen from inside the bed or from the room, one end has what the other has the other way round."""
    shapes: list[Shape] = [
        box(0, UPPER, START, LOWER - UPPER, "fine"),
        box(START, UPPER, WIDTH - START, LOWER - UPPER),
        *(line(x, UPPER + 1, x, LOWER - 1, "heavy") for x in range(FIRST, WIDTH, APART)),
        label(WIDTH, 12, "lower edge on the drop line", "end"),
    ]
    if picked in ("left_hook", "right_hook"):
        shapes.append(box(START, PLATE, FIRST, UPPER - PLATE, "line", "hatched"))
    shapes += picked_out(TAPE_RUN, picked, known_label(job, *keys))
    if picked == "right_hook":
        shapes = [mirrored(each, Length(WIDTH)) for each in shapes]
    return sketch("the tape along the rail, from one end", WIDTH, 12, shapes)
