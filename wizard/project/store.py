"""Saving a project in its file: a file is never half written, and another program's change is never overwritten."""

from __future__ import annotations

import errno
import hashlib
import os
import shlex
import stat
from collections.abc import Iterator
from contextlib import suppress
from itertools import islice
from pathlib import Path
from typing import Final

import msgspec
from msgspec import Struct

from wizard.project.atomic import CANNOT, Access, Written, access_of, locked, put, real_path
from wizard.project.encode import encode
from wizard.project.keys import numbered
from wizard.project.marks import edited, marked, unmarked
from wizard.project.parse.misread import quoted
from wizard.project.problems import Problems, whole
from wizard.project.project import Project
from wizard.project.reading import has_comments, read
from wizard.project.toml_lines import LARGEST, too_large

_REASONS: Final[dict[int | None, str]] = {
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "there is no room left for your files on this disk",
    **dict.fromkeys((errno.EACCES, errno.EPERM), "you may not write there"),
    errno.EROFS: "the disk is read-only",
    **dict.fromkeys((errno.ENOENT, errno.ENOTDIR), "its folder does not exist"),
    errno.EISDIR: "a folder has that name",
    errno.ENAMETOOLONG: "its name is too long",
    errno.ELOOP: "the link leads back to itself",
    errno.EAGAIN: "another program has it locked",
}
_NEVER_SYNCED: Final = (*CANNOT, errno.EACCES, errno.EPERM)
"""Harmless errors: of file systems that never sync folders, and of folders that may be written but not read."""


class Opened(Struct, frozen=True):
    """A file that was read."""

    project: Project
    has_comments: bool
    """True when it holds comments written by hand, which the first save removes."""
    edited: tuple[str, ...] = ()
    """Keys of the parts that were edited by hand since it was saved here last; see `marks`."""


class Held(Struct, frozen=True):
    """Saved: the file holds the project."""

    remarks: tuple[str, ...] = ()
    """Remarks on the saved file, a sentence or two each."""


class NotSaved(Struct, frozen=True):
    """Not saved: the disk or the folder does not allow it, or somebody else changed the file. It stays as it was."""

    sentence: str
    by_hand: bool = False
    """True where somebody else has changed the file since it was opened or last saved."""


class Text(Struct, frozen=True):
    """Text typed into the field of a question."""

    typed: str
    answer: str = ""
    """The answer it was typed over, as typed; empty for none."""


class Unentered(Struct, frozen=True):
    """All of it."""

    at: str = ""
    """Key of the question whose field was typed in last; empty for none of them."""
    texts: dict[str, Text] = {}
    """Key of a question -> what is in its field."""


