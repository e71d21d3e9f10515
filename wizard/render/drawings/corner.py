"""One corner of the bed from above: a post, the two rails that meet it, and what is measured there."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from wizard.render.drawings.scene import Box, Label, Pen, Scene, Shape, Stroke, mirrored
from wizard.render.drawings.sketch import length_at, or_stand_in, value_label
from wizard.trade.formatting import ruler_of
from wizard.trade.lengths import Length
from wizard.trade.model import Job, Post

LEAVES: Final = ("along_side", "along_end", "side_set_in", "end_set_in")
"""The lengths of a post."""
SIZE: Final = Length(3)
"""Stands in for a post's size."""
SET_IN: Final = Length(1)
"""Stands in for a set-in and a rail's thickness; drawn at least so wide, so that it can be seen."""


def corner(job: Job, post_id: str, picked: str | None = None) -> Scene:
    """The post `post_id` drawn from what is known of it, the length `picked` (one of LEAVES) picked out.

    It is drawn as the corner of its name: the foot-right one has its rails above and to the left.
    """
    return _Corner(job, post_id, picked or "").scene()


class _Corner:
    """Measured as for the foot-left corner; the others are its mirror images."""

    def __init__(self, job: Job, post_id: str, picked: str) -> None:
        self.id, self.picked, self.ruler = post_id, picked, ruler_of(job)
        self.post = job.survey.post.get(post_id, Post())
        self.wide = or_stand_in(self.post.along_end, SIZE)
        self.deep = or_stand_in(self.post.along_side, SIZE)
        self.thick = max(or_stand_in(length_at(job, "survey.rail_thickness"), SET_IN), self.wide / 6)
        self.reach = max(self.wide, self.deep) * 2
        self.margin = self.reach / 2
        self.width = self.margin + self.wide + self.reach
        # A drawing has few lines: the post, which is measured, gets the most of them.
        self.above, self.below = self.deep * Fraction(3, 4), self.deep / 2
        self.height = self.above + self.deep + self.below
        self.mirror_x = "right" in post_id.split("-")
        self.mirror_y = "head" in post_id.split("-")

    def scene(self) -> Scene:
        shapes = (*self._bed(), *self._sizes(), *self._set_ins(), *self._names())
        width, height = self.width if self.mirror_x else None, self.height if self.mirror_y else None
        turned = (mirrored(each, width, height) for each in shapes)
        title = f"post {self.id} from above"
        return Scene(title, self.width, self.height, tuple(turned), to_scale=False)

    def in_by(self, set_in: Length | None) -> Length:
        return max(or_stand_in(set_in, SET_IN), self.wide / 5)

    def up_by(self) -> Length:
        return min(max(or_stand_in(self.post.end_set_in, SET_IN), self.deep * 2 / 5), self.deep)

    def _bed(self) -> tuple[Shape, ...]:
        bottom = self.above + self.deep
        side = self.margin + self.in_by(self.post.side_set_in)
        end = bottom - self.up_by() - self.thick
        after = self.margin + self.wide
        return (
            Box(self.margin, self.above, self.wide, self.deep, "heavy" if self.picked in ("", *LEAVES) else "picked"),
            *(Stroke(x, self.above / 6, x, self.above) for x in (side, side + self.thick)),
            *(Stroke(after, y, self.width - self.reach / 6, y) for y in (end, end + self.thick)),
        )

    def _sizes(self) -> list[Shape]:
        bottom, left = self.above + self.deep, self.margin
        y, x = bottom + self.below * 3 / 4, self.margin / 2
        return [
            *self._measure("along_end", (left, y), (left + self.wide, y)),
            *self._measure("along_side", (x, self.above), (x, bottom)),
        ]

    def _set_ins(self) -> list[Shape]:
        bottom, left, right = self.above + self.deep, self.margin, self.margin + self.wide
        y, x = self.above / 2, right + self.reach / 2
        return [
            Stroke(left, self.above / 3, left, self.above, "fine"),
            Stroke(right, bottom, right + self.reach * 2 / 3, bottom, "fine"),
            *self._measure("side_set_in", (left, y), (left + self.in_by(self.post.side_set_in), y)),
            *self._measure("end_set_in", (x, bottom - self.up_by()), (x, bottom)),
        ]

    def _measure(self, leaf: str, start: tuple[Length, Length], end: tuple[Length, Length]) -> list[Shape]:
        """A length with its value, drawn while it is known or asked for."""
        value: Length | None = getattr(self.post, leaf)
        asked = leaf == self.picked
        if value is None and not asked:
            return []
        pen: Pen = "picked" if asked else "line"
        aside = self.margin / 8
        upright = start[0] == end[0]
        x, y = (start[0] - aside, (start[1] + end[1]) / 2) if upright else (start[0] - aside, start[1])
        return [Stroke(*start, *end, pen, "both"), Label(x, y, value_label(value, self.ruler), "end", pen)]

    def _names(self) -> tuple[Shape, ...]:
        side_rail = self.margin + self.in_by(self.post.side_set_in) + self.thick + self.margin / 8
        return (
            Label(self.margin + self.wide / 2, self.above + self.deep / 2, "post"),
            Label(side_rail, self.above / 4, "side rail", "start"),
            Label(self.width, self.above + self.deep / 3, "head rail" if self.mirror_y else "foot rail", "end"),
        )
