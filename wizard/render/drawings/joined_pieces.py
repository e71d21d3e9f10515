"""Two pieces joined, flat, wrong side up: where seams, hems and the least piece are measured. A sketch."""

from __future__ import annotations

from typing import Final

from wizard.render.drawings.scene import Box, Label, Scene, Shape, Stroke
from wizard.render.drawings.sketch import across, beside, down, length_at, u, value_label
from wizard.trade.formatting import ruler_of
from wizard.trade.model import Job

WIDTH, HEIGHT = 60, 20


END, JOIN, RIGHT, TOP, HEM, FOLD, BOTTOM = 6, 34, 54, 2, 13, 16, 18
"""Inner edge of the end hem, the join, the right edge; the drop line, the hem's upper edge, its fold, the raw edge."""


SEAM: Final = 4


LEAVES: Final = ("join", "lap", "end_hem", "hem", "hem_kind", "hem_turn", "least_piece", "allowances", "end_setback")
"""What is picked out here."""


def joined_pieces(job: Job, picked: str | None = None, *keys: str) -> Scene:
    """Two pieces with the length `picked` picked out; `keys` are the file keys it may stand at."""
    value = value_label(length_at(job, *keys) if keys else None, ruler_of(job))
    shapes = (*_cloth(), *_measure(picked, value))
    return Scene("two pieces joined, flat, wrong side up", u(WIDTH), u(HEIGHT), shapes, to_scale=False)


def _cloth() -> list[Shape]:
    level = (Stroke(u(0), u(y), u(RIGHT), u(y), "fine") for y in (TOP, HEM, FOLD))
    return [
        Box(u(0), u(0), u(RIGHT), u(BOTTOM)),
        *level,
        Stroke(u(END), u(0), u(END), u(BOTTOM), "fine"),
        Stroke(u(JOIN), u(0), u(JOIN), u(BOTTOM), "heavy"),
        Label(u(END + 6), u(TOP), " drop line ", "start"),
        Label(u(END + 6), u(HEM), " hem ", "start"),
        Label(u(RIGHT), u(HEIGHT), "raw edges all round", "end"),
    ]


def _measure(picked: str | None, value: str) -> list[Shape]:
    y = (TOP + HEM) // 2
    if picked in ("join", "lap"):
        return beside(JOIN, JOIN + SEAM, y, value) if picked == "join" else beside(JOIN - SEAM, JOIN + SEAM, y, value)
    if picked in ("end_hem", "end_setback"):
        return beside(0, END, y, value)
    if picked in ("hem", "hem_kind"):
        return down(JOIN + 8, HEM, FOLD, value)
    if picked == "hem_turn":
        return down(JOIN + 8, FOLD, BOTTOM, value)
    return across(JOIN, RIGHT, y, value) if picked == "least_piece" else []
