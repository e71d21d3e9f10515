"""Putting words on the screen only where they change: each change has the screen laid out and painted anew."""

from __future__ import annotations

from textual.content import Content
from textual.widgets import Static


def put(place: Static, content: Content) -> None:
    """Show `content`, unless it stands there already; all is laid out anew only where it needs other room."""
    before = place.content
    if not alike(before, content):
        place.update(content, layout=not (isinstance(before, Content) and as_large(place, before, content)))


def alike(one: object, other: Content) -> bool:
    """True for the same text in the same styles; the toolkit compares the text alone."""
    return isinstance(one, Content) and one.plain == other.plain and one.spans == other.spans


def as_large(place: Static, one: Content, other: Content) -> bool:
    """True when both take the same room there: the same width where that goes by the words, and as many lines."""
    styles, columns = place.styles, place.content_size.width
    if columns == 0 or (styles.width is not None and styles.width.is_auto and _width(one) != _width(other)):
        return False
    if styles.height is None or not styles.height.is_auto:
        return True
    rules = styles.get_rules()
    return one.get_height(rules, columns) == other.get_height(rules, columns)


def _width(content: Content) -> int:
    return max((line.cell_length for line in content.split("\n", allow_blank=True)), default=0)
