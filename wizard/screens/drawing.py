"""The drawing beside a question, as large as the place it is given."""

from __future__ import annotations

import re
from typing import Final

from textual.content import Content
from textual.widgets import Static

from wizard.questions.question import Question
from wizard.screens.breaking import in_lines
from wizard.screens.putting import put
from wizard.sheets.cells import to_cells
from wizard.sheets.drawings.bed_plan import unnamed
from wizard.sheets.drawings.choose import scene_for
from wizard.sheets.plain import clipped
from wizard.sheets.scene import Scene
from wizard.trade.plan import Plan

PICKED: Final = re.compile("[║═╔╗╚╝╠╣╦╩╬]+ ?[?]?|[?]")
"""The double lines of the picked pen, and the mark where a length is still wanted."""
LEAST_ROWS: Final = 4
"""Lines that a drawing keeps for itself."""


class Drawing(Static):
    """A scene in characters; hidden where there is nothing to draw."""

    def __init__(self) -> None:
        super().__init__(id="drawing")
        self.scene: Scene | None = None

    def draw(self, question: Question, plan: Plan) -> None:
        """Draw what goes with a question."""
        shows = question.shows
        self.scene = scene_for(plan, shows.drawing, shows.section, shows.picked, question.key)
        self.display = self.scene is not None
        self._pen()

    def on_resize(self) -> None:
        """Drawn anew for the new size."""
        self._pen()

    def _pen(self) -> None:
        if self.scene is not None and self.size.width > 0:
            put(self, picked_out(drawn_with_key(self.scene, self.size.width, self.size.height)))


def drawn_with_key(scene: Scene, columns: int, rows: int, under: int = 0) -> list[str]:
    """The scene in that room; the last `under` lines, and more where need be, tell the sections that it has no room to
    name."""
    lines = to_cells(scene, columns, rows - under)
    key = in_lines("; ".join(unnamed(scene, lines)), columns)
    if len(key) > under and rows - under > LEAST_ROWS:
        return drawn_with_key(scene, columns, rows, under + 1)
    if len(key) > under > 0:
        key[under - 1] = clipped(" ".join(key[under - 1 :]), columns)
    return [*lines, *key[:under]]


def picked_out(lines: list[str]) -> Content:
    """The drawing with the length asked for picked out in colour too; its double lines tell it without."""
    return Content("\n".join(lines)).highlight_regex(PICKED, style="bold $accent")
