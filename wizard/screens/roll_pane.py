"""The roll to scale: one comes nearer and moves over it. Pieces are blank and named, offcuts hatched and named."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from fractions import Fraction
from typing import ClassVar, Final

from textual import events, on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import HorizontalGroup, Vertical
from textual.content import Content
from textual.widgets import Button, Static

from wizard.screens.deeds import Deed, bindings, table_of
from wizard.screens.dialogs import plain_button, relabel
from wizard.screens.literal import plain
from wizard.screens.roll_view import NEARER, Looker, View, scenes_of
from wizard.sheets.scene import Scene
from wizard.sheets.strokes import HATCH
from wizard.trade.formatting import ruler_of
from wizard.trade.plan import Plan

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
            for deed in self._deeds():
                yield plain_button(deed.words, f"do-{deed.id}")

    def on_resize(self, event: events.Resize) -> None:
        """In a narrow place the buttons say their keys; those that find no room there are left to their keys."""
        deeds, columns = self._deeds(), self.query_one("#roll-buttons").size.width
        words = {each.id: each.words for each in deeds}
        if not _fit(words.values(), columns):
            words = {each.id: each.shown for each in deeds}
        fitting = _fitting(words, columns)
        for id, label in words.items():
            button = self.query_one(f"#do-{id}", Button)
            button.display = id in fitting
            relabel(button, Content(label))

    def _deeds(self) -> tuple[Deed, ...]:
        """What can be done here only, with the keys in use."""
        return tuple(each for each in table_of(self.app) if each.room == "roll")

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
