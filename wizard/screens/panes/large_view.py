"""Large figures, to be read from where the tape is: the current field, or one step of the work."""

from __future__ import annotations

from typing import ClassVar, Final

from msgspec.structs import replace
from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import HorizontalGroup, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Button, Static

from wizard.screens.actions import quiet_keys
from wizard.screens.dialogs.base_dialogs import plain_button, relabel
from wizard.screens.pages.form_layout import Draw, Form, Laid, lay_out
from wizard.screens.panes.large_pages import ROWS, SIZES, Leaf, large_figure, leaves_of
from wizard.screens.panes.work_pane import Kept, state_words
from wizard.screens.screen_text import DONE, NOT_YET, one_line, plain, words
from wizard.trade.plan_records import Step

LEAST: Final = 10
"""Fewest columns that a step is laid out for."""
BELOW: Final = 11
"""Lines kept for the dots, the drawing of a field and what is said of it."""


def lay_out_large(form: Form, columns: int, rows: int, draw: Draw, *, low: bool = False) -> Laid:
    """The current field alone: what is typed as large as may be, its line on the drawing, a dot for each field."""
    fields = (*form.fields, *form.more)
    field = next((each for each in fields if each.key == form.question.key), fields[0])
    # What is asked is in the head of the page already.
    said = form.said if form.said.level else replace(form.said, text="")
    alone = replace(form, fields=(field,), more=(), more_words="", page=replace(form.page, copy=None), said=said)
    if field.choices or field.table:
        return lay_out(alone, columns, rows, draw, low=low)
    text = field.text.strip() or "?"
    sizes = (large_figure(text, size, columns) for size in SIZES)
    large = next((lines for lines in sizes if lines and len(lines) <= max(rows - BELOW, ROWS + 1)), [text])
    dots = " ".join(DONE if each is field else NOT_YET for each in fields)
    top = [*(Content.styled(plain(line), "$accent") for line in large), Content.styled(dots, "$quiet")]
    # Its name may take two lines.
    laid = lay_out(alone, columns, rows - 1, draw, low=low, above=top)
    return replace(laid, keep=(max(laid.keep[1] - rows, 0), laid.keep[1]))


class LargeBody(VerticalScroll):
    """What is read. Enter goes on, and ticks from the last leaf; the arrow keys only turn the leaves; Space ticks or
    unticks anywhere."""

    BINDINGS: ClassVar[list[BindingType]] = quiet_keys(
        "enter=screen.read_on space=screen.tick right,down,pagedown=leaf(1) left,up,pageup=leaf(-1)"
    )

    async def action_leaf(self, by: int) -> None:
        """To the rest of a leaf that is longer than the screen, else to the next one or the one before."""
        rest = self.max_scroll_y - self.scroll_offset.y if by > 0 else self.scroll_offset.y
        await self.run_action(f"page_{'down' if by > 0 else 'up'}" if rest else f"screen.leaf({by})")


class LargePane(Vertical):
    """One step, a leaf at a time. It knows the step and which leaf is seen; ticking is the session's affair."""

    def __init__(self) -> None:
        super().__init__(id="large")
        self.body = LargeBody(id="large-body")
        self.step: Step | None = None
        self.leaves: tuple[Leaf, ...] = ()
        self.at = 0

    def compose(self) -> ComposeResult:
        """Title, leaf, buttons."""
        yield Static(id="large-title")
        with self.body:
            yield Static(id="large-text")
        yield Static(id="large-state")
        with HorizontalGroup(id="large-buttons"):
            yield plain_button("Tick", "large-tick", "screen.tick")
            yield plain_button("Start timer", "large-timer", "screen.timer")

    def tell(self, step: Step, kept: Kept) -> None:
        """Show a step from its first leaf; the one shown already stays on its page."""
        if self.step is None or step.id != self.step.id:
            self.leaves, self.at = (), 0
        self.step = step
        self.tell_state(step, kept)
        self._lay_out()

    def tell_state(self, step: Step, kept: Kept) -> None:
        """Whether it is ticked, and how long it takes."""
        relabel(self.query_one("#large-tick", Button), words("Untick" if kept.done else "Tick"))
        relabel(self.query_one("#large-timer", Button), words("Stop timer" if kept.runs else "Start timer"))
        self.query_one("#large-state", Static).update(words(state_words(step, kept)))

    def turn(self, leaves: int) -> bool:
        """Go some leaves on or back; False when there are none that way."""
        if self.step is None or not 0 <= self.at + leaves < len(self.leaves):
            return False
        self.at += leaves
        place = f"   {self.at + 1} of {len(self.leaves)}" if len(self.leaves) > 1 else ""
        title = Content.assemble((one_line(self.step.title), "bold"), (place, "$quiet"))
        self.query_one("#large-title", Static).update(title)
        self.query_one("#large-text", Static).update(self.leaves[self.at].content)
        self.body.scroll_home(animate=False)
        return True

    def on_resize(self, event: events.Resize) -> None:
        """Laid out for another space, on the same page."""
        self.call_after_refresh(self._lay_out)

    def _lay_out(self) -> None:
        """Lay the step out for the space there is, and show the same leaf, or its page from the beginning."""
        space, page = self.body.scrollable_content_region, self.leaves[self.at].page if self.leaves else 0
        if self.step is not None and space.width >= LEAST:
            self.leaves = tuple(leaves_of(self.step, space.width - 1, max(space.height, ROWS)))
            if self.at >= len(self.leaves) or self.leaves[self.at].page != page:
                self.at = next((number for number, each in enumerate(self.leaves) if each.page >= page), 0)
            self.turn(0)
