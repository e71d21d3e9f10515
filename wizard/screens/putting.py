"""Putting words on the screen only where they change: each change has the screen laid out and painted anew."""

from __future__ import annotations

from textual.content import Content
from textual.widgets import Static


def put(place: Static, content: Content, *, layout: bool = True) -> None:
    """Show `content`, unless it stands there already. `layout`: False where the size of the place is fixed."""
    if not alike(place.content, content):
        place.update(content, layout=layout)


def alike(one: object, other: Content) -> bool:
    """True for the same text in the same styles; the toolkit compares the text alone."""
    return isinstance(one, Content) and one.plain == other.plain and one.spans == other.spans
