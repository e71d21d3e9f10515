"""Cloth laid flat: a layer's width and pattern, a length already there, two pieces joined, and what fullness means.
Sketches, not to scale."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from wizard.render.drawings.scene import Pen, Scene, Shape
from wizard.render.drawings.sketch import (
    Measure,
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
    value_label,
)
from wizard.trade.figures import value_at
from wizard.trade.formatting import number, ruler_of
from wizard.trade.job_fields import Job

WIDTH: Final = 60
"""Of every sketch here."""

EDGE, SELVEDGE, END = 5, 50, 30
"""Of a layer's cloth: how wide a trimmed selvedge is drawn (wider than it is, so that it can be seen), where the right
selvedge is, and where the cloth is cut off."""
EIGHTH: Final = Fraction(END, 8)
INNER: Final = SELVEDGE - EDGE
WIDTHS: Final = (
    ("width", across(0, SELVEDGE, 2 * EIGHTH)),
    ("trim", Measure((0, 4 * EIGHTH, EDGE, 4 * EIGHTH), (EDGE + 1, 4 * EIGHTH), "start", " {} ")),
    ("trim", Measure((INNER, 4 * EIGHTH, SELVEDGE, 4 * EIGHTH), (INNER - 1, 4 * EIGHTH), "end", " {} ")),
)
"""What is measured across it, leaf by leaf."""
ALONG: Final = 24
"""Where what runs along the cloth is drawn."""
ARROWS: Final = {
    "one_way": "way up?",
    "lay": "way up?",
    "warp_shrink": "along the roll",
    "weft_shrink": "across the roll",
}
"""What is asked for with an arrow, and the words beside it."""
PATTERN: Final = ("repeat", "repeat_kind", "match", "match_from")


def cloth_flat(job: Job, layer: str, picked: str | None = None) -> Scene:
    """The cloth of `layer` (face, interlining, lining), with what `picked` names picked out: `width`, `trim`,
    `repeat` and how it matches, `one_way`, `warp_shrink`, `weft_shrink`."""
    key = f"cloth.{layer}"
    if picked in ARROWS:
        along = _arrow(picked)
    elif picked in PATTERN or length_at(job, f"{key}.repeat"):
        along = _repeat(job, key, picked)
    else:
        along = []
    return sketch(f"{layer} cloth laid flat", WIDTH, END, (*_selvedges(), *_widths(job, key, picked), *along))


def _selvedges() -> list[Shape]:
    return [
        *(line(x, 0, x, END, "fine") for x in (EDGE, INNER)),
        *(line(x, 0, x, END, "heavy") for x in (0, SELVEDGE)),
        line(0, END, SELVEDGE, END),
        label(SELVEDGE, 4 * EIGHTH, " selvedge", "start"),
    ]


def _widths(job: Job, key: str, picked: str | None) -> list[Shape]:
    """The whole width, and what is trimmed on either side; each while it is known or asked for."""
    values = {leaf: length_at(job, f"{key}.{leaf}") for leaf, _ in WIDTHS}
    return [
        shape
        for leaf, measure in WIDTHS
        if values[leaf] or picked == leaf
        for shape in measure.drawn(value_label(values[leaf], ruler_of(job)), "picked" if picked == leaf else "line")
    ]


def _arrow(picked: str) -> list[Shape]:
    """The way up, or which way washing takes."""
    y = 6 * EIGHTH
    ends = (EDGE, y, INNER, y) if picked == "weft_shrink" else (ALONG, 2 * EIGHTH, ALONG, 7 * EIGHTH)
    return [line(*ends, "picked", "both"), label(ALONG + 2, 5 * EIGHTH, ARROWS[picked], "start", "picked")]


def _repeat(job: Job, key: str, picked: str | None) -> list[Shape]:
    """Two motifs one under the other; beside them the next width's, half a repeat lower where it drops."""
    motifs = [box(ALONG - 4, y - 1, 8, 2) for y in (3 * EIGHTH, 7 * EIGHTH)]
    if picked == "repeat_kind" or value_at(job, f"{key}.repeat_kind") == "half-drop":
        motifs.append(box(EDGE + 4, 5 * EIGHTH - 1, 8, 2, "picked" if picked == "repeat_kind" else "line"))
    pen: Pen = "picked" if picked in PATTERN else "line"
    text = label(ALONG + 2, 5 * EIGHTH, known_label(job, f"{key}.repeat"), "start", pen)
    return [*motifs, line(ALONG, 3 * EIGHTH, ALONG, 7 * EIGHTH, pen, "both"), text]