class Store:
    """One project file. It remembers what it last read or wrote, so it notices when another program has changed it."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self._seen: tuple[str, ...] = ()
        """Marks of what the file holds unless another program changed it; none before it was read or written."""
        self._access: Access | None = None
        """Its mode and owner when it was last seen."""

    def open(self) -> Opened | Problems:
        """Read the file, or return everything that is wrong with it. Never changes it."""
        data = self._data()
        if isinstance(data, Problems):
            return data
        project = read(data)
        if isinstance(project, Problems):
            return project
        self._seen, self._access = (_mark(data),), access_of(self.path)
        return Opened(unmarked(project), has_comments(data), edited(project))

    def save(self, project: Project) -> Held | NotSaved:
        """Write the project, completely or not at all; the file before it is kept once, as `.NAME.last`.

        No other program that saves like this can get between reading the file and replacing it. A file that was never
        read or written here is left alone: if two programs create one with the same name at once, one succeeds.
        """
        try:
            return self._save(real_path(self.path), encode(marked(project)))
        except FileExistsError:
            return NotSaved(self._changed(), by_hand=True)
        except OSError as error:
            return NotSaved(self._not_saved(error))

    def keep_original(self) -> Path | NotSaved:
        """Copy the file as it is now to `NAME.before`, never over another one. Returns the path of the copy."""
        try:
            return self._keep(real_path(self.path).read_bytes())
        except OSError as error:
            return NotSaved(self._not_saved(error))

    def set_aside(self) -> Path | NotSaved | None:
        """Copy what another program left in the file, readable or not, so that the next `save` may replace it.

        Returns the path of the copy; None when there is nothing of another program.
        """
        try:
            there = self._there()
            if there is None or _mark(there) in self._seen:
                return None
            kept = self._keep(there)
        except OSError as error:
            return NotSaved(self._not_saved(error))
        self._seen = (_mark(there),)
        return kept

    def unentered(self) -> Unentered:
        """What was typed and not entered when the project was last open; nothing where that file cannot be read."""
        path = self._typed()
        with suppress(OSError, msgspec.MsgspecError):
            # This program never writes a larger one.
            if path.is_file() and path.stat().st_size <= 65_536:
                return msgspec.json.decode(path.read_bytes(), type=Unentered)
        return Unentered()

    def keep_unentered(self, unentered: Unentered) -> None:
        """Save what is typed and not entered in a hidden file beside the project, as private as the project. With
        nothing to save, remove that file. Raises OSError when that fails.

        It outlasts the program, but not a power cut: it is written while the maker types, who would notice the wait.
        """
        if unentered.texts:
            access = access_of(real_path(self.path)) or self._access
            put(self._typed(), msgspec.json.encode(unentered), access=access, sync=False)
        else:
            self._typed().unlink(missing_ok=True)

    def _typed(self) -> Path:
        real = real_path(self.path)
        return real.with_name(f".{real.name}.typed")

    def _data(self) -> bytes | Problems:
        try:
            about = self.path.stat()
            if not stat.S_ISREG(about.st_mode):
                found = "a folder" if stat.S_ISDIR(about.st_mode) else "a pipe or a device"
                return whole(f"This is {found}: a project is a file whose name ends in .toml")
            return too_large(about.st_size) if about.st_size > LARGEST else self.path.read_bytes()
        except (OSError, ValueError) as error:
            return whole(f"The file cannot be read: {_unread(error)}.")

    def _save(self, real: Path, data: bytes) -> Held | NotSaved:
        _regular(real)
        with locked(real) as handle:
            there = None
            if handle is not None:
                with open(handle, "rb", closefd=False) as stream:
                    there = stream.read()
            if there is not None and not (self._seen and _mark(there) in (*self._seen, _mark(data))):
                return NotSaved(self._changed(), by_hand=True)
            written = Written() if there == data else self._write(real, data, there)
        self._seen = (_mark(data),)
        remarks = tuple(_remarks(self.path, self._access, written))
        self._access = access_of(real)
        return Held(remarks)

    def _write(self, real: Path, data: bytes, there: bytes | None) -> Written:
        before = self._seen
        # Until it is known which of the two the file holds, both are ours.
        self._seen = (*before, _mark(data))
        try:
            if there is None:
                return put(real, data, access=self._access, new=True)
            self._access = access_of(real)
            return put(real, data, last=real.with_name(f".{real.name}.last"))
        except FileExistsError:
            self._seen = before
            raise
        except OSError as error:
            # A disk across a network may fail to answer although it did what it was asked.
            if self._there() != data:
                raise
            return Written(error)

    def _there(self) -> bytes | None:
        """What the file holds now; None when there is none."""
        real = real_path(self.path)
        _regular(real)
        try:
            return real.read_bytes()
        except FileNotFoundError:
            return None

    def _keep(self, data: bytes) -> Path:
        """Keep `data` in a file of its own beside the project, with the project's mode."""
        access = access_of(self.path)
        for name in islice(numbered(f"{self.path.name}.before"), 1000):
            kept = self.path.with_name(name)
            if not kept.exists():
                with suppress(FileExistsError):
                    put(kept, data, access=access, new=True)
                    return kept
            elif kept.read_bytes() == data:
                return kept
        raise OSError(errno.EEXIST, "there are too many files of that name")

    def _changed(self) -> str:
        name = quoted(self.path.name)
        if not self._seen:
            return f"A file {name} already exists and was left alone: give the project another name."
        return (
            f"{name} was changed by another program after you opened it here, and was left alone. "
            "Open it again to go on from there."
        )

    def _not_saved(self, error: OSError) -> str:
        reason = _REASONS.get(error.errno, error.strerror or "the computer did not say why")
        there = "The file is as it was before." if os.path.lexists(self.path) else "No file was made."
        return f"{quoted(self.path.name)} could not be saved: {reason}. {there}"


def open_project(path: Path) -> Project | Problems:
    """The project in the file at `path`, or every problem that keeps it from being read. Never changes the file."""
    opened = Store(path).open()
    return opened if isinstance(opened, Problems) else opened.project


def _regular(real: Path) -> None:
    """OSError for a pipe or a device, which to open would wait or do something; a folder says so itself."""
    try:
        mode = real.stat().st_mode
    except FileNotFoundError:
        return
    if not stat.S_ISREG(mode) and not stat.S_ISDIR(mode):
        raise OSError(errno.EINVAL, "it is a pipe or a device")


def _remarks(path: Path, before: Access | None, written: Written) -> Iterator[str]:
    """What to say of a file that was saved, though not all was done that should be."""
    name = quoted(path.name)
    if written.unsynced is not None and written.unsynced.errno not in _NEVER_SYNCED:
        reason = written.unsynced.strerror or "the computer did not say why"
        lost = "If the power fails now, the last answer may be lost."
        yield f"{name} is saved, but the disk did not confirm it: {reason}. {lost}"
    if before is not None and not written.owner_kept:
        way_out = f"An administrator can: chown {before.uid}:{before.gid} {shlex.quote(path.name)}"
        who = f"you may not set user {before.uid} and group {before.gid}"
        yield f"{name} has a new owner or group: {who}. {way_out}"


def _unread(error: OSError | ValueError) -> str:
    if isinstance(error, FileNotFoundError | NotADirectoryError):
        return "there is no file with that name"
    if isinstance(error, PermissionError):
        return "it belongs to somebody else, or you may not read it"
    known = isinstance(error, OSError) and _REASONS.get(error.errno, error.strerror)
    return known or "no file can have that name"


def _mark(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()
