"""Keeping other programs off a file between reading and replacing it."""

from __future__ import annotations

import errno
import fcntl
import os
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final

PATIENCE: Final = 5.0
"""Seconds to wait for another program that is saving the same file: longer than any save, unless that hangs."""
_PAUSE: Final = 0.001
_NO_LOCKS: Final = (errno.ENOLCK, errno.ENOTSUP, errno.EOPNOTSUPP, errno.EINVAL, errno.ENOSYS, errno.EBADF)
"""What a file system without locks says."""


@contextmanager
def locked(path: Path) -> Iterator[int | None]:
    """Hold the file at `path` against every other program that does the same. Gives its handle, open for reading and
    writing at its beginning; None where there is no file, and then nothing is held.

    The operating system holds the lock on the file itself and releases it when this program ends, however that
    happens: there is no lock file to be left behind. BlockingIOError when another program holds it for longer than
    PATIENCE. A file system without locks does without.
    """
    handle = _lock(path)
    try:
        yield handle
    finally:
        if handle is not None:
            os.close(handle)


def _lock(path: Path) -> int | None:
    until = time.monotonic() + PATIENCE
    while True:
        try:
            handle = os.open(path, os.O_RDWR | os.O_NONBLOCK)
        except FileNotFoundError:
            return None
        ours = False
        try:
            ours = _take(handle, until) and _is_at(handle, path)
        finally:
            if not ours:
                os.close(handle)
        if ours:
            return handle


def _take(handle: int, until: float) -> bool:
    """Lock an open file, or find that its file system has no locks; False when another program has it for now."""
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        if time.monotonic() > until:
            raise
        time.sleep(_PAUSE)
        return False
    except OSError as error:
        if error.errno not in _NO_LOCKS:
            raise
    return True


def _is_at(handle: int, path: Path) -> bool:
    """True while `path` still leads to the open file: whoever had the lock before has put a new one in its place."""
    try:
        return os.path.samestat(os.fstat(handle), path.stat())
    except FileNotFoundError:
        return False
