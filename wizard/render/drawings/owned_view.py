"""Lengths of cloth that are there already, each as a bar to scale with its cuts; and how full a skirt is."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Final

from wizard.render.drawings.placing import BRACKETED
from wizard.render.drawings.scene import Scene
from wizard.render.drawings.sketch import PageSketch, pen_if
from wizard.trade.figures import value_at
from wizard.trade.formatting import readable, ruler_of, shown
from wizard.trade.lengths import ZERO, Length
from wizard.trade.steps.cut_order import CutStretch, cut_stretches

LEGEND: Final = "▌ squared end   ┬ cut   ░ left over   to scale"


def owned_view(sketch: PageSketch, layer: str) -> Scene:
    """A bar for each length of the layer on the page, with its slot above it; as many as fit, round the one in hand."""
    key = f"cloth.{layer}.owned"
    lengths = [each for each in sketch.keys if each.startswith(f"{key}.") and each.endswith(".length")]
    fits = max(1, (sketch.bottom + 1) // 2)
    # Its width, damage or dye lot in hand shows which length is meant, too.
    in_hand = f"{sketch.in_hand.rpartition('.')[0]}.length"
    at = lengths.index(in_hand) if in_hand in lengths else 0
    first = min(max(at - fits // 2, 0), max(len(lengths) - fits, 0))
    here = lengths[first : first + fits]
    longest = max((_length(sketch, each) for each in lengths), default=ZERO) or Length(1)
    cut = _cut(sketch, layer)
    apart = 3 if len(here) * 3 <= sketch.bottom else 2
    for row, each in zip(range(0, apart * fits, apart), here, strict=False):
        sketch.label(0, row, f"{lengths.index(each) + 1}", "start", stays=True)
        sketch.slot(each, (4, row), "start")
        stretch = cut.get(each.split(".")[3])
        if stretch is not None:
            sketch.label(4 + BRACKETED + 3, row, _summary(sketch, stretch), "start", stays=True)
        bar = _bar(_length(sketch, each) / longest, stretch, sketch.right - 1, picked=each == in_hand)
        sketch.label(0, row + 1, bar, "start", stays=True)
    if apart * len(here) < sketch.bottom:
        sketch.label(0, sketch.bottom, LEGEND, "start", stays=True)
    return sketch.scene(f"{layer} cloth you have")


def _length(sketch: PageSketch, key: str) -> Length:
    length = value_at(sketch.job, key)
    return length if isinstance(length, Length) else ZERO


def _cut(sketch: PageSketch, layer_id: str) -> dict[str, CutStretch]:
    """Id of a length -> what is cut from it."""
    layer = next((each for each in sketch.plan.layers if each.id == layer_id), None)
    if layer is None or layer.cutting is None:
        return {}
    return {each.stretch.id: each for each in cut_stretches(layer, layer.cutting.best)}


def _summary(sketch: PageSketch, cut: CutStretch) -> str:
    """How many pieces it gives, and what is left at its end."""
    sizes = {each.piece.cut for each in cut.pieces}
    ruler, count = ruler_of(sketch.job), len(cut.pieces)
    of = f" of {shown(sizes.pop(), ruler)}" if len(sizes) == 1 else ""
    left = next((each.along for each in cut.offcuts if each.kind == "end"), ZERO)
    return f"{count} {'piece' if count == 1 else 'pieces'}{of}, {shown(left, ruler)} left over"


def _bar(part: Fraction, cut: CutStretch | None, columns: int, *, picked: bool) -> str:
    """The length to scale, squared end first; where it is not known, as long as the space."""
    wide = max(2, round((columns - 1) * part)) if part else columns - 1
    cloth, joint = ("═", "╤") if picked else ("─", "┬")
    if cut is None:
        return f"▌{cloth * wide}▐"
    begins, long, cells = cut.start, cut.end - cut.start, ["░"] * wide
    spans = [[round((at - begins) / long * wide) for at in (each.piece.start, each.end)] for each in cut.pieces]
    for first, last in spans:
        cells[first:last] = [cloth] * (last - first)
    for _, last in spans:
        cells[max(last - 1, 0)] = joint
    return f"▌{''.join(cells)}▐"


MOST: Final = Fraction(6)
"""Fuller than this is drawn no wider."""
NUMBER: Final = re.compile(r"\d+(\.\d+|/[1-9]\d*)?")
USUAL: Final = Fraction(5, 2)
"""Stands in for a fullness not chosen yet; never shown."""


def fullness_view(sketch: PageSketch, subject: str) -> Scene:
    """The rail, the cloth gathered on it, and the same cloth flat, to scale. `subject` is a fullness (`5/2`), where it
    is not the one of the plan."""
    known = Fraction(subject) if NUMBER.fullmatch(subject) else sketch.plan.figures["fullness"].value
    full = min(max(known or USUAL, Fraction(1)), MOST)
    left, row, apart = 20 if sketch.right > 50 else sketch.right // 4, 0 if sketch.low else 1, 2 if sketch.low else 3
    wide = sketch.right - left
    part = next(iter(sketch.plan.parts), None)
    rail = round(wide / full)
    names = (f"{part.name}, rail" if part else "rail", "cloth, gathered", "cloth, flat")
    for number_of, (name, long) in enumerate(zip(names, (rail, rail, wide), strict=True)):
        y = row + number_of * apart
        sketch.label(0, y, name, "start", stays=True, short=name.rpartition(", ")[2])
        if number_of == 1:
            sketch.label(left, y, ("∩∪" * long)[:long], "start", stays=True)
        else:
            sketch.line(left, y, left + long, y, pen_if(bool(number_of), "heavy"), tips=bool(number_of))
    ruler = ruler_of(sketch.job)
    if part is not None and not subject:
        for y, figure in ((row + apart + 1, part.gathered), (row + 2 * apart + 1, part.flat_made)):
            if figure.value is not None:
                sketch.label(left, y, shown(figure.value, ruler), "start")
    if known is not None:
        sketch.label(sketch.right, sketch.bottom, f"fullness {readable(known)}", "end")
    return sketch.scene("cloth flat against gathered")
