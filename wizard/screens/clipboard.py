"""Copying to the clipboard. The terminal is asked to take the text; not every one does, and none says so."""

from __future__ import annotations

import base64
import os
from typing import Any, Final

from textual.app import App

LONG: Final = 74_000
"""Letters on the way to the terminal that some of them take at most."""
SECONDS: Final = 8
"""How long it is said: there is a command in it to read."""
DEAF: Final = ("linux", "vt100", "vt220")
"""Kinds of terminal that have no clipboard at all."""


def copy(app: App[Any], what: str, text: str, instead: str) -> None:
    """Ask the terminal to take `text`, and say what was copied and what to do where it takes none."""
    app.copy_to_clipboard(text)
    app.notify(said(what, text, instead, os.environ.get("TERM", "")), markup=False, timeout=SECONDS)


def said(what: str, text: str, instead: str, term: str) -> str:
    """`Copied: Buying list, 14 lines. If it cannot be pasted: railskirt sheet … prints the same.`"""
    lines = text.count("\n")
    much = f", {lines} lines" if lines > 1 else ""
    if term in DEAF:
        return f"This terminal has no clipboard. {instead} prints the same."
    if len(base64.b64encode(text.encode())) > LONG:
        return f"Copied: {what}{much}, long for some terminals. If it cannot be pasted: {instead} prints the same."
    return f"Copied: {what}{much}. If it cannot be pasted, the terminal takes no copies: {instead} prints the same."
