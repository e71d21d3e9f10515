"""The drawing beside a question, as large as the place it is given."""

from __future__ import annotations

import re
from typing import Final

from textual.content import Content
from textual.widgets import Static

from wizard.questions.question import Question
from wizard.screens.putting import put
from wizard.sheets.cells import to_cells
from wizard.sheets.drawings.choose import scene_for
from wizard.sheets.scene import Scene
from wizard.trade.plan import Plan

PICKED: Final = re.compile("[║═╔╗╚╝╠╣╦╩╬]+ ?[?]?|[?]")
"""The double lines of the picked pen, and the mark where a length is still wanted."""


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
            drawn = to_cells(self.scene, self.size.width, self.size.height)
            put(self, picked_out(drawn))


def picked_out(lines: list[str]) -> Content:
    """The drawing with the length asked for picked out in colour too; its double lines tell it without."""
    return Content("\n".join(lines)).highlight_regex(PICKED, style="bold $accent")
