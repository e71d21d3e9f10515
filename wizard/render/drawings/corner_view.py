"""One corner of the bed from above: a post, the two rails that meet it, and the cloth that turns in behind it."""

from __future__ import annotations

from wizard.render.drawings.page_sketch import PageSketch
from wizard.render.drawings.scene import Scene, mirrored
from wizard.render.drawings.slots import BRACKETED


def corner_view(sketch: PageSketch, post_id: str) -> Scene:
    """The post with its sizes and set-ins. It is drawn as the corner of its name: the foot-right one has its rails
    above and to the left."""
    view = _CornerView(sketch, post_id or "foot-left")
    view.bed()
    view.lengths()
    return view.scene()


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

    def scene(self) -> Scene:
        """The drawing, turned as the corner is."""
        names, whole = self.id.split("-"), self.sketch.scene(f"post {self.id} from above")
        width, height = whole.width if "right" in names else None, whole.height if "head" in names else None
        self.sketch.shapes = [mirrored(each, width, height) for each in whole.shapes]
        return self.sketch.scene(whole.title)
