"""The roll to scale: zoom in and move over it. Pieces are blank and named, offcuts hatched and named."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from fractions import Fraction
from typing import ClassVar, Final

from msgspec import Struct
from msgspec.structs import replace
from textual import events, on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import HorizontalGroup, Vertical
from textual.content import Content
from textual.widgets import Button, Static

from wizard.render.drawings.character_grid import HATCH
from wizard.render.drawings.roll_on_screen import LabelStyle, rolls, squared_end, way_up
from wizard.render.drawings.scene import Scene
from wizard.render.drawings.scene_text import Window, part_in_cells, piece_ends
from wizard.screens.actions import Action, actions_of, bindings
from wizard.screens.dialogs.base_dialogs import plain_button, relabel
from wizard.screens.figure_words import running
from wizard.screens.screen_text import plain
from wizard.trade.compare_ways import cloth_value
from wizard.trade.formatting import Ruler, ruler_of, shown
from wizard.trade.job_fields import Cloth
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan_records import Plan

MARGIN: Final = 11
"""Columns for the running measure."""
MORE: Final = "…"
"""After a measure: more pieces begin or end in the same line."""
TALL: Final = 2
"""A character is about twice as high as it is wide: a line shows that much more of the roll than a column."""
NEARER: Final = Fraction(3, 2)
NEAREST: Final = Fraction(12)
"""The greatest zoom, where the whole width is 1."""


class View(Struct, frozen=True):
    """What is in view. Measures are those of the scene."""

    number: int = 0
    """Which length of cloth, from 0."""
    zoom: Fraction | None = None
    """1 shows the whole width; None shows the whole length."""
    left: Length = ZERO
    top: Length = ZERO


def scenes_of(plan: Plan) -> tuple[Scene, ...]:
    """Every length that is cut, of every layer, as the sheets draw it, with each piece's size."""
    names, ruler = {part.id: part.name for part in plan.parts}, ruler_of(plan.job)
    found: list[Scene] = []
    for layer in plan.layers:
        if layer.cutting is not None:
            best = layer.cutting.best
            up = way_up(best, cloth_value(plan, layer, Cloth.match_from) or "hem")
            found += rolls(layer, best, LabelStyle(names, up, ruler))
    return tuple(found)


class Looker(Struct, frozen=True):
    """One scene in a place of `columns` by `rows` characters."""

    scene: Scene
    columns: int
    rows: int

    @property
    def across(self) -> int:
        """Columns of the drawing itself."""
        return max(self.columns - MARGIN, 8)

    def column_at(self, zoom: Fraction | None) -> Length:
        """How much one column shows."""
        whole_width = self.scene.width / (self.across - 1)
        if zoom is not None:
            return whole_width / zoom
        return max(whole_width, self.scene.height / (max(self.rows - 1, 1) * TALL))

    def window(self, view: View) -> Window:
        """What the view shows, kept on the cloth."""
        column = self.column_at(view.zoom)
        line = column * TALL
        left = _within(view.left, self.scene.width - column * (self.across - 1))
        top = _within(view.top, self.scene.height - line * (self.rows - 1))
        return Window(left, top, column, line)

    def kept(self, view: View) -> View:
        """The view, moved back on the cloth where it looked beside it."""
        window = self.window(view)
        return replace(view, left=window.left, top=window.top)

    def nearer(self, view: View, times: Fraction) -> View:
        """So many times nearer, about the same middle; never farther than the whole length."""
        old, column = self.window(view), self.column_at(view.zoom) / times
        least, most = self.column_at(Fraction(1)) / NEAREST, self.column_at(None)
        if column >= most:
            return View(view.number)
        column = max(column, least)
        half = Fraction(self.across - 1, 2), Fraction(self.rows - 1, 2)
        left = old.left + (old.column - column) * half[0]
        top = old.top + (old.line - column * TALL) * half[1]
        return self.kept(replace(view, zoom=self.column_at(Fraction(1)) / column, left=left, top=top))

    def moved(self, view: View, columns: int, rows: int) -> View:
        """So many columns to the right and lines down."""
        window = self.window(view)
        return self.kept(replace(view, left=window.left + window.column * columns, top=window.top + window.line * rows))

    def lines(self, view: View, ruler: Ruler) -> Iterator[tuple[str, str]]:
        """Running measure and drawing of each line."""
        window = self.window(view)
        measures = piece_ends(self.scene, window, self.rows)
        for number, line in enumerate(part_in_cells(self.scene, window, self.across, self.rows)):
            yield f"{self._beside(measures.get(number, []), ruler).rjust(MARGIN - 1)} ", line

    def _beside(self, measures: list[Length], ruler: Ruler) -> str:
        """The first of what begins or ends in a line, with dots after it where there is more to be seen from nearer."""
        if not measures:
            return ""
        more = MORE if len(measures) > 1 else ""
        return running(measures[0] - squared_end(self.scene), ruler, MARGIN - 1 - len(more)) + more

    def seen(self, view: View, ruler: Ruler) -> str:
        """What part is seen, in words: `all of it`, or from where to where. So far off that the width takes only a part
        of the room, numbers of small pieces may be left out: it says how they are had."""
        window = self.window(view)
        wide, high = window.column * (self.across - 1), window.line * (self.rows - 1)
        if wide >= self.scene.width and high >= self.scene.height:
            return "all of it" if window.column == self.column_at(Fraction(1)) else "all; nearer shows more"
        start = squared_end(self.scene)
        along = _range(window.top - start, min(window.top + high, self.scene.height) - start, ruler)
        if wide >= self.scene.width:
            return f"{along} along"
        return f"{along} along, {_range(window.left, min(window.left + wide, self.scene.width), ruler)} across"


