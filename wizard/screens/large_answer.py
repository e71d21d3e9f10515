"""The answer being given in large figures, and how it is understood under it: read from where the tape is."""

from __future__ import annotations

from textual.content import Content
from textual.widgets import Static

from wizard.screens.big_leaves import large_lines
from wizard.screens.big_text import SIZES, can_be_large, in_blocks, set_large, width
from wizard.screens.literal import plain


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
        room = rows - len(rest) - sum(len(each) + 1 for each in under)
        above = _as_large(typed, columns, room) if all(can_be_large(each) for each in others) else None
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
