"""What sketches are made of: shapes in plain units, stand-ins for missing answers, and a page's sketch in cells."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, Final

from wizard.render.drawings.placing import BRACKETED
from wizard.render.drawings.scene import Anchor, Box, Label, Pen, Scene, Shape, Stroke
from wizard.trade.job_fields import Section
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan_records import Plan
from wizard.trade.sections import End, short_of, side_of, stops_short

SIDE_RUN: Final = Length(76)
"""Stands in for the run of a side section until it is read."""
END_RUN: Final = Length(58)
"""Stands in for the run of a foot or head section."""
SEEN: Final = 6
"""A rail that is left bare is drawn at least as long as this part of the run."""


def or_stand_in(length: Length | None, stand_in: Length) -> Length:
    """`length` where it can be drawn, which takes more than nothing; else the stand-in."""
    return length if length is not None and length > ZERO else stand_in


def run_of(section_id: str, section: Section) -> Length:
    """The run to draw: the reading at the rail, else the one near the floor, else a stand-in."""
    stand_in = END_RUN if side_of(section_id, section) in ("foot", "head") else SIDE_RUN
    return or_stand_in(next((each for each in section.run if each is not None), None), stand_in)


def short_to_draw(section: Section, end: End, run: Length) -> Length:
    """How far short of its post to draw the run: enough to be seen, also while it is not known; ZERO for one that goes
    up to it."""
    return max(short_of(section, end), run / SEEN) if stops_short(section, end) else ZERO


ON_THE_LINE: Final = BRACKETED + 8
"""A level line as long as this has its slot on it, and shows on both sides; that of a shorter one is beside it."""
LOW: Final = 10
"""A drawing with fewer rows leaves out what only helps."""


_TURNED: Final[dict[Anchor, Anchor]] = {"start": "end", "middle": "middle", "end": "start"}


class PageSketch:
    """Shapes in cells, from (0, 0) to (`right`, `bottom`). The place of a slot never depends on what is typed in it."""

    def __init__(self, plan: Plan, keys: Iterable[str], in_hand: str, columns: int, rows: int) -> None:
        self.plan, self.job, self.keys, self.in_hand = plan, plan.job, tuple(keys), in_hand
        self.right, self.bottom = columns - 1, rows - 1
        self.low = rows < LOW
        self.shapes: list[Shape] = []
        self._slotted = set[str]()
        self.letters: dict[str, str] = {}
        """Key -> the letter that marks its length, on a drawing without slots."""
        self.mirrored = (False, False)
        """Whether left and right are drawn changed over, and whether top and bottom are."""

    def scene(self, title: str) -> Scene:
        """What is drawn so far."""
        size = Length(max(self.right, 1)), Length(max(self.bottom, 1))
        return Scene(title, *size, tuple(self.shapes), to_scale=False)

    def _at(self, x: int, y: int) -> tuple[Length, Length]:
        across, down = self.mirrored
        return Length(self.right - x if across else x), Length(self.bottom - y if down else y)

    def key(self, *leaves: str) -> str | None:
        """The page's key that ends in one of `leaves`, the one in hand before others."""
        ordered = (each for each in (self.in_hand, *self.keys) if each in self.keys)
        return next((each for each in ordered if any(ends_in(each, leaf) for leaf in leaves)), None)

    def pen(self, *leaves: str, usual: Pen = "line") -> Pen:
        """`picked` while what is in hand ends in one of `leaves`."""
        return pen_if(any(ends_in(self.in_hand, leaf) for leaf in leaves), usual)

    def box(self, left: int, top: int, right: int, bottom: int, pen: Pen = "line") -> None:
        """A rectangle from edge to edge."""
        (x1, y1), (x2, y2) = self._at(left, top), self._at(right, bottom)
        self.shapes.append(Box(min(x1, x2), min(y1, y2), abs(x2 - x1), abs(y2 - y1), pen))

    def line(self, x1: int, y1: int, x2: int, y2: int, pen: Pen = "line", *, tips: bool = False) -> None:
        """A straight line."""
        self.shapes.append(Stroke(*self._at(x1, y1), *self._at(x2, y2), pen, tips=tips))

    def label(self, x: int, y: int, text: str, anchor: Anchor = "middle", **more: Any) -> None:
        """Words; `more` as a Label has it."""
        anchor = _TURNED[anchor] if self.mirrored[0] else anchor
        self.shapes.append(Label(*self._at(x, y), text, anchor, **more))

    def level(self, leaf: str, x1: int, x2: int, y: int, words: str = "", *, left: bool = False) -> None:
        """A level length of the page, with its slot on the line, or beside a short one: at its right, or `left`."""
        x, anchor = _beside(x1, x2, left)
        if x2 - x1 >= ON_THE_LINE:
            x, anchor = (x1 + x2) // 2, "middle"
        self.measure(leaf, (x1, y, x2, y), (x, y), anchor, words)

    def upright(self, leaf: str, x: int, y1: int, y2: int, words: str = "", *, left: bool = False) -> None:
        """An upright length of the page, with its slot at its right, or `left`."""
        at, anchor = _beside(x, x, left)
        self.measure(leaf, (x, y1, x, y2), (at, (y1 + y2) // 2), anchor, words)

    def measure(
        self, leaf: str, ends: tuple[int, int, int, int], at: tuple[int, int], anchor: Anchor, words: str = ""
    ) -> None:
        """A length of the page with its slot there; nothing where the page does not ask for it."""
        key = self.key(leaf)
        if key is not None:
            self.line(*ends, pen_if(key == self.in_hand), tips=True)
            self.slot(key, at, anchor, words)

    def slot(self, key: str, at: tuple[int, int], anchor: Anchor, words: str = "") -> None:
        """The slot of a length of the page. A length that is measured in several places has it at the first."""
        if key not in self._slotted:
            self.label(*at, "", anchor, pen=pen_if(key == self.in_hand), key=key, words=words)
            self._slotted.add(key)


def _beside(x1: int, x2: int, left: bool) -> tuple[int, Anchor]:
    return (x1 - 2, "end") if left else (x2 + 2, "start")


def pen_if(picked: bool, usual: Pen = "line") -> Pen:
    """The pen of what is in hand, or the usual one."""
    return "picked" if picked else usual


def ends_in(key: str, leaf: str) -> bool:
    """True for a key whose last words are `leaf`."""
    return f".{key}".endswith(f".{leaf}")
