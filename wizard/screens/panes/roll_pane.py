"""The roll to scale: zoom in and move over it. Pieces are blank and named, offcuts hatched and named."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import groupby
from typing import ClassVar, Final

from msgspec.structs import replace
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import HorizontalGroup, HorizontalScroll, ItemGrid, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from wizard.render.drawings.character_grid import HATCH
from wizard.render.drawings.roll_view import rolls, squared_end
from wizard.render.drawings.scene import Box, Label, Scene
from wizard.render.drawings.scene_text import row_of, to_cells
from wizard.render.figure_text import unitless
from wizard.screens.actions import actions_of, bindings
from wizard.screens.dialogs.base_dialogs import plain_button
from wizard.screens.screen_text import plain
from wizard.trade.formatting import Ruler, ruler_of
from wizard.trade.plan_records import Plan

MARGIN: Final = 11
"""Columns for the running measure."""
TALL: Final = 2
"""A character is about twice as high as it is wide: a line shows that much more of the roll than a column."""
WHOLE, WIDTH, NEAREST = 0, 1, 4
"""Steps of the zoom: the whole length, the whole width, and nearer; the last shows a third of the width."""
NEARER: Final = Fraction(3, 2)


def scenes_of(plan: Plan) -> tuple[Scene, ...]:
    """Every length that is cut, of every layer, as the sheets draw it, with each piece's size."""
    laid = ((layer, layer.cutting.best) for layer in plan.layers if layer.cutting is not None)
    return tuple(scene for layer, best in laid for scene in rolls(plan, layer, best))


def drawn(scene: Scene, ruler: Ruler, columns: int, rows: int, zoom: int) -> Iterator[tuple[str, str]]:
    """The running measure, without its unit, and the cells of each line, for a space of `columns` by `rows` characters:
    the whole scene fits it at WHOLE, its width at WIDTH."""
    column = scene.width / (max(columns, 8) - 1) / NEARER ** max(zoom - WIDTH, 0)
    if zoom == WHOLE:
        column = max(column, scene.height / (max(rows - 1, 1) * TALL))
    wide, high = (side.__ceil__() + 1 for side in (scene.width / column, scene.height / (column * TALL)))
    pieces = [each for each in scene.shapes if isinstance(each, Box) and each.fill == "none"]
    ends = sorted({end for each in pieces for end in (each.y, each.y + each.height)})
    beside: dict[int, list[str]] = {}
    if min(each.height for each in pieces) < column * TALL * 2:
        # No line is free inside a piece: its number goes beside the roll, where it begins.
        numbers = [each for each in scene.shapes if isinstance(each, Label) and each.short.isdigit()]
        for piece, label in zip(pieces, numbers, strict=True):
            beside.setdefault(row_of(scene, piece.y, high), []).append(label.short)
        scene = replace(scene, shapes=tuple(each for each in scene.shapes if each not in numbers))
    in_lines = {line: [*own] for line, own in groupby(ends, key=lambda each: row_of(scene, each, high))}
    for number, line in enumerate(to_cells(scene, wide, high)):
        # The first of what begins or ends in a line, with dots after it where there is more to be seen from nearer.
        first, *others = in_lines.get(number, [None])
        measure = "" if first is None else unitless(first - squared_end(scene), ruler).removeprefix("≈ ")
        yield measure + ("…" if others else ""), f"{line.ljust(wide)} {', '.join(beside.get(number, ()))}".rstrip()


BUTTONS: Final = ("zoom_in", "zoom_out", "see_whole", "see_width", "next_length")
"""Actions that have a button here; the keys and the wheel move over the roll."""
MOVES: Final = {"go_left": (-8, 0), "go_right": (8, 0), "go_up": (0, -3), "go_down": (0, 3)}
"""Action -> columns and lines that it moves over the roll."""


