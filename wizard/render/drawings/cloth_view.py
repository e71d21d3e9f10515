"""Cloth: laid flat with its width or its pattern."""

from __future__ import annotations

from wizard.render.drawings.page_sketch import PageSketch
from wizard.render.drawings.scene import Scene
from wizard.trade.figures import value_at


def cloth_view(sketch: PageSketch, layer: str) -> Scene:
    """The cloth of `layer` laid flat, its width from selvedge to selvedge."""
    left, right = _selvedges(sketch)
    sketch.level("width", left + 1, right - 1, sketch.bottom // 3, "width")
    return sketch.scene(f"{layer} cloth laid flat")


def _selvedges(sketch: PageSketch) -> tuple[int, int]:
    left, right = 0, sketch.right - 10
    for x, inside in ((left, left + 3), (right, right - 3)):
        sketch.line(x, 0, x, sketch.bottom, "heavy")
        sketch.line(inside, 0, inside, sketch.bottom, "fine")
    sketch.line(left, sketch.bottom, right, sketch.bottom)
    sketch.label(right + 1, sketch.bottom * 2 // 3, " selvedge", "start")
    return left, right


def pattern_view(sketch: PageSketch, layer: str) -> Scene:
    """Two widths side by side with their motifs; the next width's half a repeat lower where it drops."""
    left, right = _selvedges(sketch)
    join = left + max((right - left) // 2, 30)
    first, second = sketch.bottom // 5, sketch.bottom * 4 // 5
    sketch.line(join, 0, join, sketch.bottom)
    half_drop = value_at(sketch.job, f"cloth.{layer}.repeat_kind") == "half-drop"
    middle = (first + second) // 2
    x = left + 9
    for motif, rows in ((x, (first, second)), (join + 7, (middle,) if half_drop else (first, second))):
        for y in rows:
            sketch.box(motif - 4, y - 1, motif + 4, y + 1, sketch.pen("repeat_kind"))
    sketch.upright("repeat", x, first, second, "repeat")
    return sketch.scene(f"{layer} cloth with its pattern")
