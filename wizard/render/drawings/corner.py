"""One corner of the bed from above: a post, the two rails that meet it, and what is measured there."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from wizard.render.drawings.scene import Pen, Scene, Shape, mirrored
from wizard.render.drawings.sketch import box, label, length_at, line, or_stand_in, sketch, value_label
from wizard.trade.formatting import ruler_of
from wizard.trade.job_fields import Job, Post
from wizard.trade.lengths import Length

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
        # A drawing has few lines: the post, which is measured, gets the most of them.
        self.top, self.below = self.deep * Fraction(3, 4), self.deep / 2
        self.left, self.right = self.reach / 2, self.reach / 2 + self.wide
        self.bottom = self.top + self.deep
        self.width, self.height = self.right + self.reach, self.bottom + self.below
        self.mirror_x, self.mirror_y = "right" in post_id.split("-"), "head" in post_id.split("-")
        # Each rail's outer face.
        side, end = (or_stand_in(each, SET_IN) for each in (self.post.side_set_in, self.post.end_set_in))
        self.side_rail = self.left + max(side, self.wide / 5)
        self.end_rail = self.bottom - min(max(end, self.deep * 2 / 5), self.deep)

    def scene(self) -> Scene:
        shapes = (*self._bed(), *self._sizes(), *self._set_ins(), *self._names())
        width, height = self.width if self.mirror_x else None, self.height if self.mirror_y else None
        turned = (mirrored(each, width, height) for each in shapes)
        return sketch(f"post {self.id} from above", self.width, self.height, turned)

    def _bed(self) -> Iterator[Shape]:
        yield box(self.left, self.top, self.wide, self.deep, "heavy" if self.picked in ("", *LEAVES) else "picked")
        for x in (self.side_rail, self.side_rail + self.thick):
            yield line(x, self.top / 6, x, self.top)
        for y in (self.end_rail - self.thick, self.end_rail):
            yield line(self.right, y, self.width - self.reach / 6, y)

    def _sizes(self) -> Iterator[Shape]:
        y, x = self.bottom + self.below * 3 / 4, self.left / 2
        yield from self._measure("along_end", (self.left, y), (self.right, y))
        yield from self._measure("along_side", (x, self.top), (x, self.bottom))

    def _set_ins(self) -> Iterator[Shape]:
        y, x = self.top / 2, self.right + self.reach / 2
        yield line(self.left, self.top / 3, self.left, self.top, "fine")
        yield line(self.right, self.bottom, self.right + self.reach * 2 / 3, self.bottom, "fine")
        yield from self._measure("side_set_in", (self.left, y), (self.side_rail, y))
        yield from self._measure("end_set_in", (x, self.end_rail), (x, self.bottom))

    def _measure(self, leaf: str, start: tuple[Length, Length], end: tuple[Length, Length]) -> list[Shape]:
        """A length with its value, drawn while it is known or asked for."""
        value: Length | None = getattr(self.post, leaf)
        if value is None and leaf != self.picked:
            return []
        pen: Pen = "picked" if leaf == self.picked else "line"
        y = (start[1] + end[1]) / 2
        return [
            line(*start, *end, pen, "both"),
            label(start[0] - self.left / 8, y, value_label(value, self.ruler), "end", pen),
        ]

    def _names(self) -> tuple[Shape, ...]:
        rail = "head rail" if self.mirror_y else "foot rail"
        return (
            label(self.left + self.wide / 2, self.top + self.deep / 2, "post"),
            label(self.side_rail + self.thick + self.left / 8, self.top / 4, "side rail", "start"),
            label(self.width, self.top + self.deep / 3, rail, "end"),
        )
