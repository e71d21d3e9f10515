"""The pane of a page: its text with one editor over it, at the field in hand. It holds text only; who listens decides.

One editor for all fields: nothing is put up or taken down from page to page, and the focus is never lost.
"""

from __future__ import annotations

from typing import ClassVar, Final, Protocol

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Input, Static

from wizard.screens.actions import quiet_keys
from wizard.screens.pages.form_layout import Draw, Form, Laid, Place, head_lines, lay_out

LOW: Final = 22
"""A window of fewer lines shows the question of the field in place of the page's sentences."""
BAR: Final = 1
"""Columns of the bar that scrolls."""


class Listener(Protocol):
    """What the pane tells of keys and clicks, at once."""

    def typed(self, text: str) -> None:
        """Another text is in the editor."""

    def enter(self) -> None:
        """Take what is in hand."""

    def letter(self, character: str) -> None:
        """A letter at what is not typed."""

    def point(self, place: Place) -> None:
        """A click."""


class Editor(Input):
    """Where the field in hand is typed. Tells at once, so that Enter takes what was typed before it."""

    def __init__(self, listener: Listener) -> None:
        super().__init__(id="field", select_on_focus=False, compact=True)
        self.listener = listener
        self.quiet = False

    def put(self, text: str) -> None:
        """Show `text` without telling anybody."""
        self.quiet = True
        self.value = text
        self.quiet = False
        self.cursor_position = len(text)

    def watch_value(self, text: str) -> None:
        """Tell what is typed."""
        if not self.quiet:
            self.listener.typed(text)

    async def action_submit(self) -> None:
        """Enter."""
        self.listener.enter()


class PageBody(VerticalScroll):
    """What scrolls. It has the focus where nothing is typed."""

    BINDINGS: ClassVar[list[BindingType]] = quiet_keys(
        "tab=screen.walk(1) shift+tab=screen.walk(-1) down=screen.step(1) up=screen.step(-1) right=screen.turn(1) "
        "left=screen.turn(-1) enter=screen.enter space=screen.space backspace=screen.rub_out(False) "
        "ctrl+u=screen.rub_out(True)"
    )

    def __init__(self, listener: Listener) -> None:
        super().__init__(id="page-body")
        self.listener = listener

    def on_key(self, event: events.Key) -> None:
        """Letters go to the choices."""
        if self.has_focus and event.is_printable and event.character and not event.character.isspace():
            event.stop()
            self.listener.letter(event.character)


class PagePane(Vertical):
    """Title and sentences, which stay; below them what scrolls."""

    def __init__(self, listener: Listener) -> None:
        super().__init__(id="page")
        self.listener = listener
        self.body, self.editor = PageBody(listener), Editor(listener)
        self.told: tuple[Form, Draw] | None = None
        self.laid = Laid((), (), None, (0, 0))

    def compose(self) -> ComposeResult:
        """All parts, in their places for good."""
        yield Static(id="page-head")
        with self.body:
            yield Static(id="page-text")
            yield self.editor

    def tell(self, form: Form, draw: Draw) -> None:
        """Show a page, in hand what it says."""
        self.told = form, draw
        self._write()

    def edit(self, text: str, placeholder: str, *, whole: bool) -> None:
        """Have `text` in the editor; `whole`: what is typed next replaces it."""
        if self.editor.value != text:
            self.editor.put(text)
        self.editor.placeholder = placeholder
        if whole:
            self.editor.select_all()

    def on_click(self, event: events.Click) -> None:
        """Something of the text was clicked."""
        x, y = event.screen_offset - self.query_one("#page-text").region.offset
        line = [each for each in self.laid.places if each.row == y]
        hit = [each for each in line if each.column <= x < each.column + each.width]
        if hit or len(line) == 1:
            self.listener.point(min(hit or line, key=lambda each: each.width))

    def on_resize(self) -> None:
        """Laid out anew."""
        self._write()

    def _write(self) -> None:
        if self.told is None or self.size.width < 20:
            return
        (form, draw), columns = self.told, self.size.width - BAR
        large = self.screen.has_class("-large")
        low = large or self.app.size.height < LOW
        head = head_lines(form, columns, low=low)
        rows = self.size.height - len(head)
        if large:
            # What only large figures need is loaded for them.
            from wizard.screens.panes.large_view import lay_out_large

            self.laid = lay_out_large(form, columns, rows, draw, low=low)
        else:
            self.laid = lay_out(form, columns, rows, draw, low=low)
        self.query_one("#page-head", Static).update(Content("\n").join(head))
        self.query_one("#page-text", Static).update(Content("\n").join(self.laid.lines))
        self.editor.display = self.laid.editor is not None
        if self.laid.editor:
            self.editor.styles.offset = (self.laid.editor.column, self.laid.editor.row)
            self.editor.styles.width = self.laid.editor.width
        self._bring_into_sight(rows)
        # To the editor, or to the page where nothing is typed. Now, not when the toolkit comes to it: keys may wait.
        self.screen.set_focus(self.editor if self.laid.editor else self.body, scroll_visible=False)

    def _bring_into_sight(self, rows: int) -> None:
        first, behind = self.laid.keep
        top = self.body.scroll_offset.y
        wanted = 0 if behind <= rows else min(max(top, behind - rows), first)
        if wanted != top:
            # Once the new text has its size.
            self.call_after_refresh(self.body.scroll_to, y=wanted, animate=False, force=True)
