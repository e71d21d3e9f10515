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


def put(target: Path, data: bytes, *, like: Path | None = None, last: Path | None = None) -> None:
    """Make `data` all that `target` holds, in one go; until then it holds what it did. OSError when that fails.

    The new file may be read and written by whoever may the file `like`, else by this computer's habit. PermissionError
    when `target` is there and may not be written, though its folder may. What it held before is kept as `last`.
    """
    if target.exists() and not os.access(target, os.W_OK):
        raise PermissionError(13, "may not be written", str(target))
    beside = _beside(target)
    try:
        _fill(beside, data, like)
        if last is not None:
            _keep_as(last, target)
        os.replace(beside, target)
    finally:
        beside.unlink(missing_ok=True)
    _settle(target.parent)
    _clear_away(target)


def _keep_as(last: Path, target: Path) -> None:
    """Have `last` hold what `target` does. A second name for the same file will do, where there can be one: nothing has
    to be written then."""
    beside = _beside(target)
    try:
        os.link(target, beside)
    except (OSError, AttributeError):  # not every disk has second names, nor every system
        put(last, target.read_bytes(), like=target)
        return
    try:
        os.replace(beside, last)
    finally:
        # A name put over another one of the same file stays where it is.
        beside.unlink(missing_ok=True)


def _beside(path: Path) -> Path:
    """A temporary file's name, which `_clear_away` knows."""
    return path.with_name(f".{path.name}.{secrets.token_hex(4)}.new")


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
    with os.scandir(target.parent) as there:
        left = [each.name for each in there if each.name.startswith(f".{target.name}.") and each.name.endswith(".new")]
    for each in left:
        _take_out(target.with_name(each), now)


def _take_out(path: Path, now: float) -> None:
    try:
        if now - path.stat().st_mtime > STALE:
            path.unlink()
    except FileNotFoundError:
        return