TOP, BOTTOM, LENGTH, SQUARED = 2, 14, 56, 5
"""Of a length already there, drawn with its length to the right: its selvedges, its end, and where it is
squared."""
DAMAGE: Final = (26, 38)
"""Where a damaged stretch is drawn while it is asked about or known."""
OWNED: Final = {
    "length": across(0, LENGTH, 8),
    "width": down(14, TOP, BOTTOM),
    "damage_from": across(0, DAMAGE[0], 8),
    "damage_to": across(0, DAMAGE[1], 8),
    "squaring": beside(0, SQUARED, 8),
}


def owned_cloth(job: Job, key: str = "", picked: str | None = None) -> Scene:
    """The length of cloth at `key` (`cloth.face.owned.ID`) with its length `picked` picked out."""
    start, end = DAMAGE
    damaged = length_at(job, f"{key}.damage_from") is not None or picked in ("damage_from", "damage_to")
    spot = [box(start, TOP, end - start, BOTTOM - TOP, "fine", "hatched")] if damaged else []
    spoilt = [label((start + end) // 2, BOTTOM - 3, "damaged")] if damaged else []
    value = known_label(job, "allowances.squaring" if picked == "squaring" else f"{key}.{picked}")
    shapes: list[Shape] = [
        *spot,
        box(0, TOP, LENGTH, BOTTOM - TOP),
        line(SQUARED, TOP, SQUARED, BOTTOM, "fine"),
        label(LENGTH, 0, "selvedge", "end"),
        label(LENGTH, 16, "selvedge", "end"),
        *spoilt,
        *picked_out(OWNED, picked, value),
    ]
    return sketch("a length of cloth in hand", WIDTH, 16, shapes)


END_HEM, JOIN, RIGHT, SEAM = 6, 34, 54, 4
"""Of two pieces joined: the inner edge of the end hem, the join, the right edge, and how wide a seam is drawn."""
DROP_LINE, HEM, FOLD, RAW = 2, 13, 16, 18
"""The drop line, the hem's upper edge, its fold, and the raw edge."""
MIDDLE: Final = 7
JOINED: Final = {
    "join": beside(JOIN, JOIN + SEAM, MIDDLE),
    "lap": beside(JOIN - SEAM, JOIN + SEAM, MIDDLE),
    "end_hem": beside(0, END_HEM, MIDDLE),
    "end_setback": beside(0, END_HEM, MIDDLE),
    "hem": down(JOIN + 8, HEM, FOLD),
    "hem_kind": down(JOIN + 8, HEM, FOLD),
    "hem_turn": down(JOIN + 8, FOLD, RAW),
    "least_piece": across(JOIN, RIGHT, MIDDLE),
}
JOINED_LEAVES: Final = (*JOINED, "allowances")
"""What is picked out in two pieces joined."""


def joined_pieces(job: Job, picked: str | None = None, *keys: str) -> Scene:
    """Two pieces joined, wrong side up, with the length `picked` picked out; `keys` are the file keys it may stand
    at."""
    shapes: list[Shape] = [
        box(0, 0, RIGHT, RAW),
        *(line(0, y, RIGHT, y, "fine") for y in (DROP_LINE, HEM, FOLD)),
        line(END_HEM, 0, END_HEM, RAW, "fine"),
        line(JOIN, 0, JOIN, RAW, "heavy"),
        label(END_HEM + 6, DROP_LINE, " drop line ", "start"),
        label(END_HEM + 6, HEM, " hem ", "start"),
        label(RIGHT, 20, "raw edges all round", "end"),
        *picked_out(JOINED, picked, known_label(job, *keys)),
    ]
    return sketch("two pieces joined, flat, wrong side up", WIDTH, 20, shapes)


USUAL: Final = Fraction(5, 2)
"""Stands in for a fullness not chosen yet; never shown."""
MOST: Final = Fraction(6)
"""Fuller than this is drawn no wider."""


def gathering(job: Job) -> Scene:
    """The flat skirt above; below it the same cloth in folds, drawn up to the fullness chosen."""
    want = job.fullness.want
    gathered = WIDTH / min(max(want or USUAL, Fraction(1)), MOST)
    shapes: list[Shape] = [
        box(0, 0, WIDTH, 4),
        label(WIDTH // 2, 2, "flat width"),
        box(0, 8, gathered, 4, "picked"),
        *(line(gathered * part / 8, 8, gathered * part / 8, 12, "fine") for part in range(1, 8)),
        label(0, 13, "gathered length", "start"),
        label(WIDTH, 10, f"fullness {'?' if want is None else number(want)}", "end", "picked"),
    ]
    return sketch("flat width against gathered length", WIDTH, 14, shapes)
