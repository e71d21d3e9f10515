"""One side as seen from the room: posts, rail, runs, drops to the floor, and what is in the way."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from wizard.render.drawings.page_sketch import PageSketch
from wizard.render.drawings.scene import Scene
from wizard.render.drawings.sketch import or_stand_in, reading, run_of
from wizard.trade.job_fields import Obstacle, Section
from wizard.trade.lengths import ZERO, Length
from wizard.trade.sections import ENDS, FROM_RIGHT, end_in_words, section_name, side_of, stops_short

LEAST_READINGS: Final = 3
MOST_READINGS: Final = 40
"""A number beyond this is no reading that could be drawn."""
POST: Final = 15
"""A post is drawn as wide as this part of the drawing."""


def side_view(sketch: PageSketch, section_id: str) -> Scene:
    """The section with its runs and drops. One that is not there yet is drawn with nothing read."""
    view = _SideView(sketch, section_id)
    view.frame()
    view.things()
    view.runs()
    view.drops()
    return sketch.scene(f"{section_name(sketch.job, section_id)}, seen from the room")


class _SideView:
    """The places of the drawing, in cells."""

    def __init__(self, sketch: PageSketch, section_id: str) -> None:
        self.sketch, self.id = sketch, section_id
        self.section = sketch.job.survey.section.get(section_id, Section())
        self.side = side_of(section_id, self.section)
        self.post = max(2, sketch.right // POST)
        self.start, self.end = self.post, sketch.right - self.post
        self.rail = 2
        self.floor = sketch.bottom

    def frame(self) -> None:
        """Posts, rail and floor."""
        for x, end in ((0, ENDS[0]), (self.end, ENDS[1])):
            if not stops_short(self.section, end):
                self.sketch.box(x, 1, x + self.post, self.floor)
        self.sketch.label(0, 0, end_in_words(self.side, "left"), "start", stays=True)
        self.sketch.label(self.sketch.right, 0, end_in_words(self.side, "right"), "end", stays=True)
        self.sketch.line(self.start, self.rail, self.end, self.rail, "heavy")
        self.sketch.line(0, self.floor, self.sketch.right, self.floor, "heavy")
        self.sketch.label(self.start + 3, self.rail, " rail ", "start", stays=True)
        self.sketch.label(self.start + 3, self.floor, " floor ", "start", stays=True)

    def runs(self) -> None:
        """At the rail, and near the floor."""
        self.sketch.level("run.1", self.start + 1, self.end - 1, 1, "run at the rail")
        y = self.floor - (2 if self.sketch.low else 3)
        x = self.start + (self.end - self.start) * 3 // 4
        self.sketch.measure("run.2", (self.start + 1, y, self.end - 1, y), (x, y), "middle", "near the floor")

    def drops(self) -> None:
        """Each from the rail's lower edge to the floor, its slot on the side with more space."""
        places = self.places()
        row = (self.rail + self.floor) // 2 - (1 if self.sketch.low else 0)
        for number, x in enumerate(places, start=1):
            leaf, ends = f"drop.{number}", (x, self.rail + 1, x, self.floor - 1)
            last = x * 2 > self.start + self.end and number == len(places)
            if self.sketch.key(leaf) is None:
                self.sketch.line(*ends, "fine", "both")
            self.sketch.measure(leaf, ends, (x - 2 if last else x + 2, row), "end" if last else "start")
        self._place_in_hand(places)

    def _place_in_hand(self, places: list[int]) -> None:
        """How far a drop is from the left end, while that is asked for."""
        for number, x in enumerate(places, start=1):
            if self.sketch.pen(f"{self.id}.drop_at.{number}") == "picked":
                self.sketch.line(self.start, self.rail + 1, x, self.rail + 1, "picked", "both")

    def places(self) -> list[int]:
        """Where each drop is drawn: where it says, or spaced evenly; at an end a little inside, clear of the post."""
        asked = [int(each.rpartition(".")[2]) for each in self.sketch.keys if f"{self.id}.drop." in each]
        section = self.section
        count = max(
            LEAST_READINGS, len(section.drop), len(section.drop_at), *(min(each, MOST_READINGS) for each in asked)
        )
        first, last = self.start + 2, self.end - 2
        evenly = [first + (last - first) * number // (count - 1) for number in range(count)]
        stated = [reading(self.section.drop_at, number) for number in range(1, count + 1)]
        return [usual if at is None else self.cell(at) for at, usual in zip(stated, evenly, strict=True)]

    def cell(self, at: Length) -> int:
        """The column at a place along the rail, from the left end."""
        part = min(max(at / run_of(self.id, self.section), Fraction(0)), Fraction(1))
        return self.start + 2 + int((self.end - self.start - 4) * part)

    def things(self) -> None:
        """What is in the way, on the floor, with its name."""
        for thing_id, thing in self.section.in_the_way.items():
            wide = or_stand_in(thing.width, ZERO) / run_of(self.id, self.section) * (self.end - self.start)
            half = min(max(1, int(wide) // 2), (self.end - self.start) // 2 - 1)
            middle = min(max(self.cell(self.from_left(thing)), self.start + half + 1), self.end - half - 1)
            top = self.floor - (1 if self.sketch.low else 2)
            self.sketch.box(middle - half, top, middle + half, self.floor, "fine")
            name = thing.name or thing.kind or thing_id
            self.sketch.label(middle + half + 2, self.floor - 1, name, "start")

    def from_left(self, thing: Obstacle) -> Length:
        """Its middle from the section's left end; it is read from the head, or from the bed's left."""
        run = run_of(self.id, self.section)
        at = or_stand_in(thing.at, run / 2)
        return run - at if self.side in FROM_RIGHT else at