class RollView(VerticalScroll):
    """The drawing, which the toolkit scrolls; the running measure stays at its left."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings("roll")]

    def __init__(self) -> None:
        super().__init__(id="roll-view")
        self.measures, self.cells = Static(id="roll-measures"), Static(id="roll-cells")
        self.across = HorizontalScroll(id="roll-across", can_focus=False)
        self.plan: Plan | None = None
        self.scenes: tuple[Scene, ...] = ()
        self.number, self.zoom = 0, WHOLE

    def compose(self) -> ComposeResult:
        """Measures and cells beside each other."""
        with HorizontalGroup():
            yield self.measures
            with self.across:
                yield self.cells

    def tell(self, plan: Plan) -> None:
        """Show the lengths of `plan`, all of the first; those of a better plan of the same job from where one was."""
        same = self.plan is not None and plan.job == self.plan.job
        self.plan, self.scenes = plan, scenes_of(plan)
        if not same or self.number >= len(self.scenes):
            self.number, self.zoom = 0, WHOLE
        self.look(self.number, self.zoom)

    def on_resize(self) -> None:
        """Drawn for the new size."""
        self.look(self.number, self.zoom)

    def look(self, number: int, zoom: int) -> None:
        """Show a length at a zoom, with the same middle."""
        columns, rows = self.scrollable_content_region.width - MARGIN, self.size.height
        before, self.number, self.zoom = (self.number, self.zoom), number, min(max(zoom, WHOLE), NEAREST)
        if self.plan is None or not self.scenes or columns < 1:
            return
        middles = [
            (bar.scroll_offset[axis] + bar.size[axis] / 2) / max(bar.virtual_size[axis], 1)
            for axis, bar in enumerate((self.across, self))
        ]
        scene = self.scenes[number]
        ruler = ruler_of(self.plan.job)
        measures, cells = zip(*drawn(scene, ruler, columns, rows, self.zoom), strict=True)
        text = "\n".join(each.rjust(MARGIN - 1) for each in measures)
        self.measures.update(Content.styled(text, "bold"))
        hatched = (Content(each).highlight_regex(f"{HATCH}+", style="$quiet") for each in cells)
        self.cells.update(Content("\n").join(hatched))
        count = f", {number + 1} of {len(self.scenes)}" if len(self.scenes) > 1 else ""
        seen = {WHOLE: "whole roll", WIDTH: "whole width"}.get(self.zoom, "nearer")
        title = Content.assemble((plain(scene.title), "bold"), f"{count} ({ruler.unit})  ", (seen, "$quiet"))
        self.screen.query_one("#roll-title", Static).update(title)
        if before == (self.number, self.zoom):
            return
        self.across.scroll_to(x=middles[0] * len(cells[0]) - columns / 2, animate=False, force=True)
        self.scroll_to(y=middles[1] * len(cells) - rows / 2, animate=False, force=True)

    def do(self, action: str) -> None:
        """Zoom, move over the roll, or go to its next length; the keys go on from there."""
        if action in MOVES:
            columns, lines = MOVES[action]
            self.across.scroll_relative(x=columns, animate=False, force=True)
            self.scroll_relative(y=lines, animate=False)
        elif action == "next_length":
            self.look((self.number + 1) % max(len(self.scenes), 1), WHOLE)
        else:
            zooms = {"zoom_in": self.zoom + 1, "zoom_out": self.zoom - 1, "see_whole": WHOLE, "see_width": WIDTH}
            self.look(self.number, zooms[action])
        self.focus()


class RollPane(Vertical):
    """The drawing with its title and its buttons."""

    def compose(self) -> ComposeResult:
        """Title, drawing, buttons with the keys in use."""
        actions = {each.id: each for each in actions_of(self.app)}
        yield Static(id="roll-title")
        yield RollView()
        with ItemGrid(id="roll-buttons", min_column_width=19):
            for each in BUTTONS:
                yield plain_button(f"{actions[each].words} {actions[each].shown}", f"do-{each}", f"screen.{each}")
