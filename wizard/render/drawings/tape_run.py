"""The tape along the rail from one end: its turn-under, and the fixings. A sketch."""

from __future__ import annotations

from typing import Final

from wizard.render.drawings.scene import Box, Label, Scene, Shape, Stroke, mirrored
from wizard.render.drawings.sketch import across, beside, length_at, u, value_label
from wizard.trade.formatting import ruler_of
from wizard.trade.model import Job

WIDTH, HEIGHT = 60, 12


START, FIRST, APART, END = 8, 12, 16, 60
"""Where the finished tape begins, the first fixing, the space between two, where the drawing ends."""


UPPER, LOWER = 4, 8


PLATE: Final = 2
"""Upper edge of a hook plate."""


LEAVES: Final = ("turn_under", "inset", "spacing", "left_hook", "right_hook", "tape")
"""What is picked out here."""


def tape_run(job: Job, picked: str | None = None, *keys: str) -> Scene:
    """The tape's end with the length `picked` picked out; `keys` are the file keys it may stand at."""
    value = value_label(length_at(job, *keys) if keys else None, ruler_of(job))
    shapes = [*_tape(), *_measure(picked, value)]
    if picked == "right_hook":
        # Seen from inside the bed or from the room, one end has what the other has the other way round.
        shapes = [mirrored(each, u(WIDTH)) for each in shapes]
    return Scene("the tape along the rail, from one end", u(WIDTH), u(HEIGHT), tuple(shapes), to_scale=False)


def _tape() -> list[Shape]:
    fixings = range(FIRST, END, APART)
    return [
        Box(u(0), u(UPPER), u(START), u(LOWER - UPPER), "fine"),
        Box(u(START), u(UPPER), u(END - START), u(LOWER - UPPER)),
        *(Stroke(u(x), u(UPPER + 1), u(x), u(LOWER - 1), "heavy") for x in fixings),
        Label(u(END), u(HEIGHT), "lower edge on the drop line", "end"),
    ]


def _measure(picked: str | None, value: str) -> list[Shape]:
    if picked == "turn_under":
        return beside(0, START, UPPER - 2, value)
    if picked == "inset":
        return beside(START, FIRST, UPPER - 2, value)
    if picked == "spacing":
        return across(FIRST, FIRST + APART, UPPER - 2, value)
    if picked in ("left_hook", "right_hook"):
        plate = Box(u(START), u(PLATE), u(FIRST), u(UPPER - PLATE), "line", "hatched")
        return [plate, *beside(START, START + FIRST, 0, f"plate or bolt: {value}")]
    return []
