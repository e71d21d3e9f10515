"""The top edge close up: rail, tape, rows of stitching, and where the cloth begins. A sketch, not to scale."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from wizard.render.drawings.scene import Box, Label, Scene, Shape, Stroke
from wizard.render.drawings.sketch import length_at, value_label
from wizard.trade.formatting import ruler_of
from wizard.trade.lengths import ZERO, Length
from wizard.trade.model import Job

WIDTH: Final = Length(34)


HEIGHT: Final = Length(8)


FREE, FOLD, RAW, STAY, ROW, DROP_LINE, EDGE = (Length(number) for number in range(1, 8))
"""How far down each level is drawn, evenly spaced so that each can be read."""


BELOW: Final = Length(7)


LEFT, RIGHT, RAIL_END, NAMES = Length(4), Length(16), Length(18), Length(Fraction(37, 2))


def top_edge(job: Job, section_id: str | None = None, picked: str | None = None) -> Scene:
    """The top edge, with the length `picked` picked out and its value beside it: `top`, `width` (of the tape),
    `raised` or `free_height`. Where the drop line is not raised it lies on the rail's lower edge."""
    section = f"survey.section.{section_id}"
    raised = length_at(job, f"{section}.raised", "survey.raised")
    edge = EDGE if raised or picked == "raised" else DROP_LINE
    values = {
        "width": (length_at(job, "cloth.tape.width"), FOLD, DROP_LINE, ", folded in half"),
        "top": (length_at(job, "allowances.top"), RAW, DROP_LINE, ""),
        "raised": (raised, DROP_LINE, EDGE, ""),
        "free_height": (length_at(job, f"{section}.free_height"), FREE, edge, ""),
    }
    measure: list[Shape] = []
    if picked in values:
        value, high, low, more = values[picked]
        measure = _measure(high, low, value_label(value, ruler_of(job)) + more)
    shapes = (*_rail(edge, picked == "free_height"), *_cloth(), *_rows(edge), *measure)
    return Scene("the top edge close up", WIDTH, HEIGHT, shapes, to_scale=False)


def _rail(edge: Length, ledger: bool) -> list[Shape]:
    """The rail behind; its ledger where the height free below it is asked for."""
    shapes: list[Shape] = [
        Box(ZERO, ZERO, RAIL_END, edge, "heavy"),
        Label(LEFT, ZERO, " rail, inner face ", "start"),
    ]
    if ledger:
        shapes += [
            Stroke(ZERO, FREE, RAIL_END, FREE, "heavy"),
            Label(NAMES, FREE, "ledger or cleat", "start", stays=True),
        ]
    return shapes


def _cloth() -> list[Shape]:
    """The folded tape in front of the rail, and the cloth coming out of it."""
    return [
        Box(LEFT, FOLD, RIGHT - LEFT, DROP_LINE - FOLD),
        *(Stroke(x, DROP_LINE, x, HEIGHT) for x in (LEFT, RIGHT)),
        Label((LEFT + RIGHT) / 2, HEIGHT, "the cloth hangs down"),
    ]


def _rows(edge: Length) -> list[Shape]:
    """Every row with its name beside it, from the top down."""
    drop_line = "drop line" if edge != DROP_LINE else "drop line at the rail's edge"
    rows = [
        (FOLD, "fold of the tape"),
        (RAW, "raw edge of the cloth"),
        (STAY, "stay-stitching"),
        (ROW, "gathering row"),
        (DROP_LINE, drop_line),
        (BELOW, "(tape stitch just above it)"),
    ]
    if edge != DROP_LINE:
        rows[-1] = (edge, "rail's lower edge")
    inside = [Stroke(LEFT, y, RIGHT, y, "fine") for y in (RAW, STAY, ROW)]
    return [*inside, *(Label(NAMES, y, name, "start", short=name.split(" at ")[0], stays=True) for y, name in rows)]


def _measure(high: Length, low: Length, text: str) -> list[Shape]:
    x = LEFT / 2
    return [
        Stroke(x, high, x, low, "picked", "both"),
        Label(LEFT + Length(Fraction(1, 2)), (high + low) / 2, text, "start", "picked"),
    ]
