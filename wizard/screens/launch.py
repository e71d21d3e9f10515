"""Starts the screens. Loads nothing of Textual before it is called."""

from __future__ import annotations

import gc
import os
import signal
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from wizard.interview.session import Session


FRAMES = "120"
"""Frames a second, unless TEXTUAL_FPS says otherwise: at the toolkit's own 60 an echo may wait a whole frame."""


class Ways(Struct, frozen=True):
    """How the screens are used."""

    keys: Path | None = None
    """The file of keys that was named; None for the one in the usual place, if there is one."""
    mouse: bool = True
    """False leaves the mouse to the terminal."""


USUAL = Ways()


class NoKeysError(Exception):
    """The file of keys that was named cannot be read. Its text is a clear sentence."""


def _forget_typed_ahead() -> None:
    """Throw away what was typed to the wizard and not read by it: the shell must not take it for commands.

    Ctrl+C too: it was a key of the wizard's, which is left already.
    """
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        import termios

        termios.tcflush(sys.stdin, termios.TCIFLUSH)
    except (ImportError, OSError, termios.error):
        return  # No terminal here, so nothing was typed on one.


def run(path: Path, ways: Ways = USUAL, session: Session | None = None) -> int:
    """Show the projects of a folder, or go on with the project in a file; returns the exit status.

    `session`: the one that goes on with it; None to read the file. Raises NoKeysError when the keys named cannot be
    read, and a fault of the screens, once the terminal is as it was.
    """
    # Read once, when the toolkit is loaded.
    os.environ.setdefault("TEXTUAL_FPS", FRAMES)
    import wizard.screens.job_screen  # noqa: F401  loaded before the freeze, though only used later
    from wizard.screens.app import SkirtApp
    from wizard.screens.keymap import keys_in_use, unread

    # What was loaded stays to the end: looking for cycles to clear away, in the middle of an answer, passes it by.
    gc.freeze()

    try:
        keys = keys_in_use(ways.keys, os.environ)
    except OSError as trouble:
        raise NoKeysError(unread(ways.keys, trouble)) from None
    app = SkirtApp(path, None, keys, session) if path.is_dir() else SkirtApp(path.parent, path, keys, session)
    try:
        status = app.run(mouse=ways.mouse)
    finally:
        _forget_typed_ahead()
    for line in app.parting:
        print(line, file=sys.stderr)
    if app.fault:
        raise app.fault
    return status or app.return_code or 0
