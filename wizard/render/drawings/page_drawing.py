"""The drawing of a page of the interview, with a slot on it for every length that is read there."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Final

from msgspec import Struct

from wizard.render.drawings.cloth_view import cloth_view, pattern_view
from wizard.render.drawings.corner_view import corner_view
from wizard.render.drawings.page_sketch import PageSketch
from wizard.render.drawings.rail_view import floor_view, rail_view
from wizard.render.drawings.scene import Scene
from wizard.render.drawings.scene_text import to_slots
from wizard.render.drawings.side_view import side_view
from wizard.render.drawings.slots import Slot
from wizard.trade.plan_records import Plan

__all__ = ["PageDrawing", "Slot", "draw_page", "page_scene"]


class PageDrawing(Struct, frozen=True):
    """A page's drawing in characters."""

    lines: tuple[str, ...] = ()
    slots: tuple[Slot, ...] = ()
    """In the order of the page's lengths; those that have no place on the drawing, or no space, are missing."""


def draw_page(
    picture: str, subject: str, keys: Iterable[str], plan: Plan, in_hand: str, columns: int, rows: int
) -> PageDrawing:
    """The drawing `picture` of `subject` with the lengths `keys` on it, the line of `in_hand` double.

    Without lines where nothing is drawn. Works on a job with nothing filled in.
    """
    scene = page_scene(picture, subject, keys, plan, in_hand, columns, rows)
    if scene is None:
        return PageDrawing()
    lines, slots = to_slots(scene, columns, rows, in_hand)
    return PageDrawing(tuple(lines), slots)


def page_scene(
    picture: str, subject: str, keys: Iterable[str], plan: Plan, in_hand: str = "", columns: int = 78, rows: int = 12
) -> Scene | None:
    """The same as a scene, in which the labels with a key tell the lengths."""
    draw = PICTURES.get(picture)
    return (
        None
        if draw is None or columns < 1 or rows < 1
        else draw(PageSketch(plan, keys, in_hand, columns, rows), subject)
    )


PICTURES: Final[dict[str, Callable[[PageSketch, str], Scene]]] = {
    "rail": rail_view,
    "floor": floor_view,
    "side": side_view,
    "corner": corner_view,
    "cloth": cloth_view,
    "pattern": pattern_view,
}
"""Picture of a page -> what draws it."""
