"""Outputs that may take nothing: what is said is then lost, and nothing else."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any, TextIO, cast


def let_go(stream: TextIO) -> None:
    """Point an output that takes nothing more at nothing, so that the interpreter's last flush finds no fault."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, stream.fileno())
    os.close(nowhere)


@contextmanager
def talk_may_be_lost() -> Iterator[None]:
    """Inside, remarks on standard error that it cannot take, as on a full disk, are lost and change no exit status."""
    before = sys.stderr
    sys.stderr = cast("TextIO", _Talk(before))
    try:
        yield
    finally:
        sys.stderr.flush()
        sys.stderr = before


class _Talk:
    """A stream that lets go of what it cannot take."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream

    def write(self, text: str) -> int:
        """Write what can be written."""
        try:
            self._stream.write(text)
        except OSError:
            let_go(self._stream)
        return len(text)

    def flush(self) -> None:
        """Flush what can be flushed."""
        try:
            self._stream.flush()
        except OSError:
            let_go(self._stream)

    def __getattr__(self, name: str) -> Any:
        return getattr(self._stream, name)
