"""The bed from above: head at the top, foot below, a post at each corner, the sections along its rails."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Final, Literal

from wizard.render.drawings.scene import Anchor, Box, Label, Pen, Scene, Shape, Stroke
from wizard.render.drawings.sketch import END_RUN, HALF, SIDE_RUN, reading, run_of, short_to_draw, sketch, value_label
from wizard.render.plain_text import literal
from wizard.trade.formatting import ruler_of
from wizard.trade.job_fields import Job, Section, Side
from wizard.trade.lengths import ZERO, Length
from wizard.trade.sections import (
    ENDS,
    FROM_RIGHT,
    SIDES,
    End,
    goes_on,
    is_on,
    reach_of,
    section_name,
    share_the_rail,
    short_of,
    short_read,
    side_of,
    stops_short,
)

Point = tuple[Length, Length]
AtEnd = Literal["post", "return", "short"]
"""What is picked out at an end of a section."""
POST: Final = Fraction(1, 10)
"""Size of a drawn post, as a part of the foot's run."""
LOWEST: Final = Fraction(4, 5)
"""How far down the name of a side's section is written at most, in parts of the height; and as far from below."""
_NUMBER: Final = re.compile(r"\(\d+\)")
BESIDE: Final[dict[Side, tuple[Fraction, Fraction, Anchor]]] = {
    "left": (Fraction(1), Fraction(0), "start"),
    "right": (Fraction(-1), Fraction(0), "end"),
    "head": (Fraction(0), Fraction(3, 2), "middle"),
    "foot": (Fraction(0), Fraction(-3, 2), "middle"),
}
"""Side -> where the value of what is measured along it is written: how far right and down, in posts, and its anchor."""


def bed_plan(job: Job, section_id: str | None = None, end: End | None = None, at_end: AtEnd = "post") -> Scene:
    """The bed drawn from what is known of it, with the section `section_id` picked out (a side's own name picks out its
    bare rail), or with `end` only that end of it, seen from the room: the post there, how far it turns in behind it, or
    how far short of it it stops."""
    return _BedPlan(job, section_id, end, at_end).scene()


def unlabelled_sections(scene: Scene, lines: Sequence[str]) -> Iterator[str]:
    """The sections that are not named in `lines`, which the scene was drawn in: `(7) foot-2`, or the name alone where
    the number did not fit either."""
    drawn = "\n".join(lines)
    for each in scene.shapes:
        if isinstance(each, Label) and _NUMBER.fullmatch(each.short):
            name = literal(each.shorter[0])
            if each.short in drawn or name not in drawn:
                number = f"{each.short} " if each.short in drawn else ""
                yield f"{number}{name.removesuffix(' section')}"


Places = tuple[Length, Length, Length, Length]
"""Of a section along its side: where it could begin, where it does, where it ends, and where it could end."""


def _placed(side: Side, sections: list[tuple[str, Section]]) -> dict[str, Places]:
    """The sections of a side one after the other; those that are each read to the bed's corner posts where they say."""
    head, foot = ENDS[::-1] if side in FROM_RIGHT else ENDS
    if share_the_rail([section for _, section in sections]):
        return _within_the_rail(sections, head, foot)
    placed, at = dict[str, Places](), ZERO
    for section_id, section in sections:
        run = run_of(section_id, section)
        begins = at + short_to_draw(section, head, run)
        upto = begins + run + short_to_draw(section, foot, run)
        placed[section_id], at = (at, begins, begins + run, upto), upto
    return placed


def _within_the_rail(sections: list[tuple[str, Section]], head: End, foot: End) -> dict[str, Places]:
    placed, at = dict[str, Places](), ZERO
    whole = max(reach_of(section) or ZERO for _, section in sections)
    for section_id, section in sorted(sections, key=lambda pair: short_of(pair[1], head)):
        run, first, last = run_of(section_id, section), short_of(section, head), short_of(section, foot)
        begins = first or (max(whole - last - run, ZERO) if last else at)
        at = begins + run
        placed[section_id] = ZERO if first else begins, begins, at, whole if last else at
    return {section_id: placed[section_id] for section_id, _ in sections}


