"""The pane of a page: its text, with one editor over it at the current field. It shows text; its listener decides.

One editor serves all fields: no widget is added or removed from page to page, and the focus is never lost.
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
"""A window with fewer lines shows the question of the field instead of the page's sentences."""
BAR: Final = 1
"""Columns of the scroll bar."""


class Listener(Protocol):
    """Receives keys and clicks from the pane, at once."""

    def typed(self, text: str) -> None:
        """The text in the editor has changed."""

    def enter(self) -> None:
        """Enter was pressed."""

    def letter(self, character: str) -> None:
        """A letter was typed where there is no editor."""

    def point(self, place: Place) -> None:
        """A place was clicked."""


class Editor(Input):
    """The editor of the current field. It reports at once, so that Enter takes what was typed before it."""

    def __init__(self, listener: Listener) -> None:
        super().__init__(id="field", select_on_focus=False, compact=True)
        self.listener = listener
        self.quiet = False

    def put(self, text: str) -> None:
        """Show `text` without reporting it."""
        self.quiet = True
        self.value = text
        self.quiet = False
        self.cursor_position = len(text)

    def watch_value(self, text: str) -> None:
        """Report what is typed."""
        if not self.quiet:
            self.listener.typed(text)

    async def action_submit(self) -> None:
        """Enter."""
        self.listener.enter()


class PageBody(VerticalScroll):
    """The scrolling part. It has the focus where there is no editor."""

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
    """Title and sentences, which stay; below them the scrolling part."""

    def __init__(self, listener: Listener) -> None:
        super().__init__(id="page")
        self.listener = listener
        self.body, self.editor = PageBody(listener), Editor(listener)
        self.told: tuple[Form, Draw] | None = None
        self.laid = Laid((), (), None, (0, 0))

    def compose(self) -> ComposeResult:
        """All parts; they never change."""
        yield Static(id="page-head")
        with self.body:
            yield Static(id="page-text")
            yield self.editor

    def tell(self, form: Form, draw: Draw) -> None:
        """Show a page with its current place."""
        self.told = form, draw
        self._write()

    def edit(self, text: str, placeholder: str, *, whole: bool) -> None:
        """Put `text` into the editor; with `whole`, what is typed next replaces it."""
        if self.editor.value != text:
            self.editor.put(text)
        self.editor.placeholder = placeholder
        if whole:
            self.editor.select_all()

    def on_click(self, event: events.Click) -> None:
        """Report the place that was clicked."""
        x, y = event.screen_offset - self.query_one("#page-text").region.offset
        line = [each for each in self.laid.places if each.row == y]
        hit = [each for each in line if each.column <= x < each.column + each.width]
        if hit or len(line) == 1:
            self.listener.point(min(hit or line, key=lambda each: each.width))

    def on_resize(self) -> None:
        """Lay the page out again."""
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
            # Loaded only for large figures.
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
        # Now, not when the toolkit gets round to it: keys may be waiting.
        self.screen.set_focus(self.editor if self.laid.editor else self.body, scroll_visible=False)

    def _bring_into_sight(self, rows: int) -> None:
        first, behind = self.laid.keep
        top = self.body.scroll_offset.y
        wanted = 0 if behind <= rows else min(max(top, behind - rows), first)
        if wanted != top:
            # Once the new text has its size.
            self.call_after_refresh(self.body.scroll_to, y=wanted, animate=False, force=True)
