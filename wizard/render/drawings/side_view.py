"""One side as seen from the room: posts, rail, runs, drops to the floor, and what is in the way."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise, zip_longest
from typing import Final

from wizard.render.drawings.scene import Scene
from wizard.render.drawings.sketch import ON_THE_LINE, PageSketch, or_stand_in, pen_if, run_of
from wizard.trade.drops_and_cut_lengths import LEAST_READINGS
from wizard.trade.formatting import ruler_of, shown
from wizard.trade.job_fields import Obstacle, Section
from wizard.trade.lengths import ZERO, Length
from wizard.trade.sections import (
    ENDS,
    FROM_RIGHT,
    end_in_words,
    first_end,
    section_name,
    sections_on,
    side_of,
    stops_short,
)

POST: Final = 15
"""A post is drawn as wide as this part of the drawing."""


def side_view(sketch: PageSketch, section_id: str) -> Scene:
    """The section with its runs and drops. One that is not there yet is drawn with nothing read."""
    view = _SideView(sketch, section_id, rail=2)
    view.frame()
    view.things()
    view.runs()
    view.drops()
    return sketch.scene(f"{section_name(sketch.job, section_id)}, seen from the room")


def thing_view(sketch: PageSketch, subject: str) -> Scene:
    """A thing in the way, `left.leg`: how far along the rail, how wide and high, and the overlap of a split in front
    of it. It is drawn in the middle of its side, wherever it is."""
    section_id, _, thing_id = subject.partition(".")
    view = _SideView(sketch, section_id, rail=1)
    thing = view.section.in_the_way.get(thing_id, Obstacle())
    view.frame()
    view.thing(thing.name or thing.kind or thing_id)
    return sketch.scene(f"{thing.name or thing_id} in the way of the {section_name(sketch.job, section_id)}")


class _SideView:
    """The places of the drawing, in cells."""

    def __init__(self, sketch: PageSketch, section_id: str, rail: int) -> None:
        self.sketch, self.id, self.rail = sketch, section_id, rail
        self.section = sketch.job.survey.section.get(section_id, Section())
        self.side = side_of(section_id, self.section)
        self.post = max(2, sketch.right // POST)
        self.start, self.end = self.post, sketch.right - self.post
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
        x = self.start + (self.end - self.start) // 4
        self.sketch.measure("run.2", (self.start + 1, y, self.end - 1, y), (x, y), "middle", "near the floor")

    def drops(self) -> None:
        """Each from the rail's lower edge to the floor, its slot on the side with more space."""
        places, known = self.places(), self._known()
        row = (self.rail + self.floor) // 2 - (1 if self.sketch.low else 0)
        for number, x in enumerate(places[:known], start=1):
            leaf, ends = f"drop.{number}", (x, self.rail + 1, x, self.floor - 1)
            last = x * 2 > self.start + self.end and number == known
            if self.sketch.key(leaf) is None:
                self.sketch.line(*ends, "fine", tips=True)
            self.sketch.measure(leaf, ends, (x - 2 if last else x + 2, row), "end" if last else "start")
        for number, x in enumerate(places, start=1):
            if self.sketch.pen(f"{self.id}.drop_at.{number}") == "picked":
                self.sketch.line(self.start, self.rail + 1, x, self.rail + 1, "picked", tips=True)
            elif number > known and self.sketch.pen(f"{self.id}.drop.{number}") == "picked":
                self.sketch.line(x, self.rail + 1, x, self.floor - 1, "picked", tips=True)

    def _known(self) -> int:
        """How many drops are drawn."""
        return max(LEAST_READINGS, len(self.section.drop), len(self.section.drop_at))

    def places(self) -> list[int]:
        """Where each drop is drawn: where it says, or spaced evenly; at an end a little inside, clear of the post. The
        last is where one more is drawn while it is asked for: between the two before it, and moves none of them."""
        known, first, last = self._known(), self.start + 2, self.end - 2
        evenly = [first + (last - first) * number // (known - 1) for number in range(known)]
        pairs = zip_longest(self.section.drop_at, evenly)
        drawn = [usual if at is None else self.cell(at) for at, usual in pairs]
        return [*drawn, (drawn[-2] + drawn[-1]) // 2]

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

    def thing(self, name: str) -> None:
        """One thing, large, with its measures."""
        draw, middle = self.sketch, (self.start + self.end) // 2
        half = ON_THE_LINE // 2 + 3
        top = self.floor // 2 if not draw.low else self.rail + 3
        at = self.rail + (1 if draw.low else 2)
        draw.box(middle - half, top, middle + half, self.floor)
        draw.label(middle, self.floor - 1, name)
        draw.line(middle, self.rail, middle, at, "fine")
        from_right = self.side in FROM_RIGHT
        along = f"middle, from the {end_in_words(self.side, first_end(self.side)) if self.side else 'left end'}"
        room = middle - self.start - ON_THE_LINE + 3
        words = next((each for each in (along, "middle") if len(each) <= room), "")
        draw.level("at", *((middle, self.end - 1) if from_right else (self.start + 1, middle)), at, words)
        other = (middle - 6, middle - 1) if from_right else (middle + 1, middle + 6)
        draw.level("overlap", *other, at, "overlap", left=from_right)
        draw.level("width", middle - half, middle + half, top - 1, "width")
        draw.upright("height", middle - half + 2, top + 1, self.floor - 1, "height")


def hem_view(sketch: PageSketch, section_id: str) -> Scene:
    """What to do about an uneven floor: a level hem beside one that follows it, on the section that is most uneven
    unless another is named. The floor is drawn steeper than it is."""
    sections = dict(sections_on(sketch.job))
    uneven = max(sections, key=lambda each: _spread(sections[each]), default="")
    section_id = section_id or uneven
    section = sketch.job.survey.section.get(section_id, Section())
    half = (sketch.right - 3) // 2
    for left, line in ((0, "level"), (sketch.right - half, "follow the floor")):
        _hem(sketch, section, (left, left + half), line)
    return sketch.scene(f"{section_name(sketch.job, section_id)}: the hem level, or along the floor")


def _spread(section: Section) -> Length:
    """How much its drops differ."""
    drops = [each for each in section.drop if each is not None]
    return max(drops) - min(drops) if drops else ZERO


def _hem(sketch: PageSketch, section: Section, ends: tuple[int, int], line: str) -> None:
    """One of the two: its rail, the floor under it, and its hem a little above that."""
    drops = [each for each in section.drop if each is not None] or [ZERO]
    (left, right), deep = ends, max(1, sketch.bottom // 2)
    least, spread = min(drops), _spread(section)
    rows = [sketch.bottom - deep + (round(deep * ((each - least) / spread)) if spread else deep) for each in drops]
    columns = [left + (right - left) * number // max(len(rows) - 1, 1) for number in range(len(rows))]
    floor = list(dict.fromkeys([*zip(columns, rows, strict=True), (right, rows[-1])]))
    hem = [(x, min(rows) if line == "level" else y) for x, y in floor]
    chosen = (section.hem_line or "level") == line and sketch.in_hand.endswith(("hem_line", "hem.line"))
    sketch.label((left + right) // 2, 0, {"level": "level"}.get(line, "along the floor"))
    sketch.line(left, 1, right, 1, "heavy")
    sketch.label(left + 2, 1, " rail ", "start", stays=True)
    for (x1, y1), (x2, y2) in pairwise(floor):
        sketch.line(x1, y1, x2, y2, "heavy")
    for (x1, y1), (x2, y2) in pairwise(hem):
        sketch.line(x1, y1 - 1, x2, y2 - 1, pen_if(chosen))
    if line == "level" and spread:
        sketch.label((left + right) // 2, min(rows) - 2, f"the floor falls {shown(spread, ruler_of(sketch.job))}")
