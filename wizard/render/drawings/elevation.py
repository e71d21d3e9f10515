"""One section as seen from the room: posts, rail, drops to the floor, things in the way."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from typing import Final

from wizard.render.drawings.scene import Box, Label, Pen, Scene, Shape, Stroke
from wizard.render.drawings.sketch import DROP, or_stand_in, reading, run_of, value_label
from wizard.trade.formatting import ruler_of
from wizard.trade.job_fields import Job, Obstacle, Section
from wizard.trade.lengths import ZERO, Length
from wizard.trade.sections import ENDS, FROM_RIGHT, end_in_words, section_name, side_of, stops_short

LEAST_READINGS: Final = 3
MOST_READINGS: Final = 40
"""A number beyond this is no reading that could be drawn."""
POST: Final = Fraction(1, 14)
"""Width of a drawn post, as a part of the run."""


def elevation(job: Job, section_id: str, picked: str | None = None) -> Scene:
    """The section drawn from what is known of it, the length at the leaf `picked` (`drop.2`, `run.1`) picked out.

    A section that is not there yet is drawn with nothing read.
    """
    section = job.survey.section.get(section_id, Section())
    return _Elevation(job, section_id, section, picked or "").scene()


class _Elevation:
    """The measures of the drawing: x from the left post's outer face, y from the top."""

    def __init__(self, job: Job, section_id: str, section: Section, picked: str) -> None:
        self.job, self.id, self.section, self.picked = job, section_id, section, picked
        self.ruler = ruler_of(job)
        self.side = side_of(section_id, section)
        self.run = run_of(section_id, section)
        self.post = self.run * POST
        self.end = self.post + self.run
        self.tall = max((or_stand_in(each, ZERO) for each in section.drop), default=ZERO) or DROP
        self.rail_top, self.edge = self.tall * Fraction(1, 4), self.tall * Fraction(1, 2)
        self.bottom = self.edge + self.tall * Fraction(5, 4)
        asked = int(picked[5:]) if picked.startswith("drop.") and picked[5:].isdecimal() else 0
        self.count = max(LEAST_READINGS, len(section.drop), len(section.drop_at), min(asked, MOST_READINGS))

    def scene(self) -> Scene:
        hem = self._hem() if self.picked == "hem_line" else []
        drawn = (self._frame(), self._floor(), self._obstacles(), self._drops(), self._runs(), self._ends())
        shapes = (*hem, *(shape for each in drawn for shape in each))
        title = f"{section_name(self.job, self.id)}, seen from the room"
        return Scene(title, self.end + self.post, self.bottom, shapes, to_scale=False)

    def pen(self, leaf: str, usual: Pen = "line") -> Pen:
        return "picked" if leaf == self.picked else usual

    def _frame(self) -> Iterator[Shape]:
        top = self.tall * Fraction(1, 8)
        for x, end in zip((ZERO, self.end), ENDS, strict=True):
            if not stops_short(self.section, end):
                yield Box(x, top, self.post, self.floor_at(x) - top)
        yield Box(self.post, self.rail_top, self.run, self.edge - self.rail_top, "heavy")
        yield Label(self.post, ZERO, end_in_words(self.side, "left"), "start")
        yield Label(self.end, ZERO, end_in_words(self.side, "right"), "end")
        yield Label(self.post + self.run / 2, ZERO, section_name(self.job, self.id), "middle")

    def places(self) -> tuple[Length, ...]:
        """Where each drop is read, from the section's left end; unstated ones are equally spaced from end to end. One
        more that is asked for has no place yet: it is drawn between the last two, and moves none of them."""
        known = max(LEAST_READINGS, len(self.section.drop), len(self.section.drop_at))
        spaced = [self.run * Fraction(number, known - 1) for number in range(known)]
        spaced += [(spaced[-2] + spaced[-1]) / 2] * (self.count - known)
        stated = (reading(self.section.drop_at, number) for number in range(1, self.count + 1))
        return tuple(min(at if at is not None else usual, self.run) for at, usual in zip(stated, spaced, strict=True))

    def floor_points(self) -> list[tuple[Length, Length]]:
        """Where the floor is known to be, from left to right."""
        known = ((at, reading(self.section.drop, number)) for number, at in enumerate(self.places(), start=1))
        return sorted((self.post + at, self.edge + drop) for at, drop in known if drop is not None)

    def floor_at(self, x: Length) -> Length:
        points = self.floor_points()
        return min(points, key=lambda point: abs(point[0] - x))[1] if points else self.edge + self.tall

    def _floor(self) -> Iterator[Shape]:
        """The floor from reading to reading, level beyond the last ones."""
        points = self.floor_points() or [(ZERO, self.edge + self.tall)]
        yield from _joined([(ZERO, points[0][1]), *points, (self.end + self.post, points[-1][1])], "heavy")
        yield Label(self.end + self.post, self.bottom, "floor", "end")

    def _hem(self) -> Iterator[Shape]:
        """Where the hem will be: level at the least drop, or along the floor; a little above it, to be seen."""
        up = self.tall / 8
        points = [(x, y - up) for x, y in self.floor_points()] or [(self.post, self.edge + self.tall - up)]
        if self.section.hem_line == "follow the floor":
            return _joined([(self.post, points[0][1]), *points, (self.end, points[-1][1])], "picked")
        level = min(y for _, y in points)
        return _joined([(self.post, level), (self.end, level)], "picked")

    def _drops(self) -> Iterator[Shape]:
        for number, at in enumerate(self.places(), start=1):
            drop = reading(self.section.drop, number)
            pen = self.pen(f"drop.{number}", "fine" if drop is None else "line")
            # A reading at an end is drawn a little inside it, clear of the post.
            x = min(max(self.post + at, self.post * 2), self.end - self.post)
            floor = self.edge + or_stand_in(drop, self.tall)
            yield Stroke(x, self.edge, x, floor, pen, "both")
            yield self._beside(x, at, floor, value_label(drop, self.ruler), self.pen(f"drop.{number}"))
            if self.picked == f"drop_at.{number}":
                y = self.edge + self.tall * Fraction(3, 8)
                yield from self._measure(self.post, x, y, value_label(at, self.ruler), "picked")

    def _beside(self, x: Length, at: Length, floor: Length, text: str, pen: Pen) -> Label:
        """The label of a drop, on the side with more space."""
        step = self.run / 60
        y = (self.edge + floor) / 2
        return Label(x - step, y, text, "end", pen) if at * 2 > self.run else Label(x + step, y, text, "start", pen)

    def _runs(self) -> Iterator[Shape]:
        """At the rail, and again near the floor."""
        heights = ((self.rail_top + self.edge) / 2, self.edge + self.tall * Fraction(7, 8))
        for number, y in enumerate(heights, start=1):
            run, leaf = reading(self.section.run, number), f"run.{number}"
            # The one near the floor crosses everything else, so it is drawn only while it is asked for.
            if self.picked == leaf or (number == 1 and run is not None):
                yield from self._measure(self.post, self.end, y, value_label(run, self.ruler), self.pen(leaf, "fine"))

    def _measure(self, start: Length, end: Length, y: Length, text: str, pen: Pen) -> list[Shape]:
        label: Pen = "picked" if pen == "picked" else "line"
        return [Stroke(start, y, end, y, pen, "both"), Label((start + end) / 2, y, f" {text} ", "middle", label)]

    def _ends(self) -> tuple[Shape, ...]:
        """The ends' own lengths, picked out while they are asked for."""
        end, _, leaf = self.picked.partition("_")
        if end not in ("left", "right") or leaf not in _AT_AN_END:
            return ()
        x, inward = (self.post, Fraction(1)) if end == "left" else (self.end, Fraction(-1))
        start, reach = _AT_AN_END[leaf]
        y = self.edge + self.tall * start
        far = x + self.post * reach * inward
        value = value_label(getattr(self.section, self.picked), self.ruler)
        return (
            Box(min(x, far), y, abs(far - x), self.tall * Fraction(1, 8), "picked"),
            Label(x + self.post * inward * 2, y + self.tall / 16, value, "start" if end == "left" else "end", "picked"),
        )

    def _obstacles(self) -> Iterator[Shape]:
        for obstacle_id, each in self.section.in_the_way.items():
            middle = self.post + self._from_left(each)
            wide = min(or_stand_in(each.width, self.post), self.run)
            left = max(self.post, min(middle - wide / 2, self.end - wide))
            floor = self.floor_at(middle)
            high = min(or_stand_in(each.height, self.tall), floor)
            # The thing itself is picked out, but where a measure beside it is asked for.
            asked = f"{self.picked}.".startswith(f"in_the_way.{obstacle_id}.")
            pen: Pen = "picked" if asked and not self.picked.endswith((".at", ".height")) else "line"
            yield Box(left, floor - high, wide, high, pen)
            yield Label(middle, self.bottom, each.name or each.kind or obstacle_id, "middle")
            yield from self._asked(obstacle_id, each, left, wide, floor - high)

    def _from_left(self, each: Obstacle) -> Length:
        """Its middle from the section's left end; it is read from the head, or from the bed's left."""
        at = or_stand_in(each.at, self.run / 2)
        return max(ZERO, self.run - at if self.side in FROM_RIGHT else at)

    def _asked(self, obstacle_id: str, each: Obstacle, left: Length, wide: Length, top: Length) -> list[Shape]:
        """The length that is being asked for about something in the way."""
        leaf = self.picked.removeprefix(f"in_the_way.{obstacle_id}.")
        middle, y = left + wide / 2, self.edge + self.tall * Fraction(3, 4)
        if leaf == "at":
            start, end = (middle, self.end) if self.side in FROM_RIGHT else (self.post, middle)
            return self._measure(start, end, y, value_label(each.at, self.ruler), "picked")
        if leaf in ("width", "overlap"):
            return [Label(middle, y, value_label(getattr(each, leaf), self.ruler), "middle", "picked")]
        if leaf == "height":
            label = Label(left - self.run / 60, top, value_label(each.height, self.ruler), "end", "picked")
            return [Stroke(middle, top, middle, self.floor_at(middle), "picked", "both"), label]
        return []


def _joined(points: list[tuple[Length, Length]], pen: Pen) -> Iterator[Shape]:
    """A line from point to point."""
    return (Stroke(*start, *end, pen) for start, end in pairwise(points) if start != end)


_AT_AN_END: Final = {
    "return": (Fraction(1, 8), Fraction(-1)),
    "hook": (Fraction(-1, 8), Fraction(1)),
    "daylight_top": (Fraction(1, 16), Fraction(1, 2)),
    "daylight_floor": (Fraction(13, 16), Fraction(1, 2)),
}
"""Leaf of an end's length -> how far below the rail's edge it is drawn, in parts of the drop, and how far it reaches
into the run (or, below zero, behind the post), in posts."""
