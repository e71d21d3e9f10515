"""Text that people typed, shown as it stands: no markup is read, no escape code reaches the terminal."""

from __future__ import annotations

from textual.content import Content

from wizard.sheets.plain import cells, clipped, literal


def plain(text: str) -> str:
    """`text` with every unseen character written out, as `\\x1b` for escape; line ends stay."""
    return "\n".join(literal(each) for each in text.split("\n"))


def one_line(text: str) -> str:
    """`text` on a single line, for names in lists and headers."""
    return literal(text.replace("\n", " "))


def words(text: str) -> Content:
    """`text` as content for a widget: nothing in it is read as markup."""
    return Content(plain(text))


def cut_to(text: str, columns: int) -> str:
    """`text` on one line of at most `columns` columns; an ellipsis stands where it was cut."""
    return clipped(one_line(text), columns)


def filled(text: str, columns: int) -> str:
    """`text` on one line of just `columns` columns: cut, or followed by blanks."""
    line = cut_to(text, columns)
    return line + " " * (columns - cells(line))
