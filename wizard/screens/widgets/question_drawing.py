"""The drawing beside a question, as large as the place it is given."""

from __future__ import annotations

import re
from typing import Final

from msgspec import Struct
from textual.content import Content
from textual.geometry import Size
from textual.widgets import Static

from wizard.interview.question import Question
from wizard.render.drawings.bed_plan import unlabelled_sections
from wizard.render.drawings.scene import Scene
from wizard.render.drawings.scene_for_question import scene_for
from wizard.render.drawings.scene_text import to_cells
from wizard.render.plain_text import clipped
from wizard.screens.screen_text import in_lines, update_if_changed
from wizard.trade.plan_records import Plan

PICKED: Final = re.compile("[║═╔╗╚╝╠╣╦╩╬]+ ?[?]?|[?]")
"""The double lines of the picked pen, and the mark where a length is still wanted."""
LEAST_ROWS: Final = 4
"""Lines that a drawing keeps for itself."""


class Drawn(Struct, frozen=True, eq=False):
    """What goes with a question, drawn in some room."""

    question: Question
    plan: Plan
    scene: Scene
    space: Size
    content: Content


class Drawing(Static):
    """A scene in characters; hidden where there is nothing to draw."""

    def __init__(self) -> None:
        super().__init__(id="drawing")
        self.scene: Scene | None = None
        self._ready: Drawn | None = None
        """Drawn before it was asked for."""

    def prepare(self, question: Question, plan: Plan, space: Size) -> None:
        """Have drawn what will go with a question, in `room`: the size this has now. Shows nothing; safe beside the
        screen, where the toolkit must not be asked for a size: it may lay everything out to tell it."""
        scene = _scene(question, plan)
        if scene is not None and space.width > 0:
            self._ready = Drawn(question, plan, scene, space, _penned(scene, space))

    def draw(self, question: Question, plan: Plan) -> None:
        """Draw what goes with a question."""
        ready = self._ready
        known = ready is not None and ready.question is question and ready.plan is plan
        self.scene = ready.scene if ready and known else _scene(question, plan)
        self.display = self.scene is not None
        self._pen()

    def on_resize(self) -> None:
        """Drawn anew for the new size."""
        self._pen()

    def _pen(self) -> None:
        ready = self._ready
        if ready is not None and ready.scene is self.scene and ready.space == self.size:
            update_if_changed(self, ready.content)
        elif self.scene is not None and self.size.width > 0:
            update_if_changed(self, _penned(self.scene, self.size))
        else:
            # It gets its size a frame later: until then it is empty, and never shows what went with another question.
            update_if_changed(self, Content())


def _scene(question: Question, plan: Plan) -> Scene | None:
    shows = question.shows
    return scene_for(plan, shows.drawing, shows.section, shows.picked, question.key)


def _penned(scene: Scene, space: Size) -> Content:
    return picked_out(drawn_with_key(scene, space.width, space.height))


def drawn_with_key(scene: Scene, columns: int, rows: int, under: int = 0) -> list[str]:
    """The scene in that room; the last `under` lines, and more where need be, tell the sections that it has no room to
    name."""
    lines = to_cells(scene, columns, rows - under)
    key = in_lines("; ".join(unlabelled_sections(scene, lines)), columns)
    if len(key) > under and rows - under > LEAST_ROWS:
        return drawn_with_key(scene, columns, rows, under + 1)
    if len(key) > under > 0:
        key[under - 1] = clipped(" ".join(key[under - 1 :]), columns)
    return [*lines, *key[:under]]


def picked_out(lines: list[str]) -> Content:
    """The drawing with the length asked for picked out in colour too; its double lines tell it without."""
    return Content("\n".join(lines)).highlight_regex(PICKED, style="bold $accent")
