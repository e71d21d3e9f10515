"""A fault of railskirt's own: said in a sentence, with the details in a file for a bug report."""

from __future__ import annotations

from typing import TextIO

from wizard.commands.exits import Exit
from wizard.project.fault_report import fault_words, keep_report


def tell(fault: Exception, talk: TextIO) -> Exit:
    """Say on `talk` what happened and where the details are; gives the status."""
    print(f"railskirt: {fault_words(fault, keep_report(fault))}", file=talk)
    return Exit.FAULT