def _within(at: Length, most: Length) -> Length:
    return max(ZERO, min(at, most))


def _range(start: Length, end: Length, ruler: Ruler) -> str:
    inches = Ruler(ruler.unit, max(ruler.mark, Length.of(1, ruler.unit)) if ruler.unit in ("in", "cm") else ruler.mark)
    texts = [shown(each, inches).removeprefix("≈ ") for each in (start, end)]
    return f"{texts[0]} to {texts[1]}"


NEEDED: Final = (
    *("zoom_in", "zoom_out", "next_length", "see_whole"),
    *("go_left", "go_right", "go_up", "go_down", "see_width"),
)
"""The buttons in the order in which they find room: what is needed most comes first."""


class RollView(Static, can_focus=True):
    """The drawing, as large as its place."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings("roll")]

    def __init__(self) -> None:
        super().__init__(id="roll-view")
        self.plan: Plan | None = None
        self.scenes: tuple[Scene, ...] = ()
        self.view = View()

    def tell(self, plan: Plan) -> None:
        """Show the lengths of `plan`, all of the first, unless they are shown already."""
        if plan is not self.plan:
            self.plan, self.scenes, self.view = plan, scenes_of(plan), View()
        self.pen()

    def on_resize(self, event: events.Resize) -> None:
        """Drawn for the new size."""
        self.pen()

    def look(self, view: View) -> None:
        """Look elsewhere."""
        self.view = view
        self.pen()

    @property
    def looker(self) -> Looker | None:
        """The length in hand in this place; None while there is none."""
        if not self.scenes or self.size.width < 20:
            return None
        return Looker(self.scenes[self.view.number], self.size.width, self.size.height)

    def action_zoom_in(self) -> None:
        """Come nearer."""
        if self.looker:
            self.look(self.looker.nearer(self.view, NEARER))

    def action_zoom_out(self) -> None:
        """Go farther away."""
        if self.looker:
            self.look(self.looker.nearer(self.view, 1 / NEARER))

    def action_see_whole(self) -> None:
        """All of the length."""
        self.look(View(self.view.number))

    def action_see_width(self) -> None:
        """The whole width, from the squared end."""
        self.look(View(self.view.number, Fraction(1)))

    def action_go_left(self) -> None:
        """Towards the left edge."""
        self._move(-8, 0)

    def action_go_right(self) -> None:
        """Towards the right edge."""
        self._move(8, 0)

    def action_go_up(self) -> None:
        """Towards the squared end."""
        self._move(0, -3)

    def action_go_down(self) -> None:
        """Away from the squared end."""
        self._move(0, 3)

    def action_next_length(self) -> None:
        """The next length of cloth, of this layer or the next."""
        if self.scenes:
            self.look(View((self.view.number + 1) % len(self.scenes)))

    def _move(self, columns: int, rows: int) -> None:
        if self.looker:
            self.look(self.looker.moved(self.view, columns, rows))

    def pen(self) -> None:
        """Draw what is looked at."""
        looker, plan = self.looker, self.plan
        if looker is None or plan is None:
            return
        lines = (
            Content.assemble((measure, "bold"), Content(line).highlight_regex(f"{HATCH}+", style="$quiet"))
            for measure, line in looker.lines(self.view, ruler_of(plan.job))
        )
        self.update(Content("\n").join(lines))
        self.screen.query_one("#roll-title", Static).update(self._title(looker, plan))

    def _title(self, looker: Looker, plan: Plan) -> Content:
        count = f", {self.view.number + 1} of {len(self.scenes)}" if len(self.scenes) > 1 else ""
        seen = looker.seen(self.view, ruler_of(plan.job))
        return Content.assemble((plain(looker.scene.title), "bold"), f"{count}  ", (seen, "$quiet"))


class RollPane(Vertical):
    """The drawing with its title and its buttons."""

    def compose(self) -> ComposeResult:
        """Title, drawing, a button for everything that can be done."""
        yield Static(id="roll-title")
        yield RollView()
        with HorizontalGroup(id="roll-buttons"):
            for action in self._actions():
                yield plain_button(action.words, f"do-{action.id}")

    def on_resize(self, event: events.Resize) -> None:
        """In a narrow place the buttons say their keys; those that find no room there are left to their keys."""
        actions, columns = self._actions(), self.query_one("#roll-buttons").size.width
        words = {each.id: each.words for each in actions}
        if not _fit(words.values(), columns):
            words = {each.id: each.shown for each in actions}
        fitting = _fitting(words, columns)
        for id, label in words.items():
            button = self.query_one(f"#do-{id}", Button)
            button.display = id in fitting
            relabel(button, Content(label))

    def _actions(self) -> tuple[Action, ...]:
        """What can be done here only, with the keys in use."""
        return tuple(each for each in actions_of(self.app) if each.context == "roll")

    def tell(self, plan: Plan) -> None:
        """Show the lengths of `plan`; the keys move over them."""
        self.query_one(RollView).tell(plan)
        self.query_one(RollView).focus()

    @on(Button.Pressed)
    async def _pressed(self, event: Button.Pressed) -> None:
        event.stop()
        await self.query_one(RollView).run_action((event.button.id or "").removeprefix("do-"))
        self.query_one(RollView).focus()


def _fitting(words: Mapping[str, str], columns: int) -> Collection[str]:
    """The ids whose buttons find room in a row, in the order they are needed."""
    fitting: dict[str, str] = {}
    for id in NEEDED:
        if _fit([*fitting.values(), words[id]], columns):
            fitting[id] = words[id]
    return fitting


def _fit(labels: Collection[str], columns: int) -> bool:
    """True when buttons with these labels fit beside each other: a blank on both sides of each, and one after it."""
    return sum(len(each) + 3 for each in labels) - 1 <= columns
