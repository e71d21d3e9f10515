"""Keeping a project in its file: nothing is ever half written, and nobody else's change is written over."""

from __future__ import annotations

import errno
import hashlib
import stat
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from msgspec import Struct

from wizard.project.atomic import put, real_path
from wizard.project.draft import Draft
from wizard.project.hand_marks import edited, marked, unmarked
from wizard.project.problems import Problems, whole
from wizard.project.reading import has_comments, read
from wizard.project.toml_text import LARGEST, too_large
from wizard.project.typed.misread import quoted
from wizard.project.writing import write

_REASONS: Final[dict[int | None, str]] = {
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "there is no room left for your files on this disk",
    errno.EACCES: "it may not be written there",
    errno.EPERM: "it may not be written there",
    errno.EROFS: "the disk may only be read",
    errno.ENOENT: "its folder is not there",
    errno.ENOTDIR: "its folder is not there",
    errno.EISDIR: "there is a folder of that name",
    errno.ENAMETOOLONG: "its name is too long",
    errno.ELOOP: "the link leads round in a circle",
}


class Opened(Struct, frozen=True):
    """A file that was read."""

    draft: Draft
    has_comments: bool
    """True when it holds comments written by hand, which the first save takes out."""
    edited: tuple[str, ...] = ()
    """Keys of the parts that were edited by hand since it was saved here last; see `hand_marks`."""


class Held(Struct, frozen=True):
    """Saved: the file holds the draft."""

    at: datetime
    """When, universal time, by the file itself."""


class Changed(Struct, frozen=True):
    """Not saved: somebody else has changed the file since it was opened or last saved. It stays as they left it."""

    sentence: str


class NotSaved(Struct, frozen=True):
    """Not saved: the disk or the folder does not allow it. The file stays as it was."""

    sentence: str


class Store:
    """One project file. Remembers what it last read or wrote there, and so sees when somebody else has."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self._seen: str | None = None

    def open(self) -> Opened | Problems:
        """Read the file, or say all that is wrong with it. Never changes it."""
        data = self._data()
        if isinstance(data, Problems):
            return data
        draft = read(data)
        if isinstance(draft, Problems):
            return draft
        self._seen = _mark(data)
        return Opened(unmarked(draft), has_comments(data), edited(draft))

    def save(self, draft: Draft) -> Held | Changed | NotSaved:
        """Write the draft, whole or not at all; what stood there before is kept once, as `.NAME.last`."""
        data = write(marked(draft))
        try:
            there = self._there()
            if there is not None and _mark(there) not in (self._seen, _mark(data)):
                return Changed(self._changed())
            if there != data:
                self._write(data, there)
            self._seen = _mark(data)
            return Held(_changed_at(self.path))
        except OSError as error:
            return NotSaved(self._not_saved(error))

    def keep_original(self) -> Path | NotSaved:
        """Keep the file as it is now beside it, as `NAME.before`; never over another one. Gives where."""
        try:
            return _keep(self.path, real_path(self.path).read_bytes())
        except OSError as error:
            return NotSaved(self._not_saved(error))

    def set_aside(self) -> Path | NotSaved | None:
        """Keep what another hand left in the file beside it, readable or not, so that the next `save` may replace it.

        Gives where; None when nobody else's is there.
        """
        try:
            there = self._there()
            if there is None or _mark(there) == self._seen:
                return None
            kept = _keep(self.path, there)
        except OSError as error:
            return NotSaved(self._not_saved(error))
        self._seen = _mark(there)
        return kept

    def _data(self) -> bytes | Problems:
        try:
            about = self.path.stat()
            if stat.S_ISDIR(about.st_mode):
                return whole("This is a folder: a project is a file whose name ends in .toml")
            if not stat.S_ISREG(about.st_mode):
                return whole("This is a pipe or a device: a project is a file whose name ends in .toml")
            return too_large(about.st_size) if about.st_size > LARGEST else self.path.read_bytes()
        except (OSError, ValueError) as error:
            return whole(f"The file cannot be read: {_unread(error)}.")

    def _there(self) -> bytes | None:
        """What the file holds now; None when there is none."""
        real = real_path(self.path)
        try:
            if not stat.S_ISREG(real.stat().st_mode) and not real.is_dir():
                raise OSError(errno.EINVAL, "it is a pipe or a device")
            return real.read_bytes()
        except FileNotFoundError:
            return None

    def _write(self, data: bytes, there: bytes | None) -> None:
        real = real_path(self.path)
        if there is None:
            put(real, data)
        else:
            put(real, data, like=real, last=real.with_name(f".{real.name}.last"))

    def _changed(self) -> str:
        name = quoted(self.path.name)
        if self._seen is None:
            return f"There is a file {name} already, and it was left as it is: give the project another name."
        return (
            f"{name} was changed by another program since it was opened here, and was left as it is: "
            "open it again to go on from what it says now."
        )

    def _not_saved(self, error: OSError) -> str:
        reason = _REASONS.get(error.errno, error.strerror or "the computer did not say why")
        return f"{quoted(self.path.name)} could not be saved: {reason}. What was in the file before is still there."


def _unread(error: OSError | ValueError) -> str:
    if isinstance(error, FileNotFoundError | NotADirectoryError):
        return "there is none of that name"
    if isinstance(error, PermissionError):
        return "it belongs to somebody else, or may not be read"
    known = isinstance(error, OSError) and _REASONS.get(error.errno, error.strerror)
    return known or "there can be no file of that name"


def _mark(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def _changed_at(path: Path) -> datetime:
    return datetime.fromtimestamp(path.stat().st_mtime, UTC)


def _keep(path: Path, data: bytes) -> Path:
    kept = next(each for each in _beside(path) if not each.exists() or each.read_bytes() == data)
    put(kept, data)
    return kept


def _beside(path: Path) -> list[Path]:
    first = path.with_name(f"{path.name}.before")
    return [first, *(path.with_name(f"{path.name}.before-{number}") for number in range(2, 1000))]
