"""Exit statuses: their numbers and what each means; and messages, which go to standard error."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from enum import IntEnum


class Exit(IntEnum):
    """An exit status. `meaning` is the sentence shown in the help."""

    meaning: str

    def __new__(cls, number: int, meaning: str) -> Exit:
        """One status with its meaning; the value stays the plain number."""
        member = int.__new__(cls, number)
        member._value_ = number
        member.meaning = meaning
        return member

    OK = 0, "success"
    FOUND = 1, "check read every file and found something to look at"
    USAGE = 2, "the command line is wrong"
    UNFINISHED = 3, "done, but answers are missing or a figure cannot be worked out"
    BAD_FILE = 4, "a project or a key file could not be read"
    NOT_A_TERMINAL = 5, "the wizard needs a terminal, and there is none"
    NOT_SAVED = 6, "nothing was written: it failed, or would have replaced something"
    NOT_SERVED = 7, "not shown in a browser: the extra is missing, or the address cannot be used"
    FAULT = 70, "something went wrong in railskirt; the message names the file with the details"
    HUNG_UP = 129, "the terminal closed; every answer is in the file"
    INTERRUPTED = 130, "stopped by Ctrl+C"
    PIPE_CLOSED = 141, "the program that read the output stopped reading"
    ENDED = 143, "ended by another program; every answer is in the file"


def gravest(met: Iterable[Exit]) -> Exit:
    """Of the statuses of several files the one that counts for all."""
    order = (Exit.OK, Exit.UNFINISHED, Exit.FOUND, Exit.NOT_SAVED, Exit.BAD_FILE)
    return max(met, key=order.index, default=Exit.OK)


def say(sentence: str, status: Exit = Exit.OK) -> Exit:
    """Say something on standard error; gives the status that goes with it."""
    print(f"railskirt: {sentence}", file=sys.stderr)
    return status
