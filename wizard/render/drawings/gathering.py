"""Flat width against gathered length: what fullness means. A sketch."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from wizard.render.drawings.scene import Box, Label, Scene, Shape, Stroke
from wizard.render.drawings.sketch import u
from wizard.trade.formatting import number
from wizard.trade.model import Job

WIDTH, HEIGHT = 60, 14


USUAL: Final = Fraction(5, 2)
"""Stands in for a fullness not chosen yet; never shown."""


MOST: Final = 6
"""Fuller than this is drawn no wider."""


def gathering(job: Job) -> Scene:
    """The flat skirt above, drawn up below, to the fullness wanted."""
    want = job.fullness.want
    ratio = min(max(want or USUAL, Fraction(1)), Fraction(MOST))
    short = WIDTH / ratio
    text = "?" if want is None else number(want)
    shapes = (*_flat(), *_drawn_up(short), Label(u(WIDTH), u(10), f"fullness {text}", "end", "picked"))
    return Scene("flat width against gathered length", u(WIDTH), u(HEIGHT), shapes, to_scale=False)


def _flat() -> list[Shape]:
    return [Box(u(0), u(0), u(WIDTH), u(4)), Label(u(30), u(2), "flat width")]


def _drawn_up(short: Fraction) -> list[Shape]:
    """The same cloth in folds."""
    folds = (Stroke(u(short * part / 8), u(8), u(short * part / 8), u(12), "fine") for part in range(1, 8))
    return [Box(u(0), u(8), u(short), u(4), "picked"), *folds, Label(u(0), u(13), "gathered length", "start")]
