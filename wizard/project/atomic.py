"""Writing a file whole or not at all, with its mode from the first moment on, and keeping other programs off it between
reading and replacing it."""

from __future__ import annotations

import errno
import fcntl
import os
import secrets
import stat
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Final

from msgspec import Struct

STALE: Final = 3600
"""Seconds after which a temporary file was left by a program that was killed, and is removed."""


class Access(Struct, frozen=True):
    """Who may read and write a file: its permission bits, and the numbers of its owner and group."""

    mode: int
    uid: int
    gid: int


class Written(Struct, frozen=True):
    """The file holds the data. What could not be done besides:"""

    unsynced: OSError | None = None
    """Why the folder is not known to be on the disk: a power cut may bring the old file back."""
    owner_kept: bool = True
    """False when the file now belongs to another owner or group than it did."""


def real_path(path: Path) -> Path:
    """The file itself, links followed: a link stays a link."""
    return Path(os.path.realpath(path))


def access_of(path: Path) -> Access | None:
    """Who may read and write the file at `path`; None when there is none."""
    try:
        about = path.stat()
    except FileNotFoundError:
        return None
    return Access(stat.S_IMODE(about.st_mode) & 0o777, about.st_uid, about.st_gid)


def put(
    target: Path,
    data: bytes,
    *,
    access: Access | None = None,
    last: Path | None = None,
    new: bool = False,
    sync: bool = True,
) -> Written:
    """Make `data` all that `target` holds, in one go. OSError when that fails: `target` then holds what it did before.

    The file gets the mode, owner and group of `access`, else those that `target` has, else this computer's usual ones.
    What `target` held before is kept as `last`.

    `new`: FileExistsError when `target` is there already; of several programs that try at once, one succeeds.
    `sync`: False is quick: when the data reaches the disk is left to the system, and nothing stale is removed.
    PermissionError when `target` is there and may not be written, though its folder may.
    """
    if target.exists() and not _may_replace(target):
        raise PermissionError(errno.EACCES, "may not be written", str(target))
    beside = _beside(target)
    try:
        owner_kept = _fill(beside, data, access or access_of(target), sync=sync)
        if last is not None:
            _keep_as(last, target)
        if new:
            _give_new_name(beside, target)
        else:
            os.replace(beside, target)
    finally:
        _remove(beside)
    # From here on the file holds the data, whatever else fails.
    unsynced = None
    if sync:
        unsynced = _sync_folder(target.parent)
        with suppress(OSError):
            _remove_stale(target)
    return Written(unsynced, owner_kept)


def _may_replace(target: Path) -> bool:
    """False for a file that may not be written, and for one in a folder where only owners may remove their files: a
    second name given to it there could not be removed again."""
    file, folder = target.stat(), target.parent.stat()
    owners = {0, file.st_uid, folder.st_uid}
    return os.access(target, os.W_OK) and (not folder.st_mode & stat.S_ISVTX or os.geteuid() in owners)


def _beside(path: Path) -> Path:
    """A temporary file's name: `_remove_stale` knows it by the project's, for what is kept beside that too."""
    return path.with_name(f".{path.name.lstrip('.')}.{secrets.token_hex(4)}.new")


def _fill(path: Path, data: bytes, access: Access | None, *, sync: bool) -> bool:
    """Write a new file; False when it could not be given the owner or group of `access`."""
    # Nobody else may open it before it has its mode: who has opened a file may read what comes into it later.
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600 if access else 0o666)
    with open(handle, "wb") as stream:
        owner_kept = access is None or _set_access(handle, access)
        stream.write(data)
        stream.flush()
        if sync:
            os.fsync(handle)
    return owner_kept


def _set_access(handle: int, access: Access) -> bool:
    """Owner and group as far as this user may, then mode. Where the group is not kept, it may do no more than
    everybody may."""
    about = os.fstat(handle)
    if (about.st_uid, about.st_gid) != (access.uid, access.gid):
        try:
            os.fchown(handle, access.uid, access.gid)
        except OSError:  # Most may only give a file to a group of theirs.
            with suppress(OSError):
                os.fchown(handle, -1, access.gid)
        about = os.fstat(handle)
    mode = access.mode
    if about.st_gid != access.gid:
        mode &= 0o707 | (mode & 0o007) << 3
    if stat.S_IMODE(about.st_mode) != mode:
        os.fchmod(handle, mode)
    return (about.st_uid, about.st_gid) == (access.uid, access.gid)


def _keep_as(last: Path, target: Path) -> None:
    """Have `last` hold what `target` does. A second name for the same file is enough: nothing has to be written."""
    beside = _beside(target)
    try:
        os.link(target, beside)
    except OSError:  # Not every disk has second names.
        put(last, target.read_bytes(), access=access_of(target))
        return
    try:
        os.replace(beside, last)
    finally:
        # Replacing one name of a file by another of the same file leaves both.
        _remove(beside)


def _give_new_name(beside: Path, target: Path) -> None:
    """Give the file `beside` the name `target`, unless that is taken: FileExistsError then."""
    try:
        os.link(beside, target)
    except FileExistsError:
        raise
    except OSError:  # Not every disk has second names.
        os.close(os.open(target, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600))
        try:
            os.replace(beside, target)
        except OSError:
            _remove(target)
            raise


def _remove(path: Path) -> None:
    """Remove a file if it is there. One that cannot be removed is left: `_remove_stale` tries again."""
    with suppress(OSError):
        path.unlink()


def _sync_folder(folder: Path) -> OSError | None:
    """Have the folder itself on the disk, so that the new name outlasts a power cut; why not, where that fails."""
    try:
        handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
    except OSError as error:
        return error
    return None


def _remove_stale(target: Path) -> None:
    """Remove temporary files of `target` that were left by a program killed long before it was written."""
    now = target.stat().st_mtime
    with os.scandir(target.parent) as there:
        left = [each for each in there if each.name.startswith(f".{target.name}.") and each.name.endswith(".new")]
    for each in left:
        if now - each.stat(follow_symlinks=False).st_mtime > STALE:
            os.unlink(each)


PATIENCE: Final = 5.0
"""Seconds to wait for another program that is saving the same file: longer than any save, unless that hangs."""
CANNOT: Final = (errno.ENOTSUP, errno.EOPNOTSUPP, errno.EINVAL, errno.ENOSYS, errno.EBADF)
"""What a file system says of what it cannot do, as to lock files or to sync folders."""


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
        time.sleep(0.001)
        return False
    except OSError as error:
        if error.errno not in (*CANNOT, errno.ENOLCK):
            raise
    return True


def _is_at(handle: int, path: Path) -> bool:
    """True while `path` still leads to the open file: whoever had the lock before has put a new one in its place."""
    try:
        return os.path.samestat(os.fstat(handle), path.stat())
    except FileNotFoundError:
        return False
