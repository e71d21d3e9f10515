"""Who is told at once of what is typed and taken."""

from __future__ import annotations


def nobody(text: str) -> None:
    """Stands for whoever will listen: nobody does yet."""
