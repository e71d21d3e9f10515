"""The bed from above: head at the top, foot below, a post at each corner, the sections along its rails."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Final

from wizard.render.drawings.scene import Label, Pen, Scene
from wizard.render.drawings.sketch import PageSketch, pen_if, run_of, short_to_draw
from wizard.render.figure_text import unitless
from wizard.render.plain_text import literal
from wizard.trade.formatting import ruler_of
from wizard.trade.job_fields import Section, Side
from wizard.trade.lengths import ZERO, Length
from wizard.trade.sections import (
    ENDS,
    FROM_RIGHT,
    SIDES,
    End,
    first_end,
    goes_on,
    is_on,
    reach_of,
    section_name,
    share_the_rail,
    short_of,
    side_of,
    stops_short,
)

HALF: Final = Fraction(1, 2)
UPRIGHT: Final = 3
"""Rows of a short measure down a side: with fewer its tips would hide its line. Where there is no room for one at each
end, a side has that at its head end."""
Cell = tuple[int, int]
Places = tuple[Length, Length, Length, Length]
"""Of a section along its side: where it could begin, where it does, where it ends, and where it could end."""
INWARD: Final[dict[Side, Cell]] = {"left": (1, 0), "right": (-1, 0), "head": (0, 1), "foot": (0, -1)}
"""Side -> one cell from its rail into the bed."""
_NUMBER: Final = re.compile(r"\(\d+\)")


def bed_view(sketch: PageSketch, _: str) -> Scene:
    """The bed with what is known of its sections, the one in hand picked out, and what is measured at their ends."""
    view = _BedView(sketch)
    view.posts()
    for side in SIDES:
        view.rail(side)
    # It takes the shape of its place: sides that are longer than the foot may be drawn shorter.
    sketch.label(sketch.right // 2, sketch.bottom // 2 + 2, "not to scale")
    return sketch.scene("the bed from above")


def unlabelled(scene: Scene, lines: Sequence[str]) -> Iterator[str]:
    """The sections that are not named in `lines`, which the scene was drawn in: `(7) foot-2`, or the name alone where
    the number did not fit either."""
    drawn = "\n".join(lines)
    for each in scene.shapes:
        if isinstance(each, Label) and _NUMBER.fullmatch(each.short):
            name = literal(each.shorter[0])
            if each.short in drawn or name not in drawn:
                number = f"{each.short} " if each.short in drawn else ""
                yield f"{number}{name.removesuffix(' section')}"


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


class _BedView:
    """The places of the drawing, in cells."""

    def __init__(self, sketch: PageSketch) -> None:
        self.sketch, self.job, self.sections = sketch, sketch.job, sketch.job.survey.section
        self.wide, self.high = max(3, sketch.right // 14), 1 if sketch.low else 2
        self.free = sketch.bottom - 2 * self.high - 1
        """Rows between the posts of a side."""
        self.in_hand, _, self.leaf = sketch.in_hand.removeprefix("survey.section.").rpartition(".")

    def posts(self) -> None:
        """One at each corner."""
        for x in (0, self.sketch.right - self.wide):
            for y in (0, self.sketch.bottom - self.high):
                self.sketch.box(x, y, x + self.wide, y + self.high)

    def rail(self, side: Side) -> None:
        """Everything along one side: its sections one after the other, or a bare rail."""
        on = [each for each in self.sections.items() if side_of(*each) == side]
        placed = _placed(side, on)
        whole = max((upto for *_, upto in placed.values()), default=Length(1))
        self.sketch.line(*self._at(side, Fraction(0)), *self._at(side, Fraction(1)), "fine")
        if not any(is_on(section) for _, section in on):
            self.sketch.label(*self._at(side, HALF), f" {side} " if side in ("head", "foot") else "")
        for section_id, places in placed.items():
            cells = [self._at(side, place / whole) for place in places]
            self.sketch.line(*cells[1], *cells[2], self._pen(section_id))
            if is_on(self.sections[section_id]):
                self._name(side, section_id, cells[1], cells[2])
            for end in ENDS:
                self._end(side, section_id, end, cells if end == first_end(side) else cells[::-1])

    def _at(self, side: Side, part: Fraction) -> Cell:
        """The cell at a part of the way along a rail."""
        right, bottom = self.sketch.right, self.sketch.bottom
        if side in ("left", "right"):
            x = self.wide // 2 if side == "left" else right - self.wide // 2
            return x, self.high + int((bottom - 2 * self.high) * part + HALF)
        return self.wide + int((right - 2 * self.wide) * part + HALF), 0 if side == "head" else bottom

    def _pen(self, section_id: str) -> Pen:
        whole = section_id == self.in_hand and self.leaf.partition("_")[0] not in ENDS
        return pen_if(whole, "heavy" if is_on(self.sections[section_id]) else "fine")

    def _name(self, side: Side, section_id: str, first: Cell, last: Cell) -> None:
        """The section's name and its run, beside the middle of its rail, towards the middle of the bed; its number in
        the file where the name does not fit."""
        name, run = section_name(self.job, section_id), next(iter(self.sections[section_id].run), None)
        text = name if run is None else f"{name} {unitless(run, ruler_of(self.job))}"
        x, y = (first[0] + last[0]) // 2, (first[1] + last[1]) // 2
        number, pen = f"({list(self.sections).index(section_id) + 1})", pen_if(section_id == self.in_hand)
        if side in ("head", "foot"):
            self.sketch.label(x, y, f" {text} ", stays=True, pen=pen, shorter=(name,), short=number)
        else:
            x += INWARD[side][0] * (self.wide - self.wide // 2 + 2)
            self.sketch.label(x, y, text, "start" if side == "left" else "end", pen=pen, shorter=(name,), short=number)

    def _end(self, side: Side, section_id: str, end: End, cells: list[Cell]) -> None:
        """What is at one end of a section: the joint with the next one, or the post, and the lengths measured there.
        `cells`: the places of the section, from that end on."""
        section, (post, start, stop, _), inward = self.sections[section_id], cells, INWARD[side]
        between = goes_on(self.job.survey, section_id, end) and not stops_short(section, end)
        far = (start[0] + inward[0], start[1] + inward[1])
        if between:
            self.sketch.line(*start, *far, pen_if(self._asked(section_id, end, "between"), "heavy"))
        elif self._asked(section_id, end, "foot" if start[1] > self.sketch.bottom // 2 else "head"):
            left, top = self._corner(start)
            self.sketch.box(left, top, left + self.wide, top + self.high, "picked")
        leaf = f"{section_id}.{end}"
        if stops_short(section, end):
            self._measure((f"{leaf}_short",), post, start, "short of the post")
        own_row = start[1] < self.sketch.bottom // 2 or self.free >= 2 * UPRIGHT
        if side in ("left", "right") and (own_row or self.sketch.key(f"{leaf}_hook")):
            down = (stop[1] > start[1]) - (stop[1] < start[1])
            hook = (start[0] + inward[0] * (self.wide - self.wide // 2 - 1), start[1] + down)
            self._measure((f"{leaf}_hook", "corners.hooks"), hook, self._from(hook, (0, down)), "hook plate")
        kind = section.left_end if end == "left" else section.right_end
        if kind in ("returns", "overlaps") or self.sketch.key(f"{leaf}_return"):
            behind = far if between else self._behind(side, start)
            self._measure((f"{leaf}_return", "corners.returns"), behind, self._from(behind, inward), "return", "line")

    def _asked(self, section_id: str, end: End, where: str) -> bool:
        """True while what the cloth does at that end is asked for, or what it does at all ends like it."""
        own = section_id == self.in_hand and self.leaf.startswith(f"{end}_") and not self.sketch.key(self.leaf)
        return own or self.sketch.in_hand == f"corners.{where}"

    def _behind(self, side: Side, start: Cell) -> Cell:
        """Where a section that turns in behind its corner post begins to be seen: on the other rail's inner face."""
        left, top = self._corner(start)
        right, bottom = left + self.wide, top + self.high
        if side in ("left", "right"):
            return right + 1 if left == 0 else left - 1, 1 if top == 0 else bottom - 1
        return right if left == 0 else left, bottom + 1 if top == 0 else top - 1

    def _corner(self, start: Cell) -> Cell:
        """The upper left cell of the nearest post."""
        right, bottom = self.sketch.right, self.sketch.bottom
        return 0 if start[0] < right // 2 else right - self.wide, 0 if start[1] < bottom // 2 else bottom - self.high

    def _from(self, start: Cell, ahead: Cell) -> Cell:
        """The far end of a short measure."""
        down = max(0, min(UPRIGHT, self.free) - 1)
        return start[0] + ahead[0] * max(4, self.sketch.right // 10), start[1] + ahead[1] * down

    def _measure(self, leaves: tuple[str, ...], start: Cell, end: Cell, words: str, pen: Pen | None = None) -> None:
        """A length with its slot towards the middle of the bed; where the page does not ask for it, only its line."""
        (x1, y1), (x2, y2) = sorted((start, end))
        leaf, left = self.sketch.key(*leaves), x1 > self.sketch.right // 2
        if leaf is None and pen is not None:
            self.sketch.line(*start, *end, pen)
        elif leaf is not None and y1 == y2:
            self.sketch.level(leaf, x1, x2, y1, words, left=left)
        elif leaf is not None:
            self.sketch.upright(leaf, x1, y1, y2, words, left=left)
