"""The rail cut through, seen from the foot: slats, rail, tape, layers, floor. A sketch, not to scale."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from wizard.render.drawings.scene import Box, Label, Pen, Scene, Shape, Stroke
from wizard.render.drawings.sketch import beside, down, length_at, u, value_label
from wizard.trade.formatting import ruler_of
from wizard.trade.model import LAYERS, Job

WIDTH, HEIGHT = 60, 24


OUTER, INNER, TOP, EDGE, FLOOR = 14, 20, 3, 12, 23
"""Where the rail's faces, its top, its lower edge and the floor are drawn."""


LEDGER, TAPE = 6, 9
"""Lower edge of the ledger; upper edge of the folded tape."""


HEM: Final = 19


INNER_HEM: Final = 15


LEAVES: Final = (
    "rail",
    "rail_thickness",
    "slatted",
    "fixing_face",
    "fixing",
    "kind",
    "use",
    "setback",
    "floor_gap",
    "legs",
)
"""What is picked out here."""


def rail_end(job: Job, picked: str | None = None, *keys: str) -> Scene:
    """The rail's end with what `picked` names picked out; `keys` are the file keys its length may stand at."""
    value = value_label(length_at(job, *keys) if keys else None, ruler_of(job))
    shapes = (*_bed(picked), *_tape(job, picked), *_layers(job, picked), *_measure(picked, value))
    return Scene("the rail cut through, seen from the foot", u(WIDTH), u(HEIGHT), shapes, to_scale=False)


def _pen(picked: str | None, *names: str, usual: Pen = "line") -> Pen:
    return "picked" if picked in names else usual


def _bed(picked: str | None) -> list[Shape]:
    rail = _pen(picked, "rail", usual="heavy")
    return [
        Box(u(OUTER), u(TOP), u(INNER - OUTER), u(EDGE - TOP), rail),
        Label(u(OUTER - 1), u(TOP + 2), "rail", "end", _pen(picked, "rail")),
        Box(u(INNER), u(LEDGER - 2), u(5), u(2), _pen(picked, "slatted")),
        Stroke(u(INNER + 1), u(LEDGER - 3), u(WIDTH - 4), u(LEDGER - 3), _pen(picked, "slatted")),
        Label(u(INNER + 6), u(LEDGER - 1), "slat on its ledger", "start", _pen(picked, "slatted")),
        Stroke(u(0), u(FLOOR), u(WIDTH), u(FLOOR), "heavy"),
        Label(u(0), u(TOP - 3), "room", "start"),
        Label(u(WIDTH), u(FLOOR - 2), "under the bed", "end"),
        Label(u(0), u(FLOOR), " floor ", "start"),
    ]


def _tape(job: Job, picked: str | None) -> list[Shape]:
    """The folded tape: on the inner face, or round the lower back edge where a rail has none."""
    pen = _pen(picked, "fixing_face", "fixing", "kind")
    return [
        Box(u(INNER), u(TAPE), u(2), u(EDGE - TAPE), pen),
        Label(u(INNER + 4), u(TAPE + 1), "tape", "start", pen),
    ]


def _layers(job: Job, picked: str | None) -> list[Shape]:
    """The face nearest the room, the inner layers behind it; those not in use only while they are asked about."""
    asked = picked in ("use", "setback")
    inner = any(getattr(job.cloth, each).use for each in LAYERS[1:]) or asked
    shapes: list[Shape] = [Stroke(u(INNER + 1), u(EDGE), u(INNER + 1), u(HEM))]
    if inner:
        layer = picked == "use"
        shapes.append(Stroke(u(INNER + 3), u(EDGE), u(INNER + 3), u(INNER_HEM), "picked" if layer else "fine"))
        shapes.append(Label(u(INNER + 5), u(EDGE + 2), "inner layer", "start", "picked" if layer else "line"))
    shapes.append(Label(u(OUTER + 5), u(EDGE + 4), "face", "end"))
    return shapes


def _measure(picked: str | None, value: str) -> list[Shape]:
    if picked == "rail_thickness":
        return beside(OUTER, INNER, TOP - Fraction(3, 2), value)
    if picked == "setback":
        return down(INNER + 6, INNER_HEM, HEM, value)
    if picked == "floor_gap":
        return down(INNER + 1, HEM, FLOOR, value)
    if picked == "legs":
        return [
            Stroke(u(OUTER + 3), u(TAPE + 1), u(INNER + 2), u(TAPE + 1), "picked", "both"),
            Label(u(OUTER - 1), u(TAPE + 1), value, "end", "picked"),
        ]
    return []
