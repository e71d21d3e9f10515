"""The details of a fault of railskirt's own, kept in a file for a bug report."""

from __future__ import annotations

import platform
import tempfile
import traceback

from wizard import __version__


def fault_words(fault: BaseException, kept: str | None) -> str:
    """What is said of a fault, and where the details are: `kept`, the file that has them, if there is one."""
    said = (
        f"Something went wrong in railskirt ({type(fault).__name__}). Every answer you gave is in the project's file."
    )
    return f"{said} For a bug report: {kept}" if kept else said


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
