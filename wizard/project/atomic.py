"""Putting bytes into a file whole or not at all, whatever happens in between."""

from __future__ import annotations

import os
import secrets
import stat
from pathlib import Path
from typing import Final

STALE: Final = 3600
"""Seconds after which a temporary file is somebody's who was killed, and is cleared away."""


def real_path(path: Path) -> Path:
    """The file itself, links followed: a link stays a link."""
    return Path(os.path.realpath(path))


def put(target: Path, data: bytes, *, like: Path | None = None) -> None:
    """Make `data` all that `target` holds, in one go; until then it holds what it did. OSError when that fails.

    The new file may be read and written by whoever may the file `like`, else by this computer's habit. PermissionError
    when `target` is there and may not be written, though its folder may.
    """
    if target.exists() and not os.access(target, os.W_OK):
        raise PermissionError(13, "may not be written", str(target))
    beside = target.with_name(f".{target.name}.{secrets.token_hex(4)}.new")
    try:
        _fill(beside, data, like)
        os.replace(beside, target)
    finally:
        beside.unlink(missing_ok=True)
    _settle(target.parent)
    _clear_away(target)


def _fill(path: Path, data: bytes, like: Path | None) -> None:
    with path.open("xb") as stream:
        stream.write(data)
        stream.flush()
        os.fsync(stream.fileno())
    if like is not None:
        path.chmod(stat.S_IMODE(like.stat().st_mode))


def _settle(folder: Path) -> None:
    """Have the folder itself on the disk, so that the new name outlasts a power cut; where folders can be opened."""
    if not hasattr(os, "O_DIRECTORY"):
        return
    handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _clear_away(target: Path) -> None:
    """Take out temporary files of `target` that were left by somebody killed long before it was written."""
    now = target.stat().st_mtime
    for each in target.parent.iterdir():
        if each.name.startswith(f".{target.name}.") and each.name.endswith(".new"):
            _take_out(each, now)


def _take_out(path: Path, now: float) -> None:
    try:
        if now - path.stat().st_mtime > STALE:
            path.unlink()
    except FileNotFoundError:
        return
