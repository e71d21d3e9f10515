"""The bed from above: head at the top, foot below, a post at each corner, the sections along its rails."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Final, Literal

from wizard.render.drawings.scene import Box, Label, Pen, Scene, Shape, Stroke
from wizard.render.drawings.sketch import END_RUN, SIDE_RUN, reading, run_of, short_to_draw, value_label
from wizard.render.plain_text import literal
from wizard.trade.formatting import ruler_of
from wizard.trade.lengths import ZERO, Length
from wizard.trade.model import Job, Section, Side
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

Sections = list[tuple[str, Section]]
AtEnd = Literal["post", "return", "short"]
"""What is picked out at an end of a section."""
POST: Final = Fraction(1, 10)
"""Size of a drawn post, as a part of the foot's run."""
LOWEST: Final = Fraction(4, 5)
"""How far down the name of a side's section stands at most, as a part of the whole height; and as far from below."""
_NUMBER: Final = re.compile(r"\(\d+\)")


def bed_plan(job: Job, section_id: str | None = None, end: End | None = None, at_end: AtEnd = "post") -> Scene:
    """The bed drawn from what is known of it, with the section `section_id` picked out (a side's own name picks out its
    bare rail), or with `end` only that end of it, seen from the room: the post there, how far it turns in behind it, or
    how far short of it it stops."""
    return _BedPlan(job, section_id, end, at_end).scene()


def unlabelled_sections(scene: Scene, lines: Sequence[str]) -> Iterator[str]:
    """The sections that are not named in `lines`, which the scene was drawn in: `(7) foot-2`, or the name alone where
    there was no room for the number either."""
    drawn = "\n".join(lines)
    for each in scene.shapes:
        if isinstance(each, Label) and _NUMBER.fullmatch(each.short):
            name = literal(each.shorter[0])
            if each.short in drawn or name not in drawn:
                number = f"{each.short} " if each.short in drawn else ""
                yield f"{number}{name.removesuffix(' section')}"


