"""The rail cut through, with what holds the skirt and its way to the floor; and a corner of the bed from above."""

from __future__ import annotations

from wizard.render.drawings.placing import BRACKETED
from wizard.render.drawings.scene import Scene
from wizard.render.drawings.sketch import ON_THE_LINE, PageSketch


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


def corner_view(sketch: PageSketch, post_id: str) -> Scene:
    """The post with its sizes and set-ins. It is drawn as the corner of its name: the foot-right one has its rails
    above and to the left."""
    view = _CornerView(sketch, post_id or "foot-left")
    sketch.mirrored = "right" in view.id.split("-"), "head" in view.id.split("-")
    view.bed()
    view.lengths()
    return sketch.scene(f"post {view.id} from above")


class _CornerView:
    """The places of the drawing, in cells, as for the foot-left corner; the others are its mirror images."""

    def __init__(self, sketch: PageSketch, post_id: str) -> None:
        self.sketch, self.id = sketch, post_id
        self.left = max(BRACKETED + 2, sketch.right // 4)
        wide = max(BRACKETED + 6, sketch.right * 3 // 10)
        self.right = self.left + wide
        self.top, self.bottom = (2 if sketch.low else 3), sketch.bottom - 2
        self.side_rail = self.left + wide // 4, self.right - wide // 4
        self.end_rail = self.top + 1, self.bottom - 2

    def bed(self) -> None:
        """The post and the rails."""
        draw = self.sketch
        draw.box(self.left, self.top, self.right, self.bottom, draw.pen("may_fix", "turned", usual="heavy"))
        draw.label(self.right - 2, self.top + 1, "post", "end")
        for x in self.side_rail:
            draw.line(x, 0, x, self.top)
        for y in self.end_rail:
            draw.line(self.right, y, draw.right, y)
        end = self.id.partition("-")[0]
        draw.label(self.side_rail[1] + 2, 0, "side rail", "start")
        draw.label(draw.right, self.end_rail[0] + 1, f"{end} rail", "end")

    def lengths(self) -> None:
        """The post's sizes, how far each rail is set in from its outer face, and the return."""
        draw = self.sketch
        draw.level("along_end", self.left, self.right, draw.bottom, f"along the {self.id.partition('-')[0]}")
        draw.upright("along_side", self.left + 2, self.top + 1, self.bottom - 1)
        draw.line(self.left, 0, self.left, self.top, "fine")
        draw.level("side_set_in", self.left, self.side_rail[0], 1, "set-in", left=True)
        x = self.right + max(2, (draw.right - self.right) // 4)
        draw.line(self.right, self.bottom, x + 3, self.bottom, "fine")
        draw.upright("end_set_in", x, self.end_rail[1], self.bottom, "set-in")
        for leaf in ("left_return", "right_return"):
            draw.level(leaf, self.right + 1, x, self.top, "return")
