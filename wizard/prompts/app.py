"""The door to the plain mode. It ends in good order whether it is left, the script ends, or Ctrl+D is pressed."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

from wizard.prompts.home import Home, at_home, open_file
from wizard.prompts.lines import InputEnded, Lines, lines_here


def run(folder: Path, lines: Lines | None = None) -> bool:
    """List the projects of `folder` and go through them; True once it is left. KeyboardInterrupt passes through,
    after the job in hand is in its file."""
    with suppress(InputEnded):
        at_home(Home(lines or lines_here(), folder))
    return True


def run_file(path: Path, lines: Lines | None = None) -> bool:
    """Go on with the project in `path`, or list it where it is a folder; False, with all that is wrong told, when it
    cannot be read."""
    if path.is_dir():
        return run(path, lines)
    home = Home(lines or lines_here(), path.parent)
    with suppress(InputEnded):
        if not open_file(home, path):
            return False
        at_home(home)
    return True
