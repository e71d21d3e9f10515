"""A length of cloth already in the cupboard, lying with its length to the right. A sketch."""

from __future__ import annotations

from typing import Final

from wizard.render.drawings.scene import Box, Label, Scene, Shape, Stroke
from wizard.render.drawings.sketch import across, beside, down, length_at, u, value_label
from wizard.trade.formatting import ruler_of
from wizard.trade.model import Job

WIDTH, HEIGHT = 60, 16


TOP, BOTTOM, RIGHT = 2, 14, 56


SQUARED: Final = 5
"""Where the end is squared."""


DAMAGE: Final = (26, 38)
"""Where a damaged stretch is drawn while it is asked about or known."""


LEAVES: Final = ("length", "width", "damage_from", "damage_to", "squaring")
"""What is picked out here."""


def owned_cloth(job: Job, key: str = "", picked: str | None = None) -> Scene:
    """The length of cloth at `key` (`cloth.face.owned.ID`) with its length `picked` picked out."""
    ruler = ruler_of(job)
    lengths = {leaf: length_at(job, f"{key}.{leaf}") for leaf in LEAVES} | {
        "squaring": length_at(job, "allowances.squaring")
    }
    value = value_label(lengths.get(picked or ""), ruler)
    damaged = lengths["damage_from"] is not None or picked in ("damage_from", "damage_to")
    shapes = (*_cloth(damaged), *_measure(picked, value))
    return Scene("a length of cloth in hand", u(WIDTH), u(HEIGHT), shapes, to_scale=False)


def _cloth(damaged: bool) -> list[Shape]:
    start, end = DAMAGE
    spot: list[Shape] = [Box(u(start), u(TOP), u(end - start), u(BOTTOM - TOP), "fine", "hatched")] if damaged else []
    return [
        *spot,
        Box(u(0), u(TOP), u(RIGHT), u(BOTTOM - TOP)),
        Stroke(u(SQUARED), u(TOP), u(SQUARED), u(BOTTOM), "fine"),
        Label(u(RIGHT), u(0), "selvedge", "end"),
        Label(u(RIGHT), u(HEIGHT), "selvedge", "end"),
        *([Label(u((start + end) // 2), u(BOTTOM - 3), "damaged")] if damaged else []),
    ]


def _measure(picked: str | None, value: str) -> list[Shape]:
    middle = (TOP + BOTTOM) // 2
    if picked == "length":
        return across(0, RIGHT, middle, value)
    if picked == "width":
        return down(14, TOP, BOTTOM, value)
    if picked in ("damage_from", "damage_to"):
        return across(0, DAMAGE[picked == "damage_to"], middle, value)
    return beside(0, SQUARED, middle, value) if picked == "squaring" else []
