"""A fault of railskirt's own: said in a sentence, with the details in a file for those who mend it."""

from __future__ import annotations

import platform
import tempfile
import traceback
from typing import TextIO

from wizard import __version__
from wizard.commands.exits import Exit


def tell(fault: Exception, talk: TextIO) -> Exit:
    """Say on `talk` what happened and where the details are; gives the status."""
    what = f"a fault of the program itself ({type(fault).__name__})"
    print(f"railskirt: {what}. Every answer given is in the project's file.", file=talk)
    kept = _details(fault)
    if kept:
        print(f"railskirt: the details, for those who mend it: {kept}", file=talk)
    return Exit.FAULT


def _details(fault: Exception) -> str | None:
    """The file that has them; None where none can be written."""
    try:
        with tempfile.NamedTemporaryFile(
            "w", prefix="railskirt-fault-", suffix=".txt", encoding="utf-8", errors="backslashreplace", delete=False
        ) as stream:
            print(f"railskirt {__version__}, Python {platform.python_version()}, {platform.platform()}\n", file=stream)
            traceback.print_exception(fault, file=stream)
            return stream.name
    except OSError:
        return None
