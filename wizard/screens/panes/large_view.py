"""Large figures, to be read from where the tape is: the answer being typed, or one step of the work."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import HorizontalGroup, Vertical, VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widgets import Button, Static

from wizard.render.plain_text import cell_len
from wizard.screens.dialogs.base_dialogs import plain_button, relabel
from wizard.screens.panes.large_pages import Leaf, Page, large_lines, leaves_of, pages_of
from wizard.screens.panes.large_text import SIZES, can_be_large, in_blocks, set_large, width
from wizard.screens.panes.work_pane import timer_label
from wizard.screens.panes.work_words import Kept, state_words
from wizard.screens.screen_text import one_line, plain, words
from wizard.trade.plan_records import Step


class LargeAnswer(Static):
    """As large as its place allows; five rows high where it is narrow."""

    def __init__(self) -> None:
        super().__init__(id="large-answer")
        self.asked = ""
        self.typed = ""
        self.echo = ""

    def tell(self, asked: str, typed: str, echo: str) -> None:
        """Show what was typed and its echo; while nothing is, what is asked for."""
        self.asked, self.typed, self.echo = asked, typed.strip(), echo
        self._write()

    def on_resize(self) -> None:
        """Set anew for the new width."""
        self._write()

    def _write(self) -> None:
        if not self.asked or not self.size.width:
            return
        columns, rows = self.size
        self.update(
            answer_lines(self.typed, self.echo, columns, rows) if self.typed else asked_lines(self.asked, columns, rows)
        )


def asked_lines(asked: str, columns: int, rows: int) -> Content:
    """What is asked for in large letters; a question mark where they have no room."""
    return Content.styled("\n".join(set_large(asked, columns, rows) or in_blocks("?", 1)), "$quiet")


def answer_lines(typed: str, echo: str, columns: int, rows: int) -> Content:
    """The answer as large as may be, as much of its echo as there is room for large too, the rest in plain letters."""
    parts = tuple(each for each in echo.split(" · ") if each)
    for others in (parts, parts[-1:], ()):
        rest = [] if others == parts else [f"= {echo}"]
        under = [large_lines(each, SIZES[-1], columns) for each in others]
        space = rows - len(rest) - sum(len(each) + 1 for each in under)
        above = _as_large(typed, columns, space) if all(can_be_large(each) for each in others) else None
        if above is not None:
            return _styled([above, *under], rest)
    return Content("\n").join([Content.styled(plain(typed), "bold"), Content.styled(plain(echo), "$success")])


def _as_large(text: str, columns: int, rows: int) -> list[str] | None:
    """`text` at the greatest size that fits; None when it does not at the least, or is not drawn."""
    if not can_be_large(text):
        return None
    whole = (size for size in SIZES[:-1] if width(text, size) <= columns)
    sizes = (large_lines(text, size, columns) for size in (*whole, SIZES[-1]))
    return next((lines for lines in sizes if len(lines) <= rows), None)


def _styled(blocks: list[list[str]], rest: list[str]) -> Content:
    """The answer in one colour and its echo in another."""
    first, *others = blocks
    lines = [Content.styled(each, "$accent") for each in first]
    for block in others:
        lines += [Content(""), *(Content.styled(each, "$success") for each in block)]
    return Content("\n").join([*lines, *(Content.styled(plain(each), "$success") for each in rest)])


LEAST_ROWS, LEAST_COLUMNS = 5, 10


class LargeBody(VerticalScroll):
    """What is read. Enter goes on, and ticks from the last leaf; Space ticks or unticks anywhere."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "screen.read_on", "Go on", show=False),
        Binding("space", "screen.tick", "Tick or untick", show=False),
    ]

    class Resized(Message):
        """There is another room to lay out for."""

    def on_resize(self) -> None:
        """Laid out anew."""
        self.post_message(self.Resized())


class StateLine(Static):
    """One line, in the fullest of its wordings that there is room for."""

    wordings: tuple[str, ...] = ()

    def tell(self, wordings: tuple[str, ...]) -> None:
        """Show one of them; the longest comes first."""
        self.wordings = wordings
        self.on_resize()

    def on_resize(self) -> None:
        """Another one may fit."""
        fitting = (each for each in self.wordings if cell_len(each) <= self.size.width)
        self.update(words(next(fitting, self.wordings[-1] if self.wordings else "")))


class LargePane(Vertical):
    """It knows the step and which leaf is seen; ticking is the session's affair, as in the checklist."""

    def __init__(self) -> None:
        super().__init__(id="large")
        self.pages: tuple[Page, ...] = ()
        self.leaves: tuple[Leaf, ...] = ()
        self.at = 0
        self.title = ""
        self.shown = ""
        """Id of the step that is shown."""

    def compose(self) -> ComposeResult:
        """Title, leaf, buttons."""
        yield Static(id="large-title")
        with LargeBody(id="large-body"):
            yield Static(id="large-text")
        with HorizontalGroup(id="large-buttons"):
            yield plain_button("Tick", "large-tick", "screen.tick")
            yield plain_button("Start timer", "large-timer", "screen.timer")
            yield StateLine(id="large-state")

    def tell(self, step: Step, kept: Kept, *, from_end: bool = False) -> None:
        """Show a step from its first leaf, or from its last; the one shown already stays on its leaf."""
        pages = pages_of(step)
        other, otherwise = step.id != self.shown, pages != self.pages
        self.shown, self.pages, self.title = step.id, pages, one_line(step.title)
        self.tell_state(step, kept)
        if other:
            self.at = 0
        if other or otherwise:
            self._lay_out(from_end=from_end and other)
        self._write()

    def tell_state(self, step: Step, kept: Kept) -> None:
        """Whether it is ticked, and how long it takes."""
        relabel(self.query_one("#large-tick", Button), words("Untick" if kept.done else "Tick"))
        relabel(self.query_one("#large-timer", Button), words(timer_label(kept)))
        self.query_one(StateLine).tell(state_words(step, kept))

    def turn(self, leaves: int) -> bool:
        """Go some leaves on or back; False when there are none that way."""
        wanted = self.at + leaves
        if not 0 <= wanted < len(self.leaves):
            return False
        self.at = wanted
        self._write()
        return True

    def take_focus(self) -> None:
        """The arrow keys scroll, Enter goes on."""
        self.query_one(LargeBody).focus()

    @on(LargeBody.Resized)
    def _resized(self, event: LargeBody.Resized) -> None:
        event.stop()
        self._lay_out()
        self._write()

    def _lay_out(self, *, from_end: bool = False) -> None:
        """Lay the pages out for the room there is, and stay with the figure that is seen."""
        seen = self.leaves[self.at] if self.at < len(self.leaves) else None
        space = self.query_one(LargeBody).scrollable_content_region
        if space.width < LEAST_COLUMNS:
            self.leaves = ()
            return
        self.leaves = leaves_of(self.pages, space.width - 1, max(space.height, LEAST_ROWS))
        if from_end:
            self.at = len(self.leaves) - 1
        elif seen is not None and self.at:
            before = [n for n, each in enumerate(self.leaves) if (each.page, each.first) <= (seen.page, seen.first)]
            self.at = before[-1] if before else 0

    def _write(self) -> None:
        if self.at >= len(self.leaves):
            return
        place = f"{self.at + 1} of {len(self.leaves)}"
        title = Content.assemble((self.title, "bold"), (f"   {place}" if len(self.leaves) > 1 else "", "$quiet"))
        self.query_one("#large-title", Static).update(title)
        self.query_one("#large-text", Static).update(self.leaves[self.at].content)
        self.query_one(LargeBody).scroll_home(animate=False)
