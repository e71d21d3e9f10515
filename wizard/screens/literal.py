"""Text that people typed, shown as it stands: no markup is read, no escape code reaches the terminal."""

from __future__ import annotations

from typing import Final

from textual.content import Content

_KEPT: Final = "\n"
"""The one control character that lays text out."""


def plain(text: str) -> str:
    """`text` with every control character written out, as `\\x1b` for escape; line ends stay."""
    return "".join(each if each in _KEPT or each.isprintable() else _written(each) for each in text)


def _written(character: str) -> str:
    code = ord(character)
    return f"\\x{code:02x}" if code < 0x100 else f"\\u{code:04x}"


def one_line(text: str) -> str:
    """`text` on a single line, for names in lists and headers."""
    return plain(text.replace("\n", " "))


def words(text: str, style: str = "") -> Content:
    """`text` as content for a widget: nothing in it is read as markup. `style` is one of the sheet's, as `$accent`."""
    return Content.styled(plain(text), style) if style else Content(plain(text))


def cut_to(text: str, columns: int) -> str:
    """`text` on one line of at most `columns` characters; an ellipsis stands where it was cut."""
    line = one_line(text)
    return line if len(line) <= columns else line[: max(columns - 1, 0)] + "…"
