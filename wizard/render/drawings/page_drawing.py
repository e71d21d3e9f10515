"""The drawing of a page of the interview, with a slot on it for every length that is read there."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Final

from msgspec import Struct

from wizard.render.drawings.bed_view import bed_view, unlabelled
from wizard.render.drawings.cloth_view import cloth_view, pattern_view, pieces_view
from wizard.render.drawings.owned_view import fullness_view, owned_view
from wizard.render.drawings.placing import Slot
from wizard.render.drawings.post_and_rail import corner_view, fixing_view, floor_view, rail_view
from wizard.render.drawings.scene import Scene
from wizard.render.drawings.scene_text import to_slots
from wizard.render.drawings.side_view import hem_view, side_view, thing_view
from wizard.render.drawings.sketch import PageSketch
from wizard.render.plain_text import cell_len, clipped
from wizard.trade.plan_records import Plan

__all__ = ["PageDrawing", "Slot", "draw_page"]


class PageDrawing(Struct, frozen=True):
    """A page's drawing in characters."""

    lines: tuple[str, ...] = ()
    slots: tuple[Slot, ...] = ()
    """In the order of the page's lengths; those that have no place on the drawing, or no space, are missing."""
    letters: Mapping[str, str] = {}
    """Key -> the letter that marks its length, on a drawing with letters in place of slots."""


def draw_page(
    picture: str, subject: str, keys: Iterable[str], plan: Plan, in_hand: str, columns: int, rows: int
) -> PageDrawing:
    """The drawing `picture` of `subject` with the lengths `keys` on it, the line of `in_hand` double.

    Without lines where nothing is drawn. Works on a job with nothing filled in.
    """
    draw = PICTURES.get(picture)
    if draw is None or columns < 1 or rows < 1:
        return PageDrawing()
    keys = tuple(keys)
    for under in range(rows):
        # The last lines name the sections that there is no space to name.
        sketch = PageSketch(plan, keys, in_hand, columns, rows - under)
        scene = draw(sketch, subject)
        lines, slots = to_slots(scene, columns, rows - under, in_hand)
        beneath = _in_lines(unlabelled(scene, lines), columns)
        if len(beneath) <= under or under >= rows // 2:
            break
    return PageDrawing((*lines, *(beneath + [""] * under)[:under]), slots, sketch.letters)


def _in_lines(entries: Iterable[str], columns: int) -> list[str]:
    """Entries one after the other in lines of so many cells."""
    lines = list[str]()
    for each in entries:
        if lines and cell_len(f"{lines[-1]}; {each}") <= columns:
            lines[-1] += f"; {each}"
        else:
            lines.append(clipped(each, columns))
    return lines


_VIEWS: Final = (
    *(bed_view, rail_view, floor_view, side_view, thing_view, hem_view, corner_view),
    *(cloth_view, pattern_view, owned_view, fixing_view, pieces_view, fullness_view),
)
PICTURES: Final[dict[str, Callable[[PageSketch, str], Scene]]] = {
    each.__name__.removesuffix("_view"): each for each in _VIEWS
}
"""Picture of a page -> what draws it, which is called after it."""
