"""Starts the screens. Loads nothing of Textual before it is called."""

from __future__ import annotations

import gc
import os
import signal
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from wizard.interview.session import Session

FRAMES = "120"
"""Frames a second, unless TEXTUAL_FPS says otherwise: at the toolkit's own 60 an echo may wait a whole frame."""


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


def run(path: Path, session: Session | None = None, *, keys_file: Path | None = None, mouse: bool = True) -> int:
    """Show the projects of a folder, or go on with the project in a file; returns the exit status.

    `session`: the one that goes on with it; None to read the file. `keys_file`: None for the one in the usual place, if
    there is one. Without `mouse` the terminal has the mouse. Raises NoKeysError when the keys named cannot be read, and
    a fault of the screens, once the terminal is as it was.
    """
    # Read once, when the toolkit is loaded.
    os.environ.setdefault("TEXTUAL_FPS", FRAMES)
    import wizard.screens.job_screen  # noqa: F401  loaded before the freeze, though only used later
    from wizard.screens.app import SkirtApp
    from wizard.screens.keymap import keys_in_use

    # What was loaded stays to the end: looking for cycles to clear away, in the middle of an answer, passes it by.
    gc.freeze()

    keys = keys_in_use(keys_file, os.environ)
    app = SkirtApp(path, None, keys, session) if path.is_dir() else SkirtApp(path.parent, path, keys, session)
    try:
        status = app.run(mouse=mouse)
    finally:
        _forget_typed_ahead()
    for line in app.parting:
        print(line, file=sys.stderr)
    if app.fault:
        raise app.fault
    return status or app.return_code or 0
