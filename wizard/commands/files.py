"""Writing a file whole or not at all."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path


def put_new(target: Path, data: bytes) -> None:
    """Write `data` to a file that must not be there yet; nothing is left behind when that fails.

    OSError when it cannot be written, FileExistsError when `target` is there.
    """
    with target.open("xb") as stream:
        try:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        except OSError:
            target.unlink(missing_ok=True)
            raise


def put_over(target: Path, data: bytes) -> None:
    """Write `data` to `target` in one go, over what is there; an old file stays whole when that fails. OSError then."""
    if target.exists() and not target.is_file():
        # A pipe or a device cannot be replaced, only written to.
        target.write_bytes(data)
        return
    handle, name = tempfile.mkstemp(dir=target.parent, prefix=".railskirt-")
    beside = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        beside.chmod(_usual_mode())
        beside.replace(target)
    finally:
        beside.unlink(missing_ok=True)


def _usual_mode() -> int:
    """Who may read a new file by this computer's habit; a temporary one is for its owner only."""
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask
