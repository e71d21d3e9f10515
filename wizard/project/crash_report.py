"""The details of a fault of railskirt's own, kept in a file for a bug report."""

from __future__ import annotations

import platform
import tempfile
import traceback
from pathlib import Path

from wizard import __version__


def fault_words(fault: BaseException, kept: str | None) -> str:
    """What is said of a fault, and where the details are: `kept`, the file that has them, else the last places it came
    through, the innermost last: `looking.py:174, store.py:21`."""
    frames = traceback.extract_tb(fault.__traceback__, -6)
    trail = ", ".join(f"{Path(each.filename).name}:{each.lineno}" for each in frames)
    said = f"Something went wrong in railskirt ({type(fault).__name__})."
    return f"{said} Every answer you gave is in the project's file. For a bug report: {kept or trail}"


def keep_report(fault: BaseException) -> str | None:
    """Write the details into a file of their own; gives its path, None where none can be written."""
    try:
        with tempfile.NamedTemporaryFile(
            "w", prefix="railskirt-fault-", suffix=".txt", encoding="utf-8", errors="backslashreplace", delete=False
        ) as stream:
            print(f"railskirt {__version__}, Python {platform.python_version()}, {platform.platform()}\n", file=stream)
            traceback.print_exception(fault, file=stream)
            return stream.name
    except OSError:
        return None
