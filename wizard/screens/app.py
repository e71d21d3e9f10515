"""The door to the screens. Nothing of the toolkit is loaded before it is asked for."""

from __future__ import annotations

import os
import sys
from pathlib import Path

FRAMES = "120"
"""Frames a second, unless TEXTUAL_FPS says otherwise: at the toolkit's own 60 an echo may wait a whole frame."""


def run(folder: Path) -> int:
    """Show the projects of `folder`; gives the exit status."""
    return _run(folder, None)


def run_file(path: Path) -> int:
    """Go on with the project in `path`; gives the exit status."""
    return _run(path.parent, path)


def _run(folder: Path, file: Path | None) -> int:
    """A fault of the screens is raised here, once the terminal is as it was."""
    # Read once, when the toolkit is loaded.
    os.environ.setdefault("TEXTUAL_FPS", FRAMES)
    from wizard.screens.skirt_app import SkirtApp

    app = SkirtApp(folder, file)
    status = app.run()
    for line in app.parting:
        print(line, file=sys.stderr)
    if app.fault:
        raise app.fault
    return status or app.return_code or 0
