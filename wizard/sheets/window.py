"""A part of a scene, for looking at a drawing larger than its place: what lies outside is left out, labels move in."""

from __future__ import annotations

from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from wizard.sheets.cells import row_of, to_cells
from wizard.sheets.plain import cells, literal
from wizard.sheets.scene import Box, Scene, Shape, Stroke, Words
from wizard.trade.lengths import ZERO, Length

ROOM_FOR_TWO: Final = 4
"""Lines from edge to edge of a box in which two labels find room."""


class Window(Struct, frozen=True):
    """What is looked at: its left upper corner, and how much of the scene one column and one line show."""

    left: Length
    top: Length
    column: Length
    """More than zero."""
    line: Length
    """More than zero."""


def part_in_cells(scene: Scene, window: Window, columns: int, rows: int) -> list[str]:
    """`columns` by `rows` characters of the scene. Edges are drawn where they are, never where the window ends."""
    wide, high = window.column * (columns + 1), window.line * (rows + 1)
    around = _part(scene, replace(window, left=window.left - window.column, top=window.top - window.line), wide, high)
    lines = to_cells(around, columns + 2, rows + 2)[1:-1]
    return [line.ljust(columns + 2)[1 : columns + 1] for line in lines]


def rows_of(scene: Scene, window: Window, rows: int) -> dict[int, list[Length]]:
    """Line of the window -> how far down the scene pieces begin or end there, the first one first."""
    around = Scene("", Length(1), window.line * (rows + 1), (), scene.to_scale)
    boxes = [shape for shape in scene.shapes if isinstance(shape, Box) and shape.fill == "none"]
    found: dict[int, list[Length]] = {}
    for end in sorted({end for each in boxes for end in (each.y, each.y + each.height)}):
        inside = end - window.top + window.line
        line = row_of(around, inside, rows + 2) - 1
        if ZERO <= inside <= around.height and 0 <= line < rows:
            found.setdefault(line, []).append(end)
    return found


def _part(scene: Scene, window: Window, wide: Length, high: Length) -> Scene:
    """The shapes that can be seen, moved so that the window's corner is the origin."""
    boxes = [each for each in scene.shapes if isinstance(each, Box)]
    shapes: list[Shape] = []
    for shape in scene.shapes:
        moved = _moved(shape, window, wide, high, boxes)
        if moved is not None:
            shapes.append(moved)
    return Scene(scene.title, wide, high, tuple(shapes), scene.to_scale)


def _moved(shape: Shape, window: Window, wide: Length, high: Length, boxes: list[Box]) -> Shape | None:
    if isinstance(shape, Box):
        return _clipped(shape, window, wide, high)
    if isinstance(shape, Stroke):
        return _cut(shape, window, wide, high)
    return _labelled(shape, window, wide, high, boxes)


def _clipped(box: Box, window: Window, wide: Length, high: Length) -> Box | None:
    left, top = window.left, window.top
    x, right = max(box.x - left, ZERO), min(box.x + box.width - left, wide)
    y, bottom = max(box.y - top, ZERO), min(box.y + box.height - top, high)
    return replace(box, x=x, y=y, width=right - x, height=bottom - y) if x < right and y < bottom else None


def _cut(stroke: Stroke, window: Window, wide: Length, high: Length) -> Stroke | None:
    """A level or upright line; rolls have no others."""
    left, top = window.left, window.top
    xs = [min(max(x - left, ZERO), wide) for x in (stroke.x1, stroke.x2)]
    ys = [min(max(y - top, ZERO), high) for y in (stroke.y1, stroke.y2)]
    outside = not (ZERO <= stroke.y1 - top <= high or stroke.y1 != stroke.y2)
    return None if outside or (xs[0] == xs[1] and ys[0] == ys[1]) else Stroke(*_ends(xs, ys), stroke.pen, stroke.tips)


def _ends(xs: list[Length], ys: list[Length]) -> tuple[Length, Length, Length, Length]:
    return xs[0], ys[0], xs[1], ys[1]


def _labelled(words: Words, window: Window, wide: Length, high: Length, boxes: list[Box]) -> Words | None:
    """A label at the same place in what is seen of its box, as it fits there; a second one only where two have room."""
    box = min((each for each in boxes if _holds(each, words)), key=lambda each: each.width, default=None)
    seen = None if box is None else _clipped(box, window, wide, high)
    if box is None or seen is None:
        return None
    if words.y != box.y + box.height / 2 and seen.height < window.line * ROOM_FOR_TWO:
        return None
    x = seen.x + seen.width * ((words.x - box.x) / box.width)
    y = seen.y + seen.height * ((words.y - box.y) / box.height)
    room = (seen.width / window.column).__floor__() - 1
    text = next((each for each in (words.text, words.short) if each and cells(literal(each)) <= room), None)
    return None if text is None else replace(words, x=x, y=y, text=text, short="")


def _holds(box: Box, words: Words) -> bool:
    return box.x < words.x < box.x + box.width and box.y < words.y < box.y + box.height