class _BedPlan:
    """The measures of the drawing: x from the bed's left, y from the head."""

    def __init__(self, job: Job, picked: str | None, end: End | None, at_end: AtEnd) -> None:
        self.job, self.picked, self.end, self.ruler = job, picked, end, ruler_of(job)
        self.at_end = at_end
        sections = job.survey.section.items()
        self.on: dict[Side, Sections] = {
            side: [(each, section) for each, section in sections if side_of(each, section) == side] for side in SIDES
        }
        wide = self._extent("foot", "head", END_RUN)
        self.post = wide * POST
        self.right = self.post + wide
        self.foot = self.post + self._extent("left", "right", SIDE_RUN)

    def _extent(self, one: Side, other: Side, stand_in: Length) -> Length:
        """How long the bed is drawn that way: by its longer side, or by a stand-in while neither is there."""
        return max(self._whole(one), self._whole(other)) or stand_in

    def _along(self, side: Side) -> dict[str, tuple[Length, Length, Length, Length]]:
        """Four places along a side for each of its sections: where it could begin, where it does, where it ends, and
        where it could end."""
        along: dict[str, tuple[Length, Length, Length, Length]] = {}
        at = ZERO
        if share_the_rail([section for _, section in self.on[side]]):
            return self._within_the_rail(side)
        for section_id, section in self.on[side]:
            run = run_of(section_id, section)
            first, last = (short_to_draw(section, end, run) for end in (ENDS[::-1] if side in FROM_RIGHT else ENDS))
            along[section_id] = at, at + first, at + first + run, at + first + run + last
            at = along[section_id][-1]
        return along

    def _within_the_rail(self, side: Side) -> dict[str, tuple[Length, Length, Length, Length]]:
        """The same for sections that are each read to the bed's corner posts: they lie where they say."""
        along: dict[str, tuple[Length, Length, Length, Length]] = {}
        whole, at = max(reach_of(section) or ZERO for _, section in self.on[side]), ZERO
        head, foot = ENDS[::-1] if side in FROM_RIGHT else ENDS
        for section_id, section in sorted(self.on[side], key=lambda pair: short_of(pair[1], head)):
            run, first, last = run_of(section_id, section), short_of(section, head), short_of(section, foot)
            begins = first or (max(whole - last - run, ZERO) if last else at)
            at = begins + run
            along[section_id] = ZERO if first else begins, begins, at, whole if last else at
        return along

    def _whole(self, side: Side) -> Length:
        """A side as far as its sections go, from post to post."""
        return max((upto for *_, upto in self._along(side).values()), default=ZERO)

    def scene(self) -> Scene:
        corners = [(x, y) for x in (ZERO, self.right) for y in (ZERO, self.foot)]
        picked = self._picked_post()
        between = [picked] if picked and picked not in corners else []
        posts = [
            Box(*at, self.post, self.post, "picked" if at == picked and self.at_end == "post" else "line")
            for at in (*corners, *between)
        ]
        returned = self._return(*picked) if picked and self.at_end == "return" else []
        rails = [shape for side in SIDES for shape in self._rail(side)]
        middle = (self.post + self.right) / 2
        words = [
            Label(middle, self.post * Fraction(9, 4), "head of the bed"),
            Label(middle, self.foot - self.post * Fraction(5, 4), "foot of the bed"),
        ]
        size = (self.right + self.post, self.foot + self.post)
        return Scene("the bed from above", *size, (*posts, *rails, *returned, *words), to_scale=False)

    def _return(self, x: Length, y: Length) -> list[Shape]:
        """How far a section turns in behind the post whose corner lies there: along the other rail, inside the bed."""
        section = self.job.survey.section.get(self.picked or "", Section())
        value = value_label(section.left_return if self.end == "left" else section.right_return, self.ruler)
        right, down = (-1 if x > ZERO else 1), (-1 if y > ZERO else 1)
        # Half a post inside the corner; behind a post between two sections, in its middle.
        across = x + self.post * (Fraction(1, 2) if ZERO < x < self.right else Fraction(1, 2) + right)
        along = y + self.post * (Fraction(1, 2) if ZERO < y < self.foot else Fraction(1, 2) + down)
        inside = (self.right if x > ZERO else self.post, self.foot if y > ZERO else self.post)
        if side_of(self.picked or "", section) in ("left", "right"):
            far = inside[0] + self.post * 2 * right
            label = Label(far + self.post * right / 4, along, value, "start" if right > 0 else "end", "picked")
            return [Stroke(inside[0], along, far, along, "picked", "both"), label]
        far = inside[1] + self.post * 2 * down
        label = Label(across + self.post * right / 4, far, value, "start" if right > 0 else "end", "picked")
        return [Stroke(across, inside[1], across, far, "picked", "both"), label]

    def _picked_post(self) -> tuple[Length, Length] | None:
        """Where the post at the asked end is drawn; a section's left end is the head end on the left, and so round.

        Where another section goes on from that end it is drawn between the two."""
        section = self.job.survey.section.get(self.picked or "", Section())
        side = side_of(self.picked or "", section)
        if side is None or self.end is None:
            return None
        at_start = (self.end == "left") != (side in FROM_RIGHT)
        start, last = self._ends(side)
        if stops_short(section, self.end) or not goes_on(self.job.survey, self.picked or "", self.end):
            x, y = start if at_start else last
            return (ZERO if x < self.right else self.right, ZERO if y < self.foot else self.foot)
        _, begins, ends, _ = self._along(side)[self.picked or ""]
        x, y = _between(start, last, (begins if at_start else ends) / self._whole(side))
        return (x - self.post / 2, y - self.post / 2)

    def _rail(self, side: Side) -> list[Shape]:
        """Everything along one side: its sections one after the other, or a bare rail."""
        start, end = self._ends(side)
        sections = self.on[side]
        if not sections:
            return [Stroke(*start, *end, "picked" if side == self.picked else "fine")]
        whole, shapes, bare = self._whole(side), list[Shape](), list[Shape]()
        for section_id, section in sections:
            begin, first_at, last_at, end_at = self._along(side)[section_id]
            first, last = (_between(start, end, place / whole) for place in (first_at, last_at))
            shapes.append(Stroke(*first, *last, self._pen(section_id, section)))
            if is_on(section):
                shapes.append(self._name(side, section_id, section, first, last))
            ends: tuple[End, End] = ("right", "left") if side in FROM_RIGHT else ("left", "right")
            bare += self._bare(side, section_id, ends[0], (begin, first_at))
            bare += self._bare(side, section_id, ends[1], (last_at, end_at))
        # A bare rail may have other sections on it; what is measured lies over all of them.
        fine = [each for each in bare if isinstance(each, Stroke) and each.pen == "fine"]
        return [*fine, *shapes, *(each for each in bare if each not in fine)]

    def _bare(self, side: Side, section_id: str, at: End, stretch: tuple[Length, Length]) -> list[Shape]:
        """The rail between an end that stops short and its post."""
        if stretch[0] == stretch[1]:
            return []
        start, end = self._ends(side)
        first, last = (_between(start, end, place / self._whole(side)) for place in stretch)
        if (section_id, at, "short") != (self.picked, self.end, self.at_end):
            return [Stroke(*first, *last, "fine")]
        x, y = (first[0] + last[0]) / 2, (first[1] + last[1]) / 2
        value = value_label(short_read(self.job.survey.section[section_id], at), self.ruler)
        if side in ("left", "right"):
            inwards = 1 if side == "left" else -1
            label = Label(x + self.post * inwards, y, value, "start" if inwards > 0 else "end", "picked")
        else:
            label = Label(
                x, y + self.post * (Fraction(-3, 2) if side == "foot" else Fraction(3, 2)), value, "middle", "picked"
            )
        return [Stroke(*first, *last, "picked", "both"), label]

    def _ends(self, side: Side) -> tuple[tuple[Length, Length], tuple[Length, Length]]:
        """Where a rail begins and ends: along the middle of its posts."""
        half = self.post / 2
        if side in ("left", "right"):
            x = half if side == "left" else self.right + half
            return (x, self.post), (x, self.foot)
        y = self.foot + half if side == "foot" else half
        return (self.post, y), (self.right, y)

    def _pen(self, section_id: str, section: Section) -> Pen:
        if section_id == self.picked and self.end is None:
            return "picked"
        return "line" if is_on(section) else "fine"

    def _name(
        self, side: Side, section_id: str, section: Section, first: tuple[Length, Length], last: tuple[Length, Length]
    ) -> Label:
        """The section's name and its run, beside its rail, towards the middle of the bed; its number in the file where
        the name has no room."""
        x, y = (first[0] + last[0]) / 2, (first[1] + last[1]) / 2
        name = section_name(self.job, section_id)
        run = reading(section.run, 1)
        text = name if run is None else f"{name} {value_label(run, self.ruler)}"
        pen: Pen = "picked" if section_id == self.picked else "line"
        number = f"({list(self.job.survey.section).index(section_id) + 1})"
        if side == "left":
            return Label(x + self.post * Fraction(3, 4), self._inside(y), text, "start", pen, number, (name,))
        if side == "right":
            # A little lower than those on the left.
            low = self._inside(y + self.post * Fraction(3, 2))
            return Label(x - self.post * Fraction(3, 4), low, text, "end", pen, number, (name,))
        return Label(x, y, f" {text} ", "middle", pen, number, (name,), stays=True)

    def _inside(self, y: Length) -> Length:
        """The height for a name that would stand at `y`: clear of head and foot, whose names have those rows."""
        height = self.foot + self.post
        return min(max(y, height * (1 - LOWEST)), height * LOWEST)


def _between(start: tuple[Length, Length], end: tuple[Length, Length], part: Fraction) -> tuple[Length, Length]:
    return start[0] + (end[0] - start[0]) * part, start[1] + (end[1] - start[1]) * part
