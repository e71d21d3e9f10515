"""The field a line is typed into."""

from __future__ import annotations

from collections.abc import Callable

from textual.geometry import Size
from textual.reactive import Reactive
from textual.widgets import Input

from wizard.screens.listeners import nobody


class Field(Input):
    """Tells at once what is typed and taken.

    The toolkit's own messages are heard only after the keys that wait behind them: on a slow machine Enter would then
    take what was typed after it, and the next question would get the text of the last.
    """

    virtual_size = Reactive(Size(0, 0), layout=False)
    """How far the text reaches: the field itself stays as large as it is, and nothing has to be laid out anew."""
    typed: Callable[[str], None] = staticmethod(nobody)
    taken: Callable[[str], None] = staticmethod(nobody)

    def put(self, text: str) -> None:
        """Show `text` without telling anybody."""
        typed, self.typed = self.typed, nobody
        self.value = text
        self.typed = typed
        self.cursor_position = len(text)

    def watch_value(self, text: str) -> None:
        """Tell what stands in the field."""
        self.typed(text)

    async def action_submit(self) -> None:
        """Enter."""
        self.taken(self.value)