class _BedPlan:
    """The measures of the drawing: x from the bed's left, y from the head."""

    def __init__(self, job: Job, picked: str | None, end: End | None, at_end: AtEnd) -> None:
        self.job, self.picked, self.end, self.at_end, self.ruler = job, picked or "", end, at_end, ruler_of(job)
        self.sections = job.survey.section
        self.section = self.sections.get(self.picked, Section())
        self.side = side_of(self.picked, self.section)
        on = {side: [each for each in self.sections.items() if side_of(*each) == side] for side in SIDES}
        self.placed = {side: _placed(side, sections) for side, sections in on.items()}
        self.whole = {
            side: max((upto for *_, upto in placed.values()), default=ZERO) for side, placed in self.placed.items()
        }
        # As long as its longer side, or a stand-in while neither is there.
        wide = max(self.whole["foot"], self.whole["head"]) or END_RUN
        self.post = wide * POST
        self.right = self.post + wide
        self.foot = self.post + (max(self.whole["left"], self.whole["right"]) or SIDE_RUN)

    def scene(self) -> Scene:
        corners = [(x, y) for x in (ZERO, self.right) for y in (ZERO, self.foot)]
        picked = self._picked_post()
        posts = [
            Box(*at, self.post, self.post, "picked" if at == picked and self.at_end == "post" else "line")
            for at in dict.fromkeys((*corners, picked) if picked else corners)
        ]
        returned = self._return(*picked) if picked and self.at_end == "return" else []
        rails = (shape for side in SIDES for shape in self._rail(side))
        middle = (self.post + self.right) / 2
        head = Label(middle, self.post * Fraction(9, 4), "head of the bed")
        foot = Label(middle, self.foot - self.post * Fraction(5, 4), "foot of the bed")
        shapes = (*posts, *rails, *returned, head, foot)
        return sketch("the bed from above", self.right + self.post, self.foot + self.post, shapes)

    def _return(self, x: Length, y: Length) -> list[Shape]:
        """How far a section turns in behind the post with its corner there: along the other rail, inside the bed."""
        value = value_label(self.section.left_return if self.end == "left" else self.section.right_return, self.ruler)
        right, down = (-1 if x > ZERO else 1), (-1 if y > ZERO else 1)
        # Half a post inside the corner; behind a post between two sections, in its middle.
        across = x + self.post * (Fraction(1, 2) if ZERO < x < self.right else Fraction(1, 2) + right)
        along = y + self.post * (Fraction(1, 2) if ZERO < y < self.foot else Fraction(1, 2) + down)
        if self.side in ("left", "right"):
            start = (self.right if x > ZERO else self.post, along)
            far = (start[0] + self.post * 2 * right, along)
        else:
            start = (across, self.foot if y > ZERO else self.post)
            far = (across, start[1] + self.post * 2 * down)
        label = Label(far[0] + self.post * right / 4, far[1], value, "start" if right > 0 else "end", "picked")
        return [Stroke(*start, *far, "picked", "both"), label]

    def _picked_post(self) -> Point | None:
        """Where the post at the asked end is drawn; a section's left end is the head end on the left, and so round.

        Where another section goes on from that end it is drawn between the two."""
        if self.side is None or self.end is None:
            return None
        at_start = (self.end == "left") != (self.side in FROM_RIGHT)
        if stops_short(self.section, self.end) or not goes_on(self.job.survey, self.picked, self.end):
            x, y = self._ends(self.side)[0 if at_start else 1]
            return (ZERO if x < self.right else self.right, ZERO if y < self.foot else self.foot)
        x, y = self._at(self.side, self.placed[self.side][self.picked][1 if at_start else 2])
        return (x - self.post / 2, y - self.post / 2)

    def _rail(self, side: Side) -> list[Shape]:
        """Everything along one side: its sections one after the other, or a bare rail."""
        if not self.placed[side]:
            start, end = self._ends(side)
            return [Stroke(*start, *end, "picked" if side == self.picked else "fine")]
        shapes, bare = list[Shape](), list[Shape]()
        head, foot = ENDS[::-1] if side in FROM_RIGHT else ENDS
        for section_id, (begin, first_at, last_at, end_at) in self.placed[side].items():
            section, first, last = self.sections[section_id], self._at(side, first_at), self._at(side, last_at)
            shapes.append(Stroke(*first, *last, self._pen(section_id, section)))
            if is_on(section):
                shapes.append(self._name(side, section_id, section, _between(first, last, HALF)))
            bare += self._bare(side, section_id, head, (begin, first_at))
            bare += self._bare(side, section_id, foot, (last_at, end_at))
        # A bare rail may have other sections on it; the measure is drawn over all of them.
        fine = [each for each in bare if isinstance(each, Stroke) and each.pen == "fine"]
        return [*fine, *shapes, *(each for each in bare if each not in fine)]

    def _bare(self, side: Side, section_id: str, at: End, stretch: tuple[Length, Length]) -> list[Shape]:
        """The rail between an end that stops short and its post."""
        if stretch[0] == stretch[1]:
            return []
        first, last = (self._at(side, place) for place in stretch)
        if (section_id, at, "short") != (self.picked, self.end, self.at_end):
            return [Stroke(*first, *last, "fine")]
        (x, y), (right, down, anchor) = _between(first, last, HALF), BESIDE[side]
        value = value_label(short_read(self.sections[section_id], at), self.ruler)
        label = Label(x + self.post * right, y + self.post * down, value, anchor, "picked")
        return [Stroke(*first, *last, "picked", "both"), label]

    def _ends(self, side: Side) -> tuple[Point, Point]:
        """Where a rail begins and ends: along the middle of its posts."""
        half = self.post / 2
        if side in ("left", "right"):
            x = half if side == "left" else self.right + half
            return (x, self.post), (x, self.foot)
        y = self.foot + half if side == "foot" else half
        return (self.post, y), (self.right, y)

    def _at(self, side: Side, place: Length) -> Point:
        """A place along a side."""
        return _between(*self._ends(side), place / self.whole[side])

    def _pen(self, section_id: str, section: Section) -> Pen:
        if section_id == self.picked and self.end is None:
            return "picked"
        return "line" if is_on(section) else "fine"

    def _name(self, side: Side, section_id: str, section: Section, at: Point) -> Label:
        """The section's name and its run, beside the middle of its rail, towards the middle of the bed; its number in
        the file where the name does not fit."""
        x, y = at
        name = section_name(self.job, section_id)
        run = reading(section.run, 1)
        text = name if run is None else f"{name} {value_label(run, self.ruler)}"
        pen: Pen = "picked" if section_id == self.picked else "line"
        number = f"({list(self.sections).index(section_id) + 1})"
        if side == "left":
            return Label(x + self.post * Fraction(3, 4), self._inside(y), text, "start", pen, number, (name,))
        if side == "right":
            # A little lower than those on the left.
            low = self._inside(y + self.post * Fraction(3, 2))
            return Label(x - self.post * Fraction(3, 4), low, text, "end", pen, number, (name,))
        return Label(x, y, f" {text} ", "middle", pen, number, (name,), stays=True)

    def _inside(self, y: Length) -> Length:
        """The height for a name meant for `y`: clear of head and foot, which have their own names there."""
        height = self.foot + self.post
        return min(max(y, height * (1 - LOWEST)), height * LOWEST)


def _between(start: Point, end: Point, part: Fraction) -> Point:
    return start[0] + (end[0] - start[0]) * part, start[1] + (end[1] - start[1]) * part
