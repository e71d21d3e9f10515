"""The rail cut through: what holds the skirt, and the skirt's way down to the floor."""

from __future__ import annotations

from wizard.render.drawings.page_sketch import ON_THE_LINE, PageSketch
from wizard.render.drawings.scene import Scene


def rail_view(sketch: PageSketch, _: str) -> Scene:
    """The rail with its thickness, and the slats' ledger on its inner face with the height free below it."""
    left, right = sketch.right // 4, sketch.right // 4 + sketch.right // 6
    top, edge = 2, sketch.bottom - 1
    ledger = top + (edge - top) // 3
    sketch.box(left, top, right, edge, "heavy")
    sketch.label((left + right) // 2, (top + edge) // 2, "rail", stays=True)
    sketch.level("rail_thickness", left, right, 0, "thickness")
    sketch.line(left, 0, left, top, "fine")
    sketch.line(right, 0, right, top, "fine")
    slatted = sketch.key("free_height") is not None or sketch.job.survey.slatted is True
    if slatted:
        sketch.box(right, ledger - 1, right + 8, ledger, sketch.pen("slatted"))
        sketch.line(right + 2, ledger - 2, sketch.right, ledger - 2, sketch.pen("slatted"))
        sketch.label(right + 11, ledger - 1, "slat on its ledger", "start")
        sketch.upright("free_height", right + 4, ledger + 1, edge, "free height")
        sketch.line(right, edge, right + 7, edge, "fine")
    sketch.label(0, top, "room", "start")
    sketch.label(sketch.right, sketch.bottom, "under the bed", "end")
    return sketch.scene("the rail cut through, seen from the foot")


def floor_view(sketch: PageSketch, _: str) -> Scene:
    """The skirt from its drop line to the floor: how far the drop line is raised, and the gap under the hem."""
    left, right = sketch.right // 5, sketch.right // 5 + max(6, sketch.right // 8)
    edge, floor = sketch.bottom // 2, sketch.bottom
    drop_line, hem = max(edge - 3, 0), floor - (2 if sketch.low else 3)
    sketch.box(left, 0, right, edge, "heavy")
    sketch.label((left + right) // 2, edge // 2, "rail", stays=True)
    if sketch.key("raised") is not None:
        sketch.line(right, drop_line, right + 22, drop_line, "fine")
        sketch.label(right + 24, drop_line, "drop line", "start", stays=True)
        sketch.line(right, edge, right + 22, edge, "fine")
        sketch.label(right + 24, edge, "rail's lower edge", "start", stays=True)
        sketch.upright("raised", right + 6, drop_line, edge)
    sketch.line(right + 2, drop_line, right + 2, hem)
    sketch.label(right + 4, hem, "hem", "start")
    sketch.label(right + 4, (edge + hem) // 2 + 1, "skirt", "start")
    sketch.line(0, floor, sketch.right, floor, "heavy")
    sketch.label(2, floor, " floor ", "start", stays=True)
    sketch.upright("floor_gap", right + 2, hem, floor, "gap")
    return sketch.scene("the rail cut through, with the skirt")


def fixing_view(sketch: PageSketch, _: str) -> Scene:
    """The tape along the rail from one end: where it is folded under, the first fixing, and the space to the next."""
    start, first = sketch.right // 6, sketch.right // 6 + 5
    upper, lower = max(4, sketch.bottom // 2), sketch.bottom - 1
    apart = max(ON_THE_LINE, (sketch.right - first) // 3)
    sketch.line(0, 0, sketch.right, 0, "heavy")
    sketch.label(3, 0, " rail ", "start", stays=True)
    sketch.box(start, upper, sketch.right, lower, sketch.pen("kind", "taken_off"))
    sketch.box(0, upper, start, lower, "fine")
    for x in range(first, sketch.right, apart):
        sketch.line(x, upper + 1, x, lower - 1, "heavy")
    sketch.level("turn_under", 0, start, upper - 3, "folded under")
    sketch.level("inset", start, first, upper - 2, "to the first fixing")
    sketch.level("spacing", first, first + apart, upper - 1)
    sketch.upright("width", first + apart + 3, upper, lower, "tape")
    sketch.label(sketch.right, sketch.bottom, "lower edge on the drop line", "end")
    return sketch.scene("the tape along the rail, from one end")
